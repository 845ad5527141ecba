//! From a job to everything that follows from it.
//!
//! The only place where the trade's words meet the geometry. All steps are generic over the number type
//! ([`crate::units::Real`]), so that dual numbers can carry derivatives from any entered figure to any result.

mod at;
mod axes;
mod bed;
mod bent;
mod bent_stay;
mod body;
mod clamp;
mod cut;
mod fit;
mod lay;
mod lie;
mod member;
mod notices;
mod pair;
mod placed;
mod posts;
mod profile;
mod result;
pub mod room;
mod setting;
mod slot;
mod solve;
mod stay;
mod tips;
mod trial;
mod warn;

pub use at::CutAt;
pub use bent::{BendPlace, BentStay, RawTube};
pub use body::{stay_line, stay_surface};
pub use clamp::ClampFrame;
pub use lay::stay_outline;
pub use lie::{Lie, lie, lie_at};
pub use placed::{Placed, as_laid};
pub use result::{
    Contact, Cut, EndUp, Pair, Pairs, PhiRange, Plan, Post, ProfilePoint, RoundCut, Setting, SlotCut,
    SlotFace, SquareCut, Stay, Warning,
};
pub use setting::{TableWays, table_ways};
pub use solve::{faults, plan, plan_json, plan_placed, solve};
pub use trial::{Trial, try_cutter};
pub use warn::Code;
