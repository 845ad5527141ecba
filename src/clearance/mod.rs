//! Clearance: from each stay to everything that turns or stands beside it, and what can be done where it is too little.
//!
//! Not part of the plan: it is asked for by those who want to know.

mod clearances;
mod dimple;
mod obstacle;
mod stay_body;
mod ways;
mod wheel;

pub use clearances::{Clearance, StayClearances, clearances, clearances_along, obstacles};
pub use dimple::{CAUTION, Dimple, dimple};
pub use obstacle::{Obstacle, ObstacleSolid, PlacedObstacle};
pub use ways::{figure_for_room, widest_tyre};
pub use wheel::{pitch_diameter, tip_diameter};

// What the search for a placement goes by.
pub(crate) use clearances::surroundings_of;
pub(crate) use obstacle::{obstacles_beside, post_columns};
