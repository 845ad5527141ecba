//! Elements of the page, put together at run time.
//!
//! A [`Part`] is one element with all that keeps it up to date. Whatever is given to it is boxed at once, so the compiler
//! makes this module once rather than one element type for every shape that the views have; that halves what a phone
//! must download. What follows signals does so by the reactive system's own render effects.

mod children;
mod drawn;
mod events;
mod follow;

pub use drawn::Picture;
pub use follow::Live;

use leptos::prelude::document;
use leptos::reactive::effect::RenderEffect;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, Event, Node};

const SVG: &str = "http://www.w3.org/2000/svg";

/// One element of the page. It stays alive, listening and following, as long as this value does.
pub struct Part(Box<Inner>);

/// Boxed, so that a part is passed on as one pointer wherever something is added to it.
struct Inner {
    node: Node,
    kept: Vec<Kept>,
}

/// What ends when its part goes.
enum Kept {
    /// Follows signals.
    Follower(#[expect(dead_code, reason = "kept alive")] RenderEffect<()>),
    /// Listens to an event.
    Listener { node: Node, name: &'static str, act: Closure<dyn FnMut(Event)> },
}

impl Drop for Kept {
    /// An element that leaves the page may send a last event; nobody listens to it any more.
    fn drop(&mut self) {
        if let Self::Listener { node, name, act } = self {
            let _ = node.remove_event_listener_with_callback(name, act.as_ref().unchecked_ref());
        }
    }
}

/// An element of the page.
pub fn part(tag: &str) -> Part {
    Part::of(document().create_element(tag))
}

/// An element of a drawing.
pub fn svg(tag: &str) -> Part {
    Part::of(document().create_element_ns(Some(SVG), tag))
}

/// A text by itself.
pub fn text(words: &str) -> Part {
    Part::new(document().create_text_node(words).into())
}

impl Part {
    fn new(node: Node) -> Self {
        Self(Box::new(Inner { node, kept: Vec::new() }))
    }

    /// Every tag of the views is a literal that a browser can make; anything else is left out as an empty text.
    fn of(made: Result<Element, JsValue>) -> Self {
        made.map_or_else(|_| text(""), |element| Self::new(element.into()))
    }

    /// The element, for what measures it.
    pub fn element(&self) -> Element {
        self.0.node.clone().unchecked_into()
    }

    fn keep(mut self, kept: Kept) -> Self {
        self.0.kept.push(kept);
        self
    }

    /// Gives the element an attribute.
    pub fn set(self, name: &str, value: &str) -> Self {
        let _ = self.element().set_attribute(name, value);
        self
    }

    /// Gives the element its classes.
    pub fn class(self, names: &str) -> Self {
        self.set("class", names)
    }

    /// Puts a text after what stands in the element.
    pub fn text(self, words: &str) -> Self {
        self.add(text(words))
    }

    /// Puts a part after what stands in the element.
    pub fn add(mut self, mut child: Self) -> Self {
        let _ = self.0.node.append_child(&child.0.node);
        self.0.kept.append(&mut child.0.kept);
        self
    }

    /// Puts several parts after what stands in the element.
    pub fn each(self, children: impl IntoIterator<Item = Self>) -> Self {
        children.into_iter().fold(self, Self::add)
    }

    /// Takes the part out of the page. Its listeners and followers end first.
    pub fn remove(mut self) {
        self.0.kept.clear();
        if let Some(parent) = self.0.node.parent_node() {
            let _ = parent.remove_child(&self.0.node);
        }
    }

    /// Puts the part into `place`, behind what stands there. It follows and listens as long as this value lives.
    pub fn put_into(&self, place: &Element) {
        let _ = place.append_child(&self.0.node);
    }
}

/// Runs `act` now and whenever a signal that it reads has changed.
fn follower(mut act: Box<dyn FnMut()>) -> Kept {
    Kept::Follower(RenderEffect::new(move |_| act()))
}
