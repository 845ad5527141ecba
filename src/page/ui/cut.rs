//! The place for the cuts: one row for each setting of the machine, and what belongs to the one that is open.

use crate::browser::hosted::Hosted;
use crate::browser::scroll;
use crate::session::Session;
use crate::views::clear_ticks::clear_ticks;
use crate::views::cut_detail::cut_detail;
use crate::views::order_of_work::{cautions, order_of_work};
use leptos::prelude::*;
use staywright::ask::{SettingRow, StepLine};
use staywright::model::{Hand, Stays};
use staywright::plan::CutAt;
use staywright::procedure::{Phase, SettingKey};

/// The place.
#[component]
pub fn Cut() -> impl IntoView {
    let session = Session::here();
    let start = move |_| session.settings.mill.set(Some(String::new()));
    let progress = move || {
        let (done, all) = progress(session);
        if all == 0 { String::new() } else { format!("{done} of {all} steps done") }
    };
    view! {
        <div class="entry">
            <div class="work-buttons">
                <button type="button" class="main" on:click=start>"Start at the mill"</button>
                <button type="button" on:click=move |_| session.want_card()>"Set-up card"</button>
            </div>
            <SettingList />
            <p class="progress">{progress}</p>
            <Hosted class="stack" make=|| vec![clear_ticks(), cautions()] />
        </div>
        <div class="view stack">
            <Hosted class="stack" make=|| vec![cut_detail()] />
            <details class="box">
                <summary><h2>"All steps"</h2></summary>
                <Hosted class="stack" make=order_of_work />
            </details>
        </div>
    }
}

/// How many steps of the job are done, and how many there are.
fn progress(session: Session) -> (usize, usize) {
    session.order.with(|order| {
        let steps = order.as_ref().map_or(&[][..], |order| &order.steps);
        (steps.iter().filter(|step| session.ticked(step)).count(), steps.len())
    })
}

/// The settings of the plan in view, in the order of the work.
#[component]
fn SettingList() -> impl IntoView {
    let session = Session::here();
    let rows = move || session.answers.order.last().map(|order| order.settings.clone()).unwrap_or_default();
    let rows = Memo::new(move |_| rows());
    let behind = move || session.answers.order.is_behind();
    let list = move || rows.get().into_iter().map(|row| view! { <Setting row /> }).collect_view();
    view! {
        <ol class="settings" class:behind=behind aria-busy=move || behind().then_some("true") aria-label="Settings">
            {list}
        </ol>
    }
}

/// One setting: a picture of what is cut, what is set, and its tick.
#[component]
fn Setting(row: SettingRow) -> impl IntoView {
    let session = Session::here();
    let key = row.key;
    let title = StoredValue::new(row.title);
    let is_open = move || end_of(key).is_some_and(|pick| session.settings.pick.get() == pick);
    let open = move |_| {
        if let Some(pick) = end_of(key) {
            session.settings.pick.set(pick);
            scroll::to("cut-title");
        }
    };
    let readings = row
        .readings
        .into_iter()
        .map(|(name, figure)| view! { <span class="setting-figure"><b>{name}</b>" "{figure}</span> })
        .collect_view();
    let quiet = [row.saw, row.speed, row.posture].into_iter().filter(|one| !one.is_empty());
    let quiet = quiet.collect::<Vec<_>>().join(" · ");
    let state = move || state(session, key);
    let tick = move |_| session.tick_setting(key);
    view! {
        <li class="setting" class:open=is_open class:done=move || state() == State::Done>
            <button type="button" class="setting-open" aria-current=move || is_open().then_some("true") on:click=open>
                <span class="setting-title">{title.get_value()}</span>
                <span class="setting-figures">{readings}</span>
                <span class="setting-quiet">{quiet}</span>
            </button>
            <button
                type="button"
                class="setting-tick"
                aria-label=move || format!("{}: {}", title.get_value(), state().words())
                aria-pressed=move || (state() == State::Done).to_string()
                on:click=tick
            >
                <span class=move || format!("tick-sign {}", state().key()) aria-hidden="true"></span>
            </button>
        </li>
    }
}

/// How far a setting is done.
#[derive(Clone, Copy, PartialEq, Eq)]
enum State {
    Open,
    Begun,
    Done,
}

impl State {
    const fn words(self) -> &'static str {
        match self {
            Self::Open => "not done",
            Self::Begun => "begun",
            Self::Done => "done",
        }
    }

    const fn key(self) -> &'static str {
        match self {
            Self::Open => "",
            Self::Begun => "begun",
            Self::Done => "done",
        }
    }
}

fn state(session: Session, key: SettingKey) -> State {
    session.order.with(|order| {
        let steps = order.as_ref().map_or(&[][..], |order| &order.steps);
        let of_setting = |step: &&StepLine| step.setting == Some(key);
        let all = steps.iter().filter(of_setting).count();
        match steps.iter().filter(of_setting).filter(|step| session.ticked(step)).count() {
            0 => State::Open,
            done if done == all => State::Done,
            _ => State::Begun,
        }
    })
}

/// The end that is looked at with a setting: the right one where both are cut together.
fn end_of(key: SettingKey) -> Option<CutAt> {
    let hand = match key.stays {
        Stays::Both => Hand::Right,
        Stays::One(hand) => hand,
    };
    let at_front = match key.phase {
        Phase::Front => true,
        Phase::Rear => false,
        Phase::Before | Phase::Clamping | Phase::After => return None,
    };
    Some(CutAt { pair: key.pair, hand, at_front })
}
