//! Questions and answers as files of an open format.

mod check;

pub use check::{check_json, worked_json};
