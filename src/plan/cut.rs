//! One end of one stay.

use super::fit::{fit, seats};
use super::member::Round;
use super::notices::{Notices, mm};
use super::profile::profile;
use super::result::{Contact, PhiRange, RoundCut};
use super::setting::Found;
use super::stay_geometry::StayGeometry;
use super::warn::Code;
use super::which::Which;
use crate::geometry::{Edge, Gap, Meeting, Nearest, stations};
use crate::units::{Angle, Length, Real, said};
use nalgebra::Vector3;

/// A cope and the stretch of the cutter's axis that it takes, from the axis' own point.
pub(super) struct Coped<T: Real> {
    pub(super) cut: RoundCut<T>,
    pub(super) span: Option<(T, T)>,
}

/// The cope of one end of a stay onto a round member.
pub(super) fn cope<T: Real>(
    stay: &StayGeometry<T>,
    which: Which,
    member: &Round<T>,
    found: &Found<'_, T>,
    notices: &mut Notices<'_>,
) -> Coped<T> {
    let mut cut = of_axes(stay, member, found);
    let span = edge(stay, which, member).and_then(|edge| edge_figures(&mut cut, &edge, stay, which, member));
    warn(&cut, &Met::new(&cut, stay, which, member), notices);
    warn_of_saw(&cut, stay, member.name, notices);
    Coped { cut, span }
}

/// The edge that the saw cuts on a straight stay; `None` where the axes are parallel.
pub(super) fn edge<'a, T: Real>(
    stay: &'a StayGeometry<T>,
    which: Which,
    member: &Round<T>,
) -> Option<Edge<'a, T>> {
    apart(stay, member).1?;
    Some(Edge::new(stay.generators(&stay.outer), &member.cut, which.keep()))
}

/// What the two axes and the two sizes say of a cope, before its edge is known.
fn of_axes<T: Real>(stay: &StayGeometry<T>, member: &Round<T>, found: &Found<'_, T>) -> RoundCut<T> {
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
fn apart<T: Real>(stay: &StayGeometry<T>, member: &Round<T>) -> (T, Option<T>) {
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
    stay: &StayGeometry<T>,
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
fn seat<T: Real>(
    cut: &mut RoundCut<T>,
    edge: &Edge<'_, T>,
    stay: &StayGeometry<T>,
    which: Which,
    member: &Round<T>,
) {
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

pub(super) fn towards_member<T: Real>(stay: &StayGeometry<T>, which: Which) -> Vector3<T> {
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

/// What the stay meets where it is joined.
struct Met<'a> {
    /// What the tube has to meet, in words.
    name: &'a str,
    /// How the tube meets the member itself; the saw may be of another size.
    member: Contact,
    /// Where it passes the member by.
    misses: Vec<[f64; 2]>,
}

impl<'a> Met<'a> {
    fn new<T: Real>(cut: &RoundCut<T>, stay: &StayGeometry<T>, which: Which, member: &Round<T>) -> Self {
        let name = member.name;
        if member.is_true_size() || cut.contact == Contact::Parallel {
            let ends = |gap: &PhiRange<T>| [gap.from, gap.to].map(|phi| phi.degrees().value());
            return Self { name, member: cut.contact, misses: cut.misses.iter().map(ends).collect() };
        }
        let edge = Edge::new(stay.generators(&stay.outer), &member.surface, which.keep());
        let misses = edge.gaps().into_iter().map(|gap| [gap.from, gap.to].map(f64::to_degrees)).collect();
        Self { name, member: contact(edge.meeting()), misses }
    }
}

fn warn<T: Real>(cut: &RoundCut<T>, met: &Met<'_>, notices: &mut Notices<'_>) {
    let name = met.name;
    let told = match (cut.contact, met.member) {
        (Contact::Parallel, _) => Some((
            Code::AxesParallel,
            format!("the stay runs parallel to the {name}: it cannot be coped onto it"),
        )),
        (Contact::None, Contact::None) => {
            Some((Code::NoContact, format!("the tube passes the {name} by: there is nothing to cut")))
        }
        (Contact::None, _) => {
            let saw = mm(cut.cutter);
            Some((Code::NoContact, format!("the saw, {saw} mm, passes the tube by: there is nothing to cut")))
        }
        (Contact::Touch, _) => {
            let what = if cut.cutter == cut.member { name } else { "saw" };
            Some((Code::TouchOnly, format!("the tube only touches the {what}: there is nothing to cut")))
        }
        (_, Contact::None | Contact::Touch) => Some((
            Code::NoContact,
            format!("the tube passes the {name} by: the saw cuts it, but it seats nowhere"),
        )),
        (_, Contact::Partial) => Some((Code::PartialContact, open_sentence(cut, met))),
        (Contact::Partial, _) => Some((Code::PartialContact, "part of the tube passes the saw by".into())),
        _ => None,
    };
    if let Some((code, message)) = told {
        notices.warn(code, message);
    } else if cut.feathers {
        let message = "the saw runs out along the side of the tube: the edge there is thinner than the wall";
        notices.warn(Code::GrazingCut, message.into());
    }
}

/// A saw slimmer than what it cuts, or than what the stay is to sit on; of a saw that cuts nothing there is nothing to say.
fn warn_of_saw<T: Real>(cut: &RoundCut<T>, stay: &StayGeometry<T>, name: &str, notices: &mut Notices<'_>) {
    if cut.contact == Contact::None {
        return;
    }
    let od =
        cut.short_point.or(cut.axis_station).map(|s| Length::from_mm(stay.outer.radius(s.mm()) * T::of(2.0)));
    if let Some(od) = od.filter(|od| od.mm().value() > cut.cutter.mm().value()) {
        let message =
            format!("the saw, {} mm, is slimmer than the stay, {} mm at the cut", mm(cut.cutter), mm(od));
        notices.warn(Code::CutterSmallerThanStay, message);
    }
    if !seats(cut.cutter, cut.member) {
        let message = format!(
            "the saw, {} mm, is slimmer than the {name}, {} mm: the stay touches at its edges and cannot seat",
            mm(cut.cutter),
            mm(cut.member)
        );
        notices.warn(Code::CutterSmallerThanMember, message);
    }
}

fn open_sentence<T: Real>(cut: &RoundCut<T>, met: &Met<'_>) -> String {
    let one = |[from, to]: &[f64; 2]| format!("{}° to {}°", said(*from, 1), said(to % 360.0, 1));
    let ranges: Vec<String> = met.misses.iter().map(one).collect();
    let lacks = if cut.cutter == cut.member { "no cut" } else { "no seat" };
    format!("part of the tube passes the {} by: {lacks} from {}", met.name, ranges.join(" and from "))
}
