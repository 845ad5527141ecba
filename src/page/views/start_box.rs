//! Jobs to start from.

use super::in_shop::in_shop;
use crate::browser::part::{Part, part};
use crate::session::Session;
use staywright::model::{Job, starters, starting_job};

/// A menu of starting jobs. Choosing one can be undone.
pub fn start_box() -> Part {
    let jobs = starters().into_iter().map(|starter| {
        let name = starter.job.name.clone();
        item(&name, starter.about, starter.job)
    });
    let nothing = item("Start from nothing", "Plain starting figures, no name", starting_job());
    part("details")
        .class("box")
        .add(part("summary").add(part("h2").text("Start another job")))
        .add(part("ul").class("starters").each(jobs).add(nothing))
}

fn item(name: &str, about: &str, job: Job) -> Part {
    let session = Session::here();
    let open = move || {
        in_shop(session, job.clone(), move |job, is_other| {
            session.open(job);
            let with = if is_other { ", with your shop's fixture" } else { "" };
            session.say(format!("Another job is open{with}. Undo brings back what was here."));
        });
    };
    let button = part("button")
        .class("starter")
        .set("type", "button")
        .add(part("span").class("cut-name").text(name))
        .add(part("span").class("cut-figures").text(about));
    part("li").add(button.on_click(open))
}
