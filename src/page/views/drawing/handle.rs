//! A mark that can be dragged, or stepped with the arrow keys.

use super::sheet_view::Drawing;
use crate::browser::drag::{self, EachFrame, Grasp};
use crate::browser::part::{Part, svg};
use crate::browser::steady::steady;
use crate::session::Session;
use leptos::ev::{KeyboardEvent, PointerEvent};
use leptos::prelude::*;
use staywright::drawing::svg::px;
use staywright::drawing::{Handle, Point};
use staywright::model::{Job, Spec};
use staywright::text::entry::{range_ends, said, stepped, written};
use staywright::units::LengthUnit;

/// Dragged figures are rounded to this many mm or degrees.
const SNAP: f64 = 0.1;

/// Where a drag began: the pointer, in px, and the handle. The whole drag goes by the handle as it was then, so that the figure
/// depends on where the pointer is and not on how it came there.
#[derive(Clone)]
struct Grip {
    x: f64,
    y: f64,
    handle: Handle,
}

/// One handle of a drawing.
#[derive(Clone, Copy)]
struct Held {
    session: Session,
    drawing: Drawing,
    /// The handle where it is now.
    handle: ReadSignal<Option<Handle>>,
    grip: StoredValue<Option<Grip>>,
    grasp: Grasp,
    /// The job as it was before the drag, for one that the device cuts short.
    before: StoredValue<Option<Job>>,
    frame: EachFrame<f64>,
}

impl Held {
    fn now(self) -> Option<Handle> {
        self.handle.get()
    }

    fn spec(self, handle: &Handle) -> Option<&'static Spec> {
        Some(self.session.follow.figure(&handle.path)?.0)
    }

    /// The handle nearest to a place of the drawing: where the reaches of two overlap, the one on top need not be the one meant.
    fn nearest(self, x: f64, y: f64) -> Option<Handle> {
        let scale = self.drawing.scale.get();
        let off = |handle: &Handle| {
            let at = scale.at(handle.at);
            (at.0 - x).hypot(at.1 - y)
        };
        self.drawing.sheet.with(|sheet| {
            let handles = sheet.as_ref()?.handles.iter();
            handles.min_by(|a, b| off(a).total_cmp(&off(b))).cloned()
        })
    }

    fn unit(self) -> LengthUnit {
        self.session.settings.unit.get()
    }

    fn touch(self) {
        self.session.lit.set(untrack(|| self.now()).map(|handle| handle.path));
    }

    fn down(self, event: &PointerEvent) {
        let Some((x, y)) = drag::place(event) else { return };
        let Some(handle) = untrack(|| self.nearest(x, y)) else { return };
        event.prevent_default();
        drag::hold(event);
        self.session.lit.set(Some(handle.path.clone()));
        self.before.set_value(Some(self.session.entered()));
        self.grip.set_value(Some(Grip { x, y, handle }));
        self.grasp.down(event, move || self.drawing.dragged.set(true));
    }

    fn drag(self, event: &PointerEvent) {
        if !self.grasp.moved(event, || self.drawing.dragged.set(true)) {
            return;
        }
        let (Some(grip), Some((x, y))) = (self.grip.get_value(), drag::place(event)) else { return };
        let Some(spec) = untrack(|| self.spec(&grip.handle)) else { return };
        let px_per_mm = self.drawing.scale.get_untracked().px_per_mm;
        let moved = Point::new((x - grip.x) / px_per_mm, (y - grip.y) / px_per_mm);
        let value = ((grip.handle.value + grip.handle.pull.pulled(moved)) / SNAP).round() * SNAP;
        let value = spec.bounds.nearest((value * 1e6).round() / 1e6);
        self.frame.offer(value, move |value| self.session.set_figure(&grip.handle.path, value));
    }

    fn up(self) {
        self.grip.set_value(None);
        if self.grasp.end() {
            self.drawing.dragged.set(false);
            self.session.settle();
        }
    }

    /// The device has taken the pointer for something else: the job is as it was before.
    fn cancel(self) {
        let grip = self.grip.try_update_value(Option::take).flatten();
        let Some(grip) = grip.filter(|_| self.grasp.end()) else { return };
        self.frame.drop_latest();
        self.drawing.dragged.set(false);
        if let Some(before) = self.before.try_update_value(Option::take).flatten() {
            self.session.change(&grip.handle.path, |job| *job = before);
        }
    }

    fn key(self, event: &KeyboardEvent) {
        let count = match event.key().as_str() {
            "ArrowUp" | "ArrowRight" => 1.0,
            "ArrowDown" | "ArrowLeft" => -1.0,
            "PageUp" => 10.0,
            "PageDown" => -10.0,
            _ => return,
        };
        event.prevent_default();
        let Some(now) = untrack(|| self.now()) else { return };
        if let Some(spec) = untrack(|| self.spec(&now)) {
            let value = stepped(now.value, count, spec, untrack(|| self.unit()));
            self.session.set_figure(&now.path, value);
        }
    }

    /// Where the handle is drawn.
    fn place(self) -> Option<String> {
        let (x, y) = self.drawing.scale.get().at(self.now()?.at);
        Some(format!("translate({} {})", px(x), px(y)))
    }

    fn ends(self) -> Option<(String, String)> {
        Some(range_ends(self.spec(&self.now()?)?, self.unit()))
    }
}

/// The handle. Its element stays the same while the drawing changes, so that the pointer is not lost.
pub(super) fn handle_mark(drawing: Drawing, index: usize) -> Part {
    let session = Session::here();
    let handle = steady(move || drawing.sheet.with(|sheet| sheet.as_ref()?.handles.get(index).cloned()));
    let held = Held {
        session,
        drawing,
        handle,
        grip: StoredValue::new(None),
        grasp: Grasp::new(),
        before: StoredValue::new(None),
        frame: EachFrame::new(),
    };
    let as_field = move |write: fn(f64, &Spec, LengthUnit) -> String| {
        let now = held.now()?;
        Some(write(now.value, held.spec(&now)?, held.unit()))
    };
    let lit = move || held.now().is_some_and(|now| session.lit.with(|lit| lit.as_ref() == Some(&now.path)));
    let mark = svg("g")
        .class("handle")
        .toggle("lit", lit)
        .toggle("held", move || held.grasp.shows())
        .set("role", "slider")
        .set("tabindex", "0")
        .follow("aria-label", move || held.now().map(|handle| handle.name))
        .follow("aria-valuemin", move || held.ends().map(|(least, _)| least))
        .follow("aria-valuemax", move || held.ends().map(|(_, most)| most))
        .follow("aria-valuenow", move || as_field(written))
        .follow("aria-valuetext", move || as_field(said))
        .on_pointer("pointerdown", move |event| held.down(&event))
        .on_pointer("pointermove", move |event| held.drag(&event))
        .on_pointer("pointerup", move |_| held.up())
        .on_pointer("pointercancel", move |_| held.cancel())
        // A finger that has hold of the handle scrolls nothing any more.
        .on("touchmove", move |event| {
            if held.grasp.is_full() {
                event.prevent_default();
            }
        })
        .on("contextmenu", move |event| event.prevent_default())
        .on_key(move |event| held.key(&event))
        .on("keyup", move |_| session.settle())
        .on("focus", move |_| held.touch());
    let circle = |class: &str, radius: &str| svg("circle").class(class).set("r", radius);
    // Moved as one, within the mark: the pointer's place is told in the drawing's own units.
    let circles = svg("g").follow("transform", move || held.place());
    mark.add(circles.add(circle("reach", "24")).add(circle("knob", "9")))
}
