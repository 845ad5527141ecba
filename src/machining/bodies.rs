//! The bodies on the machine: the cutter and what carries it, and what stands about the work.

use super::placed::Placed;
use super::stroke::Stroke;
use crate::geometry::{Convex, ConvexBlock, ConvexRod, Drum, Line, Part};
use crate::model::Hand;
use crate::model::shop::{HoleSaw, MillBody, Shop};
use crate::plan::{CutAt, Plan, Post};
use nalgebra::{Point3, Vector3};
use serde::{Deserialize, Serialize};

/// A part of what turns.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Turning {
    /// The saw.
    Saw,
    /// What clamps a slitting saw: collars and nut.
    Collar,
    /// The arbor's neck.
    Neck,
    /// The arbor's shank.
    Shank,
    /// What holds the arbor.
    Holder,
    /// The spindle nose.
    Nose,
}

/// What stands still.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Standing {
    /// The clamp post of that count, from 1, round that stay.
    Post(usize, Hand),
    /// The bed.
    Bed,
    /// The mounting block.
    Block,
    /// The dummy axle.
    Axle,
    /// A stay, as it is left when both its ends are cut; its ends count as cut square at their long points.
    Stay(Hand),
}

/// A part about the cutter's axis: between which stations when the stroke is at its end, and how thick.
#[derive(Clone, Copy, Debug)]
pub struct TurningBody {
    /// Which part.
    pub part: Turning,
    /// Its end next to the work.
    pub from: f64,
    /// Its other end.
    pub to: f64,
    /// Its radius.
    pub radius: f64,
}

impl TurningBody {
    /// What it goes through on a straight way square to its axis.
    pub const fn run(&self, axis: &Line, run: Vector3<f64>) -> Drum {
        Drum { axis: *axis, from: self.from, to: self.to, radius: self.radius, run }
    }

    /// What it sweeps while the last `travelled` of the stroke is gone, `left` before the end.
    pub const fn swept(&self, axis: &Line, travelled: f64, left: f64) -> Drum {
        let (from, to) = (self.from + left, self.to + left + travelled);
        Drum { axis: *axis, from, to, radius: self.radius, run: Vector3::new(0.0, 0.0, 0.0) }
    }
}

/// Everything that turns, from the teeth to the nose, at the end of the stroke.
pub fn turning(stroke: &Stroke, saw: &HoleSaw, mill: &MillBody) -> Vec<TurningBody> {
    let neck = saw.arbor.neck_length.mm().min(saw.arbor.reach.mm());
    let parts = [
        (Turning::Saw, saw.size.depth.mm(), 2.0 * stroke.radius),
        (Turning::Neck, neck, saw.arbor.neck.mm()),
        (Turning::Shank, saw.arbor.reach.mm() - neck, saw.arbor.shank.mm()),
        (Turning::Holder, mill.holder_length.mm(), mill.holder.mm()),
        (Turning::Nose, mill.nose_length.mm(), mill.nose.mm()),
    ];
    let mut from = stroke.teeth_at_end;
    let mut bodies = Vec::new();
    for (part, length, diameter) in parts {
        let to = from + length;
        if length > 0.0 {
            bodies.push(TurningBody { part, from, to, radius: diameter / 2.0 });
        }
        from = to;
    }
    bodies
}

/// Everything that stands in the fixture while `at` is cut, each body in parts: both stays where the pair lies in one plane,
/// else its own.
pub fn standing(plan: &Plan, shop: &Shop, at: CutAt) -> Vec<(Standing, Vec<Part>)> {
    let pair = plan.pair(at.pair);
    let own = [at.hand];
    let hands: &[Hand] = if pair.one_plane { &Hand::ALL } else { &own };
    let whole = |(name, body)| (name, vec![Part::Convex(body)]);
    let mut bodies: Vec<_> = fixed(plan, shop, at).into_iter().map(whole).collect();
    for hand in hands {
        let stay = Placed::new(plan, CutAt { hand: *hand, ..at });
        bodies.push((Standing::Stay(*hand), stay.parts()));
        for (i, post) in pair.posts.iter().enumerate() {
            let body = post_body(plan, shop, post, *hand);
            bodies.extend(body.map(|body| whole((Standing::Post(i + 1, *hand), body))));
        }
    }
    bodies
}

fn fixed(plan: &Plan, shop: &Shop, at: CutAt) -> Vec<(Standing, Convex)> {
    let (bench, fixture) = (&plan.job.fixture.bench, &shop.fixture);
    let base = -bench.clamp_height.mm();
    let slab = |front: f64, rear: f64, width: f64, thickness: f64| {
        let low = Point3::new(front, -width / 2.0, base);
        Convex::Block(ConvexBlock::between(low, Point3::new(rear, width / 2.0, base + thickness)))
    };
    let (bed, block) = (&fixture.bed, &fixture.block);
    let stay = at.stay(plan);
    let middle = Point3::new(stay.slide.mm(), 0.0, stay.axle_height.mm());
    let half = fixture.axle.length.mm() / 2.0;
    let axle = ConvexRod::cylinder(
        Line { point: middle, direction: Vector3::y() },
        -half,
        half,
        fixture.axle.diameter.mm() / 2.0,
    );
    vec![
        (Standing::Bed, slab(bed.front.mm(), bed.rear.mm(), bed.width.mm(), bed.thickness.mm())),
        (
            Standing::Block,
            slab(block.front.mm(), block.rear.mm(), bench.block_width.mm(), block.thickness.mm()),
        ),
        (Standing::Axle, Convex::Rod(axle)),
    ]
}

/// A post from the base face up, the tube in its middle; `None` where the stay does not reach it.
fn post_body(plan: &Plan, shop: &Shop, post: &Post, hand: Hand) -> Option<Convex> {
    let out = match hand {
        Hand::Right => post.right?,
        Hand::Left => post.left?,
    };
    let (u, v) = (post.u.mm(), hand.sign() * out.mm());
    let body = &shop.fixture.post;
    let (along, across) = (body.along.mm() / 2.0, body.across.mm() / 2.0);
    let base = -plan.job.fixture.bench.clamp_height.mm();
    let low = Point3::new(u - along, v - across, base);
    Some(Convex::Block(ConvexBlock::between(low, Point3::new(u + along, v + across, body.above.mm()))))
}
