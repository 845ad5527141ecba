//! A button that steps a figure, once a click, again and again while it is held.

use crate::browser::hold::Hold;
use crate::browser::part::{Part, part};

/// The button: `less` or `more` of what is stepped, the sign on it, and one step.
pub fn step_button(name: &str, of: &str, sign: &str, act: impl Fn() + Copy + 'static) -> Part {
    let hold = Hold::new();
    let click = move || {
        if !hold.spent() {
            act();
        }
    };
    let button = part("button")
        .class("step")
        .set("type", "button")
        .set("aria-label", &format!("{name} {of}"))
        .text(sign)
        .on("pointerdown", move |_| hold.press(act))
        .on("contextmenu", |event| event.prevent_default())
        .on_click(click);
    ["pointerup", "pointerleave", "pointercancel"]
        .into_iter()
        .fold(button, |button, end| button.on(end, move |_| hold.stop()))
}
