//! What is cut.

use serde::{Deserialize, Serialize};

/// A metal, as far as cutters are concerned.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Metal {
    /// Low-alloy tube steel with chromium and molybdenum.
    ChromeMoly,
    /// Plain low-carbon steel.
    MildSteel,
    /// Stainless steel.
    Stainless,
    /// Titanium and its tube alloys.
    Titanium,
    /// Aluminium alloys.
    Aluminium,
    /// Brass.
    Brass,
    /// Cast iron.
    CastIron,
}

impl Metal {
    /// All metals, in the order the page offers them.
    pub const ALL: [Self; 7] = [
        Self::ChromeMoly,
        Self::MildSteel,
        Self::Stainless,
        Self::Titanium,
        Self::Aluminium,
        Self::Brass,
        Self::CastIron,
    ];

    /// The word in a shop file.
    pub const fn key(self) -> &'static str {
        match self {
            Self::ChromeMoly => "chrome_moly",
            Self::MildSteel => "mild_steel",
            Self::Stainless => "stainless",
            Self::Titanium => "titanium",
            Self::Aluminium => "aluminium",
            Self::Brass => "brass",
            Self::CastIron => "cast_iron",
        }
    }

    /// The trade's word.
    pub const fn name(self) -> &'static str {
        match self {
            Self::ChromeMoly => "chrome-moly steel",
            Self::MildSteel => "mild steel",
            Self::Stainless => "stainless steel",
            Self::Titanium => "titanium",
            Self::Aluminium => "aluminium",
            Self::Brass => "brass",
            Self::CastIron => "cast iron",
        }
    }
}
