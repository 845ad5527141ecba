//! The way of a saw into its stays as it is drawn.

use super::{Here, ToCut, saws, shop};
use crate::drawing::{Body, GapLine, Part, Sheet, Viewport, WayIn, way_in};
use crate::machining::{
    Near, Reach, Standing, Stroke, Turning, TurningBody, candidates, nearest, nearest_points, slot_end,
    slot_passes, slot_points, slot_ways, solids, standing, turning,
};
use crate::model::shop::HoleSaw;
use crate::plan::{Cut, CutAt, Plan, RoundCut, SlotCut};
use crate::text::machining::{standing_name, turning_name};
use crate::units::Length;
use nalgebra::Point3;

/// The drawing of a cut with the saw that is used for it; `None` where there is no such cut or no saw.
pub(in crate::ask) fn sheet(plan: &Plan, asked: &ToCut, viewport: Viewport) -> Option<Sheet> {
    let at = CutAt::all().find(|at| at.key() == asked.cut)?;
    let shop = shop::read(&asked.shop);
    let here = Here { plan, shop: &shop, at, unit: asked.unit };
    let way = match at.cut(plan) {
        Cut::Cope(cut) | Cut::Boss(cut) => way(here, cut, &asked.picked)?,
        Cut::Slot(cut) => slot(here, cut)?,
        Cut::Square(_) => return None,
    };
    Some(way_in(at, &way, viewport))
}

fn way(here: Here<'_>, cut: &RoundCut, picked: &[(String, String)]) -> Option<WayIn> {
    let ranked = candidates(here.plan, here.shop, here.at);
    let (used, _) = saws::used(here, cut, &ranked, picked)?;
    let saw = here.shop.hole_saws.get(used.saw)?;
    let cuts = crate::procedure::together(here.plan, here.shop, here.at);
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

/// The slitting saw that is used, from the side with more room.
fn slot(here: Here<'_>, cut: &SlotCut) -> Option<WayIn> {
    let passes = slot_passes(cut, &here.shop.slitting_saws)?;
    let way = slot_ways(here.plan, here.shop, here.at, &passes).into_iter().next()?;
    let end = slot_end(here.plan, here.shop, here.at, &passes, way.side)?;
    let body = |turns: &TurningBody| Body {
        name: turning_name(turns.part).to_owned(),
        part: if turns.part == Turning::Saw { Part::Cutter } else { Part::Carrier },
        solid: turns.solid(&end.axis),
    };
    let mut bodies: Vec<Body> = end.turning.iter().map(body).collect();
    bodies.extend(stood(here));
    let gap = way.tightest().and_then(|near| {
        let points = slot_points(here.plan, here.shop, here.at, &end, near)?;
        Some(gap_line(near, points))
    });
    Some(WayIn { axis: end.axis, bodies, back: end.back, gap, left: Vec::new() })
}

/// What turns, at the end of the stroke.
fn turned(here: Here<'_>, stroke: &Stroke, saw: &HoleSaw) -> Vec<Body> {
    let mut bodies = Vec::new();
    for part in turning(stroke, saw, &here.shop.mill.body) {
        let cuts = part.part == Turning::Saw;
        bodies.push(Body {
            name: turning_name(part.part).to_owned(),
            part: if cuts { Part::Cutter } else { Part::Carrier },
            solid: part.solid(&stroke.axis),
        });
        if cuts {
            let inside = TurningBody { radius: (part.radius - saw.size.kerf.mm()).max(0.0), ..part };
            bodies.push(Body { name: String::new(), part: Part::Hollow, solid: inside.solid(&stroke.axis) });
        }
    }
    bodies
}

/// What stands about the work.
fn stood(here: Here<'_>) -> Vec<Body> {
    let mut bodies = Vec::new();
    for (standing, parts) in standing(here.plan, here.shop, here.at) {
        let part = if matches!(standing, Standing::Stay(_)) { Part::Work } else { Part::Fixture };
        // A body has its name once, whatever it is put together of.
        let name = |i| if i == 0 { standing_name(standing) } else { String::new() };
        let solids = solids(&parts).into_iter().enumerate();
        bodies.extend(solids.map(|(i, solid)| Body { name: name(i), part, solid }));
    }
    bodies
}

/// The smallest gap of the whole stroke, between its two points.
fn smallest(here: Here<'_>, stroke: &Stroke, saw: &HoleSaw) -> Option<GapLine> {
    let near = nearest(here.plan, here.shop, stroke, saw).into_iter().next()?;
    let points = nearest_points(here.plan, here.shop, stroke, saw, &near)?;
    Some(gap_line(&near, points))
}

fn gap_line(near: &Near, (from, to): (Point3<f64>, Point3<f64>)) -> GapLine {
    GapLine {
        name: format!("{} to {}", turning_name(near.part), standing_name(near.body)),
        topic: String::new(),
        from,
        to,
        gap: near.gap,
        limit: Length::default(),
    }
}

/// The reach that is left, along the cutter's axis.
fn left(stroke: &Stroke, saw: &HoleSaw, reach: Reach) -> Vec<GapLine> {
    let depth = stroke.teeth_at_end + saw.size.depth.mm();
    let holder = depth + saw.arbor.reach.mm();
    let line = |name: &str, from: f64, to: f64, gap: Length| between(stroke, name, from, to, gap);
    vec![
        line("reach left", stroke.high, holder, reach.through),
        line("depth left", depth - reach.bottom.mm(), depth, reach.bottom),
    ]
}

fn between(stroke: &Stroke, name: &str, from: f64, to: f64, gap: Length) -> GapLine {
    GapLine {
        name: name.to_owned(),
        topic: String::new(),
        from: stroke.axis.at(from),
        to: stroke.axis.at(to),
        gap,
        limit: Length::default(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::shop::demo_shop;
    use crate::model::starters;
    use crate::placement::plan;
    use crate::units::LengthUnit;

    #[test]
    fn the_gap_is_drawn_between_two_points_that_are_as_far_apart_as_it_says() {
        let shop = demo_shop();
        let (mut round, mut slots) = (0, 0);
        for starter in starters() {
            let plan = plan(&starter.job).unwrap();
            for at in CutAt::all() {
                let here = Here { plan: &plan, shop: &shop, at, unit: LengthUnit::Millimetre };
                let way = match at.cut(&plan) {
                    Cut::Cope(cut) | Cut::Boss(cut) => way(here, cut, &[]),
                    Cut::Slot(cut) => slot(here, cut),
                    Cut::Square(_) => None,
                };
                let Some(way) = way else { continue };
                assert!(way.bodies.len() > 8);
                let Some(gap) = way.gap else { continue };
                let apart = (gap.from - gap.to).norm();
                assert!((apart - gap.gap.mm()).abs() < 0.02, "{}: {apart} {:?}", at.key(), gap.gap);
                let of = if at.cut(&plan).round().is_some() { &mut round } else { &mut slots };
                *of += 1;
            }
        }
        assert!(round > 4 && slots > 2, "{round} {slots}");
    }
}
