//! What clears what: the room from each stay to everything that turns beside it, and what can be done where it is too little.
//!
//! Not part of the plan: it is asked for by those who want to know.

mod best;
mod dimple;
mod gaps;
mod neighbour;
mod stand;
mod trial;
mod ways;
mod wheel;

pub(super) use best::{Found, most_room};
pub use dimple::{CAUTION, Dimple, dimple};
pub use gaps::{Gap, StayRoom, neighbours, rooms, rooms_json, strip};
pub use neighbour::{Beside, Body, Neighbour};
pub use ways::{figure_for_room, widest_tyre};
pub use wheel::{pitch_diameter, tip_diameter};
