//! A form as data: what is entered, how it is laid out, and what is wrong with it. The page sets out any form without knowing
//! what it is of; whatever is typed goes along with the question, and what could not be taken comes back in its field.

use super::{pad, shop};
use crate::model::{Spec, capital};
use crate::text::entry::{range, unit_sign, written};
use crate::units::LengthUnit;
use serde::{Deserialize, Serialize};

/// What a form is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Subject {
    /// The builder's equipment.
    Shop,
    /// The flat for a brake mount.
    Pad,
}

/// Something done to a form.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Change {
    /// A text typed into the field at a path, or an option chosen in it.
    Type(String, String),
    /// A button of the form, by its key.
    Act(String),
    /// Other bytes in place of all that was entered.
    Replace(Vec<u8>),
    /// The text of a file in place of it.
    File(String),
    /// The fixture and the edge finder of a link text's job, for other jobs to start with.
    Keep(String),
}

/// A change and its number: what could not be taken is named by it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Edit {
    /// Its number.
    pub serial: u32,
    /// What is done.
    pub change: Change,
}

/// A form and what is done to it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ToForm {
    /// What it is of.
    pub subject: Subject,
    /// What was entered so far, in the subject's own bytes; empty where nothing was.
    pub bytes: Vec<u8>,
    /// What is done to it, in order.
    pub edits: Vec<Edit>,
    /// The sections that stand open, by their keys; the others come without what is in them.
    pub open: Vec<String>,
    /// The unit of lengths.
    pub unit: LengthUnit,
}

/// A form with what was done to it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Formed {
    /// What is entered now.
    pub bytes: Vec<u8>,
    /// The number of the last edit that was looked at.
    pub done: u32,
    /// What could not be taken; it may be once something else has changed.
    pub refused: Vec<Refused>,
    /// What was understood of what was typed, where the text does not say so itself, by path.
    pub notes: Vec<(String, String)>,
    /// What is said about a file or other bytes that were taken, or were not.
    pub said: Option<Said>,
    /// Everything there is to enter.
    pub sections: Vec<FormSection>,
}

/// What is said about a file or other bytes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Said {
    /// The sentence.
    pub words: String,
    /// Whether they were not taken.
    pub bad: bool,
}

/// A text that could not be taken.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Refused {
    /// The number of its edit.
    pub serial: u32,
    /// The path of its field.
    pub path: String,
    /// As it was typed.
    pub text: String,
    /// A sentence for the person who typed it.
    pub fault: String,
}

/// A part of a form.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct FormSection {
    /// Its own name in the form.
    pub key: String,
    /// What it is called.
    pub title: String,
    /// What is to be known of it.
    pub words: String,
    /// Its fields.
    pub fields: Vec<FormField>,
    /// Its buttons: keys, and the words on them. One whose key begins with `remove` takes the section away.
    pub acts: Vec<(String, String)>,
    /// The sections in it.
    pub sections: Vec<FormSection>,
}

/// One field.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct FormField {
    /// Its own name in the form.
    pub path: String,
    /// What is entered in it.
    pub name: String,
    /// What stands in it: the text, or the key of the option.
    pub value: String,
    /// The unit's sign; empty where there is none.
    pub unit: String,
    /// What may be entered, in words; empty for a text.
    pub range: String,
    /// The options, where one of a few is chosen: keys, and the words for them.
    pub options: Vec<(String, String)>,
}

/// The field of a figure; `None` leaves it empty.
pub(super) fn figure(path: &str, spec: &Spec, value: Option<f64>, unit: LengthUnit) -> FormField {
    FormField {
        path: path.to_owned(),
        name: capital(spec.name),
        value: value.map_or_else(String::new, |value| written(value, spec, unit)),
        unit: unit_sign(spec, unit).to_owned(),
        range: range(spec, unit),
        options: Vec::new(),
    }
}

/// The form after its edits.
pub(super) fn formed(asked: &ToForm) -> Formed {
    let formed = match asked.subject {
        Subject::Shop => shop::formed(asked),
        Subject::Pad => pad::formed(asked),
    };
    Formed { done: asked.edits.iter().map(|edit| edit.serial).max().unwrap_or_default(), ..formed }
}
