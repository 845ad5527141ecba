//! Clearance: from each stay to everything that turns or stands beside it, and what can be done where it is too little.
//!
//! Not part of the plan: it is asked for by those who want to know.

mod clearances;
mod dimple;
mod figure_for_room;
mod obstacle;
mod stay_body;
mod ways;
mod wheel;
mod widest_tyre;

pub use clearances::{Clearance, StayClearances, clearances, clearances_along, obstacles};
pub use dimple::{CAUTION, Dimple, dimple};
pub use figure_for_room::figure_for_room;
pub use obstacle::{Obstacle, ObstacleSolid, PlacedObstacle};
pub use ways::{Effect, Way, ways};
pub use wheel::{pitch_diameter, tip_diameter};
pub use widest_tyre::widest_tyre;

// What the search for a placement goes by.
pub(crate) use clearances::surroundings_of;
pub(crate) use obstacle::{obstacles_beside, post_columns};
