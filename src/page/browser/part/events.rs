//! What a part does when something happens to it.

use super::follow::field;
use super::{Kept, Part};
use leptos::ev::{KeyboardEvent, PointerEvent};
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::Event;

impl Part {
    /// Does `act` at every event of that name.
    pub fn on(self, name: &'static str, act: impl FnMut(Event) + 'static) -> Self {
        self.on_boxed(name, Box::new(act))
    }

    fn on_boxed(self, name: &'static str, act: Box<dyn FnMut(Event)>) -> Self {
        let act = Closure::wrap(act);
        let node = self.0.node.clone();
        let _ = node.add_event_listener_with_callback(name, act.as_ref().unchecked_ref());
        self.keep(Kept::Listener { node, name, act })
    }

    /// Does `act` at every click.
    pub fn on_click(self, mut act: impl FnMut() + 'static) -> Self {
        self.on_boxed("click", Box::new(move |_| act()))
    }

    /// Hands the field's text to `act` with every change of it.
    pub fn on_input(self, mut act: impl FnMut(String) + 'static) -> Self {
        self.on_boxed("input", Box::new(move |event| act(field(event.target()).value())))
    }

    /// Hands the field's text, or the menu's choice, to `act` when it is done with.
    pub fn on_change(self, mut act: impl FnMut(String) + 'static) -> Self {
        self.on_boxed("change", Box::new(move |event| act(field(event.target()).value())))
    }

    /// Tells `act` whether the box is ticked now.
    pub fn on_tick(self, mut act: impl FnMut(bool) + 'static) -> Self {
        self.on_boxed("change", Box::new(move |event| act(field(event.target()).checked())))
    }

    /// Does `act` at every key.
    pub fn on_key(self, mut act: impl FnMut(KeyboardEvent) + 'static) -> Self {
        self.on_boxed("keydown", Box::new(move |event| act(event.unchecked_into())))
    }

    /// Does `act` at every event of that name that a pointer sends.
    pub fn on_pointer(self, name: &'static str, mut act: impl FnMut(PointerEvent) + 'static) -> Self {
        self.on_boxed(name, Box::new(move |event| act(event.unchecked_into())))
    }
}
