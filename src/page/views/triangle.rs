//! A right-angled triangle, its sides named.

use crate::browser::part::{Part, svg};
use staywright::ask::Triangle;
use staywright::drawing::svg::px;

/// Drawn in this box, in px.
const WIDE: f64 = 320.0;
const HIGH: f64 = 150.0;
const EDGE: f64 = 34.0;

/// The triangle to scale, unless it is so flat that its names would not fit; then its height is stretched.
pub fn triangle_drawing(triangle: &Triangle) -> Part {
    let Triangle { along, across, along_name, across_name, slant_name, angle_name } = triangle;
    let flat = *across < along * 0.22;
    let steep = *along < across * 0.22;
    let (width, height) = shape(*along, *across, flat, steep);
    let (left, base) = (EDGE, HIGH - EDGE);
    let (right, top) = (left + width, base - height);
    let outline = format!("M{} {}H{}V{}Z", px(left), px(base), px(right), px(top));
    let corner = format!("M{} {}v-10h10", px(right - 10.0), px(base));
    let text = format!(
        "Right-angled triangle: {slant_name} is the slanted side, {along_name} the side at the {angle_name}, {across_name} \
         the side across from it."
    );
    let view = svg("svg")
        .class("triangle")
        .set("viewBox", &format!("0 0 {} {}", px(WIDE + 150.0), px(HIGH)))
        .set("role", "img")
        .set("aria-label", &text)
        .add(svg("path").class("outline").set("d", &outline))
        .add(svg("path").class("thin").set("d", &corner))
        .add(label(along_name, left + width / 2.0, base + 24.0, "middle"))
        .add(label(across_name, right + 8.0, base - height / 2.0 + 6.0, "start"))
        .add(label(slant_name, left + width / 2.0 - 8.0, base - height / 2.0 - 12.0, "end"));
    if flat || steep { view.add(label("not to scale", 8.0, 20.0, "start")) } else { view }
}

fn label(words: &str, x: f64, y: f64, anchor: &str) -> Part {
    svg("text").set("x", &px(x)).set("y", &px(y)).set("text-anchor", anchor).text(words)
}

fn shape(along: f64, across: f64, flat: bool, steep: bool) -> (f64, f64) {
    let (room_wide, room_high) = (WIDE - 2.0 * EDGE, HIGH - 2.0 * EDGE);
    if flat {
        return (room_wide, room_wide * 0.22);
    }
    if steep {
        return (room_high * 0.5, room_high);
    }
    let scale = (room_wide / along).min(room_high / across);
    (along * scale, across * scale)
}
