//! What turns beside the stays, and how much room each must have.

use super::group::{Group, Spec, below, group};
use super::inline_vec::InlineVec;
use crate::units::{Angle, Bounds, Count, Kind, Length, Quantity};

group! {
    /// The least room that is wanted to each neighbour.
    Limits {
        /// To the tyre.
        tyre: Length = "tyre_mm", "room to the tyre", 6.0, 0.0..=50.0;
        /// To a chainring's tips.
        chainring: Length = "chainring_mm", "room to the chainring", 3.0, 0.0..=50.0;
        /// To the crank arm.
        crank: Length = "crank_mm", "room to the crank arm", 3.0, 0.0..=50.0;
        /// To the heel.
        heel: Length = "heel_mm", "room to the heel", 5.0, 0.0..=100.0;
        /// To the chain on the smallest sprocket.
        chain: Length = "chain_mm", "room to the chain", 2.0, 0.0..=50.0;
        /// To the disc rotor.
        rotor: Length = "rotor_mm", "room to the rotor", 2.0, 0.0..=50.0;
        /// To the brake caliper's space.
        caliper: Length = "caliper_mm", "room to the caliper", 0.0, 0.0..=50.0;
        /// To the stay on the other side.
        other: Length = "other_mm", "room between the stays", 0.0, 0.0..=100.0;
        /// To a post's column.
        post: Length = "post_mm", "room to the posts", 0.0, 0.0..=50.0;
        /// How far the wheel may run out, sideways and up and down.
        run_out: Length = "run_out_mm", "wheel run-out", 0.8, 0.0..=20.0;
    }
}

group! {
    /// A chainring.
    Ring {
        /// Its teeth.
        teeth: Count = "teeth", "chainring teeth", 34.0, 10.0..=80.0;
        /// From the centre plane to its middle.
        chainline: Length = "chainline_mm", "chainline", 45.0, 20.0..=120.0;
        /// Thickness at its rim.
        thickness: Length = "thickness_mm", "chainring thickness", 4.0, 0.5..=20.0;
    }
}

group! {
    /// The crank arms and the rider's heels, alike on both sides.
    Crank {
        /// From the shell's axis to the pedal's.
        arm: Length = "arm_mm", "crank arm", 170.0, 80.0..=220.0;
        /// From the pedal's axis to the arm's end.
        over: Length = "over_mm", "arm beyond the pedal axis", 14.0, 0.0..=60.0;
        /// From the centre plane to the arm's inner face.
        inside: Length = "inside_mm", "crank arm inner face", 60.0, 20.0..=150.0;
        /// From the centre plane to the heel's inner side.
        heel_inside: Length = "heel_inside_mm", "heel inner side", 80.0, 0.0..=250.0;
        /// From the pedal's axis back to the heel's rear.
        heel_back: Length = "heel_back_mm", "heel behind the pedal", 180.0, 0.0..=300.0;
        /// From the pedal's axis up to the heel's rear.
        heel_up: Length = "heel_up_mm", "heel above the pedal", 10.0, -100.0..=200.0;
    }
}

group! {
    /// The smallest sprocket with the chain on it.
    Sprocket {
        /// Its teeth.
        teeth: Count = "teeth", "smallest sprocket teeth", 11.0, 8.0..=40.0;
        /// From the dropout's inner face to its middle.
        from_dropout: Length = "from_dropout_mm", "sprocket from dropout", 7.0, 0.0..=60.0;
        /// Over the chain's rivets.
        chain_width: Length = "chain_width_mm", "chain width", 6.2, 3.0..=15.0;
        /// Height of the chain's plates.
        chain_height: Length = "chain_height_mm", "chain height", 8.5, 4.0..=20.0;
    }
}

group! {
    /// A disc brake's rotor and the space its caliper takes, on the left.
    Rotor {
        /// Its diameter.
        diameter: Length = "rotor_mm", "rotor diameter", 160.0, 80.0..=260.0;
        /// Its thickness.
        thickness: Length = "thickness_mm", "rotor thickness", 1.8, 0.5..=10.0;
        /// From the dropout's inner face to its middle.
        from_dropout: Length = "from_dropout_mm", "rotor from dropout", 15.0, 0.0..=60.0;
        /// The direction of the caliper's middle from the axle, from straight forwards upwards.
        caliper: Angle = "caliper_deg", "caliper direction", 25.0, -180.0..=180.0;
        /// From the axle to the caliper's middle.
        caliper_out: Length = "caliper_out_mm", "caliper from axle", 78.0, 0.0..=200.0;
        /// Length of the caliper along the rotor's rim; 0 where it is not to be looked at.
        caliper_length: Length = "caliper_length_mm", "caliper length", 50.0, 0.0..=200.0;
        /// Height of the caliper, towards the axle.
        caliper_height: Length = "caliper_height_mm", "caliper height", 34.0, 0.0..=150.0;
        /// Width of the caliper, across the rotor.
        caliper_width: Length = "caliper_width_mm", "caliper width", 30.0, 0.0..=100.0;
    }
}

group! {
    /// The fixture's posts, as round columns on its centre line.
    Columns {
        /// Diameter of a column.
        diameter: Length = "column_mm", "post column", 25.0, 1.0..=200.0;
    }
}

/// As many chainrings as a crank may have.
pub(crate) const MOST_RINGS: usize = 3;

/// What turns beside the stays. What is left out is not looked at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Surroundings<T = f64> {
    /// The room that each must have.
    pub limits: Limits<T>,
    /// The tyre's width as measured on its rim, where it is known.
    pub measured_width: Option<Length<T>>,
    /// The chainrings.
    pub rings: InlineVec<Ring<T>, MOST_RINGS>,
    /// The crank arms and heels.
    pub crank: Option<Crank<T>>,
    /// The smallest sprocket.
    pub sprocket: Option<Sprocket<T>>,
    /// The disc brake.
    pub rotor: Option<Rotor<T>>,
    /// The fixture's posts, where they stand between the stays.
    pub posts: Option<Columns<T>>,
}

impl Default for Surroundings {
    /// The tyre and the limits alone.
    fn default() -> Self {
        Self {
            limits: Limits::default(),
            measured_width: None,
            rings: InlineVec::default(),
            crank: None,
            sprocket: None,
            rotor: None,
            posts: None,
        }
    }
}

impl Surroundings {
    /// One ring, cranks, a sprocket and a disc brake, all with starting figures.
    pub fn starting() -> Self {
        Self {
            rings: [Ring::default()].into_iter().collect(),
            crank: Some(Crank::default()),
            sprocket: Some(Sprocket::default()),
            rotor: Some(Rotor::default()),
            ..Self::default()
        }
    }
}

/// What is known of the measured tyre width.
pub(crate) static MEASURED: Spec = Spec {
    key: "measured_width_mm",
    name: "measured tyre width",
    meaning: "Width of the tyre as measured on its rim.",
    kind: Kind::Length,
    bounds: Bounds::new(10.0, 150.0),
};

impl<T: Copy> Group<T> for Surroundings<T> {
    type Over<U: Copy> = Surroundings<U>;

    fn map<U: Copy>(&self, at: &str, f: &mut dyn FnMut(&str, &'static Spec, T) -> U) -> Surroundings<U> {
        let limits = self.limits.map(&below(at, "limits"), f);
        let measured = self.measured_width;
        let measured_width =
            measured.map(|w| Length::from_recorded(f(&below(at, MEASURED.key), &MEASURED, w.recorded())));
        Surroundings {
            limits,
            measured_width,
            rings: self.rings.map(&below(at, "chainrings"), f),
            crank: self.crank.as_ref().map(|crank| crank.map(&below(at, "crank"), f)),
            sprocket: self.sprocket.as_ref().map(|sprocket| sprocket.map(&below(at, "sprocket"), f)),
            rotor: self.rotor.as_ref().map(|rotor| rotor.map(&below(at, "rotor"), f)),
            posts: self.posts.as_ref().map(|posts| posts.map(&below(at, "posts"), f)),
        }
    }
}
