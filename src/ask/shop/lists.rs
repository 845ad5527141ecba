//! Slitting saws and end mills.

use super::section::{Layout, acts};
use crate::ask::form::FormSection;
use crate::units::show;

pub(super) fn slitting_saws(layout: Layout<'_>) -> FormSection {
    let saws = &layout.shop.slitting_saws;
    layout.section("slitting_saws", format!("Slitting saws ({})", saws.len()), |made| {
        made.words =
            "The width of the cut, measured in scrap: a saw that runs out of true cuts wider than it is."
                .to_owned();
        made.acts =
            acts(&[("add slitting_saws", "Add a saw"), ("list slitting_saws", "Take the usual widths")]);
        let titles = saws.iter().map(|saw| show::length(saw.width, layout.unit));
        made.sections = entries(layout, "slitting_saws", titles);
    })
}

pub(super) fn end_mills(layout: Layout<'_>) -> FormSection {
    let mills = &layout.shop.end_mills;
    layout.section("end_mills", format!("End mills ({})", mills.len()), |made| {
        made.acts = acts(&[("add end_mills", "Add an end mill")]);
        let titles = mills.iter().map(|mill| show::diameter(mill.diameter, layout.unit));
        made.sections = entries(layout, "end_mills", titles);
    })
}

/// The entries of a list, each with its figures.
fn entries(layout: Layout<'_>, list: &str, titles: impl Iterator<Item = String>) -> Vec<FormSection> {
    let entry = |(i, title): (usize, String)| {
        let at = format!("{list}[{i}]");
        layout.section(&at, title, |made| {
            made.fields = layout.figures(&format!("{at}."));
            made.acts = acts(&[(&format!("remove {at}"), "Remove")]);
        })
    };
    titles.enumerate().map(entry).collect()
}
