//! What clears what: the room to each neighbour, and what would give more of it.

use super::button::button;
use super::choice::choice;
use super::drawing::sheet_beside;
use crate::browser::details;
use crate::browser::part::{Part, part};
use crate::session::Session;
use leptos::prelude::*;
use staywright::ask::{Drawing, RoomLine, Verdict, Way, Ways};
use staywright::model::Hand;

/// As many rows as are shown unasked.
const FIRST: usize = 4;

/// Folded away, it says the tightest place; open, the rooms of the pair, the tightest first.
pub fn room_box() -> Part {
    let session = Session::here();
    let open = RwSignal::new(false);
    let summary = part("summary")
        .add(part("h2").text("What clears what"))
        .add(part("span").class("tightest").set("aria-live", "polite").words_if(move || tightest(session)));
    part("details")
        .class("box rooms")
        .on("toggle", move |event| open.set(details::is_open(&event)))
        .add(summary)
        .when(move || open.get(), move || rooms(session))
}

/// The tightest place in a line.
fn tightest(session: Session) -> Option<String> {
    lines(session).first().map(|line| format!("{} {}: {}", line.to, line.gap, line.verdict.words()))
}

fn rooms(session: Session) -> Part {
    let rows =
        move |from: usize, count: usize| lines(session).iter().skip(from).take(count).map(row).collect();
    let rest = move || {
        part("details")
            .class("more")
            .add(part("summary").text("The rooms that are wider"))
            .add(part("ol").class("results").live(move || rows(FIRST, usize::MAX)))
    };
    part("div")
        .class("room-list")
        .when(move || session.room.cleared.is_behind(), || part("p").text("Being worked out …"))
        .add(
            part("ol")
                .class("results")
                .set("aria-label", "Room, tightest first")
                .live(move || rows(0, FIRST)),
        )
        .when(move || lines(session).len() > FIRST, rest)
        .add(along_box(session))
        .add(ways_box(session))
}

/// The stay looked at closely: sides that mirror each other still have other neighbours.
fn side_choice(session: Session, name: &'static str) -> Part {
    let side = session.room.side;
    choice(
        "Stay looked at",
        name,
        false,
        &[("right", "Right stay"), ("left", "Left stay")],
        move || side.get().key().to_owned(),
        move |key| side.set(if key == Hand::Left.key() { Hand::Left } else { Hand::Right }),
    )
}

/// The room at every station of a stay, drawn while the box is open.
fn along_box(session: Session) -> Part {
    let open = RwSignal::new(false);
    let what = move || Some(Drawing::Strip(session.settings.pick.get().pair, session.room.side.get()));
    part("details")
        .class("more")
        .on("toggle", move |event| open.set(details::is_open(&event)))
        .add(part("summary").text("Room along the stay"))
        .add(side_choice(session, "strip-side"))
        .when(move || open.get(), move || sheet_beside(0.5, what))
}

/// What is known of the pair that is looked at.
fn lines(session: Session) -> Vec<RoomLine> {
    let pair = session.settings.pick.get().pair;
    let cleared = session.room.cleared.now().get();
    cleared.iter().flat_map(|cleared| cleared.iter()).filter(|line| line.pair == pair).cloned().collect()
}

fn row(line: &RoomLine) -> Part {
    let class = match line.verdict {
        Verdict::Enough => "result within",
        Verdict::Short => "result marginal",
        Verdict::Into => "result out",
    };
    part("li")
        .class(class)
        .add(part("span").text(&format!("{}, {}", line.to, line.stay)))
        .add(part("b").text(&line.gap))
        .add(part("span").class("result-verdict").text(&format!("{}. {}.", line.place, line.words)))
        .add(part("span").class("result-verdict source").text(&format!("Limit: {}.", line.source)))
}

/// Both directions, worked out while the box is open.
fn ways_box(session: Session) -> Part {
    let room = session.room;
    let answer = move || match room.ways.now().get() {
        Some(ways) => ways_list(session, &ways),
        None => vec![part("p").text("Being worked out …")],
    };
    part("details")
        .class("more")
        .on("toggle", move |event| room.ways_open.set(details::is_open(&event)))
        .add(part("summary").text("How wide a tyre, what would give room"))
        .add(side_choice(session, "ways-side"))
        .add(
            part("div")
                .class("ways")
                .follow("aria-busy", move || room.ways.is_behind().then(|| "true".to_owned()))
                .live(answer),
        )
}

fn ways_list(session: Session, ways: &Ways) -> Vec<Part> {
    let mut parts = vec![part("h3").text("Widest tyre with these stays")];
    match &ways.tyre {
        Some(way) => parts.push(part("ul").class("mends").add(way_item(session, way))),
        None => parts.push(part("p").text("No tyre that can be entered has its room.")),
    }
    for (to, ways) in &ways.ways {
        parts.push(part("h3").text(&format!("Room for the {to}, by one figure alone")));
        parts.push(part("ul").class("mends").each(ways.iter().map(|way| way_item(session, way))));
    }
    if !ways.dimples.is_empty() {
        parts.push(part("h3").text("Pressed in, where nothing else clears"));
        parts.push(part("ul").class("totals").each(ways.dimples.iter().map(|words| part("li").text(words))));
        parts.push(part("p").class("caution").text(&ways.caution));
    }
    parts
}

fn way_item(session: Session, way: &Way) -> Part {
    let figures = way.figures.clone();
    let put = move || {
        session.change("way", |job| {
            for (path, value) in &figures {
                *job = job.with_figure(path, *value);
            }
        });
    };
    part("li").add(part("span").text(&way.words)).add(button("Put in", put))
}
