//! The manual: what may be entered, what follows from it, and on what evidence. The same pages stand in the repository as text.

#[doc = include_str!("job.md")]
pub mod job {}

#[doc = include_str!("shop.md")]
pub mod shop {}

#[doc = include_str!("plan.md")]
pub mod plan {}

#[doc = include_str!("clearance.md")]
pub mod clearance {}

#[doc = include_str!("tolerance.md")]
pub mod tolerance {}

#[doc = include_str!("evidence.md")]
pub mod evidence {}

#[doc = include_str!("performance.md")]
pub mod performance {}
