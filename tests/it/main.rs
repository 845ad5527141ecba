//! Every native test: a module per subject, and `support` for what several of them need.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    reason = "a test may fail"
)]

mod ask;
mod bent_derivatives;
mod bent_file;
mod bent_lay;
mod catalogue;
mod cutters;
mod degenerate;
mod derivatives;
mod distance;
mod drawings;
mod dropouts;
mod equipment;
mod figures;
mod findings;
mod fit;
mod invariance;
mod job_file;
mod landing;
mod layers;
mod link;
mod manual;
mod oval;
mod oval_room;
mod pad;
mod playback;
mod published;
mod reach;
mod reach_bent;

mod room;
mod scene;
mod sentences;
mod shop;
mod slotting;
mod speeds;
mod starting;
mod stiffness;
mod support;
mod taper_clearance;
mod tolerance_bent;
mod tolerance_carry;
mod tolerance_file;
mod tolerance_found;
mod tolerance_model;
mod tolerance_turned;
mod ways;
