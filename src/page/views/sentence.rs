//! Sentences with where they come from, told on demand.

use super::facts_of_text::facts_of_text;
use crate::browser::part::{Part, part};
use staywright::ask::{Sentence, Told};

/// A sentence; its source unfolds from it.
pub fn sentence(one: &Sentence) -> Part {
    let class = if one.bad { "beyond" } else { "set-on" };
    sourced(&one.words, &one.source, class)
}

/// Words, their source unfolding from them where they have one.
pub fn sourced(words: &str, source: &str, class: &str) -> Part {
    if source.is_empty() {
        return part("p").class(class).text(words);
    }
    part("details")
        .class(&format!("sourced {class}"))
        .add(part("summary").text(words))
        .add(part("p").text(&format!("Source: {source}")))
}

/// Figures and sentences under a heading.
pub fn told(told: &Told) -> Part {
    let facts = told.facts.clone();
    part("section")
        .class("told")
        .add(part("h3").text(&told.title))
        .each(told.words.iter().filter(|one| one.bad).map(sentence))
        .add(facts_of_text(move || facts.clone()))
        .each(told.words.iter().filter(|one| !one.bad).map(sentence))
}
