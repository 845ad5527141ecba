//! Many small elements of a drawing that change all at once.

use super::{Part, SVG, follower};
use crate::session::follow::Shared;
use leptos::prelude::document;
use staywright::drawing::svg::{Drawn, Scale, drawn};
use staywright::drawing::{Mark, Sheet};
use web_sys::{Element, Node};

/// A sheet as it is to be seen.
#[derive(Clone)]
pub struct Picture {
    /// The sheet.
    pub sheet: Shared<Sheet>,
    /// The scale it is drawn at.
    pub scale: Scale,
    /// The topic whose marks are lit.
    pub lit: Option<String>,
}

/// One mark as it stands in the page.
struct Standing {
    element: Element,
    mark: Mark,
    drawn: Drawn,
}

/// All marks in the order of their sheet, and what they all go by.
#[derive(Default)]
struct Stand {
    marks: Vec<Standing>,
    at: Option<(Scale, Option<String>)>,
}

impl Part {
    /// The marks of a sheet that follows signals. Each is changed where it differs from the one that stood in its place.
    pub fn drawn(self, picture: impl Fn() -> Option<Picture> + 'static) -> Self {
        let parent = self.0.node.clone();
        let mut stand = Stand::default();
        self.keep(follower(Box::new(move || {
            if let Some(picture) = picture() {
                stand.redraw(&parent, &picture);
            }
        })))
    }
}

impl Stand {
    fn redraw(&mut self, parent: &Node, picture: &Picture) {
        let Picture { sheet, scale, lit } = picture;
        for Standing { element, .. } in self.marks.drain(sheet.marks.len().min(self.marks.len())..) {
            element.remove();
        }
        let at = Some((*scale, lit.clone()));
        let is_same = self.at == at;
        self.at = at;
        for (index, mark) in sheet.marks.iter().enumerate() {
            let last = self.marks.get_mut(index);
            if is_same && last.as_ref().is_some_and(|last| last.mark == *mark) {
                continue;
            }
            let drawn = drawn(mark, *scale, lit.as_deref());
            match last {
                Some(last) => last.become_mark(parent, mark, drawn),
                None => self.marks.extend(Standing::new(parent, mark, drawn)),
            }
        }
    }
}

impl Standing {
    /// A mark behind all others.
    fn new(parent: &Node, mark: &Mark, drawn: Drawn) -> Option<Self> {
        let element = make(&drawn)?;
        let _ = parent.append_child(&element);
        Some(Self { element, mark: mark.clone(), drawn })
    }

    fn become_mark(&mut self, parent: &Node, mark: &Mark, drawn: Drawn) {
        if self.drawn.tag == drawn.tag {
            change(&self.element, Some(&self.drawn), &drawn);
        } else if let Some(element) = make(&drawn) {
            let _ = parent.replace_child(&element, &self.element);
            self.element = element;
        }
        (self.mark, self.drawn) = (mark.clone(), drawn);
    }
}

fn make(drawn: &Drawn) -> Option<Element> {
    let element = document().create_element_ns(Some(SVG), drawn.tag).ok()?;
    change(&element, None, drawn);
    Some(element)
}

fn change(element: &Element, last: Option<&Drawn>, now: &Drawn) {
    for (index, (name, value)) in now.attributes.iter().enumerate() {
        if last.and_then(|last| last.attributes.get(index)).is_none_or(|(_, old)| old != value) {
            let _ = element.set_attribute(name, value);
        }
    }
    if last.map_or("", |last| &last.words) != now.words {
        element.set_text_content(Some(&now.words));
    }
}
