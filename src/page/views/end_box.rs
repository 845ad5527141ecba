//! What one end of a stay is cut to.

use super::field::FigureField;
use crate::session::Session;
use leptos::prelude::*;
use staywright::quantity::Length;
use staywright::trade::{Cope, End, EndKind, Hand, Job, Member, PairName, Side};

/// The end that is meant: its place in a job.
#[derive(Clone, Copy, PartialEq)]
struct Spot {
    pair: PairName,
    hand: Hand,
    at_front: bool,
}

impl Spot {
    fn end(self, job: &Job) -> End {
        let side = job.pair(self.pair).side(self.hand);
        if self.at_front { side.front_end } else { side.rear_end }
    }

    fn put(self, job: &mut Job, end: End) {
        let pair = job.pair_mut(self.pair);
        let side: &mut Side = match (self.hand, &mut pair.left) {
            (Hand::Left, Some(left)) => left,
            _ => &mut pair.right,
        };
        if self.at_front {
            side.front_end = end;
        } else {
            side.rear_end = end;
        }
    }

    fn key(self) -> String {
        let end = if self.at_front { "front" } else { "rear" };
        format!("{}.{}.{end}.end", self.pair.key(), self.hand.key())
    }

    /// The member that this end met last or would most likely meet.
    const fn likely_member(self) -> Member {
        match self.pair {
            PairName::Chainstays => Member::Shell,
            PairName::Seatstays => Member::SeatTube,
        }
    }
}

const fn kind_name(kind: EndKind) -> &'static str {
    match kind {
        EndKind::Cope => "Coped onto a tube of the frame",
        EndKind::Boss => "Coped onto a round dropout",
        EndKind::Slot => "Slotted for a plate",
        EndKind::Square => "Cut square",
    }
}

/// Kind, member, cutter and figures of one end.
#[component]
pub fn EndBox(pair: PairName, hand: Hand, at_front: bool) -> impl IntoView {
    let session = Session::here();
    let spot = Spot { pair, hand, at_front };
    let end = Memo::new(move |_| session.job().with(|job| spot.end(job)));
    let set = move |end: End| {
        session.edit(&spot.key(), |job| spot.put(job, end));
        session.settle();
    };
    let choose = move |event| {
        let key = event_target_value(&event);
        if let Some(kind) = EndKind::ALL.into_iter().find(|kind| kind.key() == key) {
            set(kind.start(spot.likely_member()));
        }
    };
    let kinds = EndKind::ALL.into_iter().filter(|kind| kind.fits(at_front)).map(|kind| {
        view! { <option value=kind.key() selected=move || end.get().kind() == kind>{kind_name(kind)}</option> }
    });
    let words = if at_front { "front" } else { "rear" };
    let id = format!("{words}-end-kind");
    let paths = Signal::derive(move || session.follow.paths(&spot.key()));
    view! {
        <fieldset class="figures end">
            <legend>{if at_front { "Front end" } else { "Rear end" }}</legend>
            <div class="text-field">
                <label for=id.clone()>{if at_front { "Front end is" } else { "Rear end is" }}</label>
                <select id=id on:change=choose>{kinds.collect_view()}</select>
            </div>
            {move || match end.get() {
                End::Cope(cope) => Some(view! { <CopeEntry cope=cope spot=spot set=set /> }),
                _ => None,
            }}
            <div class="figure-grid">
                <For each=move || paths.get() key=String::clone children=|path| view! { <FigureField path=path /> } />
            </div>
        </fieldset>
    }
}

/// What a cope is cut onto, and whether its saw has a diameter of its own.
#[component]
fn CopeEntry<S: Fn(End) + Copy + Send + Sync + 'static>(cope: Cope, spot: Spot, set: S) -> impl IntoView {
    let session = Session::here();
    let choose = move |event| {
        let key = event_target_value(&event);
        if let Some(onto) = Member::ALL.into_iter().find(|member| member.key() == key) {
            set(End::Cope(Cope { onto, ..cope }));
        }
    };
    let members = Member::ALL.map(|member| {
        view! { <option value=member.key() selected=cope.onto == member>{super::ids::capital(member.name())}</option> }
    });
    let own_cutter = move |_| {
        let current = session.job().with_untracked(|job| (spot.end(job), diameter(job, cope.onto)));
        if let (End::Cope(now), member) = current {
            let cutter = if now.cutter.is_some() { None } else { Some(member) };
            set(End::Cope(Cope { cutter, ..now }));
        }
    };
    view! {
        <div class="text-field">
            <label for="cope-onto">"Coped onto"</label>
            <select id="cope-onto" on:change=choose>{members}</select>
        </div>
        <label class="switch">
            <input type="checkbox" role="switch" prop:checked=cope.cutter.is_some() on:change=own_cutter />
            <span>"Cutter differs from the tube it is coped onto"</span>
        </label>
    }
}

fn diameter(job: &Job, member: Member) -> Length {
    match member {
        Member::Shell => job.frame.shell_od,
        Member::SeatTube => job.frame.seat_tube_od,
    }
}
