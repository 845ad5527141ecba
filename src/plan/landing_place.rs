//! What a plan says of where an end lands.

use crate::units::{Angle, Length};
use serde::Serialize;

/// Where an end lands on a round member.
///
/// Along: on a member across the bicycle from its right face; on the seat tube from the foot of the shell's middle on its axis. Round:
/// on a member across the bicycle from rearwards, positive upwards; on the seat tube from rearwards, square to it, positive to the
/// drive side. Angles run on past a half turn rather than jump.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct Landing<T: nalgebra::Scalar + Copy = f64> {
    /// Least place of the outer edge along the member.
    #[serde(rename = "along_from_mm")]
    pub along_from: Length<T>,
    /// Its greatest.
    #[serde(rename = "along_to_mm")]
    pub along_to: Length<T>,
    /// The middle between both.
    #[serde(rename = "along_middle_mm")]
    pub along_middle: Length<T>,
    /// Least place of the outer edge round the member.
    #[serde(rename = "round_from_deg")]
    pub round_from: Angle<T>,
    /// Its greatest.
    #[serde(rename = "round_to_deg")]
    pub round_to: Angle<T>,
    /// The middle between both.
    #[serde(rename = "round_middle_deg")]
    pub round_middle: Angle<T>,
    /// Where the stay's axis enters the member, along it; `None` where it passes by.
    #[serde(rename = "axis_along_mm")]
    pub axis_along: Option<Length<T>>,
    /// Where the stay's axis enters the member, round it.
    #[serde(rename = "axis_round_deg")]
    pub axis_round: Option<Angle<T>>,
    /// The vent hole, along the member: the middle of the bore's edge; `None` where that edge is not whole.
    #[serde(rename = "vent_along_mm")]
    pub vent_along: Option<Length<T>>,
    /// The vent hole, round the member, drilled towards its axis.
    #[serde(rename = "vent_round_deg")]
    pub vent_round: Option<Angle<T>>,
    /// The largest vent hole that leaves 2 mm of metal to the bore's edge on the unrolled member; `None` where none does.
    #[serde(rename = "vent_max_mm")]
    pub vent_max: Option<Length<T>>,
}
