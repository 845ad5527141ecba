//! The fixture that holds a pair of stays, and the edge finder it is found with.

use super::group::{Group, Spec, below, group};
use crate::units::{Bounds, Kind, Length};

group! {
    /// The fixture's own figures, apart from its posts.
    FixtureDatum {
        /// Width of the mounting block, centred on the centre plane.
        block_width: Length = "block_width_mm", "block width", 70.0, 5.0..=500.0;
        /// The stay plane above the fixture's base face.
        clamp_height: Length = "clamp_height_mm", "clamp height", 40.0, 0.0..=500.0;
        /// The touched datum edge along the fixture, from the front datum line.
        touch_u: Length = "touch_u_mm", "touched edge along", -60.0, -1000.0..=1500.0;
        /// The touched datum edge above the stay plane.
        touch_w: Length = "touch_w_mm", "touched edge above", 0.0, -500.0..=500.0;
        /// The slide's smallest reading.
        slide_min: Length = "slide_min_mm", "slide minimum", 380.0, 0.0..=2000.0;
        /// The slide's largest reading.
        slide_max: Length = "slide_max_mm", "slide maximum", 480.0, 0.0..=2000.0;
        /// The axle holder's lowest place.
        axle_height_min: Length = "axle_height_min_mm", "axle height minimum", -30.0, -500.0..=500.0;
        /// The axle holder's highest place.
        axle_height_max: Length = "axle_height_max_mm", "axle height maximum", 30.0, -500.0..=500.0;
    }
}

/// The side from which the edge finder came to the datum edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum TouchSide {
    /// From the front, outside the fixture.
    #[default]
    Front,
    /// From the rear.
    Rear,
}

impl TouchSide {
    /// The word in a job file.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Front => "front",
            Self::Rear => "rear",
        }
    }
}

/// The fixture.
#[derive(Clone, Debug, PartialEq)]
pub struct Fixture<T = f64> {
    /// Its figures.
    pub bench: FixtureDatum<T>,
    /// Stations of the clamp posts, from the front datum line.
    pub posts: Vec<Length<T>>,
    /// From which side the datum edge is touched.
    pub touch_from: TouchSide,
}

/// As many posts as a fixture may have.
pub(crate) const MOST_POSTS: usize = 8;

pub(crate) static POST: Spec = Spec {
    key: "posts_u_mm",
    name: "post station",
    meaning: "From the shell's axis along the fixture to the post.",
    kind: Kind::Length,
    bounds: Bounds::new(-200.0, 1500.0),
};

impl Default for Fixture {
    fn default() -> Self {
        Self {
            bench: FixtureDatum::default(),
            posts: vec![Length::from_mm(60.0), Length::from_mm(330.0)],
            touch_from: TouchSide::Front,
        }
    }
}

impl<T: Copy> Group<T> for Fixture<T> {
    type Over<U: Copy> = Fixture<U>;

    fn map<U: Copy>(&self, at: &str, f: &mut dyn FnMut(&str, &'static Spec, T) -> U) -> Fixture<U> {
        let bench = self.bench.map(at, f);
        let post = |(i, p): (usize, &Length<T>)| {
            Length::from_mm(f(&format!("{}[{i}]", below(at, POST.key)), &POST, p.mm()))
        };
        let posts = self.posts.iter().enumerate().map(post).collect();
        Fixture { bench, posts, touch_from: self.touch_from }
    }
}
