//! What a plan says of a bent or butted tube.

use super::coordinates::components;
use crate::geometry::Centreline;
use crate::units::{Angle, Length};
use nalgebra::Vector3;
use serde::Serialize;

/// What lies where on the raw tube, along its middle.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct RawTube<T: nalgebra::Scalar + Copy = f64> {
    /// From the raw tube's front end to the front reference point.
    #[serde(rename = "front_mark_mm")]
    pub front_mark: Length<T>,
    /// From the raw tube's front end to the rear reference point.
    #[serde(rename = "rear_mark_mm")]
    pub rear_mark: Length<T>,
    /// Whether both cuts lie on the raw tube.
    pub long_enough: bool,
    /// Level wall left behind the front long point, up to the first butt station; negative where the cut lies past it,
    /// `None` for a plain wall.
    #[serde(rename = "front_butt_mm")]
    pub front_butt: Option<Length<T>>,
    /// Level wall left before the rear long point, from the last butt station.
    #[serde(rename = "rear_butt_mm")]
    pub rear_butt: Option<Length<T>>,
}

/// How a bent stay lies. Stations run along its middle line from the front reference point.
#[derive(Clone, Debug, Serialize)]
pub struct BentStay<T: nalgebra::Scalar + Copy = f64> {
    /// Station of the raw tube at the front reference point, entered or found.
    #[serde(rename = "front_trim_mm")]
    pub trim: Length<T>,
    /// Turn about the chord, from outboard upwards, entered or found.
    #[serde(rename = "roll_deg")]
    pub roll: Angle<T>,
    /// What is left over the limits at the tightest place, of a mirrored pair on both sides, where the placing was found;
    /// `None` where it was entered.
    #[serde(rename = "spare_mm")]
    pub spare: Option<f64>,
    /// No other placing leaves more by more than this.
    #[serde(rename = "spare_within_mm")]
    pub spare_within: Option<f64>,
    /// Whether the search for the placing came to its end; where it ran out of its budget, `spare_within` says what may be left.
    pub search_complete: Option<bool>,
    /// Straight from reference point to reference point.
    #[serde(rename = "chord_mm")]
    pub chord: Length<T>,
    /// The way the front end runs, rearwards, frame axes, length 1.
    #[serde(serialize_with = "components")]
    pub front_direction: Vector3<T>,
    /// The way the rear end runs, rearwards.
    #[serde(serialize_with = "components")]
    pub rear_direction: Vector3<T>,
    /// Its bends, front to rear; those of angle 0 are left out.
    pub bends: Vec<BendPlace<T>>,
    /// Its middle line, frame axes.
    #[serde(skip)]
    pub line: Centreline<T>,
}

/// Where a bend lies.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct BendPlace<T: nalgebra::Scalar + Copy = f64> {
    /// Station where it begins.
    #[serde(rename = "from_mm")]
    pub from: Length<T>,
    /// Station of its apex, half way round.
    #[serde(rename = "apex_mm")]
    pub apex: Length<T>,
    /// Station where it ends.
    #[serde(rename = "to_mm")]
    pub to: Length<T>,
    /// Its apex along the fixture, from the front datum line.
    #[serde(rename = "along_mm")]
    pub along: Length<T>,
    /// Its apex above the clamp plane.
    #[serde(rename = "from_plane_mm")]
    pub from_plane: Length<T>,
    /// Its apex from the centre line, positive on the stay's own side.
    #[serde(rename = "from_centre_mm")]
    pub from_centre: Length<T>,
}
