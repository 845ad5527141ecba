//! The fixture and the edge finder: figures of the shop rather than of the bicycle.

use super::button::button;
use super::choice::choice;
use super::figures::figures;
use super::in_shop::in_shop;
use crate::browser::part::{Part, part};
use crate::session::Session;
use leptos::prelude::*;
use staywright::ask::Change;
use staywright::link;
use staywright::model::TouchSide;
use staywright::units::Length;

const WORDS: &str = "These figures are this job's. Kept as your shop's they are what new jobs start with.";

/// Most posts that a job holds.
const MOST_POSTS: usize = 8;

/// Their figures, folded away until they are wanted.
pub fn fixture_box() -> Part {
    let follow = Session::here().follow;
    let of_fixture = move |posts: bool| {
        move || {
            let paths = follow.paths("fixture").into_iter();
            paths.filter(|path| path.contains('[') == posts).collect()
        }
    };
    let fault = part("p").class("fault").set("role", "status");
    part("details")
        .class("box fixture")
        .add(part("summary").add(part("h2").text("Fixture and edge finder")))
        .add(own_fixture())
        .add(figures("Fixture", of_fixture(false)))
        .add(fault.words_if(move || Session::here().fault_words("fixture.posts_u_mm")))
        .add(figures("Posts", of_fixture(true)))
        .add(post_buttons())
        .add(touch_from())
        .add(figures("Edge finder", || vec!["edge_finder_mm".to_owned()]))
}

/// Keeps this job's fixture as the shop's, and puts the shop's into this job.
fn own_fixture() -> Part {
    let session = Session::here();
    let shop = session.equipment.shop;
    let keep = move || shop.act(Change::Keep(link::encode(&session.follow.good_job())));
    let put = move || {
        in_shop(session, session.follow.good_job(), move |own, is_other| {
            if is_other {
                session.change("own fixture", |job| (job.fixture, job.touch) = (own.fixture, own.touch));
            } else {
                session.say("This is the fixture of your shop, or your shop has none yet.");
            }
        })
    };
    let put_in =
        button("Put my shop's fixture in", put).follow_if("disabled", move || shop.bytes.with(Vec::is_empty));
    let buttons = part("div").class("buttons").add(button("Keep as my shop's fixture", keep)).add(put_in);
    part("div").add(part("p").class("set-on").text(WORDS)).add(buttons)
}

fn post_buttons() -> Part {
    let session = Session::here();
    let count = move || session.job().with(|job| job.fixture.posts.len());
    let add = move || {
        session.change("posts", |job| {
            let last = job.fixture.posts.last().map_or(0.0, |post| post.mm());
            job.fixture.posts.push(Length::from_mm(last + 50.0));
        });
    };
    let remove = move || {
        session.change("posts", |job| {
            job.fixture.posts.pop();
        });
    };
    part("div")
        .class("buttons")
        .add(button("Add a post", add).follow_if("disabled", move || count() >= MOST_POSTS))
        .add(button("Remove the last post", remove).follow_if("disabled", move || count() == 0))
}

fn touch_from() -> Part {
    let session = Session::here();
    let choose = move |key: String| {
        let side = [TouchSide::Front, TouchSide::Rear].into_iter().find(|side| side.key() == key);
        if let Some(side) = side {
            session.change("touch", |job| job.fixture.touch_from = side);
        }
    };
    choice(
        "The edge finder comes to the datum edge from",
        "touch-from",
        true,
        &[("front", "The front"), ("rear", "The rear")],
        move || session.job().with(|job| job.fixture.touch_from.key().to_owned()),
        choose,
    )
}
