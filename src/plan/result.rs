//! The plan: every figure that follows from a job, under the names that outside programs may rely on.
//!
//! A figure that does not exist (two parallel axes have no nearest station) is `None`, written `null`.

use super::bent::{BentStay, RawTube};
use super::clamp::ClampFrame;
use super::coordinates::{components, coordinates};
use super::dropouts_plan::DropoutsPlan;
use super::landing_place::Landing;
use super::problem::Warning;
use crate::model::{EndKind, Hand, Job, PairName};
use crate::units::{Angle, Length, Real};
use nalgebra::{Point3, Vector3};
use serde::Serialize;

/// Everything that follows from a job.
#[derive(Clone, Debug)]
pub struct Plan<T: nalgebra::Scalar + Copy = f64> {
    /// Version of the plan's keys.
    pub format: u32,
    /// The two pairs of stays.
    pub pairs: Pairs<T>,
    /// What follows from the job's dropouts; `None` where it has none.
    pub dropouts: Option<DropoutsPlan<T>>,
    /// What the builder should know before cutting.
    pub warnings: Vec<Warning>,
    /// The wheel axle's centre in frame axes, mm.
    pub axle: Point3<T>,
    /// The foot of the shell centre on the seat-tube axis, mm.
    pub seat_tube_foot: Point3<T>,
    /// The seat tube's direction, upwards, length 1.
    pub seat_tube_direction: Vector3<T>,
    /// The job that the plan follows from.
    pub job: Job<T>,
}

/// The two pairs of stays.
#[derive(Clone, Debug, Serialize)]
pub struct Pairs<T: nalgebra::Scalar + Copy = f64> {
    /// From shell to axle.
    pub chainstays: Pair<T>,
    /// From seat tube to axle.
    pub seatstays: Pair<T>,
}

impl<T: nalgebra::Scalar + Copy> Plan<T> {
    /// The pair of that name.
    pub const fn pair(&self, name: PairName) -> &Pair<T> {
        match name {
            PairName::Chainstays => &self.pairs.chainstays,
            PairName::Seatstays => &self.pairs.seatstays,
        }
    }
}

/// One pair in its fixture. Where the sides do not share a clamp frame the pair's figures are the right side's.
#[derive(Clone, Debug, Serialize)]
pub struct Pair<T: nalgebra::Scalar + Copy = f64> {
    /// Where the dummy axle sits along the fixture, from the front datum line.
    #[serde(rename = "slide_mm")]
    pub slide: Length<T>,
    /// How far the dummy axle sits above the stay plane.
    #[serde(rename = "axle_height_mm")]
    pub axle_height: Length<T>,
    /// Whether both stays lie in one clamp frame and can be cut together.
    pub one_plane: bool,
    /// One entry a clamp post.
    pub posts: Vec<Post<T>>,
    /// What the saw must reach through to cut both front ends in one pass.
    #[serde(rename = "front_saw_depth_mm")]
    pub front_saw_depth: Option<Length<T>>,
    /// The same at the rear ends.
    #[serde(rename = "rear_saw_depth_mm")]
    pub rear_saw_depth: Option<Length<T>>,
    /// Smallest room between the two tubes' outer surfaces; negative where they run into each other.
    #[serde(rename = "room_between_mm")]
    pub room_between: Length<T>,
    /// The drive-side stay.
    pub right: Stay<T>,
    /// The other stay.
    pub left: Stay<T>,
}

impl<T: nalgebra::Scalar + Copy> Pair<T> {
    /// The stay on that side.
    pub const fn stay(&self, hand: Hand) -> &Stay<T> {
        match hand {
            Hand::Right => &self.right,
            Hand::Left => &self.left,
        }
    }
}

/// What is read at one clamp post. Distances lie across the fixture, at the post's station.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct Post<T: nalgebra::Scalar + Copy = f64> {
    /// Station from the front datum line.
    #[serde(rename = "u_mm")]
    pub u: Length<T>,
    /// Centre line to the right stay's axis; `None` where the stay does not reach the post.
    #[serde(rename = "right_mm")]
    pub right: Option<Length<T>>,
    /// Centre line to the left stay's axis.
    #[serde(rename = "left_mm")]
    pub left: Option<Length<T>>,
    /// Calipers between the two tubes.
    #[serde(rename = "inside_mm")]
    pub inside: Option<Length<T>>,
    /// Calipers over the two tubes.
    #[serde(rename = "outside_mm")]
    pub outside: Option<Length<T>>,
    /// Whether a jaw of the caliper between the tubes touches a bend: the reading is then that of the straight tube which the
    /// bend leaves, and may be some hundredths of a millimetre off.
    #[serde(skip_serializing_if = "is_false")]
    pub inside_on_bend: bool,
    /// The same of the caliper over the tubes.
    #[serde(skip_serializing_if = "is_false")]
    pub outside_on_bend: bool,
    /// Straight tube before and behind the right stay's crossing; left out for a straight stay.
    #[serde(rename = "right_straight_mm", skip_serializing_if = "Option::is_none")]
    pub right_straight: Option<[Length<T>; 2]>,
    /// The same on the left.
    #[serde(rename = "left_straight_mm", skip_serializing_if = "Option::is_none")]
    pub left_straight: Option<[Length<T>; 2]>,
}

/// One stay.
#[derive(Clone, Debug, Serialize)]
pub struct Stay<T: nalgebra::Scalar + Copy = f64> {
    /// From reference point to reference point.
    #[serde(rename = "length_mm")]
    pub length: Length<T>,
    /// Between the axis and the centre plane, positive when the stay runs outwards to the rear.
    #[serde(rename = "splay_deg")]
    pub splay: Angle<T>,
    /// The front end.
    pub front: Cut<T>,
    /// The rear end.
    pub rear: Cut<T>,
    /// Front long point to rear long point along the stay.
    #[serde(rename = "tip_to_tip_mm")]
    pub tip_to_tip: Option<Length<T>>,
    /// This stay's own dummy-axle place along the fixture.
    #[serde(rename = "slide_mm")]
    pub slide: Length<T>,
    /// This stay's own dummy-axle height.
    #[serde(rename = "axle_height_mm")]
    pub axle_height: Length<T>,
    /// Front reference point, frame axes.
    #[serde(rename = "front_point_mm", serialize_with = "coordinates")]
    pub front_point: Point3<T>,
    /// Rear reference point, frame axes.
    #[serde(rename = "rear_point_mm", serialize_with = "coordinates")]
    pub rear_point: Point3<T>,
    /// What is cut off the raw tube's front end, measured to the front long point.
    #[serde(rename = "front_waste_mm")]
    pub front_waste: Option<Length<T>>,
    /// What is cut off the raw tube's rear end, measured to the rear long point.
    #[serde(rename = "rear_waste_mm")]
    pub rear_waste: Option<Length<T>>,
    /// What lies where on the raw tube; left out for a straight tube with a plain wall.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub raw: Option<RawTube<T>>,
    /// How a bent stay lies; left out for a straight one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bent: Option<BentStay<T>>,
    /// Which side it is on.
    #[serde(skip)]
    pub hand: Hand,
    /// The frame it is clamped in.
    #[serde(skip)]
    pub clamp: ClampFrame<T>,
}

/// One end of a stay.
#[derive(Clone, Debug, Serialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Cut<T: nalgebra::Scalar + Copy = f64> {
    /// A cope onto shell or seat tube.
    Cope(RoundCut<T>),
    /// A cope onto a round dropout.
    Boss(RoundCut<T>),
    /// A slot for a plate.
    Slot(SlotCut<T>),
    /// Square to the axis.
    Square(SquareCut<T>),
}

impl<T: nalgebra::Scalar + Copy> Cut<T> {
    /// Its kind.
    pub const fn kind(&self) -> EndKind {
        match self {
            Self::Cope(_) => EndKind::Cope,
            Self::Boss(_) => EndKind::Boss,
            Self::Slot(_) => EndKind::Slot,
            Self::Square(_) => EndKind::Square,
        }
    }

    /// The figures of a cope or a boss.
    pub const fn round(&self) -> Option<&RoundCut<T>> {
        match self {
            Self::Cope(cut) | Self::Boss(cut) => Some(cut),
            _ => None,
        }
    }

    /// Station of the long point, or of the tube's end where the end is not coped.
    pub fn long_point(&self) -> Option<Length<T>> {
        match self {
            Self::Cope(cut) | Self::Boss(cut) => cut.long_point,
            Self::Slot(cut) => Some(cut.mouth),
            Self::Square(cut) => Some(cut.long_point),
        }
    }

    /// Station where the end sticks out least: a cope's short point, a slot's root.
    pub fn short_point(&self) -> Option<Length<T>> {
        match self {
            Self::Cope(cut) | Self::Boss(cut) => cut.short_point,
            Self::Slot(cut) => Some(cut.root),
            Self::Square(cut) => Some(cut.short_point),
        }
    }
}

impl<T: Real> Cut<T> {
    /// Smallest and largest station of a cut, mm.
    pub(super) fn extent(&self) -> Option<(f64, f64)> {
        let (long, short) = (self.long_point()?.mm().value(), self.short_point()?.mm().value());
        Some((long.min(short), long.max(short)))
    }
}

/// How a round cut meets its stay.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Contact {
    /// Every generator of the outer surface is cut.
    Full,
    /// Some generators pass the cutter by.
    Partial,
    /// The stay's surface only touches the cutter's, at a point.
    Touch,
    /// The stay lies wholly beside the cutter.
    None,
    /// The stay runs parallel to the member: no cut square to anything.
    Parallel,
}

/// A range of directions round the stay, counted upwards; `to` may pass 360°.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PhiRange<T: nalgebra::Scalar + Copy = f64> {
    /// Where it starts.
    #[serde(rename = "from_deg")]
    pub from: Angle<T>,
    /// Where it ends.
    #[serde(rename = "to_deg")]
    pub to: Angle<T>,
}

/// One point of an end's profile.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ProfilePoint<T: nalgebra::Scalar + Copy = f64> {
    /// Direction round the stay.
    #[serde(rename = "phi_deg")]
    pub phi: Angle<T>,
    /// Station along the stay's axis from the front reference point.
    #[serde(rename = "s_mm")]
    pub s: Length<T>,
}

/// A cope onto a round member, and how the machine is set for it.
#[derive(Clone, Debug, Serialize)]
pub struct RoundCut<T: nalgebra::Scalar + Copy = f64> {
    /// Between the stay and the member, 0 to 90°.
    #[serde(rename = "angle_deg")]
    pub angle: Angle<T>,
    /// What `angle` leaves to 90°.
    #[serde(rename = "miter_deg")]
    pub miter: Angle<T>,
    /// Shortest distance between the two axes, signed; where they are parallel, their distance.
    #[serde(rename = "offset_mm")]
    pub offset: Length<T>,
    /// Where along the stay its axis comes nearest to the member's.
    #[serde(rename = "axis_station_mm")]
    pub axis_station: Option<Length<T>>,
    /// The point that sticks out furthest.
    #[serde(rename = "long_point_mm")]
    pub long_point: Option<Length<T>>,
    /// Where round the stay the long point lies.
    #[serde(rename = "long_point_phi_deg")]
    pub long_point_phi: Option<Angle<T>>,
    /// The point that sticks out least.
    #[serde(rename = "short_point_mm")]
    pub short_point: Option<Length<T>>,
    /// Where round the stay the short point lies.
    #[serde(rename = "short_point_phi_deg")]
    pub short_point_phi: Option<Angle<T>>,
    /// How the cutter meets the stay.
    pub contact: Contact,
    /// Where the outer surface passes the cutter by.
    pub misses: Vec<PhiRange<T>>,
    /// The outer edge of the cut, at every whole degree that has one.
    pub outer: Vec<ProfilePoint<T>>,
    /// The inner edge.
    pub bore: Vec<ProfilePoint<T>>,
    /// Diameter of the member.
    #[serde(rename = "member_mm")]
    pub member: Length<T>,
    /// Diameter of the cut.
    #[serde(rename = "cutter_mm")]
    pub cutter: Length<T>,
    /// Largest distance left when the stay is pushed home.
    #[serde(rename = "gap_mm")]
    pub gap: Option<Length<T>>,
    /// How far the stay can be pushed towards the member until it touches.
    #[serde(rename = "push_mm")]
    pub push: Option<Length<T>>,
    /// Extent of the cut along the cutter's axis.
    #[serde(rename = "saw_depth_mm")]
    pub saw_depth: Option<Length<T>>,
    /// How far the stay, pushed home, runs past the nearer end of the member; negative where it stays inside by that much.
    /// `None` for a member whose ends are not known.
    #[serde(rename = "past_end_mm")]
    pub past_end: Option<Length<T>>,
    /// From where to where the outer edge lies along the axis of what it mates to, counted from that axis' own point.
    #[serde(skip)]
    pub footprint: Option<[Length<T>; 2]>,
    /// Where the end lands on what it mates to; empty until [`super::with_landings`] has worked it out.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub landing: Vec<Landing<T>>,
    /// How the machine is set.
    #[serde(flatten)]
    pub setting: Setting<T>,
    /// Whether the saw runs out along the tube's side, leaving an edge thinner than the wall.
    pub feathers: bool,
    /// A point on the member's axis, frame axes.
    #[serde(rename = "axis_point_mm", serialize_with = "coordinates")]
    pub axis_point: Point3<T>,
    /// The member's direction, length 1.
    #[serde(serialize_with = "components")]
    pub axis_direction: Vector3<T>,
}

/// Which end of the fixture goes up, its base face staying down.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum EndUp {
    /// The end of the front datum.
    Front,
    /// The axle's end.
    Rear,
    /// Neither: the fixture lies flat or on its side.
    Level,
    /// The fixture stands upright, so either end will do.
    Either,
}

/// How fixture and mill are set for a round cut.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct Setting<T: nalgebra::Scalar + Copy = f64> {
    /// Between the clamp plane and the spindle, 0 to 90°. A gauge zeroed on a vertical mill's table reads what this
    /// leaves to 90°.
    #[serde(rename = "tilt_deg")]
    pub tilt: Angle<T>,
    /// Turn of the fixture about its own normal; 0 unless the setting is compound.
    #[serde(rename = "swivel_deg")]
    pub swivel: Angle<T>,
    /// Whether the fixture stands on its side, its centre plane square to the spindle.
    pub on_side: bool,
    /// Which end goes up.
    pub end_up: EndUp,
    /// Touched datum to cutter axis, along the table.
    #[serde(rename = "dro_along_mm")]
    pub dro_along: Length<T>,
    /// To the cutter axis in the other table direction, from the block's touched side or from the base face.
    #[serde(rename = "dro_across_mm")]
    pub dro_across: Length<T>,
    /// `dro_along` as read from where the spindle stands at the edge finder's touch.
    #[serde(rename = "along_spindle_mm")]
    pub along_spindle: Length<T>,
    /// `dro_across` as read from where the spindle stands at the edge finder's touch.
    #[serde(rename = "across_spindle_mm")]
    pub across_spindle: Length<T>,
}

/// A slot for a dropout plate. The saw runs parallel to the centre plane.
#[derive(Clone, Debug, Serialize)]
pub struct SlotCut<T: nalgebra::Scalar + Copy = f64> {
    /// Between the saw's plane and the stay's axis, unsigned: the splay, less what the plate splays.
    #[serde(rename = "angle_deg")]
    pub angle: Angle<T>,
    /// Station of the stay's end.
    #[serde(rename = "mouth_s_mm")]
    pub mouth: Length<T>,
    /// Station of the slot's root.
    #[serde(rename = "root_s_mm")]
    pub root: Length<T>,
    /// Thickness of the plate.
    #[serde(rename = "plate_mm")]
    pub plate: Length<T>,
    /// From one face of the slot to the other: the plate and its clearance.
    #[serde(rename = "width_mm")]
    pub width: Length<T>,
    /// Centre plane to the middle of the saw cut, at the rear reference point where the plate splays.
    #[serde(rename = "from_centre_mm")]
    pub from_centre: Length<T>,
    /// The fixture on its side: touched datum to the slot's root, along the table.
    #[serde(rename = "dro_along_mm")]
    pub dro_along: Length<T>,
    /// The same from where the spindle stands at the edge finder's touch.
    #[serde(rename = "along_spindle_mm")]
    pub along_spindle: Length<T>,
    /// Always `true`: the saw's plane is square to the stay plane, so the fixture stands on its side.
    pub on_side: bool,
    /// For a plate that splays: turn of the fixture about its own normal, clockwise as seen from above the stays, after which the
    /// plate lies as the saw does. Distances along are then those of the turned fixture.
    #[serde(rename = "swivel_deg")]
    pub swivel: Angle<T>,
    /// Square to the plate: from the touched datum edge, where it crosses the centre plane, outboard to the middle of the saw cut.
    #[serde(rename = "from_datum_mm")]
    pub from_datum: Length<T>,
    /// The two faces of the slot, inboard first.
    pub faces: [SlotFace<T>; 2],
}

/// Where one face of a slot leaves the tube's outer surface: two directions round the stay at each end of the slot,
/// or `None` where the face passes the tube by.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct SlotFace<T: nalgebra::Scalar + Copy = f64> {
    /// `inboard` or `outboard`.
    pub side: &'static str,
    /// At the mouth.
    #[serde(rename = "mouth_phi_deg")]
    pub mouth_phi: Option<[Angle<T>; 2]>,
    /// At the root.
    #[serde(rename = "root_phi_deg")]
    pub root_phi: Option<[Angle<T>; 2]>,
    /// From the stay's axis to the face at the mouth, across the fixture, positive outboard.
    #[serde(rename = "mouth_across_mm")]
    pub mouth_across: Length<T>,
    /// The same at the root.
    #[serde(rename = "root_across_mm")]
    pub root_across: Length<T>,
}

/// An end cut square to the axis.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct SquareCut<T: nalgebra::Scalar + Copy = f64> {
    /// Station of the cut.
    #[serde(rename = "long_point_mm")]
    pub long_point: Length<T>,
    /// The same: a square end has no long side.
    #[serde(rename = "short_point_mm")]
    pub short_point: Length<T>,
    /// Between the stay and the cut's plane.
    #[serde(rename = "angle_deg")]
    pub angle: Angle<T>,
}

#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde hands over a reference")]
const fn is_false(flag: &bool) -> bool {
    !*flag
}
