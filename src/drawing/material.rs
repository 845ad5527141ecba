//! What the surface of a part is made of, for its colour.

use serde::{Deserialize, Serialize};

/// The material of a surface.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Material {
    /// Steel tube: stays and seat tube.
    Tube,
    /// The inside of a tube, where its end is open to view.
    Bore,
    /// The bottom bracket shell.
    Shell,
    /// Dropouts, plates and round ones.
    Plate,
    /// The tyre.
    Rubber,
    /// The rim.
    Rim,
    /// Chainrings, sprockets and the chain: seen through, for the stays lie behind them.
    Ring,
    /// The brake rotor and its caliper.
    Rotor,
    /// Axle and hub.
    Hub,
}

impl Material {
    /// All materials.
    pub const ALL: [Self; 9] = [
        Self::Tube,
        Self::Bore,
        Self::Shell,
        Self::Plate,
        Self::Rubber,
        Self::Rim,
        Self::Ring,
        Self::Rotor,
        Self::Hub,
    ];

    /// The class of a surface of it.
    pub const fn class(self) -> &'static str {
        match self {
            Self::Tube => "fill-tube",
            Self::Bore => "fill-bore",
            Self::Shell => "fill-shell",
            Self::Plate => "fill-plate",
            Self::Rubber => "fill-rubber",
            Self::Rim => "fill-rim",
            Self::Ring => "fill-ring",
            Self::Rotor => "fill-rotor",
            Self::Hub => "fill-hub",
        }
    }
}
