//! The place for what is measured on the finished stays.

use crate::browser::hosted::Hosted;
use crate::views::check_parts::check_parts;
use leptos::prelude::*;

/// The place.
#[component]
pub fn Check() -> impl IntoView {
    view! { <Hosted class="entry stack" make=check_parts /> }
}
