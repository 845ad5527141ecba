//! The place for the two pairs of stays.

use super::choice::choice;
use super::drawing::sheet_view;
use super::end_box::end_box;
use super::facts::facts;
use super::figures::figures;
use super::lay_facts::lay_facts_box;
use super::layout::drawn_place;
use super::room_box::room_box;
use super::shelf_box::shelf_box;
use super::switch::switch;
use super::tube_box::{tube_box, tube_figures};
use super::warnings::warnings;
use crate::browser::part::{Part, part};
use crate::session::Session;
use crate::session::pair_facts::pair_facts;
use crate::session::place::Place;
use leptos::prelude::*;
use staywright::drawing::clamp_plane_with_gaps;
use staywright::model::{Hand, PairName};
use staywright::plan::CutAt;

/// The place.
pub fn stays_place() -> Vec<Part> {
    let session = Session::here();
    let Session { settings, follow, .. } = session;
    let pair = move || settings.pick.get().pair;
    let of_pair = |key: &str| {
        PairName::ALL.into_iter().find(|pair| pair.key() == key).map_or_else(Vec::new, pair_entry)
    };
    let entry = move || {
        let entry = part("div").class("pair").by(move || pair().key().to_owned(), of_pair);
        vec![pair_choice(), warnings(Place::Stays), entry]
    };
    let drawing = sheet_view(0.55, false, move |room| {
        let gaps = session.gap_lines(Some(pair()));
        follow.plan.with(|plan| clamp_plane_with_gaps(plan, pair(), &gaps, room))
    });
    let figures = facts(move || follow.plan.with(|plan| pair_facts(plan.pair(pair()))));
    drawn_place("Stays", entry, vec![drawing, figures, lay_facts_box(), room_box()])
}

/// Chainstays or seat stays.
pub fn pair_choice() -> Part {
    let pick = Session::here().settings.pick;
    let choose = move |key: String| {
        if let Some(pair) = PairName::ALL.into_iter().find(|pair| pair.key() == key) {
            pick.update(|pick| pick.pair = pair);
        }
    };
    let options = [("chainstays", "Chainstays"), ("seatstays", "Seat stays")];
    choice("Pair", "pair", false, &options, move || pick.get().pair.key().to_owned(), choose)
}

/// What is entered of a pair: whether its sides differ, where it starts, and the side that is looked at.
fn pair_entry(pair: PairName) -> Vec<Part> {
    let session = Session::here();
    let follow = session.follow;
    let own_left = move || session.job().with(|job| job.pair(pair).left.is_some());
    let hand = move || if own_left() { session.settings.pick.get().hand } else { Hand::Right };
    let at_node = move || !follow.paths(pair.key()).is_empty();
    let sides = part("div")
        .class("pair")
        .when(own_left, move || side_choice(hand))
        .when(at_node, move || figures("On the seat tube", move || follow.paths(pair.key())))
        .by(
            move || hand().key().to_owned(),
            move |key| side_entry(pair, if key == Hand::Left.key() { Hand::Left } else { Hand::Right }),
        );
    let mirror = switch("Left mirrors right", move || !own_left(), move |_| set_mirror(session, pair));
    vec![mirror, sides]
}

fn set_mirror(session: Session, pair: PairName) {
    session.change("mirror", |job| {
        let pair = job.pair_mut(pair);
        pair.left = if pair.left.is_some() { None } else { Some(pair.right) };
    });
}

fn side_choice(hand: impl Fn() -> Hand + 'static) -> Part {
    let pick = Session::here().settings.pick;
    let choose = move |key: String| {
        if let Some(hand) = Hand::ALL.into_iter().find(|hand| hand.key() == key) {
            pick.update(|pick| pick.hand = hand);
        }
    };
    let options = [("right", "Right"), ("left", "Left")];
    choice("Side", "side", false, &options, move || hand().key().to_owned(), choose)
}

fn side_entry(pair: PairName, hand: Hand) -> Vec<Part> {
    let follow = Session::here().follow;
    let group = |name: &str, key: &str| {
        let path = format!("{}.{}.{key}", pair.key(), hand.key());
        figures(name, move || follow.paths(&path))
    };
    vec![
        group("Front point", "front"),
        end_box(CutAt { pair, hand, at_front: true }),
        group("Rear point", "rear"),
        end_box(CutAt { pair, hand, at_front: false }),
        tube_figures(pair, hand),
        tube_box(pair, hand),
        shelf_box(pair, hand),
    ]
}
