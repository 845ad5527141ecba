//! Codes and typed figures in, sentences out: the only room with sentences.
//!
//! One file per room that has something to say. A function takes a typed thing and a [`Style`] and matches exhaustively, so that
//! a new variant without a sentence does not compile.

pub mod bench;
pub mod clearance;
pub mod entry;
pub mod measure;
pub mod procedure;
mod style;
pub mod tolerance;

pub use style::{English, Style};
