//! The field of one figure: a text that is read as it is typed, with buttons to step it.

use super::ids::id;
use super::step_button::StepButton;
use crate::session::entry::{stepped, understand, unit_sign, written};
use crate::session::{Faulty, Session};
use leptos::prelude::*;
use staywright::quantity::LengthUnit;

/// What is being typed, and the number it stands for.
#[derive(Clone, PartialEq)]
struct Draft {
    text: String,
    value: f64,
    note: Option<String>,
}

/// The figure at a path, as the rest of its field needs it.
#[derive(Clone, Copy)]
struct Entry {
    session: Session,
    path: StoredValue<String>,
    figure: Memo<Option<crate::session::Figure>>,
    draft: RwSignal<Option<Draft>>,
    typing: RwSignal<bool>,
}

impl Entry {
    fn new(path: String) -> Self {
        let session = Session::here();
        let path = StoredValue::new(path);
        let figure = Memo::new(move |_| path.with_value(|path| session.follow.figure(path)));
        Self { session, path, figure, draft: RwSignal::new(None), typing: RwSignal::new(false) }
    }

    fn unit(self) -> LengthUnit {
        self.session.settings.unit.get()
    }

    fn faulty(self) -> Option<Faulty> {
        self.path.with_value(|path| self.session.faulty.with(|list| list.get(path).cloned()))
    }

    /// The draft, as long as the figure is still what it says.
    fn live_draft(self) -> Option<Draft> {
        let value = self.figure.get().map(|(_, value)| value);
        self.draft.get().filter(|draft| Some(draft.value) == value)
    }

    fn text(self) -> String {
        if let Some(faulty) = self.faulty() {
            return faulty.text;
        }
        match self.live_draft().filter(|_| self.typing.get()) {
            Some(draft) => draft.text,
            None => {
                self.figure.get().map_or_else(String::new, |(spec, value)| written(value, spec, self.unit()))
            }
        }
    }

    fn note(self) -> Option<String> {
        if self.faulty().is_some() { None } else { self.live_draft().and_then(|draft| draft.note) }
    }

    fn fault(self) -> Option<String> {
        self.faulty().map(|faulty| faulty.message).or_else(|| {
            self.path.with_value(|path| {
                let faults = self.session.follow.faults.get();
                faults
                    .into_iter()
                    .find(|fault| &fault.field == path)
                    .map(|fault| format!("{}.", super::ids::capital(&fault.message)))
            })
        })
    }

    fn type_in(self, text: String) {
        let Some((spec, _)) = self.figure.get_untracked() else { return };
        let unit = self.session.settings.unit.get_untracked();
        let path = self.path.get_value();
        self.typing.set(true);
        match understand(&text, spec, unit) {
            Ok(read) => {
                self.draft.set(Some(Draft { text, value: read.value, note: read.note }));
                self.session.set_figure(&path, read.value);
            }
            Err(message) => {
                let name = spec.name.to_owned();
                self.session.refuse(&path, Faulty { text, message, name });
            }
        }
    }

    fn step(self, count: f64) {
        let Some((spec, value)) = self.figure.get_untracked() else { return };
        let unit = self.session.settings.unit.get_untracked();
        self.typing.set(false);
        self.draft.set(None);
        self.path.with_value(|path| self.session.set_figure(path, stepped(value, count, spec, unit)));
    }

    /// Nobody types any more: the text is written as the page writes it.
    fn close(self) {
        self.typing.set(false);
        self.session.settle();
    }

    fn touch(self) {
        self.session.lit.set(Some(self.path.get_value()));
    }
}

/// The field of the figure at `path`.
#[component]
pub fn FigureField(
    /// The figure's path in the job.
    #[prop(into)]
    path: String,
    /// What the figure is called here, where its own name would say too little or too much.
    #[prop(optional, into)]
    label: Option<String>,
) -> impl IntoView {
    let own = id(&path);
    let (note_id, fault_id) = (format!("{own}-note"), format!("{own}-fault"));
    let described = format!("{note_id} {fault_id}");
    let entry = Entry::new(path);
    let Some((spec, _)) = entry.figure.get_untracked() else { return ().into_any() };
    let name = StoredValue::new(label.unwrap_or_else(|| super::ids::capital(spec.name)));
    let session = entry.session;
    let lit = move || session.lit.with(|lit| lit.as_deref() == Some(entry.path.read_value().as_str()));
    let keypad = move || if entry.unit() == LengthUnit::Inch { "text" } else { "decimal" };
    let on_key = move |event: leptos::ev::KeyboardEvent| {
        let count = match event.key().as_str() {
            "ArrowUp" => 1.0,
            "ArrowDown" => -1.0,
            "PageUp" => 10.0,
            "PageDown" => -10.0,
            "Enter" => return entry.close(),
            _ => return,
        };
        event.prevent_default();
        entry.step(count);
    };
    let negatable = spec.bounds.min < 0.0 && spec.bounds.max > 0.0;
    let turn_sign = move |_| {
        if let Some((_, value)) = entry.figure.get_untracked() {
            entry.typing.set(false);
            entry.path.with_value(|path| {
                session.set_figure(path, spec.bounds.min.max(-value).min(spec.bounds.max))
            });
        }
    };
    view! {
        <div class="field" class:faulty=move || entry.fault().is_some() class:lit=lit on:pointerenter=move |_| entry.touch()>
            <label for=own.clone()>{move || name.get_value()}</label>
            <div class="field-row">
                <StepButton name="less" of=name sign="−" act=move || entry.step(-1.0) />
                <div class="field-text">
                    <input
                        id=own
                        type="text"
                        inputmode=keypad
                        autocomplete="off"
                        spellcheck="false"
                        enterkeyhint="done"
                        data-typing=move || entry.typing.get().then_some("")
                        aria-describedby=described
                        aria-invalid=move || entry.fault().is_some().then_some("true")
                        prop:value=move || entry.text()
                        on:input=move |event| entry.type_in(event_target_value(&event))
                        on:keydown=on_key
                        on:focus=move |_| entry.touch()
                        on:blur=move |_| entry.close()
                    />
                    <span class="unit" aria-hidden="true">{move || unit_sign(spec, entry.unit())}</span>
                </div>
                {negatable.then(|| view! {
                    <button
                        type="button" class="step sign"
                        aria-label=move || format!("change sign of {}", name.get_value())
                        on:click=turn_sign
                    >"±"</button>
                })}
                <StepButton name="more" of=name sign="+" act=move || entry.step(1.0) />
            </div>
            <p class="understood" id=note_id aria-live="polite">{move || entry.note()}</p>
            <p class="fault" id=fault_id aria-live="polite">{move || entry.fault()}</p>
        </div>
    }
    .into_any()
}
