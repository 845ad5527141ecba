//! A sheet, drawn to scale in the room there is.

use super::handle::HandleMark;
use super::mark::mark;
use super::scale::{EDGE, Scale, px};
use crate::browser::{size, topic};
use crate::session::Session;
use leptos::prelude::*;
use staywright::drawing::{Room, Sheet};

/// Height of the lettering, px; the style sheet says the same.
const LETTERING: f64 = 16.0;

/// A drawing that waits for its room.
pub type Draw = StoredValue<Box<dyn Fn(Room) -> Sheet + Send + Sync>>;

/// A drawing of the plan as it stands, for the room it gets.
pub fn drawing(draw: impl Fn(Room) -> Sheet + Send + Sync + 'static) -> Draw {
    StoredValue::new(Box::new(draw))
}

/// The drawing. It is a picture with a text for those who cannot see it; with handles it is a group of sliders.
#[component]
pub fn SheetView(
    /// Draws the sheet for the room there is.
    draw: Draw,
    /// Whether its handles are left out: it is there to be read.
    #[prop(optional)]
    still: bool,
    /// How much of the window's height it may take.
    #[prop(default = 0.6)]
    tall: f64,
) -> impl IntoView {
    let session = Session::here();
    let room = NodeRef::new();
    let width = size::width(room);
    let height = size::height();
    // A drawing that shrank while it is dragged would slip away under the finger.
    let dragged = RwSignal::new(false);
    let room_px = move || Room {
        width: width.get().max(200.0) - 2.0 * EDGE,
        height: tall * height.get() - 2.0 * EDGE,
        lettering: LETTERING,
        unit: session.settings.unit.get(),
    };
    let sheet = Memo::new(move |_| draw.with_value(|draw| draw(room_px())));
    let scale = Memo::new(move |last: Option<&Scale>| match last {
        Some(last) if dragged.get() => *last,
        _ => sheet.with(|sheet| Scale::fit(sheet, width.get().max(200.0), tall * height.get())),
    });
    let marks = move || {
        let (scale, lit) = (scale.get(), session.lit.get());
        sheet.get().marks.into_iter().map(|one| mark(one, scale, lit.as_deref())).collect_view()
    };
    let handles =
        Memo::new(move |_| if still { Vec::new() } else { sheet.with(|sheet| sheet.handles.clone()) });
    let paths = move || {
        handles.with(|list| {
            list.iter().map(|handle| (handle.path.clone(), handle.name.clone())).collect::<Vec<_>>()
        })
    };
    let handle = move |(path, name): (String, String)| {
        let wanted = (path.clone(), name);
        let one = Memo::new(move |_| {
            handles.with(|list| {
                list.iter().find(|one| (&one.path, &one.name) == (&wanted.0, &wanted.1)).cloned()
            })
        });
        view! { <HandleMark path=path handle=one scale=scale dragged=dragged /> }
    };
    let role = move || if handles.with(Vec::is_empty) { "img" } else { "group" };
    let view_box = move || {
        let scale = scale.get();
        format!("0 0 {} {}", px(scale.width), px(scale.height))
    };
    view! {
        <figure class="drawing">
            <div node_ref=room>
                <svg
                    viewBox=view_box
                    role=role
                    aria-label=move || sheet.with(|sheet| sheet.text.clone())
                    on:pointerover=move |event| session.lit.set(topic::touched(&event))
                >
                    <g class="marks" aria-hidden="true">{marks}</g>
                    <For each=paths key=Clone::clone children=handle />
                </svg>
            </div>
            <figcaption>{move || sheet.with(|sheet| sheet.title.clone())}</figcaption>
        </figure>
    }
}
