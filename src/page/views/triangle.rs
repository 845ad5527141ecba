//! A right-angled triangle, its sides named.

use crate::session::explain::Triangle;
use leptos::prelude::*;

/// Drawn in this box, in px.
const WIDE: f64 = 320.0;
const HIGH: f64 = 150.0;
const EDGE: f64 = 34.0;

/// The triangle to scale, unless it is so flat that its names would not fit; then its height is stretched.
#[component]
pub fn TriangleDrawing(triangle: Triangle) -> impl IntoView {
    let Triangle { along, across, along_name, across_name, slant_name, angle_name } = triangle;
    let flat = across < along * 0.22;
    let steep = along < across * 0.22;
    let (width, height) = shape(along, across, flat, steep);
    let (left, base) = (EDGE, HIGH - EDGE);
    let (right, top) = (left + width, base - height);
    let outline = format!("M{left:.1} {base:.1}H{right:.1}V{top:.1}Z");
    let corner = format!("M{:.1} {base:.1}v-10h10", right - 10.0);
    let text = format!(
        "Right-angled triangle: {slant_name} is the slanted side, {along_name} the side at the {angle_name}, {across_name} \
         the side across from it."
    );
    view! {
        <svg class="triangle" viewBox=format!("0 0 {} {HIGH}", WIDE + 150.0) role="img" aria-label=text>
            <path class="outline" d=outline />
            <path class="thin" d=corner />
            <text x=(left + width / 2.0).to_string() y=(base + 24.0).to_string() text-anchor="middle">{along_name}</text>
            <text x=(right + 8.0).to_string() y=(base - height / 2.0 + 6.0).to_string()>{across_name}</text>
            <text x=(left + width / 2.0 - 8.0).to_string() y=(base - height / 2.0 - 12.0).to_string() text-anchor="end">{slant_name}</text>
            {(flat || steep).then(|| view! { <text x="8" y="20">"not to scale"</text> })}
        </svg>
    }
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
