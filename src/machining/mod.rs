//! The cut itself, on the builder's own machine: which saw, how fast, whether it reaches, what it would run into, how
//! stiff it stands.
//!
//! Everything here follows from a plan and a shop, in plain numbers: no derivative is carried on from here. Places are in
//! fixture components `(u, v, w)` from the front datum.

mod advice;
mod bodies;
mod choice;
mod collide;
mod compound;
mod machine_pose;
mod pad;
mod placed;
mod published;
mod seen;
mod slot;
mod slotting;
mod speed;
mod stiffness;
mod stroke;

pub use advice::{Advice, PILOT, advice};
pub use bodies::{Standing, Turning, TurningBody, standing, turning};
pub use choice::{Candidate, Shift, Verdict, candidates};
pub use collide::{Near, nearest};
pub use compound::{Compound, compound};
pub use machine_pose::{MachinePose, MovingPart, SpindleTool};
pub use pad::{PadFace, facing_mill, pad_face};
pub use placed::{Placed, cutter_axis, stub_extent, ways};
pub use published::{CARBIDE, PublishedSpeed, feed_per_tooth, published_speed};
pub use seen::{nearest_points, slot_points, solids};
pub use slot::{SlotPasses, slot_passes};
pub use slotting::{SlotEnd, SlotWay, slot_end, slot_ways};
pub use speed::{Cutter, Running, Tool, feed, nearest_not_above, rim_speed, running, slowest, spindle_speed};
pub use stiffness::{
    Band, CuttingForce, STEEL, Segment, arbor, compliance, cutting_force, deflection, force, specific_force,
    stiffer_by,
};
pub use stroke::{Reach, Stroke, TableRoom, table_room};
