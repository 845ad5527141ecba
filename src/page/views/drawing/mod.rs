//! Drawings: a sheet of the library as it is seen and touched.

mod handle;
mod mark;
mod scale;
mod sheet_view;

pub use scale::px;
pub use sheet_view::{sheet_asked, sheet_beside, sheet_view};
