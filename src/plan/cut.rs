//! One end of one stay.

use super::fit::fit;
use super::lay::Laid;
use super::member::Round;
use super::notices::{Notices, mm};
use super::profile::profile;
use super::result::{Contact, PhiRange, RoundCut};
use super::setting::Found;
use super::warn::Code;
use crate::geometry::{Edge, Gap, Keep, Meeting, Nearest, stations};
use crate::quantity::{Angle, Length, Real, said};
use nalgebra::Vector3;

/// Which end of a stay.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Which {
    Front,
    Rear,
}

impl Which {
    /// What is left of a generator when the saw has passed starts at its crossing nearest to the stay's middle.
    pub(super) const fn keep(self) -> Keep {
        match self {
            Self::Front => Keep::Largest,
            Self::Rear => Keep::Smallest,
        }
    }

    pub(super) const fn key(self) -> &'static str {
        match self {
            Self::Front => "front",
            Self::Rear => "rear",
        }
    }
}

/// A cope and the stretch of the cutter's axis that it takes, from the axis' own point.
pub(super) struct Coped<T: Real> {
    pub(super) cut: RoundCut<T>,
    pub(super) span: Option<(T, T)>,
}

/// The cope of one end of a stay onto a round member.
pub(super) fn cope<T: Real>(
    stay: &Laid<T>,
    which: Which,
    member: &Round<T>,
    found: &Found<'_, T>,
    notices: &mut Notices<'_>,
) -> Coped<T> {
    let mut cut = of_axes(stay, member, found);
    let span = edge(stay, which, member).and_then(|edge| edge_figures(&mut cut, &edge, stay, which, member));
    warn(&cut, stay, member, notices);
    Coped { cut, span }
}

/// The edge that the saw cuts on a straight stay; `None` where the axes are parallel.
pub(super) fn edge<'a, T: Real>(stay: &'a Laid<T>, which: Which, member: &Round<T>) -> Option<Edge<'a, T>> {
    apart(stay, member).1?;
    Some(Edge::new(stay.generators(&stay.outer), &member.cut, which.keep()))
}

/// What the two axes and the two sizes say of a cope, before its edge is known.
fn of_axes<T: Real>(stay: &Laid<T>, member: &Round<T>, found: &Found<'_, T>) -> RoundCut<T> {
    let axis = member.surface.axis;
    let angle = Angle::from_radians(stay.axis.angle_to(&axis));
    let (offset, station) = apart(stay, member);
    let diameter = |radius: T| Length::from_mm(radius * T::of(2.0));
    RoundCut {
        angle,
        miter: angle.complement(),
        offset: Length::from_mm(offset),
        axis_station: station.map(Length::from_mm),
        long_point: None,
        long_point_phi: None,
        short_point: None,
        short_point_phi: None,
        contact: Contact::Parallel,
        misses: Vec::new(),
        outer: Vec::new(),
        bore: Vec::new(),
        member: diameter(member.surface.radius),
        cutter: diameter(member.cut.radius),
        gap: None,
        push: None,
        saw_depth: None,
        feathers: false,
        setting: found.setting(&axis),
        axis_point: axis.point,
        axis_direction: axis.direction,
    }
}

/// The signed distance of the two axes, and the station where they are nearest; `None` where they are parallel.
fn apart<T: Real>(stay: &Laid<T>, member: &Round<T>) -> (T, Option<T>) {
    match stay.axis.nearest(&member.surface.axis) {
        Nearest::Parallel { distance } => (distance, None),
        Nearest::Skew { station, normal, distance } => {
            let flip = normal.dot(&member.positive).value() < 0.0;
            (if flip { -distance } else { distance }, Some(station))
        }
    }
}

/// Fills in what the edge of the cut says; gives the stretch of the cutter's axis that it takes.
fn edge_figures<T: Real>(
    cut: &mut RoundCut<T>,
    edge: &Edge<'_, T>,
    stay: &Laid<T>,
    which: Which,
    member: &Round<T>,
) -> Option<(T, T)> {
    cut.contact = contact(edge.meeting());
    cut.misses = edge.gaps().into_iter().map(range).collect();
    cut.outer = profile(edge.degrees());
    cut.bore = profile(stations(&stay.generators(&stay.bore), &member.cut, which.keep()).into_iter());
    cut.feathers = edge.narrowest() < stay.wall.value();
    let (smallest, largest) = edge.extreme_stations().unzip();
    let (long, short) = if which == Which::Front { (smallest, largest) } else { (largest, smallest) };
    cut.long_point = long.map(|(_, s)| Length::from_mm(s));
    cut.long_point_phi = long.map(|(phi, _)| degrees(phi));
    cut.short_point = short.map(|(_, s)| Length::from_mm(s));
    cut.short_point_phi = short.map(|(phi, _)| degrees(phi));
    seat(cut, edge, stay, which, member);
    let span = edge.extent(&member.cut.axis)?;
    cut.saw_depth = Some(Length::from_mm(span.1 - span.0));
    Some(span)
}

/// A saw of the member's own size leaves nothing to seat.
fn seat<T: Real>(cut: &mut RoundCut<T>, edge: &Edge<'_, T>, stay: &Laid<T>, which: Which, member: &Round<T>) {
    if member.is_true_size() {
        let seated = cut.long_point.map(|_| Length::from_mm(T::zero()));
        (cut.gap, cut.push) = (seated, seated);
        return;
    }
    let towards = towards_member(stay, which);
    let seated = fit(edge, &member.surface, &towards);
    cut.gap = seated.as_ref().map(|fit| fit.gap);
    cut.push = seated.as_ref().map(|fit| fit.push);
}

pub(super) fn towards_member<T: Real>(stay: &Laid<T>, which: Which) -> Vector3<T> {
    match which {
        Which::Front => -stay.axis.direction,
        Which::Rear => stay.axis.direction,
    }
}

pub(super) const fn contact(meeting: Meeting) -> Contact {
    match meeting {
        Meeting::All => Contact::Full,
        Meeting::Some => Contact::Partial,
        Meeting::Touch => Contact::Touch,
        Meeting::None => Contact::None,
    }
}

fn degrees<T: Real>(phi: f64) -> Angle<T> {
    Angle::from_degrees(T::of(phi.to_degrees()))
}

fn range<T: Real>(gap: Gap) -> PhiRange<T> {
    PhiRange { from: degrees(gap.from), to: degrees(gap.to) }
}

fn warn<T: Real>(cut: &RoundCut<T>, stay: &Laid<T>, member: &Round<T>, notices: &mut Notices<'_>) {
    let name = member.name;
    match cut.contact {
        Contact::Full if cut.feathers => notices.warn(
            Code::GrazingCut,
            "the saw runs out along the side of the tube: the edge there is thinner than the wall".into(),
        ),
        Contact::Full => {}
        Contact::Partial => notices.warn(Code::PartialContact, open_sentence(cut, name)),
        Contact::Touch => {
            notices
                .warn(Code::TouchOnly, format!("the tube only touches the {name}: there is nothing to cut"));
        }
        Contact::None => {
            notices.warn(Code::NoContact, format!("the tube passes the {name} by: there is nothing to cut"));
        }
        Contact::Parallel => notices.warn(
            Code::AxesParallel,
            format!("the stay runs parallel to the {name}: it cannot be coped onto it"),
        ),
    }
    let od =
        cut.short_point.or(cut.axis_station).map(|s| Length::from_mm(stay.outer.radius(s.mm()) * T::of(2.0)));
    if let Some(od) = od.filter(|od| od.mm().value() > cut.cutter.mm().value()) {
        let message =
            format!("the saw, {} mm, is slimmer than the stay, {} mm at the cut", mm(cut.cutter), mm(od));
        notices.warn(Code::CutterSmallerThanStay, message);
    }
    if cut.cutter.mm().value() < cut.member.mm().value() {
        let message = format!(
            "the saw, {} mm, is slimmer than the {name}, {} mm: the stay touches at its edges and cannot seat",
            mm(cut.cutter),
            mm(cut.member)
        );
        notices.warn(Code::CutterSmallerThanMember, message);
    }
}

fn open_sentence<T: Real>(cut: &RoundCut<T>, name: &str) -> String {
    let ranges = cut.misses.iter().map(|gap| {
        let to = gap.to.degrees().value() % 360.0;
        format!("{}° to {}°", said(gap.from.degrees().value(), 1), said(to, 1))
    });
    let ranges: Vec<String> = ranges.collect();
    format!("part of the tube passes the {name} by: no cut from {}", ranges.join(" and from "))
}
