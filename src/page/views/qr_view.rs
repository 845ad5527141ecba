//! A link as a QR code.

use crate::browser::part::{Part, svg};
use crate::session::qr::{QUIET, code};

/// The code, or nothing where the link is too long for one.
pub fn qr_view(link: &str) -> Option<Part> {
    let code = code(link)?;
    let side = (code.size + 2 * QUIET).to_string();
    let corner = (-QUIET).to_string();
    let light = svg("rect").class("qr-light").set("x", &corner).set("y", &corner);
    let view = svg("svg")
        .class("qr")
        .set("viewBox", &format!("{corner} {corner} {side} {side}"))
        .set("role", "img")
        .set("aria-label", "The job's link as a QR code")
        .add(light.set("width", &side).set("height", &side))
        .add(svg("path").class("qr-dark").set("d", &code.path));
    Some(view)
}
