//! The quantities of a machine at work: numbers with a unit and no arithmetic of their own.

use super::{Kind, Quantity};
use serde::{Deserialize, Serialize};

/// Declares a quantity: its doc, its name, the way in, the way out and its unit of record.
macro_rules! plain {
    ($(#[$doc:meta])* $Name:ident, $from:ident, $to:ident, $unit:literal) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Default, Serialize, Deserialize)]
        #[serde(transparent)]
        pub struct $Name<T = f64>(T);

        impl<T: Copy> $Name<T> {
            #[doc = concat!("A value in ", $unit, ".")]
            pub const fn $from(value: T) -> Self {
                Self(value)
            }

            #[doc = concat!("The value in ", $unit, ".")]
            pub const fn $to(self) -> T {
                self.0
            }
        }

        impl<T: Copy> Quantity<T> for $Name<T> {
            const KIND: Kind = Kind::$Name;
            fn recorded(self) -> T {
                self.0
            }
            fn from_recorded(value: T) -> Self {
                Self(value)
            }
        }
    };
}

plain! {
    /// How fast a cutting edge goes through the work.
    CuttingSpeed, from_m_per_min, m_per_min, "m/min"
}
plain! {
    /// How fast a spindle turns.
    SpindleSpeed, from_rpm, rpm, "rpm"
}
plain! {
    /// How fast work and cutter are fed together.
    Feed, from_mm_per_min, mm_per_min, "mm/min"
}
plain! {
    /// A force.
    Force, from_newtons, newtons, "N"
}
plain! {
    /// Force on an area: a modulus of elasticity, a specific cutting force.
    Stress, from_n_per_mm2, n_per_mm2, "N/mm²"
}
plain! {
    /// How many there are of something. Kept as a real number so that it is entered like any other figure.
    Count, of, number, ""
}

/// Feet in a metre, from the foot of 0.3048 m (international yard and pound agreement, 1959).
pub(super) const M_PER_FOOT: f64 = 0.3048;

impl CuttingSpeed {
    /// A speed in surface feet per minute, as inch tables give it.
    pub const fn from_feet_per_min(value: f64) -> Self {
        Self(value * M_PER_FOOT)
    }

    /// The speed in surface feet per minute.
    pub const fn feet_per_min(self) -> f64 {
        self.0 / M_PER_FOOT
    }
}
