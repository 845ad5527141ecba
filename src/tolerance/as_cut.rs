//! One stay as the saw left it: where the cuts really went for given errors of the bench.
//!
//! All in the stay's clamp frame, `(along, outboard, above)`, which is where both its ends are cut without being
//! unclamped. See [the module](super) for what is assumed.

use super::errors::{EndErrors, StayErrors};
use super::fit::{Fit, fit};
use super::set_up::{Hinge, RoundSetUp, SetUp, StaySetUp};
use crate::geometry::{Centreline, Line, Nearest};
use crate::model::{Group, Tube};
use crate::plan::stay_outline;
use crate::units::{Length, Real};
use nalgebra::{Point3, Vector2, Vector3};

/// What a finished stay brings to the frame. Lengths in mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Built<T: nalgebra::Scalar> {
    /// From its hinge on the frame to the middle of its dropout, in the clamp frame it was cut in.
    pub(super) way: Vector3<T>,
    /// How long that is.
    pub(super) length: T,
    /// How much of that runs along the hinge: outboard, or up the seat tube.
    pub(super) along_hinge: T,
    /// How much of that runs along the rear cope's member, outboard.
    pub(super) along_rear: Option<T>,
    /// Where on the hinge it is put: outboard of the centre plane, or by how much up the seat tube.
    pub(super) foot: T,
    /// What its copes leave open when it stands as they hold it.
    pub(super) gaps: [Option<T>; 2],
    /// The tube's diameter at its copes.
    pub(super) diameters: [T; 2],
    /// The tube beside the tyre.
    pub(super) beside_tyre: Option<BesideTyre<T>>,
}

/// Where the tube passes the widest place of the tyre.
#[derive(Clone, Copy, Debug)]
pub(super) struct BesideTyre<T: nalgebra::Scalar> {
    /// How far back between hinge and dropout, 0 to 1.
    pub(super) part: T,
    /// The tube's axis outboard of the centre plane at the hinge.
    pub(super) front: T,
    /// The tube's axis outboard of the dropout's middle, at the dropout.
    pub(super) rear: T,
    /// To its inner side, across the fixture, from the straight line between those two ends of its axis.
    pub(super) half: T,
    /// From the axle to that place, seen from the side.
    pub(super) from_axle: Vector2<T>,
}

/// The tube's radius along the fixture.
struct Body<'a, T: Real> {
    stay: &'a StaySetUp,
    tube: Tube<T>,
}

impl<T: Real> Body<'_, T> {
    fn radius(&self, along: T) -> T {
        self.at(along * T::of(self.stay.secant))
    }

    /// The same by station from the front reference point.
    fn at(&self, station: T) -> T {
        stay_outline(&self.tube).radius(station)
    }
}

/// A stay's axis as it is held: its straight ends, and its middle line where it is bent.
struct Held<T: Real> {
    front: Line<T>,
    rear: Line<T>,
    bent: Option<Centreline<T>>,
}

impl<T: Real> Held<T> {
    /// The tube's radius where an end's axis has a station, so far along the fixture.
    fn radius(&self, body: &Body<'_, T>, station: T, along: T) -> T {
        if self.bent.is_some() { body.at(station) } else { body.radius(along) }
    }

    /// How its ends going home move front and rear together.
    fn nearer(&self, front: T, rear: T) -> Vector3<T> {
        match self.bent {
            None => self.front.direction * (front + rear),
            Some(_) => self.front.direction * front + self.rear.direction * rear,
        }
    }
}

fn true_tube<'a, T: Real>(stay: &'a StaySetUp, errors: &StayErrors<T>) -> Body<'a, T> {
    let plain = stay.tube.od_front == stay.tube.od_rear;
    let mut tube = stay.tube.map("", &mut |_, _, value| T::of(value));
    tube.od_front = tube.od_front + Length::from_mm(errors.front_diameter);
    let rear = if plain { errors.front_diameter } else { errors.rear_diameter };
    tube.od_rear = tube.od_rear + Length::from_mm(rear);
    tube.front_trim = tube.front_trim + Length::from_mm(errors.front_trim);
    Body { stay, tube }
}

/// A stay as cut; `None` where it runs along what it should be coped onto.
pub(super) fn as_cut<T: Real>(set_up: &SetUp, stay: &StaySetUp, errors: &StayErrors<T>) -> Option<Built<T>> {
    let body = true_tube(stay, errors);
    let held = held(stay, &body, errors);
    let line = |round, end| cut_axis(set_up, stay, round, errors, end);
    let hinge =
        stay.front.as_ref().map_or_else(|| square_end(errors.front.along), |r| line(r, &errors.front));
    let radius = |station, along| held.radius(&body, station, along);
    let front = CutEnd::new(radius, &held.front, hinge, stay.front.as_ref(), &errors.front)?;
    let rear = stay.rear.as_ref().and_then(|round| {
        CutEnd::new(radius, &held.rear, line(round, &errors.rear), Some(round), &errors.rear)
    });
    let nearer = held.nearer(front.goes_home(), rear.as_ref().map_or(T::zero(), CutEnd::goes_home));
    let dropout = dropout(stay, rear.as_ref(), errors);
    let way = dropout - nearer - front.on_line.coords;
    let upright = matches!(stay.hinge, Hinge::Upright(_));
    let put = T::of(stay.foot_outboard(stay_foot(stay))) + errors.placing;
    let tube_foot = if upright { front.on_stay.y } else { put };
    Some(Built {
        way,
        length: way.norm(),
        along_hinge: way.dot(&front.line.direction),
        along_rear: rear.as_ref().map(|rear| way.dot(&rear.line.direction)),
        foot: if upright { errors.placing } else { put },
        gaps: [front.gap(), rear.as_ref().and_then(CutEnd::gap)],
        diameters: [front.diameter, rear.as_ref().map_or(T::zero(), |rear| rear.diameter)],
        beside_tyre: beside_tyre(set_up, &body, &held, (&front.on_stay, tube_foot), &dropout),
    })
}

/// One end as cut: the line it was cut about, and where the stay comes nearest to it.
struct CutEnd<T: nalgebra::Scalar> {
    line: Line<T>,
    on_stay: Point3<T>,
    on_line: Point3<T>,
    sine: T,
    diameter: T,
    fit: Option<Fit<T>>,
}

impl<T: Real> CutEnd<T> {
    fn new(
        radius: impl Fn(T, T) -> T,
        stay: &Line<T>,
        line: Line<T>,
        round: Option<&RoundSetUp>,
        errors: &EndErrors<T>,
    ) -> Option<Self> {
        let Nearest::Skew { station, normal, distance } = stay.nearest(&line) else { return None };
        let (on_stay, half) = (stay.at(station), T::of(0.5));
        let radius = radius(station, on_stay.x);
        let fit = round.and_then(|round| {
            let member = (T::of(round.member) + errors.member) * half;
            let saw = (T::of(round.cutter) + errors.cutter) * half;
            fit(member, saw, distance, radius)
        });
        let sine = stay.direction.cross(&line.direction).norm();
        let on_line = on_stay - normal * distance;
        Some(Self { line, on_stay, on_line, sine, diameter: radius + radius, fit })
    }

    /// How far along the stay it goes home onto its member.
    fn goes_home(&self) -> T {
        self.fit.map_or(T::zero(), |fit| fit.push / self.sine)
    }

    fn gap(&self) -> Option<T> {
        self.fit.map(|fit| fit.gap)
    }
}

/// Where along the fixture the nominal stay meets its hinge.
fn stay_foot(stay: &StaySetUp) -> f64 {
    stay.front.as_ref().map_or(0.0, |round| if round.on_side { round.axis.point.x } else { 0.0 })
}

/// The stay's axis as the posts hold it. Their spacing is set by calipers over the tubes, so a stouter tube lies nearer
/// to the centre line by half of what it is stouter.
fn held<T: Real>(stay: &StaySetUp, body: &Body<'_, T>, errors: &StayErrors<T>) -> Held<T> {
    let nominal = Body { stay, tube: nominal_tube(stay) };
    if let Some(bent) = &stay.bent {
        let [front, rear] = bent.stations.map(T::of).map(|at| body.at(at) - nominal.at(at));
        let posed = bent.posed(errors, [errors.front_post - front, errors.rear_post - rear]);
        return Held { front: posed.front, rear: posed.rear, bent: Some(posed.line) };
    }
    let at = |post: Vector2<f64>, error: T| {
        let along = T::of(post.x);
        let stouter = body.radius(along) - nominal.radius(along);
        Point3::new(along, T::of(post.y) + error - stouter, T::zero())
    };
    let [front, rear] = stay.posts;
    let (axis, _) = Line::between(at(front, errors.front_post), at(rear, errors.rear_post));
    Held { front: axis, rear: axis, bent: None }
}

fn nominal_tube<T: Real>(stay: &StaySetUp) -> Tube<T> {
    true_tube(stay, &StayErrors::none()).tube
}

/// An end cut square hangs on the line across the fixture through its cut.
fn square_end<T: Real>(along: T) -> Line<T> {
    Line { point: Point3::new(along, T::zero(), T::zero()), direction: Vector3::y() }
}

/// Where the cutter's axis really ran.
fn cut_axis<T: Real>(
    set_up: &SetUp,
    stay: &StaySetUp,
    round: &RoundSetUp,
    errors: &StayErrors<T>,
    end: &EndErrors<T>,
) -> Line<T> {
    let sign = T::of(stay.hand.sign());
    let tip = errors.edge_finder * T::of(0.5);
    let along = end.along - tip * T::of(set_up.touch_sign);
    let (tilt, turn) = (end.tilt * T::of(DEGREE), end.turn * T::of(DEGREE) * sign);
    if round.on_side {
        let above = end.across - tip - errors.clamp_height;
        let moved = Vector3::new(along + errors.datum, T::zero(), above);
        let direction = Vector3::new(turn.tan(), T::one(), tilt.tan() * sign).normalize();
        return Line { point: round.axis.point.map(T::of) + moved, direction };
    }
    tilted_axis(
        set_up,
        round,
        errors,
        [along, (end.across - errors.block_width * T::of(0.5) - tip) * sign],
        tilt,
        turn,
    )
}

/// A degree in radians.
pub(super) const DEGREE: f64 = std::f64::consts::PI / 180.0;

/// The same for a fixture that tilts: the table runs square to the spindle from the touched edge.
fn tilted_axis<T: Real>(
    set_up: &SetUp,
    round: &RoundSetUp,
    errors: &StayErrors<T>,
    [along, outboard]: [T; 2],
    tilt: T,
    turn: T,
) -> Line<T> {
    let nominal = round.axis.direction;
    let forwards = if nominal.x < 0.0 { -1.0 } else { 1.0 };
    let (sin, cos) = (T::of(nominal.z.atan2(nominal.x.abs())) + tilt).sin_cos();
    let direction = Vector3::new(cos * T::of(forwards), T::zero(), sin);
    let table = Vector3::new(sin, T::zero(), -cos * T::of(forwards));
    let nominal_table = Vector3::new(nominal.z, 0.0, -nominal.x);
    let move_nominal = nominal_table.x * (round.axis.point.x - set_up.touch.x)
        + nominal_table.z * (round.axis.point.z - set_up.touch.y);
    let datum = Point3::new(
        T::of(set_up.touch.x) + errors.datum,
        outboard,
        T::of(set_up.touch.y) + errors.datum_height,
    );
    let point = datum + table * (T::of(move_nominal) + along);
    // The fixture turns about its own normal where the spindle meets the stay plane.
    let down = if sin.value() > 1e-6 { point.z / sin } else { T::zero() };
    let (turn_sin, turn_cos) = turn.sin_cos();
    Line { point: point - direction * down, direction: direction * turn_cos + Vector3::y() * turn_sin }
}

/// The middle of the dropout on this stay. A slot or a socket leaves it room, so the dummy axle places it; a round
/// dropout goes home in its cope, whose line counts where the stay comes nearest to it.
fn dropout<T: Real>(stay: &StaySetUp, rear: Option<&CutEnd<T>>, errors: &StayErrors<T>) -> Vector3<T> {
    let nominal = stay.axle.map(T::of);
    let outboard = nominal.y + errors.spacer;
    match (rear, &stay.rear) {
        (Some(cut), Some(round)) => {
            let moved = cut.on_line - round.axis.point.map(T::of);
            Vector3::new(nominal.x + moved.x, outboard, nominal.z + moved.z)
        }
        _ => Vector3::new(nominal.x + errors.slide, outboard, nominal.z + errors.axle_height),
    }
}

/// The tube beside the tyre, from where it starts and how far outboard that is put.
fn beside_tyre<T: Real>(
    set_up: &SetUp,
    body: &Body<'_, T>,
    held: &Held<T>,
    (on_stay, front): (&Point3<T>, T),
    dropout: &Vector3<T>,
) -> Option<BesideTyre<T>> {
    let (stay, axis, foot) = (body.stay, &held.rear, on_stay.x);
    let square = (set_up.tyre_reach - stay.axle.z) * (set_up.tyre_reach + stay.axle.z);
    let back = (square > 0.0).then(|| square.sqrt())?;
    let along = stay.axle.x - back;
    let outboard = |along: T| axis.point.y + (along - axis.point.x) * axis.direction.y / axis.direction.x;
    let from_axle = stay.along * -back - stay.above * stay.axle.z;
    if along <= foot.value() {
        return None;
    }
    let part = (T::of(along) - foot) / (dropout.x - foot);
    let half = match &held.bent {
        None => body.radius(T::of(along)) / axis.direction.x,
        Some(line) => {
            let straight = on_stay.y + (outboard(dropout.x) - on_stay.y) * part;
            straight - inner_side(line, body, T::of(along))?
        }
    };
    let rear = outboard(dropout.x) - dropout.y;
    Some(BesideTyre { part, front, rear, half, from_axle: from_axle.map(T::of) })
}

/// How far outboard a bent tube's inner side lies, so far along the fixture, as high as its middle lies there. `None` where it
/// does not come by.
fn inner_side<T: Real>(line: &Centreline<T>, body: &Body<'_, T>, along: T) -> Option<T> {
    let whole = (0.0, f64::INFINITY);
    let station = line.level(whole, &Point3::origin(), &Vector3::x(), along)?;
    let here = line.at(station);
    let upright = (here.tangent.x * here.tangent.x + here.tangent.z * here.tangent.z).sqrt();
    Some(here.point.y - body.at(station) / upright)
}
