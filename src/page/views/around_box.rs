//! What turns beside the stays, and how much room each must have.

use super::button::button;
use super::figures::{fields, figures};
use super::switch::switch;
use crate::browser::part::{Part, part};
use crate::session::Session;
use leptos::prelude::*;
use staywright::model::{Columns, Crank, Ring, Rotor, Sprocket, Surroundings};

/// One thing that may be left out.
struct Optional {
    /// What it is called.
    name: &'static str,
    /// Where its figures are, below the surroundings.
    path: &'static str,
    is_there: fn(&Surroundings) -> bool,
    put: fn(&mut Surroundings, bool),
}

const PARTS: [Optional; 4] = [
    Optional {
        name: "Crank arms and heels",
        path: "crank",
        is_there: |all| all.crank.is_some(),
        put: |all, on| all.crank = on.then(Crank::default),
    },
    Optional {
        name: "Smallest sprocket and chain",
        path: "sprocket",
        is_there: |all| all.sprocket.is_some(),
        put: |all, on| all.sprocket = on.then(Sprocket::default),
    },
    Optional {
        name: "Disc rotor and caliper",
        path: "rotor",
        is_there: |all| all.rotor.is_some(),
        put: |all, on| all.rotor = on.then(Rotor::default),
    },
    Optional {
        name: "Columns of the fixture's posts",
        path: "posts",
        is_there: |all| all.posts.is_some(),
        put: |all, on| all.posts = on.then(Columns::default),
    },
];

/// The box, folded until something is in it.
pub fn around_box() -> Part {
    let session = Session::here();
    let there = move || session.job().with(|job| job.surroundings.is_some());
    let set = move |on: bool| {
        session.change("surroundings", |job| job.surroundings = on.then(Surroundings::starting));
    };
    let fold =
        part("details").class("box around").add(part("summary").add(part("h2").text("What must clear")));
    let fold = if untrack(there) { fold.set("open", "") } else { fold };
    fold.add(part("p").text(
        "Rings, cranks, heels, chain and rotor beside the stays. The tyre is always looked at. All start with figures to be measured.",
    ))
    .add(switch("Look at what turns beside the stays", there, set))
    .when(there, move || parts(session))
}

fn parts(session: Session) -> Part {
    let group = move |title: &str, path: &'static str| {
        let path = format!("surroundings.{path}");
        figures(title, move || session.follow.paths(&path))
    };
    part("div")
        .class("around-parts")
        .add(rings(session))
        .each(PARTS.iter().map(|one| optional(session, one)))
        .add(measured(session))
        .add(group("Room wanted", "limits"))
        .add(sources(session))
}

fn change(session: Session, change: impl FnOnce(&mut Surroundings)) {
    session.change("surroundings", |job| {
        if let Some(all) = &mut job.surroundings {
            change(all);
        }
    });
}

fn read<R: Default>(session: Session, read: impl FnOnce(&Surroundings) -> R) -> R {
    session.job().with(|job| job.surroundings.as_ref().map_or_else(R::default, read))
}

fn optional(session: Session, one: &'static Optional) -> Part {
    let there = move || read(session, one.is_there);
    let path = format!("surroundings.{}", one.path);
    let shown = move || {
        let path = path.clone();
        let fields = fields(move || session.follow.paths(&path));
        part("div").set("role", "group").set("aria-label", one.name).add(fields)
    };
    part("div")
        .add(switch(one.name, there, move |on| change(session, |all| (one.put)(all, on))))
        .when(there, shown)
}

fn rings(session: Session) -> Part {
    let count = move || read(session, |all| all.rings.len());
    let one = move |index: usize| {
        let path = format!("surroundings.chainrings[{index}]");
        let remove = button(&format!("Remove chainring {}", index + 1), move || {
            change(session, |all| all.rings.remove(index));
        });
        figures(&format!("Chainring {}", index + 1), move || session.follow.paths(&path)).add(remove)
    };
    let add = button("Add a chainring", move || {
        // A crank that is full of rings takes no more.
        change(session, |all| {
            let _ = all.rings.push(Ring::default());
        });
    });
    part("div")
        .class("tube-list")
        .by(move || count().to_string(), move |_| (0..untrack(count)).map(one).collect())
        .add(add.follow_if("disabled", move || read(session, |all| all.rings.is_full())))
}

/// A tyre is seldom as wide as it says.
fn measured(session: Session) -> Part {
    let there = move || read(session, |all| all.measured_width.is_some());
    let set = move |on: bool| {
        let width = session.job().with_untracked(|job| job.wheel.tyre_width);
        change(session, |all| all.measured_width = on.then_some(width));
    };
    part("div").add(switch("Tyre measured on its rim", there, set)).when(there, move || {
        figures("Tyre as measured", || vec!["surroundings.measured_width_mm".to_owned()])
    })
}

/// Where the starting figures come from and how sure each is.
fn sources(session: Session) -> Part {
    let list = move || {
        let starting = session.room.starting.now().get();
        let row = |source: &staywright::ask::Source| {
            part("div").class("source").add(part("dt").text(&source.name)).add(part("dd").text(&source.words))
        };
        starting.iter().flat_map(|starting| &starting.sources).map(row).collect()
    };
    part("details")
        .class("more")
        .add(part("summary").text("Where starting figures come from"))
        .add(
            part("p").text(
                "Figures that are not named here are starts to be measured or tried, without a source.",
            ),
        )
        .add(part("dl").class("sources").live(list))
}
