//! A sheet, drawn to scale in the room there is.

use super::handle::handle_mark;
use crate::browser::part::{Part, Picture, part, svg};
use crate::browser::sight::in_sight;
use crate::browser::{size, topic, worker_client};
use crate::session::follow::Shared;
use crate::session::{Answered, Session};
use crate::views::until_answered::until_answered;
use leptos::prelude::*;
use staywright::ask::{Answer, Drawing as What, Question};
use staywright::drawing::svg::{EDGE, Scale, px};
use staywright::drawing::{Sheet, Viewport};
use staywright::units::LengthUnit;
use std::sync::Arc;

/// Height of the lettering, px; the style sheet says the same.
const LETTERING: f64 = 16.0;

/// How much of the window's height a drawing may take.
#[derive(Clone, Copy)]
pub struct Tall {
    /// On a narrow screen.
    pub narrow: f64,
    /// On a wide one.
    pub wide: f64,
}

/// Narrower windows, px, are narrow; the style sheet says the same.
const WIDE: f64 = 800.0;

impl From<f64> for Tall {
    fn from(share: f64) -> Self {
        Self { narrow: share, wide: share }
    }
}

/// Draws the plan as it stands for the room there is.
type Draw = Box<dyn Fn(Viewport) -> Sheet + Send + Sync>;

/// What is drawn beside the page; `None` where there is nothing to draw.
type Wanted = Arc<dyn Fn(Viewport) -> Option<Question> + Send + Sync>;

/// A sheet as it stands, and the scale it is drawn at.
#[derive(Clone, Copy)]
pub(super) struct Drawing {
    /// `None` until the room is known.
    pub(super) sheet: Memo<Option<Shared<Sheet>>>,
    pub(super) scale: Memo<Scale>,
    /// Set while a handle is dragged.
    pub(super) dragged: RwSignal<bool>,
}

/// The drawing: a picture with a text for those who cannot see it, or, with handles, a group of sliders.
///
/// `tall` is how much of the window's height it may take; a `still` drawing leaves its handles out: it is there to be
/// read.
pub fn sheet_view(
    tall: impl Into<Tall>,
    still: bool,
    draw: impl Fn(Viewport) -> Sheet + Send + Sync + 'static,
) -> Part {
    view(tall.into(), still, Box::new(draw))
}

fn view(tall: Tall, still: bool, draw: Draw) -> Part {
    let viewport = part("div");
    let (size, seen) = (Size::of(&viewport, tall), in_sight(&viewport));
    let history = Session::here().history();
    // Out of sight, the last settled state is enough.
    let sheet = Memo::new(move |_| {
        let draw = || size.viewport().map(|viewport| Shared::new(draw(viewport)));
        if seen.get() {
            return draw();
        }
        history.track();
        untrack(draw)
    });
    shown(still, viewport, Drawing::new(sheet, size))
}

/// A drawing to be read, made beside the page.
pub fn sheet_beside(tall: f64, what: impl Fn() -> Option<What> + Send + Sync + 'static) -> Part {
    let link = Session::here().follow.link;
    beside(
        tall,
        Arc::new(move |viewport| Some(Question::Draw { job: link.get()?, drawing: what()?, viewport })),
    )
}

/// A drawing to be read that `question` asks for.
pub fn sheet_asked(
    tall: f64,
    question: impl Fn(Viewport) -> Option<Question> + Send + Sync + 'static,
) -> Part {
    beside(tall, Arc::new(question))
}

fn beside(tall: f64, question: Wanted) -> Part {
    let viewport = part("div");
    let size = Size::of(&viewport, tall.into());
    let present = question.clone();
    let drawn = Answered::new(move || Some(present(size.viewport()?)?.id()));
    worker_client::follow(
        "drawings",
        move || question(size.viewport()?),
        move |_, response| {
            if let Answer::Drawn(sheet) = response.answer {
                drawn.take(response.request, *sheet);
            }
        },
    );
    until_answered(shown(true, viewport, Drawing::new(Memo::new(move |_| drawn.last()), size)), drawn)
}

fn shown(still: bool, viewport: Part, drawing: Drawing) -> Part {
    let session = Session::here();
    let lit = session.lit;
    let say = move |what: fn(&Sheet) -> &str| {
        drawing.sheet.with(|sheet| sheet.as_ref().map(|sheet| what(sheet).to_owned()))
    };
    let view_box = move || {
        let scale = drawing.scale.get();
        format!("0 0 {} {}", px(scale.width), px(scale.height))
    };
    let handles = move || if still { String::new() } else { drawing.handle_keys() };
    // Until there is a drawing there is no picture, and nothing that could say what it shows.
    let role = move || {
        let role = if handles().is_empty() { "img" } else { "group" };
        drawing.sheet.with(Option::is_some).then(|| role.to_owned())
    };
    let marks = svg("g").class("marks").set("aria-hidden", "true").drawn(move || {
        // The sheet before the scale, which follows from it: see "memos" among the invariants.
        let (sheet, scale, lit) = (drawing.sheet.get(), drawing.scale.get(), lit.get());
        sheet.map(|sheet| Picture { sheet, scale, lit })
    });
    let sheet = svg("svg")
        .follow("viewBox", move || Some(view_box()))
        .follow("role", role)
        .follow("aria-label", move || say(|sheet| &sheet.text))
        .on("pointerover", move |event| lit.set(topic::touched(&event)))
        .on("click", move |event| {
            if let Some(path) = topic::touched(&event) {
                session.open_figure(&path);
            }
        })
        .add(marks)
        .by(handles, move |keys| {
            (0..keys.lines().count()).map(|index| handle_mark(drawing, index)).collect()
        });
    part("figure")
        .class("drawing")
        .add(viewport.add(sheet))
        .add(part("figcaption").words_if(move || say(|sheet| &sheet.title)))
}

/// The room that there is for a drawing.
#[derive(Clone, Copy)]
struct Size {
    width: ReadSignal<f64>,
    height: ReadSignal<f64>,
    tall: Tall,
    unit: RwSignal<LengthUnit>,
}

impl Size {
    fn of(viewport: &Part, tall: Tall) -> Self {
        Self {
            width: size::width(viewport),
            height: size::height(),
            tall,
            unit: Session::here().settings.unit,
        }
    }

    /// Wide and high, px.
    fn px(self) -> (f64, f64) {
        let share = if size::window_width() > WIDE { self.tall.wide } else { self.tall.narrow };
        (self.width.get().max(200.0), share * self.height.get())
    }

    /// `None` until it is known.
    fn viewport(self) -> Option<Viewport> {
        let (width, height) = self.px();
        (self.width.get() > 0.0).then(|| Viewport {
            width: width - 2.0 * EDGE,
            height: height - 2.0 * EDGE,
            lettering: LETTERING,
            unit: self.unit.get(),
        })
    }
}

impl Drawing {
    fn new(sheet: Memo<Option<Shared<Sheet>>>, size: Size) -> Self {
        let dragged = RwSignal::new(false);
        let scale = Memo::new(move |last: Option<&Scale>| match last {
            // A drawing that shrank while it is dragged would slip away under the finger.
            Some(last) if dragged.get() => *last,
            _ => sheet.with(|sheet| match sheet {
                Some(sheet) => {
                    let (width, height) = size.px();
                    Scale::fit(sheet, width, height)
                }
                None => Scale::unknown(),
            }),
        });
        Self { sheet, scale, dragged }
    }

    /// A line for each handle, the same as long as the handle is.
    fn handle_keys(self) -> String {
        let key = |handle: &staywright::drawing::Handle| format!("{} {}\n", handle.path, handle.name);
        self.sheet.with(|sheet| sheet.iter().flat_map(|sheet| &sheet.handles).map(key).collect())
    }
}
