//! From a plan to sheets: lines, dimensions and lettering in millimetres, true to scale.
//!
//! Every drawing is a pure function of the plan and of the room it is laid out for. ISO 128 lines, ISO 129-1 dimensions:
//! lengths without a unit, all lettering level. A figure that finds no free place in a small room is left out; the lists
//! beside the drawing have them all.

mod along_spindle;
mod area;
mod as_found;
mod canvas;
mod clamp_figures;
mod clamp_handles;
mod clamp_plane;
mod dimension;
mod dropouts;
mod filled_within;
mod fixture_tilt;
mod frame_part;
mod gaps;
mod hull;
mod material;
mod neighbours;
mod profile;
mod pull;
mod roll_handle;
mod room_strip;
pub mod scene;
mod sheet;
mod side_parts;
mod side_view;
mod solid;
pub mod svg;
mod tube;
mod view;
mod way_in;

pub use along_spindle::along_spindle;
pub use as_found::{Differs, as_found};
pub use clamp_plane::{clamp_plane, clamp_plane_with_gaps};
pub use fixture_tilt::{OnMachine, fixture_tilt};
pub use frame_part::FramePart;
pub use gaps::GapLine;
pub use material::Material;
pub use profile::profile;
pub use pull::Pull;
pub use room_strip::{Strip, room_strip};
pub use sheet::{Anchor, Handle, Mark, Pen, Point, Shape, Sheet, Status, Viewport};
pub use side_view::{side_view, side_view_with_gaps};
pub use way_in::{Body, Part, WayIn, way_in};
