//! The four places of the page, in the order of the work.

/// A place of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Place {
    /// The frame and its parts.
    #[default]
    Design,
    /// The settings of the machine and the order of work.
    Cut,
    /// What to measure on the finished stays.
    Check,
    /// The builder's saws, mill and fixture.
    Shop,
}

impl Place {
    /// All places, in the order of the work.
    pub const ALL: [Self; 4] = [Self::Design, Self::Cut, Self::Check, Self::Shop];

    /// The word it is kept under.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Design => "design",
            Self::Cut => "cut",
            Self::Check => "check",
            Self::Shop => "shop",
        }
    }

    /// The word on the page.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Design => "Design",
            Self::Cut => "Cut",
            Self::Check => "Check",
            Self::Shop => "Shop",
        }
    }

    /// The place kept under `key`. Earlier versions kept other places; each leads to what took its place.
    pub fn from_key(key: &str) -> Option<Self> {
        match key {
            "frame" | "stays" => Some(Self::Design),
            "cuts" | "set-up" => Some(Self::Cut),
            _ => Self::ALL.into_iter().find(|place| place.key() == key),
        }
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

    #[test]
    fn places_of_earlier_versions_lead_on() {
        let found = ["frame", "stays", "cuts", "set-up", "check"].map(Place::from_key);
        assert_eq!(found, [Place::Design, Place::Design, Place::Cut, Place::Cut, Place::Check].map(Some));
    }
}
