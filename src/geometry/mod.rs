//! Pure mathematics in space: lines, arcs, cylinders, surfaces of revolution, where they meet and how near they come.
//!
//! Knows no trade. Lengths are plain numbers of one unit, angles are radians, directions have length 1. Every type but
//! [`Convex`] and [`Drum`] is generic over [`crate::units::Real`]; which branch is taken depends on values alone.

mod approach;
mod centreline;
mod chord;
mod circle;
mod cones;
mod convex;
mod cylinder;
mod drum;
mod edge;
mod generators;
mod line;
mod nearby;
mod outline;
mod oval;
mod ovals;
mod parts;
mod pipe;
mod pipes;
mod section;
mod simplex;
mod solid;

pub use approach::Approach;
pub use centreline::{Centreline, Frame, Stretch, Turn};
pub use circle::Node;
pub use convex::{Convex, ConvexBlock, ConvexRod};
pub use cylinder::Cylinder;
pub use drum::{Drum, Part};
pub use edge::{Edge, Gap, Meeting, stations};
pub use generators::{Generators, Keep};
pub use line::{Line, Nearest};
pub use nearby::{Asked, near_at, near_below};
pub use outline::{Outline, Piece};
pub use oval::{Oval, OvalStretch, perimeter};
pub use ovals::sections_apart;
pub use pipe::{Closest, Pipe, SURE, gap, gap_at, gap_below};
pub use pipes::gap_between;
pub use solid::{Block, HalfSpace, Near, Rod, Solid, Turned};
