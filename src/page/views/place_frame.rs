//! The place for the frame, its wheel, and the job as a whole.

use super::around_box::around_box;
use super::drawing::sheet_view;
use super::figures::figures;
use super::job_text::job_text;
use super::layout::drawn_place;
use super::link_box::link_box;
use super::start_box::start_box;
use super::warnings::warnings;
use crate::browser::part::Part;
use crate::session::Session;
use crate::session::place::Place;
use leptos::prelude::*;
use staywright::drawing::side_view_with_gaps;

/// The place.
pub fn frame_place() -> Vec<Part> {
    let session = Session::here();
    let follow = session.follow;
    let entry = move || {
        vec![
            warnings(Place::Frame),
            job_text(),
            start_box(),
            figures("Frame", move || follow.paths("frame")),
            figures("Wheel", move || follow.paths("wheel")),
            around_box(),
            link_box(),
        ]
    };
    let drawing = sheet_view(0.6, true, move |room| {
        let gaps = session.gap_lines(None);
        follow.plan.with(|plan| side_view_with_gaps(plan, &gaps, room))
    });
    drawn_place("Frame", entry, vec![drawing])
}
