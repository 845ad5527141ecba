//! The place for the frame, its wheel, and the job as a whole.

use super::drawing::{SheetView, drawing};
use super::figures::Figures;
use super::job_text::JobText;
use super::link_box::LinkBox;
use super::start_box::StartBox;
use super::warnings::Warnings;
use crate::session::Session;
use crate::session::place::Place;
use leptos::prelude::*;
use staywright::drawing::side_view;

/// The place.
#[component]
pub fn FramePlace() -> impl IntoView {
    let follow = Session::here().follow;
    let frame = Signal::derive(move || follow.paths("frame"));
    let wheel = Signal::derive(move || follow.paths("wheel"));
    view! {
        <h1 class="hidden">"Frame"</h1>
        <div class="entry">
            <Warnings place=Place::Frame />
            <JobText />
            <StartBox />
            <Figures title="Frame" paths=frame />
            <Figures title="Wheel" paths=wheel />
            <LinkBox />
        </div>
        <div class="view">
            <super::stale::Stale />
            <SheetView draw=drawing(move |room| follow.plan.with(|plan| side_view(plan, room))) />
        </div>
    }
}
