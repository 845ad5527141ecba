//! The cut itself, on the builder's own machine: which saw, how fast, whether it reaches, what it would run into, how
//! stiff it stands.
//!
//! Everything here follows from a plan and a shop. Places are in fixture components `(u, v, w)` from the front datum.

mod choice;
mod placed;
mod published;
mod slot;
mod speed;

pub use choice::{Candidate, Shift, Verdict, candidates};
pub use placed::{Placed, cutter_axis, stub_extent, ways};
pub use published::{CARBIDE, PublishedSpeed, feed_per_tooth, published_speed};
pub use slot::{SlotPasses, slot_passes};
pub use speed::{Cutter, Running, Tool, feed, nearest_not_above, rim_speed, running, slowest, spindle_speed};
