//! The fixture and the edge finder: figures of the shop rather than of the bicycle.

use super::choice::Choice;
use super::figures::Figures;
use crate::session::{Session, job_file};
use leptos::prelude::*;
use staywright::quantity::Length;
use staywright::trade::{Job, TouchSide};

/// Their figures, folded away until they are wanted.
#[component]
pub fn FixtureBox() -> impl IntoView {
    let session = Session::here();
    let bench = Signal::derive(move || {
        session.follow.paths("fixture").into_iter().filter(|path| !path.contains('[')).collect::<Vec<_>>()
    });
    let posts = Signal::derive(move || {
        session.follow.paths("fixture").into_iter().filter(|path| path.contains('[')).collect::<Vec<_>>()
    });
    let finder = Signal::derive(|| vec!["edge_finder_mm".to_owned()]);
    view! {
        <details class="box fixture">
            <summary><h2>"Fixture and edge finder"</h2></summary>
            <OwnFixture />
            <Figures title="Fixture" paths=bench />
            <PostsFault />
            <Figures title="Posts" paths=posts />
            <PostButtons />
            <TouchFrom />
            <Figures title="Edge finder" paths=finder />
        </details>
    }
}

/// Keeps the fixture of this shop, and puts it into another job.
#[component]
fn OwnFixture() -> impl IntoView {
    let session = Session::here();
    let kept = session.settings.fixture;
    let keep = move |_| {
        kept.set(Some(session.follow.good.with_untracked(|job| job_file::fixture_text(job))));
        session.say("This fixture is kept on this device.");
    };
    let put = move |_| {
        if let Some(own) = kept.get_untracked().and_then(|text| Job::from_json(&text).ok()) {
            session.edit("own fixture", |job| {
                job.fixture = own.fixture;
                job.touch = own.touch;
            });
            session.settle();
        }
    };
    view! {
        <div class="buttons">
            <button type="button" on:click=keep>"Keep as my fixture"</button>
            <button type="button" disabled=move || kept.with(Option::is_none) on:click=put>"Put my fixture in"</button>
        </div>
    }
}

/// What is wrong with the posts as a list.
#[component]
fn PostsFault() -> impl IntoView {
    let faults = Session::here().follow.faults;
    let fault = move || {
        faults.with(|list| {
            list.iter().find(|fault| fault.field == "fixture.posts_u_mm").map(|fault| fault.message.clone())
        })
    };
    view! { <p class="fault" role="status">{fault}</p> }
}

#[component]
fn PostButtons() -> impl IntoView {
    let session = Session::here();
    let count = move || session.job().with(|job| job.fixture.posts.len());
    let add = move |_| {
        session.edit("posts", |job| {
            let last = job.fixture.posts.last().map_or(0.0, |post| post.mm());
            job.fixture.posts.push(Length::from_mm(last + 50.0));
        });
        session.settle();
    };
    let remove = move |_| {
        session.edit("posts", |job| {
            job.fixture.posts.pop();
        });
        session.settle();
    };
    view! {
        <div class="buttons">
            <button type="button" disabled=move || { count() >= 8 } on:click=add>"Add a post"</button>
            <button type="button" disabled=move || count() == 0 on:click=remove>"Remove the last post"</button>
        </div>
    }
}

#[component]
fn TouchFrom() -> impl IntoView {
    let session = Session::here();
    let chosen = Signal::derive(move || session.job().with(|job| job.fixture.touch_from.key().to_owned()));
    let choose = move |key: String| {
        let side = [TouchSide::Front, TouchSide::Rear].into_iter().find(|side| side.key() == key);
        if let Some(side) = side {
            session.edit("touch", |job| job.fixture.touch_from = side);
            session.settle();
        }
    };
    let options = vec![("front", "The front"), ("rear", "The rear")];
    view! {
        <Choice legend="The edge finder comes to the datum edge from" name="touch-from" titled=true options=options chosen=chosen choose=choose />
    }
}
