//! The five places of the page, in the order of the work.

/// A place of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Place {
    /// The frame and its wheel.
    #[default]
    Frame,
    /// The two pairs of stays.
    Stays,
    /// Every cut of the job.
    Cuts,
    /// The order of work at the machine.
    SetUp,
    /// What to measure on the finished stays.
    Check,
}

impl Place {
    /// All places, in the order of the work.
    pub const ALL: [Self; 5] = [Self::Frame, Self::Stays, Self::Cuts, Self::SetUp, Self::Check];

    /// The word it is kept under.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Frame => "frame",
            Self::Stays => "stays",
            Self::Cuts => "cuts",
            Self::SetUp => "set-up",
            Self::Check => "check",
        }
    }

    /// The word on the page.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Frame => "Frame",
            Self::Stays => "Stays",
            Self::Cuts => "Cuts",
            Self::SetUp => "Set-up",
            Self::Check => "Check",
        }
    }

    /// The place kept under `key`.
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|place| place.key() == key)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_place_is_found_again_under_its_key() {
        for place in Place::ALL {
            assert_eq!(Place::from_key(place.key()), Some(place));
        }
        assert_eq!(Place::from_key("elsewhere"), None);
    }
}
