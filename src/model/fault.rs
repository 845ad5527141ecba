//! What is wrong with a figure or a text that was entered.

use super::dropout::DropoutKind;
use super::group::Spec;
use super::rejected_value::RejectedValue;
use crate::units::{Bounds, LengthUnit};

/// One fault: where, what stood there, and what is wrong with it.
#[derive(Clone, Debug, PartialEq)]
pub struct Fault {
    /// The path of the figure, as in the job file; empty when the fault is the whole text's.
    pub field: String,
    /// What stood there, cut short when long.
    pub value: RejectedValue,
    /// What is wrong.
    pub what: Wrong,
}

impl Fault {
    /// A fault at `field`.
    pub fn new(field: impl Into<String>, value: impl Into<RejectedValue>, what: Wrong) -> Self {
        Self { field: field.into(), value: value.into(), what }
    }

    /// A number outside the range of its figure.
    pub fn outside(field: &str, spec: &Spec, value: f64) -> Self {
        let what = Wrong::Outside { name: spec.name, value, unit: spec.unit(), bounds: spec.bounds };
        Self::new(field, value, what)
    }

    /// A figure that does not go with another.
    pub(crate) fn against(
        field: impl Into<String>,
        figure: NamedFigure,
        relation: Relation,
        other: NamedFigure,
    ) -> Self {
        Self::new(field, figure.value, Wrong::Against(Box::new(Against { figure, relation, other })))
    }
}

impl Spec {
    /// The sign of the unit of record: `mm`, `°`, `rpm`; empty for a count.
    pub const fn unit(&self) -> &'static str {
        self.kind.unit(LengthUnit::Millimetre).sign()
    }
}

/// A figure with its name and its unit of record (`mm`, `°`, `rpm`).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NamedFigure {
    /// What the trade calls it.
    pub name: &'static str,
    /// Its number in `unit`.
    pub value: f64,
    /// The unit of record.
    pub unit: &'static str,
}

impl NamedFigure {
    /// A length in millimetres.
    pub const fn mm(name: &'static str, value: f64) -> Self {
        Self { name, value, unit: "mm" }
    }
}

/// How one figure has to stand to another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Relation {
    /// Smaller.
    LessThan,
    /// Smaller or the same.
    AtMost,
    /// Larger.
    MoreThan,
    /// Larger or the same.
    AtLeast,
    /// Further to the rear.
    Behind,
    /// Further to the rear, or at the same place.
    AtOrBehind,
}

/// A figure that does not go with another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Against {
    /// The figure.
    pub figure: NamedFigure,
    /// How it should stand to the other.
    pub relation: Relation,
    /// The other one.
    pub other: NamedFigure,
}

/// What belongs where something else stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Wanted {
    /// A number of any size.
    Number,
    /// A number from a range.
    NumberWithin(Bounds, &'static str),
    /// A whole number from 0 on.
    WholeNumber {
        /// The largest that is taken.
        most: f64,
    },
    /// A text.
    Text,
    /// An object.
    Object,
    /// An object of names and numbers.
    Numbers,
    /// A list.
    List,
    /// A list of numbers.
    ListOfNumbers,
    /// A list of objects.
    ListOfObjects,
}

/// A text that may be too long.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LongText {
    /// The job's name.
    JobName,
    /// The job's notes.
    Notes,
    /// Any other.
    Other,
}

/// A list that may have too many entries.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LongList {
    /// Posts of the fixture.
    Posts,
    /// Any other.
    Other,
}

/// A kind of file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FileKind {
    /// A job.
    Job,
    /// A shop.
    Shop,
}

/// An end that cannot be where it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EndMisfit {
    /// A rear end mates to no shell or seat tube.
    MiterAtRear,
    /// A round dropout is at the rear end only.
    RoundDropoutAtFront,
    /// A slot is at the rear end only.
    SlotAtFront,
}

/// What is wrong with what was entered.
#[derive(Clone, Debug, PartialEq)]
pub enum Wrong {
    /// There is no text.
    Empty,
    /// The text is no JSON.
    NoJson {
        /// The line of the first thing that is not.
        line: usize,
        /// Its place in the line.
        character: usize,
    },
    /// Something else belongs there.
    Wanted(Wanted),
    /// A key without a default is not there.
    Missing,
    /// A rear end of another kind than its dropout needs.
    EndNotOfDropout {
        /// The dropout.
        dropout: DropoutKind,
    },
    /// A key that nobody reads.
    UnknownKey {
        /// Those that are read there.
        known: Vec<&'static str>,
    },
    /// A word that is none of those allowed.
    NoneOf {
        /// Those allowed.
        allowed: Vec<&'static str>,
    },
    /// A name that no way of joining has.
    NoSuchProcess {
        /// The names there are.
        known: Vec<String>,
    },
    /// A file of a format that this version does not read.
    OtherFormat {
        /// What the file holds.
        file: FileKind,
        /// The format that is read.
        version: u64,
    },
    /// A file that does not say its format.
    NoFormat {
        /// The format to write.
        version: u64,
    },
    /// A list with too many entries.
    TooMany {
        /// Of what.
        list: LongList,
        /// How many there are.
        count: usize,
        /// How many are allowed.
        most: usize,
    },
    /// A text that is too long.
    TooLong {
        /// Which.
        text: LongText,
        /// Its characters.
        count: usize,
        /// How many fit.
        most: usize,
    },
    /// A number outside the range of its figure.
    Outside {
        /// What the trade calls the figure.
        name: &'static str,
        /// The number.
        value: f64,
        /// The unit of both.
        unit: &'static str,
        /// The range.
        bounds: Bounds,
    },
    /// A figure that does not go with another.
    Against(Box<Against>),
    /// A wall, in mm, that leaves no bore in a tube.
    NoBore {
        /// The wall.
        wall: f64,
        /// The tube's smallest diameter.
        diameter: f64,
    },
    /// An end of a kind that does not fit where it is.
    EndMisfit(EndMisfit),
    /// A straight tube with a roll.
    StraightWithRoll,
    /// A straight tube whose placement is to be found.
    StraightWithFind,
    /// Two posts at one place.
    PostTwice,
    /// A key that stands more than once in its object.
    KeyTwice,
    /// The seat stays start too near the axle, mm.
    SeatStaysTooShort {
        /// The way to the axle.
        way: f64,
        /// The least that is planned.
        least: f64,
    },
    /// The reach leaves too little of a stay, mm.
    StayTooShort {
        /// What is left.
        left: f64,
        /// The least that is planned.
        least: f64,
    },
    /// Spindle speeds both as a list and as a range.
    SpeedsTwice,
    /// No spindle speed.
    NoSpeed,
    /// The fixture lies along the spindle's own axis.
    FixtureAlongSpindle,
    /// Two ways of joining of the same name.
    SameName,
    /// A way of joining without a name.
    NoName,
    /// Something that the program could not write, in its writer's words.
    NotWritten(String),
}
