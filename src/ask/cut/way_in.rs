//! The way of a saw into its stays as it is drawn.

use super::{Here, ToCut, saws, shop};
use crate::drawing::{Body, GapLine, Part, Place, Room, Sheet, WayIn, way_in};
use crate::geometry::{Convex, ConvexRod, Line};
use crate::machining::{Reach, Standing, Stroke, Turning, candidates, standing, turning};
use crate::plan::{CutAt, RoundCut};
use crate::quantity::Length;
use crate::trade::shop::HoleSaw;

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
        gap: None,
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
    let mut named: Vec<Standing> = Vec::new();
    let body = |(standing, solid): (Standing, Convex)| {
        let is_new = !named.contains(&standing);
        named.push(standing);
        let part = if matches!(standing, Standing::Stay(_)) { Part::Work } else { Part::Fixture };
        Body { name: if is_new { standing.name() } else { String::new() }, part, solid }
    };
    standing(here.plan, here.shop, here.at).into_iter().map(body).collect()
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
