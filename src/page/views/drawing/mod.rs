//! Drawings: a sheet of the library as it is seen and touched.

mod handle;
mod sheet_view;

pub use sheet_view::{Tall, sheet_asked, sheet_beside, sheet_view};
