//! The sheet of one figure: what it is, what it may be, and a large field for it. It never covers the drawing.

use super::step_button::StepButton;
use crate::browser::focus;
use crate::session::Session;
use crate::session::figure_entry::FigureEntry;
use leptos::prelude::*;
use staywright::model::capital;
use staywright::text::entry::unit_sign;
use staywright::units::LengthUnit;

/// The sheet of the figure at `path`; nothing where the job has none.
#[component]
pub fn FigureSheet(
    /// The figure's path.
    path: String,
    /// Where it stands among others that are asked for.
    #[prop(optional)]
    count: String,
    /// Goes on to the next one; left out, that is the next row on screen.
    #[prop(optional)]
    next: Option<Callback<()>>,
) -> impl IntoView {
    let session = Session::here();
    let entry = FigureEntry::new(&path);
    let below = Callback::new(move |()| match focus::next_figure(&path) {
        Some(next) => session.open_figure(&next),
        None => session.close_panel(),
    });
    entry.map(|entry| view! { <OpenFigure entry count next=next.unwrap_or(below) /> })
}

#[component]
fn OpenFigure(entry: FigureEntry, count: String, next: Callback<()>) -> impl IntoView {
    let session = Session::here();
    let shown = Memo::new(move |_| entry.shown());
    let name = capital(entry.spec.name);
    let next = move || {
        entry.close();
        next.run(());
    };
    let done = move |_| {
        entry.close();
        session.close_panel();
    };
    let keys = move |event: leptos::ev::KeyboardEvent| match event.key().as_str() {
        "Enter" => {
            event.prevent_default();
            next();
        }
        "Escape" => done(()),
        key => {
            if entry.take_key(key) {
                event.prevent_default();
            }
        }
    };
    let title = StoredValue::new(format!("sheet-{}", entry.spec.key));
    view! {
        <section class="sheet figure-sheet" role="dialog" aria-labelledby=title.get_value() on:keydown=keys>
            <div class="sheet-top">
                <h2 id=title.get_value()>{name.clone()}</h2>
                <span class="quiet">{count}</span>
                <button type="button" on:click=move |_| done(())>"Done"</button>
            </div>
            <p class="sheet-meaning">{entry.spec.meaning.trim_start()}" "<span class="sheet-range">{move || entry.range()}</span></p>
            <Entry entry shown name />
            <div class="sheet-foot">
                <p class="understood" id="figure-note" aria-live="polite">{move || shown.get().note}</p>
                <p class="fault" id="figure-fault" aria-live="polite">{move || shown.get().fault}</p>
                <button type="button" class="main" on:click=move |_| next()>"Next"</button>
            </div>
        </section>
    }
}

/// Less, the field, more.
#[component]
fn Entry(
    entry: FigureEntry,
    shown: Memo<crate::session::figure_entry::Shown>,
    name: String,
) -> impl IntoView {
    let field = NodeRef::new();
    focus::into_field(field, entry.path());
    let keypad = move || if entry.unit() == LengthUnit::Inch { "text" } else { "decimal" };
    let sign = entry.has_sign().then(|| {
        view! {
            <button type="button" class="step sign" aria-label=format!("change sign of {name}") on:click=move |_| entry.turn_sign()>"±"</button>
        }
    });
    view! {
        <div class="sheet-entry">
            <StepButton label=format!("less {name}") sign="−" act=move || entry.step(-1.0) />
            <div class="field-text">
                <input
                    id="figure-field"
                    type="text"
                    autocomplete="off"
                    spellcheck="false"
                    enterkeyhint="next"
                    node_ref=field
                    inputmode=keypad
                    aria-label=name.clone()
                    aria-describedby="figure-note figure-fault"
                    aria-invalid=move || shown.get().fault.is_some().then_some("true")
                    data-typing=move || entry.typing.get().then_some("")
                    prop:value=move || shown.get().text
                    on:input=move |event| entry.type_in(event_target_value(&event))
                    on:blur=move |_| entry.close()
                />
                <span class="unit" aria-hidden="true">{move || unit_sign(entry.spec, entry.unit()).to_owned()}</span>
            </div>
            {sign}
            <StepButton label=format!("more {name}") sign="+" act=move || entry.step(1.0) />
        </div>
    }
}
