//! What the page says once at its top.

use crate::session::Session;
use leptos::prelude::*;

/// The notice, until it is put away.
#[component]
pub fn NoticeBar() -> impl IntoView {
    let session = Session::here();
    let bar = move || {
        session.notice.get().map(|notice| {
            view! {
                <div class="notice" class:bad=notice.bad>
                    <p>{notice.text}</p>
                    <button type="button" on:click=move |_| session.notice.set(None)>"Close"</button>
                </div>
            }
        })
    };
    view! { <div class="notices" role="status">{bar}</div> }
}
