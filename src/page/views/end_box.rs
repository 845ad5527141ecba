//! What one end of a stay is cut to.

use super::figures::fields;
use super::switch::switch;
use crate::browser::part::{Part, part};
use crate::session::Session;
use leptos::prelude::*;
use staywright::model::capital;
use staywright::model::{Cope, End, EndKind, Job, Member, PairName};
use staywright::plan::CutAt;
use staywright::units::Length;

/// The end that is meant: its place in a job.
#[derive(Clone, Copy)]
struct Spot {
    session: Session,
    at: CutAt,
}

impl Spot {
    fn end(self, job: &Job) -> End {
        let side = job.pair(self.at.pair).side(self.at.hand);
        if self.at.at_front { side.front_end } else { side.rear_end }
    }

    fn put(self, job: &mut Job, end: End) {
        let side = job.pair_mut(self.at.pair).side_mut(self.at.hand);
        if self.at.at_front {
            side.front_end = end;
        } else {
            side.rear_end = end;
        }
    }

    fn now(self) -> End {
        self.session.job().with(|job| self.end(job))
    }

    fn cope(self) -> Option<Cope> {
        match self.now() {
            End::Cope(cope) => Some(cope),
            _ => None,
        }
    }

    fn set(self, end: End) {
        let session = self.session;
        session.edit(&self.key(), |job| self.put(job, end));
        session.settle();
    }

    /// Gives the saw a diameter of its own, to start with the member's, or takes it away.
    fn set_cutter(self, own: bool) {
        let Some(cope) = untrack(|| self.cope()) else { return };
        let member = self.session.job().with_untracked(|job| diameter(job, cope.onto));
        self.set(End::Cope(Cope { cutter: own.then_some(member), ..cope }));
    }

    fn key(self) -> String {
        format!("{}.end", self.at.key())
    }

    /// The member that this end met last or would most likely meet.
    const fn likely_member(self) -> Member {
        match self.at.pair {
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
pub fn end_box(at: CutAt) -> Part {
    let session = Session::here();
    let (spot, follow) = (Spot { session, at }, session.follow);
    let title = if at.at_front { "Front end" } else { "Rear end" };
    let cope = move || spot.cope().map_or("", |cope| cope.onto.key()).to_owned();
    part("fieldset")
        .class("figures end")
        .add(part("legend").text(title))
        .add(kind_menu(spot, title))
        .by(cope, move |onto| if onto.is_empty() { Vec::new() } else { cope_entry(spot) })
        .add(fields(move || follow.paths(&spot.key())))
}

fn kind_menu(spot: Spot, title: &str) -> Part {
    let id = format!("{}-end-kind", spot.at.end());
    let kinds = EndKind::ALL.into_iter().filter(|kind| kind.fits(spot.at.at_front));
    let options = kinds.map(|kind| part("option").set("value", kind.key()).text(kind_name(kind)));
    let menu = part("select")
        .set("id", &id)
        .each(options)
        .value(move || spot.now().kind().key().to_owned())
        .on_change(move |key| {
            if let Some(kind) = EndKind::ALL.into_iter().find(|kind| kind.key() == key) {
                spot.set(kind.start(spot.likely_member()));
            }
        });
    part("div").class("text-field").add(part("label").set("for", &id).text(&format!("{title} is"))).add(menu)
}

/// What a cope is cut onto, and whether its saw has a diameter of its own.
fn cope_entry(spot: Spot) -> Vec<Part> {
    let options =
        Member::ALL.map(|member| part("option").set("value", member.key()).text(&capital(member.name())));
    let menu = part("select")
        .set("id", "cope-onto")
        .each(options)
        .value(move || spot.cope().map_or("", |cope| cope.onto.key()).to_owned())
        .on_change(move |key| {
            let onto = Member::ALL.into_iter().find(|member| member.key() == key);
            if let Some((onto, cope)) = onto.zip(untrack(|| spot.cope())) {
                spot.set(End::Cope(Cope { onto, ..cope }));
            }
        });
    let own_cutter = switch(
        "Cutter differs from the tube it is coped onto",
        move || spot.cope().is_some_and(|cope| cope.cutter.is_some()),
        move |own| spot.set_cutter(own),
    );
    let label = part("label").set("for", "cope-onto").text("Coped onto");
    vec![part("div").class("text-field").add(label).add(menu), own_cutter]
}

fn diameter(job: &Job, member: Member) -> Length {
    match member {
        Member::Shell => job.frame.shell_od,
        Member::SeatTube => job.frame.seat_tube_od,
    }
}
