//! What is told under one heading.

use crate::model::shop::Origin;
use serde::{Deserialize, Serialize};

/// Names with their figures, then sentences.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Told {
    /// The heading.
    pub title: String,
    /// Names with what is written of them.
    pub facts: Vec<(String, String)>,
    /// What is said beside them.
    pub words: Vec<Sentence>,
}

/// A sentence.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Sentence {
    /// What it says.
    pub words: String,
    /// Where that comes from and how sure it is; empty where it follows from the job.
    pub source: String,
    /// Whether something does not work.
    pub bad: bool,
}

impl Told {
    pub(super) fn new(title: &str) -> Self {
        Self { title: title.to_owned(), ..Self::default() }
    }

    pub(super) fn fact(&mut self, name: impl Into<String>, figure: impl Into<String>) {
        self.facts.push((name.into(), figure.into()));
    }

    pub(super) fn say(&mut self, words: impl Into<String>) {
        self.words.push(Sentence { words: words.into(), ..Sentence::default() });
    }

    pub(super) fn say_bad(&mut self, words: impl Into<String>) {
        self.words.push(Sentence { words: words.into(), bad: true, ..Sentence::default() });
    }

    pub(super) fn say_from(&mut self, words: impl Into<String>, origin: &Origin) {
        self.words.push(Sentence { words: words.into(), source: source(origin), bad: false });
    }
}

/// Where something comes from and how sure it is.
pub(super) fn source(origin: &Origin) -> String {
    match origin.source.as_str() {
        "" => origin.sure.words().to_owned(),
        from => format!("{from} ({})", origin.sure.words()),
    }
}
