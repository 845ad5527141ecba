//! The menu: redo, unit, spelling, theme, printing, help.

use crate::browser::travel;
use crate::session::{Session, Theme};
use leptos::prelude::*;
use staywright::text::English;
use staywright::units::LengthUnit;

/// What stands in the menu.
#[component]
pub fn MenuSheet() -> impl IntoView {
    let session = Session::here();
    let settings = session.settings;
    let units = [("mm", LengthUnit::Millimetre), ("inch", LengthUnit::Inch)];
    let spellings = [("British", English::British), ("American", English::American)];
    let themes = Theme::ALL.map(|theme| (theme.name(), theme));
    let print = move |_| {
        session.close_panel();
        session.want_card();
    };
    view! {
        <div class="menu">
            <button type="button" disabled=move || !session.can_redo() on:click=move |_| travel::redo(session)>
                "Redo"
            </button>
            <Choice legend="Unit of lengths" name="unit" options=units.to_vec() chosen=settings.unit choose=Callback::new(move |unit| session.set_unit(unit)) />
            <Choice legend="Theme" name="theme" options=themes.to_vec() chosen=settings.theme choose=Callback::new(move |theme| settings.theme.set(theme)) />
            <Choice legend="Spelling" name="english" options=spellings.to_vec() chosen=settings.english choose=Callback::new(move |english| settings.english.set(english)) />
            <button type="button" on:click=print>"Print set-up card"</button>
        </div>
    }
}

/// One of a few, as radio buttons in a row.
#[component]
fn Choice<T: Copy + PartialEq + Send + Sync + 'static>(
    legend: &'static str,
    name: &'static str,
    options: Vec<(&'static str, T)>,
    chosen: RwSignal<T>,
    choose: Callback<T>,
) -> impl IntoView {
    let button = move |(word, value): (&'static str, T)| {
        view! {
            <label class="choice-option">
                <input type="radio" name=name prop:checked=move || chosen.get() == value on:change=move |_| choose.run(value) />
                <span>{word}</span>
            </label>
        }
    };
    let buttons = options.into_iter().map(button).collect_view();
    view! {
        <fieldset class="choice">
            <legend>{legend}</legend>
            <div class="choice-row">{buttons}</div>
        </fieldset>
    }
}
