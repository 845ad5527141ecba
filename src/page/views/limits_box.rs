//! The builder's own limits for what is measured.

use super::number_field::number_field;
use crate::browser::part::{Part, part};
use crate::session::{Limits, Session};
use leptos::prelude::*;
use staywright::units::{LengthUnit, read_angle, read_length, trimmed};

/// Two fields.
pub fn limits_box() -> Part {
    let length = |text: &str| read_length(text, LengthUnit::Millimetre).ok().map(|figure| figure.value.mm());
    let angle = |text: &str| read_angle(text).ok().map(|figure| figure.value.degrees());
    let fields = [
        limit_field("limit-length", "Lengths within ± mm", |limits| &mut limits.length_mm, length),
        limit_field("limit-angle", "Angles within ± °", |limits| &mut limits.angle_deg, angle),
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

fn limit_field(
    id: &str,
    label: &'static str,
    of: fn(&mut Limits) -> &mut f64,
    read: impl Fn(&str) -> Option<f64> + 'static,
) -> Part {
    let limits = Session::here().settings.limits;
    let take = move |text: &str| {
        let Some(limit) = read(text).filter(|limit| (0.0..=100.0).contains(limit)) else { return false };
        limits.update(|limits| *of(limits) = limit);
        true
    };
    let value = move || trimmed(*of(&mut limits.get()), 3);
    number_field(id, move || label.to_owned(), value, take, "A figure from 0 to 100 is needed here.")
}
