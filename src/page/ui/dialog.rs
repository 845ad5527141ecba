//! What stands open over the foot of the page.

use super::figure_sheet::FigureSheet;
use super::job_sheet::JobSheet;
use super::menu_sheet::MenuSheet;
use super::new_frame::NewFrame;
use crate::browser::{after, focus};
use crate::session::Session;
use crate::session::selection::Panel;
use leptos::prelude::*;

/// The dialog that is open, where one is.
#[component]
pub fn Dialogs() -> impl IntoView {
    let session = Session::here();
    after::follow(move |_| session.close_what_is_gone());
    move || {
        session.panel.get().map(|panel| match panel {
            Panel::Figure(path) => view! { <FigureSheet path /> }.into_any(),
            Panel::NewFrame(at) => view! { <NewFrame at /> }.into_any(),
            Panel::Menu => view! { <Sheet title="Menu"><MenuSheet /></Sheet> }.into_any(),
            Panel::Job => view! { <Sheet title="Job"><JobSheet /></Sheet> }.into_any(),
        })
    }
}

/// A sheet over the foot of the page with its title and a way to close it. What was in focus before is so again afterwards.
#[component]
fn Sheet(title: &'static str, children: Children) -> impl IntoView {
    let session = Session::here();
    let sheet = NodeRef::new();
    focus::into_and_back(sheet);
    let keys = move |event: leptos::ev::KeyboardEvent| {
        if event.key() == "Escape" {
            session.close_panel();
        }
    };
    view! {
        <div class="backdrop" on:click=move |_| session.close_panel()></div>
        <section class="sheet tall" role="dialog" aria-modal="true" aria-label=title tabindex="-1" node_ref=sheet on:keydown=keys>
            <div class="sheet-top">
                <h2>{title}</h2>
                <button type="button" on:click=move |_| session.close_panel()>"Close"</button>
            </div>
            <div class="sheet-body">{children()}</div>
        </section>
    }
}
