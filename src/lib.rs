//! Staywright's library: from a bicycle's rear end to every figure for cutting its stays on a mill.
//!
//! A [`trade::Job`] is what a person enters; [`plan::Plan`] is all that follows from it.
//! Layers, lowest first: [`quantity`], [`geometry`], [`trade`], [`plan`], [`machining`], [`work`], then [`check`],
//! [`drawing`], [`export`] and [`link`], and [`ask`] above them all.

pub mod ask;
pub mod check;
pub mod drawing;
pub mod export;
pub mod geometry;
pub mod link;
pub mod machining;
pub mod plan;
pub mod quantity;
pub mod trade;
pub mod work;
