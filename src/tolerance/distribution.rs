//! What is known of how far a figure can be off.

use fastrand::Rng;
use std::f64::consts::{PI, TAU};

/// The spread of a figure about its estimate.
///
/// Standard uncertainties are those of JCGM 100 and JCGM 101, table 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Distribution {
    /// Exactly known.
    Exact,
    /// Anywhere within ± the half-width, all places alike: a scale division, a stated limit.
    Rectangular {
        /// Largest distance from the estimate.
        half_width: f64,
    },
    /// Anywhere within ± the half-width, the middle likelier: the sum of two like rectangles.
    Triangular {
        /// Largest distance from the estimate.
        half_width: f64,
    },
    /// Swinging to and fro between ± the half-width, as a cyclic temperature does.
    Arcsine {
        /// Largest distance from the estimate.
        half_width: f64,
    },
    /// A rectangle whose half-width is itself only known to ± `doubt` (JCGM 101, 6.4.3).
    InexactLimits {
        /// Solution of the half-width.
        half_width: f64,
        /// How far the half-width can be off.
        doubt: f64,
    },
    /// The bell curve.
    Normal {
        /// Standard deviation.
        standard: f64,
    },
    /// A mean of few readings: Student's t, scaled (JCGM 101, 6.4.9).
    Student {
        /// Standard uncertainty as JCGM 100 counts it, that is, the scale.
        standard: f64,
        /// Degrees of freedom, 3 or more for a finite spread.
        freedom: u32,
    },
}

/// How far a bell curve is followed when the worst case is asked for, in standard deviations.
pub const WORST_OF_NORMAL: f64 = 3.0;

impl Distribution {
    /// The standard uncertainty that goes into a root sum of squares.
    pub fn standard(self) -> f64 {
        match self {
            Self::Exact => 0.0,
            Self::Rectangular { half_width } => half_width / 3f64.sqrt(),
            Self::Triangular { half_width } => half_width / 6f64.sqrt(),
            Self::Arcsine { half_width } => half_width / 2f64.sqrt(),
            Self::InexactLimits { half_width, doubt } => {
                (half_width * half_width / 3.0 + doubt * doubt / 9.0).sqrt()
            }
            Self::Normal { standard } | Self::Student { standard, .. } => standard,
        }
    }

    /// The farthest that is counted on: the limit, or [`WORST_OF_NORMAL`] standard deviations where there is none.
    pub fn worst(self) -> f64 {
        match self {
            Self::Exact => 0.0,
            Self::Rectangular { half_width }
            | Self::Triangular { half_width }
            | Self::Arcsine { half_width } => half_width,
            Self::InexactLimits { half_width, doubt } => half_width + doubt,
            Self::Normal { standard } | Self::Student { standard, .. } => WORST_OF_NORMAL * standard,
        }
    }

    /// Degrees of freedom of [`Self::standard`], `None` where it counts as exactly known.
    pub const fn freedom(self) -> Option<u32> {
        match self {
            Self::Student { freedom, .. } => Some(freedom),
            _ => None,
        }
    }

    /// The same kind of spread with another standard uncertainty.
    #[must_use]
    pub fn with_standard(self, standard: f64) -> Self {
        let width = |per_standard: f64| standard * per_standard;
        match self {
            Self::Exact | Self::Normal { .. } => Self::Normal { standard },
            Self::Rectangular { .. } => Self::Rectangular { half_width: width(3f64.sqrt()) },
            Self::Triangular { .. } => Self::Triangular { half_width: width(6f64.sqrt()) },
            Self::Arcsine { .. } => Self::Arcsine { half_width: width(2f64.sqrt()) },
            Self::InexactLimits { half_width, doubt } => {
                let old = self.standard();
                let scale = if old > 0.0 { standard / old } else { 0.0 };
                Self::InexactLimits { half_width: half_width * scale, doubt: doubt * scale }
            }
            Self::Student { freedom, .. } => Self::Student { standard, freedom },
        }
    }

    /// Whether its figures are finite and not negative.
    pub fn is_sound(self) -> bool {
        let (standard, worst) = (self.standard(), self.worst());
        let freedom = self.freedom().is_none_or(|freedom| freedom > 0);
        standard.is_finite() && worst.is_finite() && standard >= 0.0 && worst >= 0.0 && freedom
    }

    /// One draw of the distance from the estimate.
    pub(super) fn draw(self, rng: &mut Rng) -> f64 {
        let even = |rng: &mut Rng| 2.0 * rng.f64() - 1.0;
        match self {
            Self::Exact => 0.0,
            Self::Rectangular { half_width } => half_width * even(rng),
            Self::Triangular { half_width } => half_width * 0.5 * (even(rng) + even(rng)),
            Self::Arcsine { half_width } => half_width * (TAU * rng.f64()).sin(),
            Self::InexactLimits { half_width, doubt } => (half_width + doubt * even(rng)) * even(rng),
            Self::Normal { standard } => standard * normal(rng),
            Self::Student { standard, freedom } => standard * student(rng, freedom),
        }
    }
}

/// A standard normal draw (Box and Muller, 1958).
fn normal(rng: &mut Rng) -> f64 {
    // 1 − u lies in (0, 1], so the logarithm is finite.
    (-2.0 * (1.0 - rng.f64()).ln()).sqrt() * (2.0 * PI * rng.f64()).cos()
}

/// From this many degrees of freedom on, t is drawn as normal: its variance is larger by 2 in 1000 then.
const MANY: u32 = 1000;

fn student(rng: &mut Rng, freedom: u32) -> f64 {
    if freedom >= MANY {
        return normal(rng);
    }
    let square = (0..freedom).map(|_| normal(rng).powi(2)).sum::<f64>().max(f64::MIN_POSITIVE);
    normal(rng) * (f64::from(freedom) / square).sqrt()
}
