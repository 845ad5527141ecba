//! The profile of a cut as a table, for a paper template or a check with a rotary table.

use super::choice::choice;
use crate::browser::details;
use crate::browser::part::{Part, part};
use crate::session::Session;
use crate::session::cut_facts::{ProfileRow, profile};
use leptos::prelude::*;
use staywright::units::LengthUnit;
use staywright::units::show;

/// The table, worked out only while it is open; nothing where the cut has no profile.
pub fn profile_table() -> Part {
    let Session { settings, follow, .. } = Session::here();
    let has_profile = move || follow.plan.with(|plan| settings.pick.get().cut(plan).round().is_some());
    part("div").when(has_profile, folded)
}

fn folded() -> Part {
    let Session { settings, follow, .. } = Session::here();
    let open = RwSignal::new(false);
    let step = RwSignal::new(15_u32);
    let rows = move || {
        let (pick, unit) = (settings.pick.get(), settings.unit.get());
        let round = |step| follow.plan.with(|plan| pick.cut(plan).round().map(|cut| profile(cut, step)));
        let rows = if open.get() { round(step.get()).unwrap_or_default() } else { Vec::new() };
        rows.into_iter().map(|one| row(&one, unit)).collect()
    };
    let steps = choice(
        "Step",
        "profile-step",
        true,
        &[("5", "5°"), ("10", "10°"), ("15", "15°"), ("30", "30°")],
        move || step.get().to_string(),
        move |key| step.set(key.parse().unwrap_or(15)),
    );
    let head = ["Round", "Outer edge", "Bore"].map(|title| part("th").set("scope", "col").text(title));
    let table = part("table").add(part("thead").add(part("tr").each(head))).add(part("tbody").live(rows));
    part("details")
        .class("more")
        .on("toggle", move |event| open.set(details::is_open(&event)))
        .add(part("summary").text("Profile table"))
        .add(part("p").text(
            "Round the stay from its upper side in the fixture, seen from the front looking rearwards; lengths along the \
             stay from the front reference point.",
        ))
        .add(steps)
        .add(table)
}

fn row(row: &ProfileRow, unit: LengthUnit) -> Part {
    part("tr")
        .add(part("th").set("scope", "row").text(&format!("{}°", row.phi)))
        .add(part("td").text(&show::length_or_dash(row.outer, unit)))
        .add(part("td").text(&show::length_or_dash(row.bore, unit)))
}
