//! How far an error carries, and what the finished stays say.
mod carry;
mod chance;
mod distribution;
mod hold;
mod sample;

pub use carry::{Budget, Input, Linear, Model, Share, budget, slopes};
pub use chance::{chi_square_above, normal_below, normal_between};
pub use distribution::{Distribution, WORST_OF_NORMAL};
pub use hold::{COVERAGE, Hold, hold};
pub use sample::{Sample, sample};
