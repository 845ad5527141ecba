//! A mark that can be dragged, or stepped with the arrow keys.

use super::scale::{Scale, px};
use crate::browser::drag::{self, EachFrame};
use crate::session::Session;
use crate::session::entry::{range_ends, stepped};
use leptos::prelude::*;
use staywright::drawing::Handle;
use staywright::quantity::Length;

/// Dragged figures are rounded to this many mm.
const SNAP: f64 = 0.1;

/// Where a drag began: the pointer, in px, and the figure.
#[derive(Clone, Copy)]
struct Grip {
    x: f64,
    y: f64,
    value: f64,
}

/// The handle. `handle` and `scale` are followed; the element stays the same, so that the pointer is not lost.
#[component]
pub fn HandleMark(
    /// The figure's path.
    path: String,
    /// Where the handle is now.
    #[prop(into)]
    handle: Signal<Option<Handle>>,
    /// The drawing's scale.
    #[prop(into)]
    scale: Signal<Scale>,
    /// Set while the handle is dragged.
    dragged: RwSignal<bool>,
) -> impl IntoView {
    let session = Session::here();
    let path = StoredValue::new(path);
    let grip = StoredValue::new(None::<Grip>);
    let frame = EachFrame::<f64>::new();
    let spec = move || path.with_value(|path| session.follow.figure(path)).map(|(spec, _)| spec);
    let set = move |value: f64| path.with_value(|path| session.set_figure(path, value));
    let touch = move || session.lit.set(Some(path.get_value()));

    let down = move |event: leptos::ev::PointerEvent| {
        let (Some((x, y)), Some(now)) = (drag::place(&event), handle.get_untracked()) else { return };
        event.prevent_default();
        drag::hold(&event);
        touch();
        dragged.set(true);
        grip.set_value(Some(Grip { x, y, value: now.value }));
    };
    let drag_on = move |event: leptos::ev::PointerEvent| {
        let (Some(grip), Some((x, y))) = (grip.get_value(), drag::place(&event)) else { return };
        let (Some(now), Some(spec)) = (handle.get_untracked(), untrack(spec)) else { return };
        let per_mm =
            (now.along.x * now.along.x + now.along.y * now.along.y) * scale.get_untracked().px_per_mm;
        let moved = ((x - grip.x) * now.along.x + (y - grip.y) * now.along.y) / per_mm;
        let value = ((grip.value + moved) / SNAP).round() * SNAP;
        frame.offer(((value * 1e6).round() / 1e6).clamp(spec.bounds.min, spec.bounds.max), set);
    };
    let up = move |_| {
        if grip.try_update_value(Option::take).flatten().is_some() {
            dragged.set(false);
            session.settle();
        }
    };
    let key = move |event: leptos::ev::KeyboardEvent| {
        let count = match event.key().as_str() {
            "ArrowUp" | "ArrowRight" => 1.0,
            "ArrowDown" | "ArrowLeft" => -1.0,
            "PageUp" => 10.0,
            "PageDown" => -10.0,
            _ => return,
        };
        event.prevent_default();
        let unit = session.settings.unit.get_untracked();
        if let (Some(now), Some(spec)) = (handle.get_untracked(), untrack(spec)) {
            set(stepped(now.value, count, spec, unit));
        }
    };

    let at = move || handle.get().map(|handle| scale.get().at(handle.at));
    let x = move || at().map(|(x, _)| px(x));
    let y = move || at().map(|(_, y)| px(y));
    let unit = session.settings.unit;
    let text = move || {
        handle.get().map(|handle| crate::session::show::length(Length::from_mm(handle.value), unit.get()))
    };
    let ends = Memo::new(move |_| spec().map(|spec| range_ends(spec, unit.get())));
    let lit = move || session.lit.with(|lit| lit.as_deref() == Some(path.read_value().as_str()));
    view! {
        <g
            class="handle" class:lit=lit
            role="slider" tabindex="0"
            aria-label=move || handle.get().map(|handle| handle.name)
            aria-valuemin=move || ends.get().map(|(min, _)| min)
            aria-valuemax=move || ends.get().map(|(_, max)| max)
            aria-valuenow=move || handle.get().map(|handle| px(crate::session::show::in_unit(handle.value, unit.get())))
            aria-valuetext=text
            on:pointerdown=down
            on:pointermove=drag_on
            on:pointerup=up
            on:pointercancel=up
            on:keydown=key
            on:keyup=move |_| session.settle()
            on:focus=move |_| touch()
        >
            <circle class="reach" cx=x cy=y r="24" />
            <circle class="knob" cx=x cy=y r="9" />
        </g>
    }
}
