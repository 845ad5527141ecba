//! Staywright's library: from a bicycle's rear end to every figure for cutting its stays on a mill.
//!
//! A [`model::Job`] is what a person enters; [`plan::Plan`] is all that follows from it, and [`placement::plan`] the way there.
//! Layers, lowest first: [`units`], [`geometry`], [`model`], [`plan`], [`clearance`], [`placement`], [`machining`],
//! [`procedure`], then [`tolerance`], [`findings`] (everything that is wrong, in one list), [`text`] (the only room with
//! sentences), [`drawing`] and [`link`], and [`ask`] above them all.

pub mod ask;
pub mod clearance;
pub mod drawing;
pub mod files;
pub mod findings;
pub mod geometry;
pub mod link;
pub mod machining;
pub mod manual;
pub mod model;
pub mod placement;
pub mod plan;
pub mod procedure;
pub mod text;
pub mod tolerance;
pub mod units;
