//! What a tube has more than a plain one, folded away while it has nothing of it.

use super::button::button;
use super::choice::choice;
use super::figures::figures;
use crate::browser::part::{Part, part};
use crate::session::Session;
use crate::session::tube_parts::TubeParts;
use leptos::prelude::*;
use staywright::model::{Hand, PairName, SolveFor, Tube, capital};

/// The tube that is meant.
#[derive(Clone, Copy)]
pub(super) struct TubeSpot {
    pub(super) session: Session,
    pub(super) pair: PairName,
    pub(super) hand: Hand,
}

impl TubeSpot {
    pub(super) fn with<R>(self, read: impl FnOnce(&Tube) -> R) -> R {
        self.session.job().with(|job| read(&job.pair(self.pair).side(self.hand).tube))
    }

    pub(super) fn change(self, change: impl FnOnce(&mut Tube)) {
        self.session.change("tube", |job| change(&mut job.pair_mut(self.pair).side_mut(self.hand).tube));
    }

    fn path(self) -> String {
        format!("{}.{}.tube", self.pair.key(), self.hand.key())
    }

    fn find(self) -> SolveFor {
        self.with(|tube| tube.bends.find)
    }
}

/// The tube's own figures; what is left to the solver is not among them.
pub fn tube_figures(pair: PairName, hand: Hand) -> Part {
    let session = Session::here();
    let spot = TubeSpot { session, pair, hand };
    figures("Tube", move || {
        let find = spot.find();
        let left = |path: &str| match find {
            SolveFor::Nothing => false,
            SolveFor::Trim => path.ends_with("front_trim_mm"),
            SolveFor::Roll => path.ends_with("roll_deg"),
            SolveFor::Both => path.ends_with("front_trim_mm") || path.ends_with("roll_deg"),
        };
        session.follow.paths(&spot.path()).into_iter().filter(|path| !left(path)).collect()
    })
}

/// Bends, butts and ovals, and how a bent tube is laid.
pub fn tube_box(pair: PairName, hand: Hand) -> Part {
    let spot = TubeSpot { session: Session::here(), pair, hand };
    let count = move || TubeParts::ALL.map(|parts| spot.with(|tube| parts.count(tube)));
    let plain = untrack(count) == [0; 3];
    let bent = move || spot.with(|tube| !tube.bends.list.is_empty());
    let fold = part("details")
        .class("box tube-box")
        .add(part("summary").add(part("h2").words(move || title(count()))));
    let fold = if plain { fold } else { fold.set("open", "") };
    fold.add(list(spot, TubeParts::Bends))
        .when(bent, move || lay_choice(spot))
        .add(list(spot, TubeParts::Butts))
        .add(list(spot, TubeParts::Ovals))
}

/// `Bends, butts, ovals`, or how many there are.
fn title(counts: [usize; 3]) -> String {
    let word = |(count, parts): (usize, TubeParts)| {
        let plural = if count == 1 { "" } else { "s" };
        (count > 0).then(|| format!("{count} {}{plural}", parts.one()))
    };
    let said: Vec<String> = counts.into_iter().zip(TubeParts::ALL).filter_map(word).collect();
    if said.is_empty() { "Bends, butts, ovals".to_owned() } else { format!("Tube with {}", said.join(", ")) }
}

/// One list: a group of figures for each, and buttons to add one and to take one out.
fn list(spot: TubeSpot, parts: TubeParts) -> Part {
    let count = move || spot.with(|tube| parts.count(tube));
    let one = move |index: usize| {
        let name = format!("{} {}", capital(parts.one()), index + 1);
        let path = format!("{}.{}[{index}]", spot.path(), parts.key());
        let remove = button(&format!("Remove {} {}", parts.one(), index + 1), move || {
            spot.change(|tube| parts.remove(tube, index));
        });
        figures(&name, move || spot.session.follow.paths(&path)).add(remove)
    };
    let add = button(&format!("Add {}", article(parts)), move || spot.change(|tube| parts.add(tube)));
    part("div")
        .class("tube-list")
        .by(move || count().to_string(), move |_| (0..untrack(count)).map(one).collect())
        .add(add.follow_if("disabled", move || spot.with(|tube| parts.is_full(tube))))
}

const fn article(parts: TubeParts) -> &'static str {
    match parts {
        TubeParts::Bends => "a bend",
        TubeParts::Butts => "a butt station",
        TubeParts::Ovals => "an oval",
    }
}

/// What of a bent tube's place is left to the solver, and how far it is.
fn lay_choice(spot: TubeSpot) -> Part {
    let choose = move |key: String| {
        if let Some(find) = SolveFor::ALL.into_iter().find(|find| find.key() == key) {
            spot.change(|tube| tube.bends.find = find);
        }
    };
    let options = [
        ("nothing", "As entered"),
        ("trim", "Find front trim"),
        ("roll", "Find roll"),
        ("both", "Find both"),
    ];
    let said = move || {
        let searching = spot.session.room.searching.get();
        (spot.find() != SolveFor::Nothing).then_some(if searching {
            "Searching for the place with the most room …"
        } else {
            "Found is what leaves the most room over the limits at the tightest place."
        })
    };
    part("div")
        .class("lay")
        .add(choice(
            "How the bent tube lies: front trim and roll",
            "lay",
            true,
            &options,
            move || spot.find().key().to_owned(),
            choose,
        ))
        .add(part("p").class("set-on").set("role", "status").words_if(said))
}
