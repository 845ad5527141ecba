//! Sheets for the screen and for other programs: SVG, whose classes the page's styles know.

mod drawn;
mod scale;
mod text;

pub use drawn::{Drawn, drawn};
pub use scale::{EDGE, Scale, px};
pub use text::{escaped, svg};
