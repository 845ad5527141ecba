//! How the shop's form is laid out. Sections that are closed come without what is in them.

use super::{joining, lists, machine, saws};
use crate::ask::form::figure;
use crate::ask::form::{FormField, FormSection};
use crate::model::shop::Shop;
use crate::units::LengthUnit;

/// What a form is laid out from.
#[derive(Clone, Copy)]
pub(super) struct Layout<'a> {
    pub(super) shop: &'a Shop,
    pub(super) unit: LengthUnit,
    open: &'a [String],
}

/// Every section of the form.
pub(super) fn sections(shop: &Shop, open: &[String], unit: LengthUnit) -> Vec<FormSection> {
    let layout = Layout { shop, unit, open };
    vec![layout.section("shop", "This shop", |top| {
        top.words = "Your cutters, fixture and mill, kept on this device. Nothing here is a fact until you have measured it: the \
                     lists to start from are usual sizes, most of them from memory."
            .to_owned();
        top.fields = joining::used(layout);
        top.sections = vec![
            start(layout),
            joining::ways(layout),
            joining::own_speeds(layout),
            saws::hole_saws(layout),
            lists::slitting_saws(layout),
            lists::end_mills(layout),
            machine::fixture(layout),
            machine::scales(layout),
            machine::mill(layout),
            machine::speeds(layout),
        ];
    })]
}

/// Whole shops to start from.
fn start(layout: Layout<'_>) -> FormSection {
    layout.section("start", "Start from a list", |made| {
        made.words = "The plain lists hold the usual sizes and a mill without limits. The example shop is invented, with a measured \
                      fixture, seven saws on a long arbor and a mill with stepped speeds."
            .to_owned();
        made.acts = acts(&[("all lists", "Take the plain lists"), ("all example", "Take the example shop")]);
    })
}

impl Layout<'_> {
    /// A section, filled where it stands open.
    pub(super) fn section(
        self,
        key: &str,
        title: impl Into<String>,
        fill: impl FnOnce(&mut FormSection),
    ) -> FormSection {
        let mut made = FormSection { key: key.to_owned(), title: title.into(), ..FormSection::default() };
        if self.open.iter().any(|open| open == key) {
            fill(&mut made);
        }
        made
    }

    /// The fields of all figures whose paths begin with `start`.
    pub(super) fn figures(self, start: &str) -> Vec<FormField> {
        let mut fields = Vec::new();
        self.shop.each(&mut |path, spec, value| {
            if path.starts_with(start) {
                fields.push(figure(path, spec, Some(value), self.unit));
            }
        });
        fields
    }
}

/// Buttons: keys, and the words on them.
pub(super) fn acts(acts: &[(&str, &str)]) -> Vec<(String, String)> {
    acts.iter().map(|(key, words)| ((*key).to_owned(), (*words).to_owned())).collect()
}

/// A field in which one of a few is chosen.
pub(super) fn choice<'a>(
    path: impl Into<String>,
    name: &str,
    chosen: &str,
    options: impl IntoIterator<Item = (&'a str, &'a str)>,
) -> FormField {
    FormField {
        path: path.into(),
        name: name.to_owned(),
        value: chosen.to_owned(),
        options: options.into_iter().map(|(key, words)| (key.to_owned(), words.to_owned())).collect(),
        ..FormField::default()
    }
}

/// A field for words.
pub(super) fn words(path: impl Into<String>, name: &str, text: &str) -> FormField {
    FormField { path: path.into(), name: name.to_owned(), value: text.to_owned(), ..FormField::default() }
}
