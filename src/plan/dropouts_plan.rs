//! What a plan says of its dropouts.

use crate::units::{Angle, Length};
use serde::Serialize;

/// The two dropouts as the stays hold them.
#[derive(Clone, Debug, Serialize)]
pub struct DropoutsPlan<T: nalgebra::Scalar + Copy = f64> {
    /// The drive side's.
    pub right: DropoutPlan<T>,
    /// The other side's.
    pub left: DropoutPlan<T>,
    /// Between the faces that hold the hub, as the chainstays place them, less the hub's width.
    #[serde(rename = "spacing_over_hub_mm")]
    pub spacing_over_hub: Length<T>,
    /// From the centre plane to the face that holds the hub on the right, as the right chainstay places it.
    #[serde(rename = "spacer_right_mm")]
    pub spacer_right: Length<T>,
    /// The same on the left.
    #[serde(rename = "spacer_left_mm")]
    pub spacer_left: Length<T>,
}

/// One dropout. Distances lie outboard of the centre plane.
#[derive(Clone, Debug, Serialize)]
pub struct DropoutPlan<T: nalgebra::Scalar + Copy = f64> {
    /// The hub's face.
    #[serde(rename = "hub_face_mm")]
    pub hub_face: Length<T>,
    /// The part's inner face, where it belongs.
    #[serde(rename = "inner_face_mm")]
    pub inner_face: Length<T>,
    /// The middle of the part's thickness or width, where it belongs.
    #[serde(rename = "middle_mm")]
    pub middle: Length<T>,
    /// What follows for the chainstay.
    pub chainstay: TabPlan<T>,
    /// What follows for the seat stay.
    pub seatstay: TabPlan<T>,
    /// From the chainstay up to the seat stay, in side view, each from its rear to its front reference point.
    #[serde(rename = "stays_deg")]
    pub stays: Angle<T>,
    /// At the axle, from the front datum of the chainstays up to that of the seat stays.
    #[serde(rename = "needed_at_axle_deg")]
    pub needed_at_axle: Angle<T>,
    /// By how much the stays stand further apart than the tabs; `None` where no angle between the tabs is entered.
    #[serde(rename = "tabs_difference_deg")]
    pub tabs_difference: Option<Angle<T>>,
    /// Least margin of both stays' outer edges to the ends of a round dropout; negative past one.
    #[serde(rename = "inside_by_mm")]
    pub inside_by: Option<Length<T>>,
    /// Between the two axes that the two stays of a round dropout are cut to.
    #[serde(rename = "round_apart_mm")]
    pub round_apart: Option<Length<T>>,
}

/// What follows from a dropout for one stay.
#[derive(Clone, Debug, Serialize)]
pub struct TabPlan<T: nalgebra::Scalar + Copy = f64> {
    /// Distance of the stay's axis from the centre plane.
    #[serde(rename = "half_spacing_mm")]
    pub half_spacing: Length<T>,
    /// How far the rear reference point lies short of the axle.
    #[serde(rename = "reach_mm")]
    pub reach: Length<T>,
    /// How far it lies above the line from front datum to axle.
    #[serde(rename = "rise_mm")]
    pub rise: Length<T>,
    /// From the stay's direction in side view up to its tab's; `None` for a round dropout.
    #[serde(rename = "tab_off_deg")]
    pub tab_off: Option<Angle<T>>,
    /// Bore at the shoulder less the plug; `None` for other parts.
    #[serde(rename = "plug_clearance_mm")]
    pub plug_clearance: Option<Length<T>>,
    /// Between the axes of plug and stay.
    #[serde(rename = "plug_off_deg")]
    pub plug_off: Option<Angle<T>>,
}
