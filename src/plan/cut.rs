//! One end of one stay.

use super::fit::{fit, seats};
use super::member::Round;
use super::notices::{Notices, length};
use super::problem::{Mate, Problem, WIDEST_GAP};
use super::profile::profile;
use super::result::{Contact, PhiRange, RoundCut};
use super::setting::Found;
use super::stay_geometry::StayGeometry;
use super::which::Which;
use crate::geometry::{Edge, Gap, Meeting, Nearest, stations};
use crate::units::{Angle, Length, Real};
use nalgebra::Vector3;

/// A stay that runs past its member's end by no more than this, mm, ends with it.
const MEETS: f64 = 1e-9;

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
    warn(&cut, Met::new(&cut, stay, which, member), notices);
    warn_of_saw(&cut, stay, member.mate, notices);
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
        past_end: None,
        footprint: None,
        landing: Vec::new(),
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
    cut.footprint = Some([span.0, span.1].map(Length::from_mm));
    cut.past_end = past_end(cut, span, &towards_member(stay, which), member);
    Some(span)
}

/// How far a stay that is pushed home runs past the nearer end of what it mates to.
fn past_end<T: Real>(
    cut: &RoundCut<T>,
    (low, high): (T, T),
    towards: &Vector3<T>,
    member: &Round<T>,
) -> Option<Length<T>> {
    let half = member.half_length?;
    let pushed = cut.push.map_or(T::zero(), Length::mm) * towards.dot(&member.surface.axis.direction);
    let (over, under) = (high + pushed - half, -half - low - pushed);
    Some(Length::from_mm(if over.value() > under.value() { over } else { under }))
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
struct Met {
    /// What the tube mates to.
    mate: Mate,
    /// How the tube meets it; the saw may be of another size.
    contact: Contact,
    /// Where it misses it.
    missed: Vec<[Angle; 2]>,
}

impl Met {
    fn new<T: Real>(cut: &RoundCut<T>, stay: &StayGeometry<T>, which: Which, member: &Round<T>) -> Self {
        let mate = member.mate;
        if member.is_true_size() || cut.contact == Contact::Parallel {
            let plain = |angle: Angle<T>| Angle::from_degrees(angle.degrees().value());
            let ends = |gap: &PhiRange<T>| [gap.from, gap.to].map(plain);
            return Self { mate, contact: cut.contact, missed: cut.misses.iter().map(ends).collect() };
        }
        let edge = Edge::new(stay.generators(&stay.outer), &member.surface, which.keep());
        let ends = |gap: Gap| [gap.from, gap.to].map(Angle::from_radians);
        Self { mate, contact: contact(edge.meeting()), missed: edge.gaps().into_iter().map(ends).collect() }
    }
}

fn warn<T: Real>(cut: &RoundCut<T>, met: Met, notices: &mut Notices<'_>) {
    let (mate, seats) = (met.mate, matches!(met.contact, Contact::Full | Contact::Partial));
    let found = met_badly(cut, met).or_else(|| cut.feathers.then_some(Problem::GrazingCut));
    if let Some(problem) = found {
        notices.warn(problem);
    }
    if let Some(by) = cut.past_end.map(length).filter(|by| seats && by.mm() > MEETS) {
        notices.warn(Problem::PastMateEnd { mate, by });
    }
}

/// What is wrong with how the saw meets the stay and the stay what it mates to.
fn met_badly<T: Real>(cut: &RoundCut<T>, Met { mate, contact, missed }: Met) -> Option<Problem> {
    let saw_fits = cut.cutter == cut.member;
    match (cut.contact, contact) {
        (Contact::Parallel, _) => Some(Problem::AxesParallel(mate)),
        (Contact::None, Contact::None) => Some(Problem::MissesMate(mate)),
        (Contact::None, _) => Some(Problem::MissesSaw { saw: length(cut.cutter) }),
        (Contact::Touch, _) if saw_fits => Some(Problem::TouchesMate(mate)),
        (Contact::Touch, _) => Some(Problem::TouchesSaw),
        (_, Contact::None | Contact::Touch) => Some(Problem::SeatsNowhere(mate)),
        (_, Contact::Partial) => Some(Problem::PartlyMissesMate { mate, saw_fits, missed }),
        (Contact::Partial, _) => Some(Problem::PartlyMissesSaw),
        _ => None,
    }
}

/// A saw slimmer than what it cuts, or than what the stay is to sit on; of a saw that cuts nothing there is nothing to say.
fn warn_of_saw<T: Real>(cut: &RoundCut<T>, stay: &StayGeometry<T>, mate: Mate, notices: &mut Notices<'_>) {
    if cut.contact == Contact::None {
        return;
    }
    let (saw, diameter) = (length(cut.cutter), length(cut.member));
    let at_cut = cut.short_point.or(cut.axis_station);
    let stay = at_cut.map(|s| Length::from_mm(2.0 * stay.outer.radius(s.mm()).value()));
    if let Some(stay) = stay.filter(|stay| *stay > saw) {
        notices.warn(Problem::SawUnderStay { saw, stay });
    }
    if !seats(saw, diameter) {
        notices.warn(Problem::SawUnderMate { saw, mate, diameter });
    }
    let gap = cut.gap.map(length).filter(|gap| saw > diameter && *gap > WIDEST_GAP);
    if let Some(gap) = gap {
        notices.warn(Problem::SawOverMate { saw, mate, diameter, gap });
    }
}
