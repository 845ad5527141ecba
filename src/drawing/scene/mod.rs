//! Solids in parallel projection: a plan's parts as closed bodies of facets, painted with hidden surfaces hidden.
//!
//! Bodies go in ([`Solid`], from lofts and plain shapes), a [`Scene`] finds the order of painting once, and paints it at any [`Turn`].
//! Tones are classes of a style, lines are drawn at edges and silhouettes alone.

mod assembly;
mod body;
mod dropout;
mod loft;
mod merge;
mod overlap;
mod painted;
mod part;
mod polygon;

mod rear_end;
mod shapes;
mod solid;
mod stay;
mod svg;
mod tone;
mod tree;
mod turn;

pub use assembly::Scene;
pub use body::SceneBody;
pub use loft::Loft;
pub use merge::Patch;
pub use painted::PaintedFacet;
pub use part::{Material, ScenePart};
pub use rear_end::rear_end;
pub use shapes::{block, pipe, prism, rounded_prism, turned, turned_ring};
pub use solid::{Edge, Facet, Plane, Solid};
pub use svg::{ScenePath, SceneScale};
pub use tone::LIGHTEST;
pub use turn::Turn;
