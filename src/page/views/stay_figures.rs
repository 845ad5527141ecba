//! The figures of a pair of stays: its ends, its reference points, its tubes.

use super::choice::choice;
use super::end_box::end_box;
use super::figures::figures;
use super::shelf_box::shelf_box;
use super::switch::switch;
use super::tube_box::{tube_box, tube_figures};
use crate::browser::part::{Part, part};
use crate::session::Session;
use leptos::prelude::*;
use staywright::model::{Hand, PairName};
use staywright::plan::CutAt;

/// What is entered of a pair: whether its sides differ, where it starts, and the side that is looked at.
pub fn stay_figures(pair: PairName) -> Vec<Part> {
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
