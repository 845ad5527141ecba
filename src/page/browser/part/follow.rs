//! Attributes, classes, properties and words that follow signals.

use super::{Part, follower};
use leptos::prelude::document;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::HtmlInputElement;

/// Something that follows signals.
pub type Live<T> = Box<dyn Fn() -> T>;

impl Part {
    /// An attribute that follows signals; `None` takes it away.
    pub fn follow(self, name: &'static str, value: impl Fn() -> Option<String> + 'static) -> Self {
        self.follow_boxed(name, Box::new(value))
    }

    fn follow_boxed(self, name: &'static str, value: Live<Option<String>>) -> Self {
        let element = self.element();
        let mut last = None;
        self.keep(follower(Box::new(move || {
            let now = value();
            if now != last {
                let _ = match &now {
                    Some(value) => element.set_attribute(name, value),
                    None => element.remove_attribute(name),
                };
                last = now;
            }
        })))
    }

    /// An attribute without a value that is there while `on` holds.
    pub fn follow_if(self, name: &'static str, on: impl Fn() -> bool + 'static) -> Self {
        self.follow_boxed(name, Box::new(move || on().then(String::new)))
    }

    /// A class that is there while `on` holds.
    pub fn toggle(self, class: &'static str, on: impl Fn() -> bool + 'static) -> Self {
        self.toggle_boxed(class, Box::new(on))
    }

    fn toggle_boxed(self, class: &'static str, on: Live<bool>) -> Self {
        let list = self.element().class_list();
        let mut last = false;
        self.keep(follower(Box::new(move || {
            let now = on();
            if now != last {
                let _ = if now { list.add_1(class) } else { list.remove_1(class) };
                last = now;
            }
        })))
    }

    /// What stands in a text field or is chosen in a menu. A field that says the same already is left alone: its cursor
    /// stays where it is.
    pub fn value(self, value: impl Fn() -> String + 'static) -> Self {
        self.value_boxed(Box::new(value))
    }

    fn value_boxed(self, value: Live<String>) -> Self {
        // Menus and text areas have the same property.
        let field: HtmlInputElement = self.element().unchecked_into();
        self.keep(follower(Box::new(move || {
            let now = value();
            if field.value() != now {
                field.set_value(&now);
            }
        })))
    }

    /// Whether a box is ticked.
    pub fn checked(self, on: impl Fn() -> bool + 'static) -> Self {
        self.checked_boxed(Box::new(on))
    }

    fn checked_boxed(self, on: Live<bool>) -> Self {
        let field: HtmlInputElement = self.element().unchecked_into();
        self.keep(follower(Box::new(move || field.set_checked(on()))))
    }

    /// Words that follow signals, after what stands in the element.
    pub fn words(self, words: impl Fn() -> String + 'static) -> Self {
        self.words_boxed(Box::new(words))
    }

    fn words_boxed(self, words: Live<String>) -> Self {
        let node = document().create_text_node("");
        let _ = self.0.node.append_child(&node);
        let mut last = String::new();
        self.keep(follower(Box::new(move || {
            let now = words();
            if now != last {
                node.set_data(&now);
                last = now;
            }
        })))
    }

    /// Words that may be missing.
    pub fn words_if<W: Into<String>>(self, words: impl Fn() -> Option<W> + 'static) -> Self {
        self.words_boxed(Box::new(move || words().map_or_else(String::new, Into::into)))
    }
}

/// An element that was sent an event, as a form field.
pub(super) fn field(target: Option<web_sys::EventTarget>) -> HtmlInputElement {
    JsValue::from(target).unchecked_into()
}
