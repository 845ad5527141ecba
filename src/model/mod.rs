//! What a person enters: the frame, its stays, the fixture, and the limits of each figure.
//!
//! Everything here is in the trade's words and knows no trigonometry. A [`Job`] is plain data;
//! [`Job::faults`] says whatever is wrong with it, all at once.

mod bends;
mod butts;
mod check;
mod derived;
mod dropout;
mod dropout_tabs;
mod dropouts;
mod end;
mod fault;
mod fixture;
mod frame;
mod group;
mod inline_vec;
mod job;
mod level;
mod location;
mod ovals;
mod pad;
mod pair_name;
mod read;
mod read_dropouts;
mod reader;
mod rejected_value;
mod repeated;
pub mod shop;
mod side;
mod sources;
mod starters;
mod starting_dropouts;
mod surroundings;
mod tube;
mod tubes;
mod wheel;
mod words;
mod write;

pub(crate) use bends::MOST_BENDS;
pub use bends::{Bend, Bends, SolveFor};
pub use butts::{Butt, Butts};
pub use dropout::{
    Dropout, DropoutBody, DropoutKind, PlateDropout, RoundDropout, SocketDropout, TabPoint, Tabbed,
};
pub use dropout_tabs::{PlateTab, Plug, Socket};
pub use dropouts::{Derived, Dropouts, Entered};
pub use end::{Boss, Cope, End, EndKind, Member, Slot};
pub use fault::{
    Against, EndMisfit, Fault, FileKind, LongList, LongText, NamedFigure, Relation, Wanted, Wrong,
};
pub use fixture::{Fixture, FixtureDatum, TouchSide};
pub use frame::Frame;
pub use group::{Group, Spec};
pub use inline_vec::InlineVec;
pub use job::{Job, PairOfStays, SeatstayNode, Touch};
pub use level::Level;
pub use location::{Location, Stays};
pub use ovals::{Ovals, Press};
pub use pad::BrakeMountFlat;
pub use pair_name::PairName;
pub use reader::json_number;
pub(crate) use reader::no_json;
pub use rejected_value::RejectedValue;
pub(crate) use repeated::repeated_keys;
pub use side::{FrontPoint, Hand, RearPoint, Side};
pub use sources::{Basis, SOURCES, Sourced, basis};
pub use starters::{Starter, starters, starting_job};
pub use starting_dropouts::starting_dropouts;
pub use surroundings::{Columns, Crank, Limits, Ring, Rotor, Sprocket, Surroundings};
pub use tube::Tube;
pub use tubes::starting_tubes;
pub use wheel::Wheel;
pub use words::{BOTH_HANDS, capital, place_name};
