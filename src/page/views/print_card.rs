//! The set-up card as it is printed: the drawings, the cutters, every step with its box to tick, what to measure, and the link.

use super::order_of_work::pair_drawings;
use super::qr_view::qr_view;
use super::stale::stale;
use super::warning_list::warning_list;
use crate::browser::address;
use crate::browser::part::{Part, part};
use crate::session::Session;
use leptos::prelude::*;
use staywright::ask::StepLine;
use staywright::findings::Level;
use staywright::model::PairName;

const FOOT: &str = "Staywright set-up card. The machine's manual, local rules and licensed practice come first; a frame to \
                    be ridden is proved by test (ISO 4210).";

/// What the printed link leaves out.
const CODE: &str = "Link and code hold the job and its fixture, not the shop: opened elsewhere, saws and scale readings follow the \
                    shop there, and may differ from this card.";

/// What would scrap a part or hurt somebody, and what is to be looked at first.
fn all_warnings() -> Vec<String> {
    Session::here().finding_words(&[Level::Stop, Level::Check])
}

/// The card.
pub fn print_card() -> Part {
    let session = Session::here();
    let link = address::link(session);
    let drawings = PairName::ALL.into_iter().flat_map(pair_drawings);
    let said = part("div")
        .add(cautions(session))
        .add(part("p").text(FOOT))
        .when(move || session.has_shop(), || part("p").text(CODE))
        .add(part("p").class("card-link").text(&link));
    let foot = part("footer").add(said).each(qr_view(&link));
    let notes = move || session.job().with(|job| job.notes.clone());
    part("article")
        .class("card")
        .add(part("h1").words(move || session.title()))
        .add(part("p").class("card-notes").words(notes))
        .add(stale())
        .add(warning_list("Warnings", all_warnings))
        .add(part("div").class("card-drawings").each(drawings))
        .add(cutters(session))
        .add(part("div").class("card-parts").live(move || steps(session)))
        .add(finished(session))
        .add(foot)
}

fn cutters(session: Session) -> Part {
    let shop = move || session.order.get().map(|order| order.shop.clone()).filter(|shop| !shop.is_empty());
    let rows = move || session.order.get().map(|order| table_rows(&order.cutters)).unwrap_or_default();
    table(shop, &["Setting", "Cutter", "Spindle", "Feed, at most"], rows)
}

/// What to measure when all is cut, with room to write.
fn finished(session: Session) -> Part {
    let head = ["On the finished stays", "Tip to tip", "Length", "Angle, front", "Angle, rear"];
    let rows = move || session.order.get().map(|order| table_rows(&order.finished)).unwrap_or_default();
    table(|| None, &head, rows).class("card-table card-finished")
}

fn table(
    caption: impl Fn() -> Option<String> + 'static,
    head: &[&str],
    rows: impl Fn() -> Vec<Part> + 'static,
) -> Part {
    let head = part("tr").each(head.iter().map(|name| part("th").text(name)));
    part("table")
        .class("card-table")
        .add(part("caption").words_if(caption))
        .add(part("thead").add(head))
        .add(part("tbody").live(rows))
}

fn table_rows(rows: &[Vec<String>]) -> Vec<Part> {
    rows.iter().map(|cells| part("tr").each(cells.iter().map(|cell| part("td").text(cell)))).collect()
}

/// The steps of the plan in view, or that they are still missing.
fn steps(session: Session) -> Vec<Part> {
    const MISSING: &str = "The steps are being worked out: this card is not whole. Print it again.";
    match session.order.get().filter(|_| session.card_is_whole()) {
        Some(order) => parts(&order.steps),
        None => vec![part("p").class("stale").text(MISSING)],
    }
}

fn parts(steps: &[StepLine]) -> Vec<Part> {
    let of_part = |steps: &[StepLine]| {
        let title = steps.first().map_or("", |step| &step.part);
        let list = part("ol").each(steps.iter().map(row));
        part("section").class("card-part").add(part("h2").text(title)).add(list)
    };
    steps.chunk_by(|a, b| a.part == b.part).map(of_part).collect()
}

/// A box to tick, what to do, and the figure; below them what it is set on.
fn row(step: &StepLine) -> Part {
    let also = step.also.iter().map(|(name, figure)| format!("{name} {figure}"));
    let words: Vec<String> = [step.set_on.clone()].into_iter().chain(also).collect();
    let (number, sign) = &step.figure;
    part("li")
        .add(part("span").class("card-box"))
        .add(part("b").text(&step.task))
        .add(part("b").class("card-figure").text(&format!("{number} {sign}")))
        .add(part("p").text(&words.join(" · ")))
}

fn cautions(session: Session) -> Part {
    let list = move || {
        let order = session.order.get();
        let cautions = order.iter().flat_map(|order| &order.cautions);
        cautions.map(|(words, _)| part("p").class("caution").text(words)).collect()
    };
    part("div").class("card-cautions").live(list)
}
