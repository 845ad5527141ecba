//! The hole saws on hand.

use super::section::{Layout, acts, choice};
use crate::ask::form::figure;
use crate::ask::form::{FormField, FormSection};
use crate::model::shop::{CUTTING, HoleSaw, ToothMaterial};
use crate::units::{Length, show};

pub(super) fn hole_saws(layout: Layout<'_>) -> FormSection {
    let saws = &layout.shop.hole_saws;
    layout.section("hole_saws", format!("Hole saws ({})", saws.len()), |made| {
        made.words =
            "What a saw cuts is not what it is sold by: cut a scrap, measure the hole, write it down."
                .to_owned();
        made.acts = acts(&[
            ("add hole_saws", "Add a saw"),
            ("list hole_saws metric", "Take the millimetre sizes"),
            ("list hole_saws inch", "Take the inch sizes"),
        ]);
        made.sections = saws.iter().enumerate().map(|(i, saw)| one(layout, i, saw)).collect();
    })
}

fn one(layout: Layout<'_>, index: usize, saw: &HoleSaw) -> FormSection {
    let nominal = show::diameter(saw.size.nominal, layout.unit);
    let title = match saw.cutting {
        Some(cutting) => format!("{nominal}, measured {}", show::diameter(cutting, layout.unit)),
        None => format!("{nominal}, not measured"),
    };
    let at = format!("hole_saws[{index}]");
    layout.section(&at, title, |made| {
        made.fields = fields(layout, &at, saw);
        made.acts = acts(&[
            (&format!("arbor {at}"), "Put this arbor on all hole saws"),
            (&format!("remove {at}"), "Remove this saw"),
        ]);
    })
}

/// The saw's own figures, the measured diameter next to the nominal one; then what holds it.
fn fields(layout: Layout<'_>, at: &str, saw: &HoleSaw) -> Vec<FormField> {
    let cutting = format!("{at}.{}", CUTTING.key);
    let mut fields = layout.figures(&format!("{at}."));
    fields.retain(|field| field.path != cutting);
    fields.insert(1.min(fields.len()), figure(&cutting, &CUTTING, saw.cutting.map(Length::mm), layout.unit));
    let teeth = [
        (ToothMaterial::HighSpeedSteel, "high-speed steel or bi-metal"),
        (ToothMaterial::Carbide, "carbide"),
    ];
    let teeth = choice(
        format!("{at}.tooth"),
        "Teeth are of",
        saw.tooth.key(),
        teeth.map(|(tooth, words)| (tooth.key(), words)),
    );
    fields.insert(5.min(fields.len()), teeth);
    fields
}
