//! The top of the page: the job, undo and redo, unit and theme.

use super::choice::Choice;
use crate::browser::address;
use crate::session::{Session, Theme};
use leptos::prelude::*;
use staywright::quantity::LengthUnit;

/// The top of the page.
#[component]
pub fn Header() -> impl IntoView {
    let session = Session::here();
    let settings = session.settings;
    let name = move || {
        session.job().with(|job| if job.name.is_empty() { "Untitled job".into() } else { job.name.clone() })
    };
    let unit = Signal::derive(move || match settings.unit.get() {
        LengthUnit::Millimetre => "mm".to_owned(),
        LengthUnit::Inch => "in".to_owned(),
    });
    let set_unit = move |key: String| {
        settings.unit.set(if key == "in" { LengthUnit::Inch } else { LengthUnit::Millimetre });
    };
    let theme = move |event| {
        let key = event_target_value(&event);
        if let Some(theme) = Theme::ALL.into_iter().find(|theme| theme.key() == key) {
            settings.theme.set(theme);
        }
    };
    let themes = Theme::ALL.map(|theme| {
        view! { <option value=theme.key() selected=move || settings.theme.get() == theme>{theme.name()}</option> }
    });
    view! {
        <header class="top">
            <p class="brand">"Staywright"</p>
            <p class="job-name">{name}</p>
            <div class="tools">
                <button type="button" aria-label="Undo" disabled=move || !session.can_undo() on:click=move |_| address::undo(session)>
                    <span aria-hidden="true">"↶"</span>
                </button>
                <button type="button" aria-label="Redo" disabled=move || !session.can_redo() on:click=move |_| address::redo(session)>
                    <span aria-hidden="true">"↷"</span>
                </button>
                <Choice legend="Unit of lengths" name="unit" options=vec![("mm", "mm"), ("in", "inch")] chosen=unit choose=set_unit />
            </div>
            <label class="theme"><span class="hidden">"Theme"</span><select on:change=theme>{themes}</select></label>
        </header>
    }
}
