//! Everything that is wrong or to be looked at, in one list: made once by the room that knows it, read by every surface.
//!
//! A room has an enum of its own whose variants carry typed figures. A [`Finding`] says how grave it is, what it is about and
//! at which steps it matters; the room `text` makes the sentence. [`gather`] makes one list of what the rooms found.

mod clearance;
mod finding;
mod gather;
mod plan;
mod work;

pub use crate::model::{Level, Location};
pub use clearance::{ClearanceFound, of_clearances, of_limits};
pub use finding::{Finding, What};
pub use gather::gather;
pub use plan::{of_faults, of_plan};
pub use work::{of_saws, of_steps};
