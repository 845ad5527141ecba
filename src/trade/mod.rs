//! What a person enters: the frame, its stays, the fixture, and the limits of each figure.
//!
//! Everything here is in the trade's words and knows no trigonometry. A [`Job`] is plain data;
//! [`Job::faults`] says whatever is wrong with it, all at once.

mod check;
mod end;
mod fault;
mod fixture;
mod frame;
mod group;
mod job;
mod pad;
mod read;
mod reader;
pub mod shop;
mod side;
mod starters;
mod tube;
mod wheel;
mod write;

pub use end::{Boss, Cope, End, EndKind, Member, Slot};
pub use fault::Fault;
pub use fixture::{Bench, Fixture, TouchSide};
pub use frame::Frame;
pub use group::{Group, Spec};
pub use job::{Job, PairName, PairOfStays, SeatstayNode, Touch};
pub use pad::BrakePad;
pub use reader::json_number;
pub use side::{FrontPoint, Hand, RearPoint, Side};
pub use starters::{Starter, starters};
pub use tube::Tube;
pub use wheel::Wheel;
