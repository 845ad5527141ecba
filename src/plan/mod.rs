//! From a job to everything that follows from it.
//!
//! The only place where the trade's words meet the geometry. All steps are generic over the number type
//! ([`crate::units::Real`]), so that dual numbers can carry derivatives from any entered figure to any result. Where bent tubes lie
//! comes in as data ([`Placements`]); the search for it is `placement`'s.

mod at;
mod axes;
mod bed;
mod bent;
mod bent_stay;
mod body;
mod clamp;
mod coordinates;
mod cut;
mod dropouts;
mod dropouts_plan;
mod fit;
mod held;
mod hub;
mod landing;
mod landing_place;
mod lay;
mod member;
mod notices;
mod pair;
mod placements;
mod pose;
mod posts;
mod problem;
mod profile;
mod resolved;
mod result;
mod setting;
mod slot;
mod solve;
mod stay;
mod stay_geometry;
mod tips;
mod trial;
mod tube_surface;
mod which;

pub use at::CutAt;
pub use bent::{BendPlace, BentStay, RawTube};
pub use body::{stay_line, stay_surface};
pub use clamp::ClampFrame;
pub use dropouts_plan::{DropoutPlan, DropoutsPlan, TabPlan};
pub use fit::seats;
pub use landing::{landing, with_landings};
pub use landing_place::Landing;
pub use placements::{BestPlacement, Placement, Placements, as_placed};
pub use pose::{StayPose, stay_pose, stay_pose_at};
pub use problem::{Code, Mate, OutOfRange, Problem, SectionChange, Warning};
pub use result::{
    Contact, Cut, EndUp, Pair, Pairs, PhiRange, Plan, Post, ProfilePoint, RoundCut, Setting, SlotCut,
    SlotFace, SquareCut, Stay,
};
pub use setting::{TableWays, table_ways};
pub use solve::{faults, plan_placed, solve_placed};
pub use trial::{Trial, try_cutter};
pub use tube_surface::stay_outline;

// What the rooms above lay out and measure stays with.
pub(crate) use axes::Axes;
pub(crate) use bed::{Bed, entered, turns as bed_turns};
pub(crate) use body::{beyond_centre, stays_apart};
pub(crate) use coordinates::coordinates;
pub(crate) use held::{held_face, hub_face};
pub(crate) use lay::lay;
pub(crate) use member::Round;
pub(crate) use resolved::resolved;
pub(crate) use stay_geometry::StayGeometry;
pub(crate) use tips::{Tips, reach, reach_of, tips};
pub(crate) use which::Which;
