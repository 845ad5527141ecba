//! The rear end of a plan as a scene: shell, seat tube, stays, dropouts, and what turns beside them.

use super::assembly::Scene;
use super::body::SceneBody;
use super::dropout::dropout_solids;
use super::loft::Loft;
use super::part::{Material, ScenePart};
use super::shapes::{about, block, pipe, turned, turned_ring};
use super::solid::Solid;
use super::stay::stay_solid;
use crate::clearance::{Obstacle, ObstacleSolid, obstacles};
use crate::geometry::{Line, Turned};
use crate::model::{Frame, Hand, PairName, Wheel};
use crate::plan::Plan;
use crate::units::LengthUnit;
use crate::units::show::{diameter, length};
use nalgebra::{Point3, Vector3};
use std::f64::consts::TAU;

/// Walls of the shell and of the seat tube, diameter of the axle, mm. The picture's own: a job does not say.
const SHELL_WALL: f64 = 3.0;
const SEAT_TUBE_WALL: f64 = 0.9;
const AXLE: f64 = 12.0;

/// How far the axle runs past its dropouts' inner faces, mm. The picture's own.
const AXLE_OVER: f64 = 10.0;

/// The seat tube goes on by this much above the seat stays, mm.
const TUBE_OVER: f64 = 55.0;

/// Width of the rim of a chainring and of a rotor, mm. The picture's own.
const RIM: f64 = 15.0;

/// Facets round a member, round a wheel, and round a tyre's section.
const SIDES: u32 = 32;
const WHEEL_SIDES: u32 = 60;
const SECTION: u32 = 12;

/// The rear end of a plan. Figures of the text are in `unit`. Cranks and heels, of which a job knows what they sweep, are left out.
pub fn rear_end(plan: &Plan, unit: LengthUnit) -> Scene {
    let mut bodies = members(plan);
    for hand in Hand::ALL {
        bodies.extend(PairName::ALL.into_iter().filter_map(|pair| {
            let solid = stay_solid(plan, pair, hand)?;
            Some(framed(ScenePart::Stay(pair, hand), Material::Stay, solid))
        }));
        let part = ScenePart::Dropout(hand);
        bodies.extend(
            dropout_solids(plan, hand).into_iter().map(|solid| framed(part, Material::Dropout, solid)),
        );
    }
    bodies.push(beside(ScenePart::Tyre, Material::Rubber, tyre(&plan.job.wheel, plan.axle)));
    for hand in Hand::ALL {
        bodies.extend(turning(plan, hand));
    }
    Scene::new(text(plan, unit), bodies)
}

const fn framed(part: ScenePart, material: Material, solid: Solid) -> SceneBody {
    SceneBody { part, material, solid, framed: true }
}

const fn beside(part: ScenePart, material: Material, solid: Solid) -> SceneBody {
    SceneBody { part, material, solid, framed: false }
}

fn members(plan: &Plan) -> Vec<SceneBody> {
    let frame = &plan.job.frame;
    let (radius, half) = (frame.shell_od.mm() / 2.0, frame.shell_width.mm() / 2.0);
    let across = Line { point: Point3::origin(), direction: Vector3::y() };
    let bore = (radius - SHELL_WALL).max(radius / 2.0);
    let axle = Line { point: plan.axle, direction: Vector3::y() };
    let over = frame.axle_spacing.mm() / 2.0 + AXLE_OVER;
    vec![
        framed(ScenePart::Shell, Material::Member, pipe(&across, (-half, half), (radius, bore), SIDES)),
        framed(ScenePart::SeatTube, Material::Member, seat_tube(plan)),
        framed(
            ScenePart::Axle,
            Material::Dropout,
            turned(&axle, &[(-over, AXLE / 2.0), (over, AXLE / 2.0)], SIDES / 2),
        ),
    ]
}

/// The seat tube from the shell, which it is mitered to, to above the seat stays.
fn seat_tube(plan: &Plan) -> Solid {
    let frame = &plan.job.frame;
    let axis = Line { point: plan.seat_tube_foot, direction: plan.seat_tube_direction };
    let radius = frame.seat_tube_od.mm() / 2.0;
    let bore = (radius - SEAT_TUBE_WALL).max(radius / 2.0);
    let top = plan.job.seatstay_node.front_station.mm() + TUBE_OVER;
    let (first, second) = about(&axis.direction);
    let ring = |radius: f64, station: &dyn Fn(Vector3<f64>) -> f64| -> Vec<Point3<f64>> {
        let point = |step: u32| {
            let (sin, cos) = (f64::from(step) / f64::from(SIDES) * TAU).sin_cos();
            let out = (first * cos + second * sin) * radius;
            axis.at(station(out)) + out
        };
        (0..SIDES).map(point).collect()
    };
    let miter = |out: Vector3<f64>| above_shell(frame, &(axis.point + out));
    let level = |station: f64| move |_: Vector3<f64>| station;
    let shell = frame.shell_od.mm() / 2.0;
    let shown = (2.0 * frame.seat_tube_od.mm()).min((top - shell) / 3.0).max(1.0);
    Loft::default()
        .ring(0, ring(bore, &level(shell + shown)))
        .ring(0, ring(bore, &miter))
        .ring(1, ring(radius, &miter))
        .ring(2, ring(radius, &level(top)))
        .ring(3, ring(bore, &level(top)))
        .ring(4, ring(bore, &level(top - shown)))
        .capped()
}

/// How far along the seat tube a line that starts beside the shell's axis leaves the shell; 0 where it passes it by.
fn above_shell(frame: &Frame, start: &Point3<f64>) -> f64 {
    let radius = frame.shell_od.mm() / 2.0;
    let aside = start.x.hypot(start.z);
    (radius * radius - aside * aside).max(0.0).sqrt()
}

/// The tyre, its section an ellipse of its width and height on the bead seat.
fn tyre(wheel: &Wheel, axle: Point3<f64>) -> Solid {
    let (wide, high) = (wheel.tyre_width.mm() / 2.0, wheel.tyre_height.mm() / 2.0);
    let middle = wheel.bead_seat.mm() / 2.0 + high;
    let point = |step: u32| {
        let (sin, cos) = (f64::from(step) / f64::from(SECTION) * TAU).sin_cos();
        (-wide * cos, middle + high * sin)
    };
    let section: Vec<(f64, f64)> = (0..SECTION).map(point).collect();
    turned_ring(&Line { point: axle, direction: Vector3::y() }, &section, WHEEL_SIDES)
}

/// Chainrings, sprocket, rotor and caliper on one side.
fn turning(plan: &Plan, hand: Hand) -> Vec<SceneBody> {
    let body = |to: Obstacle, solid: &ObstacleSolid| {
        let part = match to {
            Obstacle::Chainring(place) => ScenePart::Chainring(place),
            Obstacle::Chain => ScenePart::Sprocket,
            Obstacle::Rotor => ScenePart::Rotor,
            Obstacle::Caliper => ScenePart::Caliper,
            _ => return None,
        };
        let solid = match solid {
            ObstacleSolid::Turned(disc) if to == Obstacle::Chain => plain_disc(disc),
            ObstacleSolid::Turned(disc) => rim(disc),
            ObstacleSolid::Block(body) => block(body.middle, right_handed(body.directions), body.halves),
            ObstacleSolid::Half(_) => return None,
        };
        Some(beside(part, Material::Wheelwork, solid))
    };
    obstacles(plan, PairName::Chainstays, hand)
        .iter()
        .filter_map(|placed| body(placed.to, &placed.solid))
        .collect()
}

fn plain_disc(disc: &Turned) -> Solid {
    turned(&disc.axis, &[(disc.low, disc.rim), (disc.high, disc.rim)], WHEEL_SIDES)
}

/// The outermost of a disc: the rest would hide the stays.
fn rim(disc: &Turned) -> Solid {
    let hole = (disc.rim - RIM).max(disc.rim / 2.0);
    pipe(&disc.axis, (disc.low, disc.high), (disc.rim, hole), WHEEL_SIDES)
}

fn right_handed([a, b, c]: [Vector3<f64>; 3]) -> [Vector3<f64>; 3] {
    if a.cross(&b).dot(&c) < 0.0 { [a, b, -c] } else { [a, b, c] }
}

fn text(plan: &Plan, unit: LengthUnit) -> String {
    let (frame, wheel) = (&plan.job.frame, &plan.job.wheel);
    format!(
        "The rear end in three dimensions: chainstay length {}, drop {}, shell {} and {} wide, seat tube {}, dropouts {} apart, tyre {} wide.",
        length(frame.chainstay_length, unit),
        length(frame.bb_drop, unit),
        diameter(frame.shell_od, unit),
        length(frame.shell_width, unit),
        diameter(frame.seat_tube_od, unit),
        length(frame.axle_spacing, unit),
        length(wheel.tyre_width, unit),
    )
}
