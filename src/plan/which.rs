//! The two ends of a stay.

use crate::geometry::Keep;

/// Which end of a stay.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Which {
    Front,
    Rear,
}

impl Which {
    /// What is left of a generator when the saw has passed starts at its crossing nearest to the stay's middle.
    pub(crate) const fn keep(self) -> Keep {
        match self {
            Self::Front => Keep::Largest,
            Self::Rear => Keep::Smallest,
        }
    }
}
