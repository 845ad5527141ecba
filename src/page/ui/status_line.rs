//! The worst that was found, in a line; the whole list unfolds from it.

use crate::session::Session;
use leptos::prelude::*;
use staywright::findings::{Finding, Level};
use staywright::model::capital;
use staywright::text;

/// The line.
#[component]
pub fn StatusLine() -> impl IntoView {
    let session = Session::here();
    let open = RwSignal::new(false);
    let list = session.findings.list;
    let worst = Memo::new(move |_| list.with(|list| list.iter().map(|one| one.level).max()));
    let pending = move || session.findings.answered.is_behind();
    let class = move || match worst.get() {
        Some(Level::Stop) => "status stop",
        Some(Level::Check) => "status look",
        _ if pending() => "status",
        _ => "status well",
    };
    let words = move || {
        let style = session.settings.style();
        list.with(|list| match list.first() {
            Some(first) if first.is_warning() => capital(&text::finding(first, style)),
            _ if pending() => "Working out clearances …".to_owned(),
            _ => "Nothing in the way".to_owned(),
        })
    };
    let count = move || match list.with(Vec::len) {
        0 => String::new(),
        count => count.to_string(),
    };
    let rows = move || open.get().then(|| view! { <FindingList close=open /> });
    view! {
        <section class=class aria-label="Status">
            {rows}
            <button
                type="button"
                class="status-button"
                aria-expanded=move || open.get().to_string()
                on:click=move |_| open.update(|open| *open = !*open)
            >
                <span class="status-sign" aria-hidden="true"></span>
                <span class="status-words" role="status">{words}</span>
                <span class="status-count">{count}</span>
            </button>
        </section>
    }
}

/// All findings, the gravest first; each leads to its place.
#[component]
fn FindingList(close: RwSignal<bool>) -> impl IntoView {
    let session = Session::here();
    let row = move |finding: Finding| {
        let words = capital(&text::finding(&finding, session.settings.style()));
        let level = finding.level.key();
        let show = move |_| {
            close.set(false);
            session.show_finding(&finding);
        };
        view! {
            <li class=format!("finding {level}")>
                <button type="button" on:click=show>
                    <span class="finding-level">{level}</span>
                    <span>{words}</span>
                </button>
            </li>
        }
    };
    let rows = move || session.findings.list.get().into_iter().map(row).collect_view();
    view! { <ol class="findings" aria-label="Findings">{rows}</ol> }
}
