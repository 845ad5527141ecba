//! The whole job.

use super::dropouts::Dropouts;
use super::fixture::Fixture;
use super::frame::Frame;
use super::group::{Group, Spec, below, group};
use super::pair_name::PairName;
use super::side::{Hand, Side};
use super::surroundings::Surroundings;
use super::wheel::Wheel;
use crate::units::Length;

impl PairName {
    /// The side that a job starts with.
    pub fn starting_side(self) -> Side {
        match self {
            Self::Chainstays => Side::chainstay(),
            Self::Seatstays => Side::seatstay(),
        }
    }
}

group! {
    /// Where the seat stays leave the seat tube.
    SeatstayNode {
        /// Along the seat-tube axis, from the foot of the shell centre on it.
        front_station: Length = "front_station_mm", "seat stay station", 500.0, 50.0..=1000.0;
    }
}

group! {
    /// What the mill is found with.
    Touch {
        /// Diameter of the edge finder's tip.
        edge_finder: Length = "edge_finder_mm", "edge finder diameter", 10.0, 0.0..=50.0;
    }
}

/// A pair of stays.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PairOfStays<T = f64> {
    /// The drive side.
    pub right: Side<T>,
    /// The other side; `None` when it mirrors the right.
    pub left: Option<Side<T>>,
}

impl<T> PairOfStays<T> {
    /// The stay on that side.
    pub const fn side(&self, hand: Hand) -> &Side<T> {
        match (hand, &self.left) {
            (Hand::Left, Some(left)) => left,
            _ => &self.right,
        }
    }

    /// The stay on that side, to be changed: the right one where the left mirrors it.
    pub const fn side_mut(&mut self, hand: Hand) -> &mut Side<T> {
        match (hand, &mut self.left) {
            (Hand::Left, Some(left)) => left,
            _ => &mut self.right,
        }
    }
}

impl<T: Copy> Group<T> for PairOfStays<T> {
    type Over<U: Copy> = PairOfStays<U>;

    fn map<U: Copy>(&self, at: &str, f: &mut dyn FnMut(&str, &'static Spec, T) -> U) -> PairOfStays<U> {
        PairOfStays {
            right: self.right.map(&below(at, "right"), f),
            left: self.left.as_ref().map(|left| left.map(&below(at, "left"), f)),
        }
    }
}

/// What a person enters.
#[derive(Clone, Debug, PartialEq)]
pub struct Job<T = f64> {
    /// What the job is called.
    pub name: String,
    /// Anything worth writing down.
    pub notes: String,
    /// The frame's rear end.
    pub frame: Frame<T>,
    /// Rim and tyre.
    pub wheel: Wheel<T>,
    /// The chainstays.
    pub chainstays: PairOfStays<T>,
    /// Where the seat stays start.
    pub seatstay_node: SeatstayNode<T>,
    /// The seat stays.
    pub seatstays: PairOfStays<T>,
    /// The fixture.
    pub fixture: Fixture<T>,
    /// The edge finder.
    pub touch: Touch<T>,
    /// What turns beside the stays; `None` where nobody has asked about room yet.
    pub surroundings: Option<Surroundings<T>>,
    /// The dropouts that figures of the stays follow from; `None` where all are entered.
    pub dropouts: Option<Dropouts<T>>,
}

impl Default for Job {
    fn default() -> Self {
        let pair = |name: PairName| PairOfStays { right: name.starting_side(), left: None };
        Self {
            name: String::new(),
            notes: String::new(),
            frame: Frame::default(),
            wheel: Wheel::default(),
            chainstays: pair(PairName::Chainstays),
            seatstay_node: SeatstayNode::default(),
            seatstays: pair(PairName::Seatstays),
            fixture: Fixture::default(),
            touch: Touch::default(),
            surroundings: None,
            dropouts: None,
        }
    }
}

impl<T> Job<T> {
    /// The pair of that name.
    pub const fn pair(&self, name: PairName) -> &PairOfStays<T> {
        match name {
            PairName::Chainstays => &self.chainstays,
            PairName::Seatstays => &self.seatstays,
        }
    }

    /// The pair of that name, to be changed.
    pub const fn pair_mut(&mut self, name: PairName) -> &mut PairOfStays<T> {
        match name {
            PairName::Chainstays => &mut self.chainstays,
            PairName::Seatstays => &mut self.seatstays,
        }
    }
}

impl Job {
    /// Every figure with its path, what is known of it, and its recorded number, in the order of the file.
    pub fn figures(&self) -> Vec<(String, &'static Spec, f64)> {
        let mut figures = Vec::new();
        self.each("", &mut |path, spec, value| figures.push((path.to_owned(), spec, value)));
        figures
    }

    /// The recorded number at `path`, or `None` where the job holds no such figure.
    pub fn figure(&self, path: &str) -> Option<f64> {
        let mut found = None;
        self.each("", &mut |at, _, value| {
            if at == path {
                found = Some(value);
            }
        });
        found
    }

    /// What is known of the figure at `path`.
    pub fn spec(&self, path: &str) -> Option<&'static Spec> {
        let mut found = None;
        self.each("", &mut |at, spec, _| {
            if at == path {
                found = Some(spec);
            }
        });
        found
    }

    /// The same job with the figure at `path` set to `value`, entered from now on where a dropout said it; a path that the job
    /// lacks changes nothing.
    #[must_use]
    pub fn with_figure(&self, path: &str, value: f64) -> Self {
        let mut job = self.map("", &mut |at, _, old| if at == path { value } else { old });
        job.set_entered(path, true);
        job
    }
}

impl<T: Copy> Group<T> for Job<T> {
    type Over<U: Copy> = Job<U>;

    fn map<U: Copy>(&self, at: &str, f: &mut dyn FnMut(&str, &'static Spec, T) -> U) -> Job<U> {
        let seatstays = below(at, PairName::Seatstays.key());
        Job {
            name: self.name.clone(),
            notes: self.notes.clone(),
            frame: self.frame.map(&below(at, "frame"), f),
            wheel: self.wheel.map(&below(at, "wheel"), f),
            chainstays: self.chainstays.map(&below(at, PairName::Chainstays.key()), f),
            seatstay_node: self.seatstay_node.map(&seatstays, f),
            seatstays: self.seatstays.map(&seatstays, f),
            fixture: self.fixture.map(&below(at, "fixture"), f),
            touch: self.touch.map(at, f),
            surroundings: self.surroundings.as_ref().map(|all| all.map(&below(at, "surroundings"), f)),
            dropouts: self.dropouts.as_ref().map(|all| all.map(&below(at, "dropouts"), f)),
        }
    }
}
