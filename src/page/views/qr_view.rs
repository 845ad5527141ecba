//! A link as a QR code.

use crate::session::qr::{QUIET, code};
use leptos::prelude::*;

/// The code, or nothing where the link is too long for one.
#[component]
pub fn QrView(link: String) -> impl IntoView {
    code(&link).map(|code| {
        let side = code.size + 2 * QUIET;
        view! {
            <svg class="qr" viewBox=format!("-{QUIET} -{QUIET} {side} {side}") role="img" aria-label="The job's link as a QR code">
                <rect class="qr-light" x=-QUIET y=-QUIET width=side height=side />
                <path class="qr-dark" d=code.path />
            </svg>
        }
    })
}
