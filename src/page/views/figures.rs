//! Figures of the job as rows; tapping one opens its field.

use crate::browser::part::{Part, part};
use crate::browser::steady::steady;
use crate::session::Session;
use crate::session::figure_entry::FigureEntry;
use leptos::prelude::*;
use staywright::model::capital;
use staywright::text::entry::unit_sign;

/// The rows of `paths` under a heading, in that order.
pub fn figures(title: &str, paths: impl Fn() -> Vec<String> + 'static) -> Part {
    part("fieldset").class("figures").add(part("legend").text(title)).add(fields(paths))
}

/// The rows alone.
pub fn fields(paths: impl Fn() -> Vec<String> + 'static) -> Part {
    part("div")
        .class("figure-rows")
        .by(move || paths().join("\n"), |paths| paths.lines().filter_map(figure_row).collect())
}

/// One figure; `None` where the job has none at `path`.
fn figure_row(path: &str) -> Option<Part> {
    let session = Session::here();
    let entry = FigureEntry::new(path)?;
    let name = capital(entry.spec.name);
    let shown = steady(move || entry.shown());
    let path = StoredValue::new(path.to_owned());
    let is_lit = move || path.with_value(|path| session.lit.with(|lit| lit.as_ref() == Some(path)));
    let value = part("span")
        .class("figure-value")
        .words(move || shown.with(|shown| shown.text.clone()))
        .add(part("span").class("unit").words(move || unit_sign(entry.spec, entry.unit()).to_owned()));
    let fault = part("span").class("figure-fault").words_if(move || shown.with(|shown| shown.fault.clone()));
    let row = part("button")
        .class("figure-row")
        .set("type", "button")
        .set("data-path", &path.get_value())
        .set("data-name", &name)
        .toggle("faulty", move || shown.with(|shown| shown.fault.is_some()))
        .toggle("lit", is_lit)
        .add(part("span").class("figure-name").text(&name))
        .add(value)
        .add(fault)
        .on("pointerenter", move |_| session.lit.set(Some(path.get_value())))
        .on("focus", move |_| session.lit.set(Some(path.get_value())))
        .on_click(move || session.open_figure(&path.get_value()));
    Some(row)
}
