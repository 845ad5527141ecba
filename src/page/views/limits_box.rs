//! The builder's own limits for what is measured.

use super::number_field::{NumberField, number_field};
use crate::browser::part::{Part, part};
use crate::session::checks::own_figure;
use crate::session::{Limits, Session};
use leptos::prelude::*;

/// Two fields.
pub fn limits_box() -> Part {
    let fields = [
        limit_field("limit-length", "Lengths within ±", false, |limits| &mut limits.length_mm),
        limit_field("limit-angle", "Angles within ±", true, |limits| &mut limits.angle_deg),
    ];
    part("section")
        .class("box")
        .set("aria-labelledby", "limits")
        .add(part("h2").set("id", "limits").text("Your limits"))
        .add(
            part("p").text(
                "No standard sets how far a stay may be off. These are yours, to judge what you measured.",
            ),
        )
        .add(part("div").class("figure-grid").each(fields))
}

fn limit_field(id: &str, label: &'static str, is_angle: bool, of: fn(&mut Limits) -> &mut f64) -> Part {
    let limits = Session::here().settings.limits;
    let field = NumberField {
        spec: Box::new(move || Some(own_figure("limit", is_angle))),
        label: Box::new(move || label.to_owned()),
        value: Box::new(move || Some(*of(&mut limits.get()))),
        take: Box::new(move |limit| limits.update(|limits| *of(limits) = limit)),
    };
    number_field(id, field)
}
