//! A finished drawing: marks in millimetres, and nothing about pixels but the room it was laid out for.

use super::frame_part::FramePart;
use super::material::Material;
use super::pull::Pull;
use crate::model::Level;
use crate::units::LengthUnit;
use serde::{Deserialize, Serialize};

/// A place on the sheet, mm to the right and down.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Downwards.
    pub y: f64,
}

impl Point {
    /// The point `x` to the right, `y` down.
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    pub(super) fn plus(self, x: f64, y: f64) -> Self {
        Self::new(self.x + x, self.y + y)
    }

    /// The point `share` of the way to `other`.
    pub(super) fn towards(self, other: Self, share: f64) -> Self {
        Self::new(self.x + (other.x - self.x) * share, self.y + (other.y - self.y) * share)
    }

    pub(super) fn distance(self, other: Self) -> f64 {
        (other.x - self.x).hypot(other.y - self.y)
    }
}

/// How a line is drawn (ISO 128).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Pen {
    /// A visible edge: wide.
    Visible,
    /// A hidden edge: dashed.
    Hidden,
    /// An axis or a centre line: long-dash-dot.
    Axis,
    /// A dimension or an extension line: thin.
    Thin,
    /// The cutter: wide, in the colour that stands for what cuts.
    Cutter,
    /// A neighbouring part: thin, long dash and double dot.
    Phantom,
    /// Room that is wanting: wide, in the colour that stands for what is wrong.
    Tight,
    /// A filled arrowhead.
    Arrow,
    /// Lettering.
    Text,
    /// A surface of a part, without an edge.
    Fill(Material),
    /// The ground behind a dimension's figure.
    Pill(Status),
    /// A clearance: its line, its arrowheads, its figure and the ground behind that. `Note` is a clearance that suffices.
    Gap(Level),
}

impl Pen {
    /// Whether it draws lines, which no text may cross.
    pub const fn is_line(self) -> bool {
        !matches!(self, Self::Text | Self::Fill(_) | Self::Pill(_))
    }
}

/// How the figure of a dimension comes to be.
///
/// Brackets are those of an auxiliary dimension (ISO 129-1). A figure to be checked stands in a frame with round ends, as
/// inspection dimensions do (from memory, after DIN 406): in a rectangular frame it would be theoretically exact (ISO 129-1).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Status {
    /// It was entered: plain.
    Entered,
    /// It follows from what was entered: in round brackets.
    Derived,
    /// It follows, and is checked with calipers on the part: in a frame with round ends.
    Checked,
}

/// Where a text hangs from its point.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Anchor {
    /// It starts there.
    Start,
    /// It is centred there.
    Middle,
    /// It ends there.
    End,
}

/// What a mark is.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Shape {
    /// A straight line.
    Line {
        /// From here.
        a: Point,
        /// To here.
        b: Point,
    },
    /// A chain of straight lines.
    Path {
        /// Its corners.
        points: Vec<Point>,
        /// Whether the last is joined to the first.
        closed: bool,
    },
    /// A circle.
    Circle {
        /// Its middle.
        at: Point,
        /// Its radius, mm.
        radius: f64,
    },
    /// What lies between two circles about the same middle.
    Ring {
        /// Its middle.
        at: Point,
        /// The radius of its outer edge, mm.
        radius: f64,
        /// The radius of its inner edge, mm.
        hole: f64,
    },
    /// A level rectangle with round ends.
    Pill {
        /// Upper left corner.
        min: Point,
        /// Lower right corner.
        max: Point,
    },
    /// A line of text; `at` lies on its base line.
    Text {
        /// Where it hangs.
        at: Point,
        /// What it says.
        text: String,
        /// How it hangs.
        anchor: Anchor,
    },
}

/// One mark of a sheet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Mark {
    /// The figure that it shows: a path of the job, or a place of the plan.
    pub topic: Option<String>,
    /// The part that it is a piece of: what is selected where it is tapped.
    pub part: Option<FramePart>,
    /// How it is drawn.
    pub pen: Pen,
    /// What it is.
    pub shape: Shape,
}

/// A mark that can be pulled to change a figure of the job.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Handle {
    /// The figure's path.
    pub path: String,
    /// What it is called.
    pub name: String,
    /// Where it is.
    pub at: Point,
    /// The place on the part that it moves; `at` itself where it stands on the part.
    pub from: Point,
    /// How the figure answers when it is pulled.
    pub pull: Pull,
    /// The figure, mm or degrees.
    pub value: f64,
}

/// A finished drawing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Sheet {
    /// What it is called.
    pub title: String,
    /// What it shows, with its figures, for those who cannot see it.
    pub text: String,
    /// Upper left corner.
    pub min: Point,
    /// Lower right corner.
    pub max: Point,
    /// Its marks, the first drawn first.
    pub marks: Vec<Mark>,
    /// Its handles.
    pub handles: Vec<Handle>,
}

/// The space that a drawing is laid out in. Lettering has a fixed size on screen and paper, so what fits depends on it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Viewport {
    /// Width, in dots.
    pub width: f64,
    /// Most height, in dots.
    pub height: f64,
    /// Height of the lettering, in dots.
    pub lettering: f64,
    /// Unit of the figures.
    pub unit: LengthUnit,
}
