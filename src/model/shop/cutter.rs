//! Cutters: hole saws for copes, slitting saws for slots, end mills for flats.

use crate::model::group::group;
use crate::units::{Count, Length};

/// What a cutter's teeth are made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum ToothMaterial {
    /// High-speed steel. The teeth of a bi-metal hole saw are of it.
    #[default]
    HighSpeedSteel,
    /// Cemented carbide.
    Carbide,
}

impl ToothMaterial {
    /// Both materials.
    pub const ALL: [Self; 2] = [Self::HighSpeedSteel, Self::Carbide];

    /// The word in a shop file.
    pub const fn key(self) -> &'static str {
        match self {
            Self::HighSpeedSteel => "high_speed_steel",
            Self::Carbide => "carbide",
        }
    }
}

group! {
    /// The figures of a hole saw itself.
    HoleSawSize {
        /// The diameter it is sold by.
        nominal: Length = "nominal_mm", "nominal diameter", 38.0, 4.0..=200.0;
        /// From its teeth to the inside of its bottom.
        depth: Length = "depth_mm", "saw depth", 38.0, 3.0..=300.0;
        /// Width of the cut. From memory 1.5 to 2.5 mm: measure it.
        kerf: Length = "kerf_mm", "kerf", 2.0, 0.2..=10.0;
        /// How many teeth.
        teeth: Count = "teeth", "teeth", 30.0, 1.0..=300.0;
    }
}

group! {
    /// What holds a saw, from the holder's face outwards: a shank, then a slimmer neck, then the saw.
    Arbor {
        /// Diameter of the shank.
        shank: Length = "arbor_mm", "arbor diameter", 19.05, 2.0..=100.0;
        /// From the holder's face to the saw's back.
        reach: Length = "reach_mm", "arbor reach", 60.0, 0.0..=600.0;
        /// Diameter of the neck next to the saw.
        neck: Length = "neck_mm", "neck diameter", 15.875, 2.0..=100.0;
        /// Length of the neck, a part of the reach.
        neck_length: Length = "neck_length_mm", "neck length", 12.0, 0.0..=600.0;
    }
}

/// A hole saw on its arbor.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct HoleSaw {
    /// Its own figures.
    pub size: HoleSawSize,
    /// The diameter that it truly cuts, once it has been measured.
    pub cutting: Option<Length>,
    /// What its teeth are made of.
    pub tooth: ToothMaterial,
    /// What holds it.
    pub arbor: Arbor,
}

impl HoleSaw {
    /// The diameter to reckon with: the measured one, or the nominal until then.
    pub fn diameter(&self) -> Length {
        self.cutting.unwrap_or(self.size.nominal)
    }
}

group! {
    /// A slitting saw.
    SlittingSaw {
        /// Width of its cut.
        width: Length = "width_mm", "saw width", 1.6, 0.1..=10.0;
        /// Its diameter.
        diameter: Length = "diameter_mm", "saw diameter", 80.0, 10.0..=400.0;
        /// Diameter of the collars that hold it.
        collar: Length = "collar_mm", "collar diameter", 35.0, 3.0..=200.0;
        /// How far collar and nut stand out on either side of it.
        flange: Length = "flange_mm", "collar thickness", 8.0, 0.0..=100.0;
        /// Diameter of the arbor between its collar and the holder.
        arbor: Length = "arbor_mm", "arbor diameter", 22.0, 2.0..=100.0;
        /// From the holder's face to the saw.
        reach: Length = "reach_mm", "arbor reach", 60.0, 0.0..=600.0;
        /// How many teeth.
        teeth: Count = "teeth", "teeth", 40.0, 1.0..=400.0;
    }
}

group! {
    /// An end mill.
    EndMill {
        /// Its diameter.
        diameter: Length = "diameter_mm", "end mill diameter", 12.0, 1.0..=60.0;
        /// Length of its cutting edges.
        flute: Length = "flute_mm", "flute length", 26.0, 1.0..=200.0;
        /// How many edges.
        teeth: Count = "teeth", "teeth", 4.0, 1.0..=20.0;
        /// From the holder's face to its tip.
        reach: Length = "reach_mm", "end mill reach", 45.0, 1.0..=300.0;
    }
}
