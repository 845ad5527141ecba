//! The place for the builder's saws, mill and fixture.

use crate::browser::hosted::Hosted;
use crate::views::{corrections, fixture_box, shop_box};
use leptos::prelude::*;

/// The place.
#[component]
pub fn Shop() -> impl IntoView {
    let make = || vec![shop_box::shop_box(), fixture_box::fixture_box(), corrections::corrections()];
    view! { <Hosted class="entry stack" make /> }
}
