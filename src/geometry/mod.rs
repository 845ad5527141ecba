//! Pure mathematics in space: lines, cylinders, surfaces of revolution, where they meet and how near they come.
//!
//! Knows no trade. Lengths are plain numbers of one unit, angles are radians, directions have length 1. Every type but
//! [`Solid`] is generic over [`crate::quantity::Real`]; which branch is taken depends on values alone.

mod approach;
mod chord;
mod circle;
mod cylinder;
mod edge;
mod generators;
mod line;
mod outline;
mod room;
mod simplex;
mod solid;

pub use approach::Approach;
pub use circle::Node;
pub use cylinder::Cylinder;
pub use edge::{Edge, Gap, Meeting, stations};
pub use generators::{Generators, Keep};
pub use line::{Line, Nearest};
pub use outline::{Outline, Piece};
pub use room::{Spindle, room};
pub use solid::{Block, Rod, Solid};
