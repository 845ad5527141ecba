//! Everything that is wrong or to be looked at, in one list: made once by the room that knows it, read by every surface.
//!
//! A room has an enum of its own whose variants carry typed figures. A [`Finding`] says how grave it is and where it belongs;
//! the room `text` makes the sentence.

pub use crate::model::{Level, Location};
