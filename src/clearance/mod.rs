//! Clearance: from each stay to everything that turns or stands beside it, and what can be done where it is too little.
//!
//! Not part of the plan: it is asked for by those who want to know.

mod dimple;
mod gaps;
mod neighbour;
mod stay_body;
mod ways;
mod wheel;

pub use dimple::{CAUTION, Dimple, dimple};
pub use gaps::{Gap, StayRoom, neighbours, rooms, strip};
pub use neighbour::{Beside, Body, Neighbour};
pub use ways::{figure_for_room, widest_tyre};
pub use wheel::{pitch_diameter, tip_diameter};

// What the search for a placement goes by.
pub(crate) use gaps::all_about;
pub(crate) use neighbour::{beside, columns};
