//! How far an error carries, and what the finished stays say.
mod as_cut;
mod carry;
mod chance;
mod distribution;
mod errors;
mod fit;
mod hold;
mod outcome;
mod place;
mod rear_end;
mod sample;
mod set_up;
mod setting;
mod stand;

pub use carry::{Budget, Input, Linear, Model, Share, budget, slopes};
pub use chance::{chi_square_above, normal_below, normal_between};
pub use distribution::{Distribution, WORST_OF_NORMAL};
pub use hold::{COVERAGE, Hold, hold};
pub use outcome::{Limit, Outcome, What};
pub use place::{Kind, Place};
pub use rear_end::{Carried, RearEnd};
pub use sample::{Sample, sample};
pub use setting::Setting;
