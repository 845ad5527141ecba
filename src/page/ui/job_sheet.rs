//! The job as a whole: its name and notes, other jobs, passing it on.

use crate::browser::hosted::Hosted;
use crate::views::{job_text, link_box, start_box};
use leptos::prelude::*;

/// What stands in the sheet.
#[component]
pub fn JobSheet() -> impl IntoView {
    view! { <Hosted class="job-sheet" make=|| vec![job_text::job_text(), start_box::start_box(), link_box::link_box()] /> }
}
