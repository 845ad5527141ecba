//! Many small elements of a drawing that change all at once.

use super::{Part, SVG, follower};
use leptos::prelude::document;
use staywright::export::Drawn;
use web_sys::{Element, Node};

impl Part {
    /// Elements that follow signals. Each is changed where it differs from the one that stood in its place.
    pub fn drawn(self, draw: impl Fn() -> Vec<Drawn> + 'static) -> Self {
        let parent = self.0.node.clone();
        let mut stand: Vec<(Element, Drawn)> = Vec::new();
        self.keep(follower(Box::new(move || redraw(&parent, &mut stand, draw()))))
    }
}

fn redraw(parent: &Node, stand: &mut Vec<(Element, Drawn)>, draw: Vec<Drawn>) {
    for (element, _) in stand.drain(draw.len().min(stand.len())..) {
        element.remove();
    }
    for (index, now) in draw.into_iter().enumerate() {
        match stand.get_mut(index) {
            Some((element, last)) if last.tag == now.tag => {
                change(element, Some(last), &now);
                *last = now;
            }
            Some((element, last)) => {
                let Some(new) = make(&now) else { continue };
                let _ = parent.replace_child(&new, element);
                (*element, *last) = (new, now);
            }
            None => {
                let Some(new) = make(&now) else { continue };
                let _ = parent.append_child(&new);
                stand.push((new, now));
            }
        }
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
