//! What the stays are made of, how they are joined, and how fast they are cut.

use super::section::{Layout, acts, choice, words};
use crate::ask::form::figure;
use crate::ask::form::{FormField, FormSection};
use crate::machining::{Tool, published_speed};
use crate::model::capital;
use crate::model::shop::{Metal, OWN_SPEED, Process, Sure};
use crate::units::{CuttingSpeed, LengthUnit, fixed};

/// Name, metal and the way of joining that is used.
pub(super) fn used(layout: Layout<'_>) -> Vec<FormField> {
    let shop = layout.shop;
    let metals = Metal::ALL.map(|metal| (metal.key(), metal.name()));
    let ways = shop.processes.iter().map(|process| (process.name.as_str(), process.name.as_str()));
    vec![
        words("name", "Shop name", &shop.name),
        choice("metal", "Stays are made of", shop.metal.key(), metals),
        choice("joined_by", "Joined by", shop.process().map_or("", |process| &process.name), ways),
    ]
}

/// The ways of joining and the gaps they allow.
pub(super) fn ways(layout: Layout<'_>) -> FormSection {
    layout.section("processes", "Ways of joining, and their gaps", |made| {
        made.words = "The gap between the finished end and the tube it sits on.".to_owned();
        made.acts =
            acts(&[("add processes", "Add a way of joining"), ("list processes", "Take the starting list")]);
        let ways = layout.shop.processes.iter().enumerate();
        made.sections = ways.map(|(i, process)| way(layout, i, process)).collect();
    })
}

fn way(layout: Layout<'_>, index: usize, process: &Process) -> FormSection {
    let at = format!("processes[{index}]");
    layout.section(&at, capital(&process.name), |made| {
        let sures = Sure::ALL.map(|sure| (sure.key(), sure.words()));
        made.fields = vec![words(format!("{at}.name"), "Name", &process.name)];
        made.fields.extend(layout.figures(&format!("{at}.")));
        made.fields.push(choice(format!("{at}.sure"), "How sure", process.origin.sure.key(), sures));
        made.fields.push(words(format!("{at}.source"), "Source", &process.origin.source));
        made.acts = acts(&[(&format!("remove {at}"), "Remove")]);
    })
}

/// Cutting speeds of the builder's own.
pub(super) fn own_speeds(layout: Layout<'_>) -> FormSection {
    layout.section(OWN_SPEED.key, "Your own cutting speeds", |made| {
        let own = Metal::ALL.map(|metal| layout.shop.own_speed(metal).map(CuttingSpeed::m_per_min));
        let field = |(metal, own): (Metal, Option<f64>)| FormField {
            name: capital(metal.name()),
            ..figure(&format!("{}.{}", OWN_SPEED.key, metal.key()), &OWN_SPEED, own, layout.unit)
        };
        made.fields = Metal::ALL.into_iter().zip(own).map(field).collect();
        made.words =
            format!("Left empty, the published figures count; for hole saws {}.", published(layout.unit));
    })
}

/// The published speeds of hole saws, in words.
fn published(unit: LengthUnit) -> String {
    let one = |metal: Metal| {
        let speed = published_speed(metal, Tool::HoleSaw).start;
        let figure = match unit {
            LengthUnit::Millimetre => format!("{} m/min", fixed(speed.m_per_min(), 1)),
            LengthUnit::Inch => format!("{} ft/min", fixed(speed.feet_per_min(), 0)),
        };
        format!("{} {figure}", metal.name())
    };
    Metal::ALL.map(one).join(", ")
}
