//! The way of a saw into its stays as it is drawn.

use super::{Here, ToCut, saws, shop};
use crate::drawing::{Body, GapLine, Part, Place, Room, Sheet, WayIn, way_in};
use crate::geometry::{Convex, ConvexRod, Drum, Line, Near, Part as Piece, Pipe, Solid, Turned, gap};
use crate::machining::{Reach, Standing, Stroke, Turning, candidates, nearest, standing, turning};
use crate::plan::{CutAt, RoundCut};
use crate::quantity::{Bounds, Length};
use crate::trade::shop::HoleSaw;
use nalgebra::Point3;

/// Steps to and fro between two bodies: what is left after them does not show in a drawing.
const FEET: u32 = 200;

/// A bent stay is drawn as so many stumps.
const STUMPS: u32 = 32;

/// The drawing of a round cut with the saw that is used for it; `None` where there is no such cut or no saw.
pub(in crate::ask) fn sheet(asked: &ToCut, room: Room) -> Option<Sheet> {
    let plan = super::planned(&asked.job)?;
    let at = CutAt::all().find(|at| at.key() == asked.cut)?;
    let shop = shop::read(&asked.shop);
    let here = Here { plan: &plan, shop: &shop, at, unit: asked.unit };
    let way = way(here, at.cut(&plan).round()?, &asked.picked)?;
    Some(way_in(Place { pair: at.pair, hand: at.hand, at_front: at.at_front }, &way, room))
}

fn way(here: Here<'_>, cut: &RoundCut, picked: &[(String, String)]) -> Option<WayIn> {
    let ranked = candidates(here.plan, here.shop, here.at);
    let (used, _) = saws::used(here, cut, &ranked, picked)?;
    let saw = here.shop.hole_saws.get(used.saw)?;
    let cuts = crate::work::together(here.plan, here.at);
    let stroke = Stroke::new(here.plan, here.shop, &cuts, used.diameter)?;
    let mut bodies = turned(here, &stroke, saw);
    bodies.extend(stood(here));
    Some(WayIn {
        axis: stroke.axis,
        bodies,
        back: stroke.axis.direction * stroke.length().mm(),
        gap: smallest(here, &stroke, saw),
        left: left(&stroke, saw, stroke.reach(here.shop, saw)),
    })
}

/// What turns, at the end of the stroke.
fn turned(here: Here<'_>, stroke: &Stroke, saw: &HoleSaw) -> Vec<Body> {
    let rod = |from, to, radius| Convex::Rod(ConvexRod::cylinder(stroke.axis, from, to, radius));
    let mut bodies = Vec::new();
    for part in turning(stroke, saw, &here.shop.mill.body) {
        let cuts = part.part == Turning::Saw;
        bodies.push(Body {
            name: part.part.name().to_owned(),
            part: if cuts { Part::Cutter } else { Part::Carrier },
            solid: rod(part.from, part.to, part.radius),
        });
        if cuts {
            let inside = (part.radius - saw.size.kerf.mm()).max(0.0);
            bodies.push(Body {
                name: String::new(),
                part: Part::Hollow,
                solid: rod(part.from, part.to, inside),
            });
        }
    }
    bodies
}

/// What stands about the work.
fn stood(here: Here<'_>) -> Vec<Body> {
    let body = |(standing, parts): (Standing, Vec<Piece>)| {
        let part = if matches!(standing, Standing::Stay(_)) { Part::Work } else { Part::Fixture };
        // A body has its name once, whatever it is put together of.
        let name = |i| if i == 0 { standing.name() } else { String::new() };
        let solids = parts.iter().flat_map(solids).enumerate();
        solids.map(|(i, solid)| Body { name: name(i), part, solid }).collect::<Vec<_>>()
    };
    standing(here.plan, here.shop, here.at).into_iter().flat_map(body).collect()
}

/// A piece of a body as it is drawn: a bent one as a chain of stumps.
fn solids(piece: &Piece) -> Vec<Convex> {
    match piece {
        Piece::Convex(solid) => vec![solid.clone()],
        Piece::Bent(line, outline, (from, to)) => {
            let station = |i: u32| from + (to - from) * f64::from(i) / f64::from(STUMPS);
            let stump = |i| {
                let (start, end) = (station(i), station(i + 1));
                let (axis, length) = Line::between(line.at(start).point, line.at(end).point);
                let (from_radius, to_radius) = (outline.radius(start), outline.radius(end));
                Convex::Rod(ConvexRod { axis, from: 0.0, to: length, from_radius, to_radius })
            };
            (0..STUMPS).map(stump).collect()
        }
    }
}

/// The smallest gap of the whole stroke, between its two points.
fn smallest(here: Here<'_>, stroke: &Stroke, saw: &HoleSaw) -> Option<GapLine> {
    let near =
        nearest(here.plan, here.shop, stroke, saw).into_iter().next().filter(|near| near.goes.is_none())?;
    let turns = turning(stroke, saw, &here.shop.mill.body).into_iter().find(|body| body.part == near.part)?;
    let drum = turns.swept(&stroke.axis, stroke.length().mm(), 0.0);
    let (_, pieces) =
        standing(here.plan, here.shop, here.at).into_iter().find(|(body, _)| *body == near.body)?;
    let apart = |piece: &Piece| drum.distance(std::slice::from_ref(piece));
    let piece = pieces.iter().min_by(|a, b| apart(a).total_cmp(&apart(b)))?;
    let (from, to) = ends(&drum, piece)?;
    Some(GapLine {
        name: format!("{} to {}", near.part.name(), near.body.name()),
        topic: String::new(),
        from,
        to,
        gap: near.gap,
        limit: Length::default(),
    })
}

/// Where the two are nearest: from foot to foot, to and fro, until neither moves.
fn ends(drum: &Drum, piece: &Piece) -> Option<(Point3<f64>, Point3<f64>)> {
    let body = match piece {
        Piece::Bent(line, outline, (from, to)) => {
            let closest = gap(&Pipe { line, outline, from: *from, to: *to }, drum)?;
            return Some((closest.there, closest.here));
        }
        Piece::Convex(body) => body,
    };
    let mut there = foot(body, &drum.axis.at((drum.from + drum.to) / 2.0));
    let mut here = there;
    for _ in 0..FEET {
        here = outside(drum.near(&there), &there);
        there = foot(body, &here);
    }
    Some((here, there))
}

/// The point of a body nearest to a place; of a stump, that of the cylinder which is as thick there.
fn foot(body: &Convex, place: &Point3<f64>) -> Point3<f64> {
    match body {
        Convex::Block(block) => block.halves.iter().fold(block.middle, |at, half| {
            let share = (place - block.middle).dot(half) / half.norm_squared().max(f64::MIN_POSITIVE);
            at + half * Bounds::new(-1.0, 1.0).nearest(share)
        }),
        Convex::Rod(rod) | Convex::Swept(rod, _) => {
            let along = (place - rod.axis.point).dot(&rod.axis.direction).max(rod.from).min(rod.to);
            let share = (along - rod.from) / (rod.to - rod.from).max(f64::MIN_POSITIVE);
            let rim = rod.from_radius + (rod.to_radius - rod.from_radius) * share;
            let turned =
                Turned { axis: rod.axis, hole: 0.0, rim, low: rod.from, high: rod.to, rounding: 0.0 };
            outside(turned.near(place), place)
        }
    }
}

/// The foot of a place outside a body; the place itself inside it.
fn outside(near: Near, place: &Point3<f64>) -> Point3<f64> {
    if near.distance > 0.0 { near.foot(place) } else { *place }
}

/// The reach that is left, along the cutter's axis.
fn left(stroke: &Stroke, saw: &HoleSaw, reach: Reach) -> Vec<GapLine> {
    let depth = stroke.teeth_at_end + saw.size.depth.mm();
    let holder = depth + saw.arbor.reach.mm();
    let line = |name: &str, from: f64, to: f64, gap: Length| between(&stroke.axis, name, from, to, gap);
    vec![
        line("reach left", stroke.high, holder, reach.through),
        line("depth left", depth - reach.bottom.mm(), depth, reach.bottom),
    ]
}

fn between(axis: &Line, name: &str, from: f64, to: f64, gap: Length) -> GapLine {
    GapLine {
        name: name.to_owned(),
        topic: String::new(),
        from: axis.at(from),
        to: axis.at(to),
        gap,
        limit: Length::default(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::plan;
    use crate::quantity::LengthUnit;
    use crate::trade::shop::demo_shop;
    use crate::trade::starters;

    #[test]
    fn the_gap_is_drawn_between_two_points_that_are_as_far_apart_as_it_says() {
        let shop = demo_shop();
        let mut drawn = 0;
        for starter in starters() {
            let plan = plan(&starter.job).unwrap();
            for at in CutAt::all() {
                let here = Here { plan: &plan, shop: &shop, at, unit: LengthUnit::Millimetre };
                let Some(way) = at.cut(&plan).round().and_then(|cut| way(here, cut, &[])) else { continue };
                assert!(way.bodies.len() > 8 && way.left.len() == 2);
                let Some(gap) = way.gap else { continue };
                let apart = (gap.from - gap.to).norm();
                assert!((apart - gap.gap.mm()).abs() < 0.02, "{}: {apart} {:?}", at.key(), gap.gap);
                drawn += 1;
            }
        }
        assert!(drawn > 4, "{drawn}");
    }
}
