//! At the mill: one step at a time, its figure large, the screen awake.

use super::button::button;
use super::stale::stale;
use super::step_item::{step_words, ticked_before};
use crate::browser::part::{Part, part};
use crate::browser::wake;
use crate::session::Session;
use leptos::prelude::*;
use staywright::ask::StepLine;

/// Which step is shown, and the way to the others.
#[derive(Clone, Copy)]
struct At {
    session: Session,
}

impl At {
    /// The steps of the plan in view; none while they are worked out.
    fn steps<T>(self, read: impl FnOnce(&[StepLine]) -> T) -> T {
        self.session.order.with(|order| read(order.as_ref().map_or(&[], |order| &order.steps)))
    }

    /// The step that is open; where there is none yet, the first that is not done.
    fn index(self) -> usize {
        let open = self.session.settings.mill.get();
        self.steps(|steps| {
            let known = steps.iter().position(|step| Some(&step.id) == open.as_ref());
            let first = || steps.iter().position(|step| !self.session.ticked(step));
            known.or_else(first).unwrap_or(0)
        })
    }

    fn count(self) -> usize {
        self.steps(<[StepLine]>::len)
    }

    fn counted(self) -> String {
        match self.count() {
            0 => String::new(),
            count => format!("Step {} of {count}", self.index() + 1),
        }
    }

    /// How many steps are done.
    fn done_count(self) -> usize {
        self.steps(|steps| steps.iter().filter(|step| self.session.ticked(step)).count())
    }

    fn step(self) -> Option<StepLine> {
        let index = self.index();
        self.steps(|steps| steps.get(index).cloned())
    }

    fn done(self) -> bool {
        self.step().is_some_and(|step| self.session.ticked(&step))
    }

    /// Goes `by` steps on, as far as there are any.
    fn go(self, by: isize) {
        self.show(untrack(|| self.index()).saturating_add_signed(by));
    }

    fn show(self, index: usize) {
        let id = untrack(|| self.steps(|steps| steps.get(index).map(|step| step.id.clone())));
        if id.is_some() {
            self.session.settings.mill.set(id);
        }
    }

    fn tick(self) {
        let Some(step) = untrack(|| self.step()) else { return };
        let (index, now) = untrack(|| (self.index(), !self.done()));
        self.show(index);
        self.session.tick(&step, now);
        if now {
            self.show(index + 1);
        }
    }
}

/// The view, in place of all else.
pub fn mill() -> Part {
    let session = Session::here();
    let at = At { session };
    wake::stay_awake();
    let awake =
        if wake::possible() { "The screen stays on." } else { "This browser cannot keep the screen on." };
    let top = part("div")
        .class("mill-top")
        .add(button("Close", move || session.settings.mill.set(None)))
        .add(part("p").class("count-of").set("role", "status").words(move || at.counted()))
        .add(progress_bar(at))
        .add(part("p").class("awake").text(awake));
    let step = move || match at.step() {
        Some(step) => vec![mill_step(&step)],
        None => vec![part("p").class("set-on").text("The steps are being worked out …")],
    };
    part("main")
        .class("mill")
        .set("aria-labelledby", "mill-task")
        .add(top)
        .add(stale())
        .add(part("div").class("mill-middle").live(step))
        .add(bottom(at))
}

fn bottom(at: At) -> Part {
    let done = part("button")
        .class("main")
        .set("type", "button")
        .follow("aria-pressed", move || Some(at.done().to_string()))
        .words(move || if at.done() { "Done ✓" } else { "Done" }.to_owned())
        .on_click(move || at.tick());
    let previous = button("Previous", move || at.go(-1)).follow_if("disabled", move || at.index() == 0);
    let next = button("Next", move || at.go(1)).follow_if("disabled", move || at.index() + 1 >= at.count());
    part("div").class("mill-bottom").add(previous).add(done).add(next)
}

/// What is done, as a bar and in words.
fn progress_bar(at: At) -> Part {
    let bar = part("progress")
        .set("aria-label", "Steps done")
        .follow("max", move || Some(at.count().max(1).to_string()))
        .follow("value", move || Some(at.done_count().to_string()));
    bar.words(move || format!("{} done", at.done_count()))
}

/// As large as so many letters fit on a narrow phone.
const fn size(letters: usize) -> &'static str {
    match letters {
        0..=4 => "mill-figure short",
        5 | 6 => "mill-figure",
        7 => "mill-figure long",
        _ => "mill-figure longest",
    }
}

fn mill_step(step: &StepLine) -> Part {
    let (number, sign) = &step.figure;
    let figure = (!number.is_empty()).then(|| {
        part("p")
            .class(size(number.chars().count()))
            .add(part("span").text(number))
            .add(part("span").class("mill-unit").text(&format!(" {sign}")))
    });
    part("div")
        .class("mill-step")
        .add(part("p").class("part-name").text(&step.part))
        .add(part("h1").set("id", "mill-task").text(&step.task))
        .each(figure)
        .each(ticked_before(step))
        .each(step_words(step))
}
