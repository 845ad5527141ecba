//! Codes and typed figures in, sentences out: the only room with sentences.
//!
//! One file per room that has something to say. A function takes a typed thing and a [`Style`] and matches exhaustively, so that
//! a new variant without a sentence does not compile.

pub mod bench;
pub mod clearance;
pub mod entry;
mod fault;
mod finding;
mod location;
pub mod machining;
pub mod measure;
mod plan;
pub mod procedure;
mod style;
pub mod tolerance;

pub use fault::{fault, fault_message};
pub use finding::{basis, finding, finding_message};
pub use location::location;
pub use plan::{problem as plan_problem, warning as plan_warning};
pub use style::{English, Style};
