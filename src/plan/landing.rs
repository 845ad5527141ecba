//! Where the end of a stay lands on the round member that it mates to, and the vent hole that fits inside it.

use super::at::CutAt;
use super::axes::Axes;
use super::cut::edge;
use super::landing_place::Landing;
use super::lay::lay_again;
use super::member::Round;
use super::problem::Mate;
use super::resolved::middle as dropout_middle;
use super::result::{Cut, Plan, RoundCut};
use super::stay_geometry::StayGeometry;
use super::which::Which;
use crate::geometry::{Cylinder, Edge, Keep, Meeting};
use crate::model::{Dropout, Hand, Job, PairName};
use crate::units::{Angle, Length, Real};
use nalgebra::{Point3, Vector3};

/// Metal between a vent hole and the edge of the bore, mm. Common practice, no source.
const VENT_EDGE: f64 = 2.0;

/// Where the end at `at` lands; `None` for an end that is not round, that is not cut, or on a round dropout whose width is not known.
pub fn landing<T: Real>(plan: &Plan<T>, at: CutAt) -> Option<Landing<T>> {
    let axes = Axes::new(&plan.job.frame);
    let whole = lay_again(&axes, plan, at.pair, at.hand);
    let which = if at.at_front { Which::Front } else { Which::Rear };
    let side = plan.job.pair(at.pair).side(at.hand);
    let end = if at.at_front { &side.front_end } else { &side.rear_end };
    let stay = whole.straight_at(whole.cut_at(which));
    let member = Round::of(end, &plan.job.frame, &axes, &stay)?;
    let surface = Unrolled::new(&plan.job, at.hand, &member, &ahead(&stay, which))?;
    let outer = edge(&stay, which, &member)?;
    let (along, round) = surface.extents(&outer)?;
    let axis = surface.entered(&stay, which).map(|point| surface.place(&point));
    let bore = Edge::new(stay.generators(&stay.bore), &member.cut, which.keep());
    let vent = (bore.meeting() == Meeting::All).then(|| surface.vent(&bore)).flatten();
    let place = |one: T| Length::from_mm(one);
    Some(Landing {
        along_from: place(along.0),
        along_to: place(along.1),
        along_middle: place(middle(along)),
        round_from: Angle::from_radians(round.0),
        round_to: Angle::from_radians(round.1),
        round_middle: Angle::from_radians(middle(round)),
        axis_along: axis.map(|(along, _)| place(along)),
        axis_round: axis.map(|(_, round)| Angle::from_radians(round)),
        vent_along: vent.as_ref().map(|vent| place(vent.along)),
        vent_round: vent.as_ref().map(|vent| Angle::from_radians(vent.round)),
        vent_max: vent.and_then(|vent| vent.largest).map(place),
    })
}

/// The plan with the landings of all its cuts.
pub fn with_landings<T: Real>(plan: &Plan<T>) -> Plan<T> {
    let mut landed = plan.clone();
    for at in CutAt::all() {
        let found = landing(plan, at);
        if let Some(cut) = round_mut(&mut landed, at) {
            cut.landing = found.into_iter().collect();
        }
    }
    landed
}

const fn round_mut<T: Real>(plan: &mut Plan<T>, at: CutAt) -> Option<&mut RoundCut<T>> {
    let pair = match at.pair {
        PairName::Chainstays => &mut plan.pairs.chainstays,
        PairName::Seatstays => &mut plan.pairs.seatstays,
    };
    let stay = match at.hand {
        Hand::Right => &mut pair.right,
        Hand::Left => &mut pair.left,
    };
    match if at.at_front { &mut stay.front } else { &mut stay.rear } {
        Cut::Cope(cut) | Cut::Boss(cut) => Some(cut),
        Cut::Slot(_) | Cut::Square(_) => None,
    }
}

fn middle<T: Real>((from, to): (T, T)) -> T {
    (from + to) * T::of(0.5)
}

/// From the member towards the stay.
fn ahead<T: Real>(stay: &StayGeometry<T>, which: Which) -> Vector3<T> {
    match which {
        Which::Front => stay.axis.direction,
        Which::Rear => -stay.axis.direction,
    }
}

/// A member's surface as it lies when it is slit along and unrolled.
struct Unrolled<T: Real> {
    surface: Cylinder<T>,
    /// Along the member the way that stations count, and the station of its axis' own point.
    along: Vector3<T>,
    datum: T,
    /// Round the member: the way towards the stay, a quarter turn on, and where the former is counted.
    first: Vector3<T>,
    second: Vector3<T>,
    towards: T,
}

/// A vent hole: where, and its largest diameter.
struct Vent<T> {
    along: T,
    round: T,
    largest: Option<T>,
}

impl<T: Real> Unrolled<T> {
    /// The member as an end meets that comes from `ahead`. All that is cut on it lies within a quarter turn of that way: each
    /// generator is cut where it enters. `None` where the member has no known datum, or the way runs along it.
    fn new(job: &Job<T>, hand: Hand, member: &Round<T>, ahead: &Vector3<T>) -> Option<Self> {
        let half = T::of(0.5);
        let (along, datum) = match member.mate {
            Mate::SeatTube => (member.surface.axis.direction, T::zero()),
            Mate::Shell => (-Vector3::y(), job.frame.shell_width.mm() * half),
            Mate::RoundDropout => (-Vector3::y(), right_face(job, hand)?),
        };
        let (zero, quarter) = match member.mate {
            Mate::SeatTube => (Vector3::y().cross(&along), Vector3::y()),
            Mate::Shell | Mate::RoundDropout => (Vector3::x(), Vector3::z()),
        };
        let (x, y) = (ahead.dot(&zero), ahead.dot(&quarter));
        let square = x * x + y * y;
        if square.value() <= 0.0 {
            return None;
        }
        let length = square.sqrt();
        let (cos, sin) = (x / length, y / length);
        Some(Self {
            surface: member.surface,
            along,
            datum,
            first: zero * cos + quarter * sin,
            second: quarter * cos - zero * sin,
            towards: y.atan2(x),
        })
    }

    /// Where a point lies along the member, mm, and round it, radians.
    fn place(&self, point: &Point3<T>) -> (T, T) {
        let from = point - self.surface.axis.point;
        let round = from.dot(&self.second).atan2(from.dot(&self.first));
        (self.datum + from.dot(&self.along), self.towards + round)
    }

    /// Least and greatest place of an edge along and round the member.
    fn extents(&self, edge: &Edge<'_, T>) -> Option<((T, T), (T, T))> {
        let along = |point: &Point3<T>| self.place(point).0;
        let round = |point: &Point3<T>| self.place(point).1;
        Some((extent(edge, along)?, extent(edge, round)?))
    }

    /// Where the stay's axis enters the member.
    fn entered(&self, stay: &StayGeometry<T>, which: Which) -> Option<Point3<T>> {
        let flat = |v: Vector3<T>| (v.dot(&self.first), v.dot(&self.second));
        let (start, way) = (flat(stay.axis.point - self.surface.axis.point), flat(stay.axis.direction));
        let square = way.0 * way.0 + way.1 * way.1;
        let foot = -(start.0 * way.0 + start.1 * way.1) / square;
        let (x, y) = (start.0 + way.0 * foot, start.1 + way.1 * foot);
        let left = self.surface.radius * self.surface.radius - x * x - y * y;
        if left.value() <= 0.0 {
            return None;
        }
        let half = (left / square).sqrt();
        let station = if which.keep() == Keep::Largest { foot + half } else { foot - half };
        Some(stay.axis.at(station))
    }

    /// The vent hole within the edge of a bore.
    fn vent(&self, bore: &Edge<'_, T>) -> Option<Vent<T>> {
        let (along, round) = self.extents(bore)?;
        let (along, round) = (middle(along), middle(round));
        let apart = |point: &Point3<T>| {
            let (x, y) = self.place(point);
            let (x, y) = (x - along, (y - round) * self.surface.radius);
            (x * x + y * y).sqrt()
        };
        let nearest = bore.least(|point, _| Some(apart(point).value()))?;
        let largest = (apart(&bore.point(nearest)?) - T::of(VENT_EDGE)) * T::of(2.0);
        Some(Vent { along, round, largest: (largest.value() >= 0.0).then_some(largest) })
    }
}

/// Least and greatest of a measure of an edge's points.
fn extent<T: Real>(edge: &Edge<'_, T>, measure: impl Fn(&Point3<T>) -> T) -> Option<(T, T)> {
    let low = edge.least(|point, _| Some(measure(point).value()))?;
    let high = edge.least(|point, _| Some(-measure(point).value()))?;
    Some((measure(&edge.point(low)?), measure(&edge.point(high)?)))
}

/// The right face of a known round dropout, to the drive side of the centre plane.
fn right_face<T: Real>(job: &Job<T>, hand: Hand) -> Option<T> {
    let Dropout::Round(part) = job.dropouts.as_ref()?.side(hand) else { return None };
    let middle = dropout_middle(&job.frame, job.dropouts.as_ref()?.side(hand), hand);
    Some(middle.mm() * T::of(hand.sign()) + part.width.mm() * T::of(0.5))
}
