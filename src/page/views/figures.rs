//! A group of figures under one heading.

use super::field::figure_field;
use crate::browser::part::{Part, part};

/// The fields of `paths`, in that order.
pub fn figures(title: &str, paths: impl Fn() -> Vec<String> + 'static) -> Part {
    part("fieldset").class("figures").add(part("legend").text(title)).add(fields(paths))
}

/// The fields alone.
pub fn fields(paths: impl Fn() -> Vec<String> + 'static) -> Part {
    part("div")
        .class("figure-grid")
        .by(move || paths().join("\n"), |paths| paths.lines().filter_map(figure_field).collect())
}
