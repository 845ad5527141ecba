//! A finished drawing: marks in millimetres, and nothing about pixels but the room it was laid out for.

use super::pull::Pull;
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
