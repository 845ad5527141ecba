//! What the builder sets, taken from a plan: the state that errors are counted from.
//!
//! Each stay is looked at in its own clamp frame with the second axis turned outboard, so that right and left read alike:
//! `(along, outboard, above)`.

use super::pose::BentSetUp;
use crate::geometry::{Line, Nearest};
use crate::model::{End, EndKind, Hand, Job, Member, PairName, Side, TouchSide, Tube};
use crate::plan::{ClampFrame, Cut, CutAt, Plan, RoundCut, Stay, stay_pose};
use crate::units::Length;
use nalgebra::{Point3, Vector2, Vector3};

/// A round cut as planned.
#[derive(Clone, Copy, Debug)]
pub(super) struct RoundSetUp {
    /// The cutter's axis; its direction points outboard, or above the stay plane.
    pub(super) axis: Line,
    pub(super) on_side: bool,
    pub(super) cutter: f64,
    pub(super) member: f64,
}

/// What holds the front end to the frame.
#[derive(Clone, Copy, Debug)]
pub(super) enum Hinge {
    /// The stay can only turn about a line across the frame, and slide along it.
    Across,
    /// The stay can only turn about a line in the centre plane, and slide along it; the line's direction seen from the side.
    Upright(Vector2<f64>),
}

/// One stay as planned.
#[derive(Clone, Debug)]
pub(super) struct StaySetUp {
    pub(super) hand: Hand,
    pub(super) front: Option<RoundSetUp>,
    pub(super) rear: Option<RoundSetUp>,
    /// Whether the rear end is slotted.
    pub(super) slotted: bool,
    pub(super) hinge: Hinge,
    /// Where the hinge lies, seen from the side: x rearwards, z up.
    pub(super) anchor: Vector2<f64>,
    /// The axle's end at this stay, the middle of its dropout.
    pub(super) axle: Vector3<f64>,
    /// The two places that hold the stay: along, and the axis outboard of the centre line.
    pub(super) posts: [Vector2<f64>; 2],
    /// Along the stay's axis per length along the fixture.
    pub(super) secant: f64,
    /// Its front trim is where it was laid.
    pub(super) tube: Tube,
    /// What a bent tube has more.
    pub(super) bent: Option<BentSetUp>,
    /// Its reference points, along and outboard; of a straight stay any two places of its axis.
    pub(super) chord: [Vector2<f64>; 2],
    /// The clamp frame's first and third axis, seen from the side.
    pub(super) along: Vector2<f64>,
    pub(super) above: Vector2<f64>,
}

/// A whole rear end as planned.
#[derive(Clone, Debug)]
pub(super) struct SetUp {
    pub(super) stays: Vec<(PairName, StaySetUp)>,
    pub(super) axle: Vector2<f64>,
    pub(super) rim: f64,
    pub(super) tyre_width: f64,
    /// From the axle to where the tyre is widest.
    pub(super) tyre_reach: f64,
    /// The touched datum edge, along and above.
    pub(super) touch: Vector2<f64>,
    /// +1 where the edge finder comes to it from the front.
    pub(super) touch_sign: f64,
}

/// A point or direction of the frame, seen from the side.
pub(super) fn side_view(vector: &Vector3<f64>) -> Vector2<f64> {
    Vector2::new(vector.x, vector.z)
}

impl SetUp {
    pub(super) fn new(plan: &Plan) -> Self {
        let job = &plan.job;
        let stay = |pair: PairName, hand| (pair, StaySetUp::new(plan, pair, hand));
        let (bead, height) = (job.wheel.bead_seat.mm(), job.wheel.tyre_height.mm());
        Self {
            stays: PairName::ALL
                .into_iter()
                .flat_map(|pair| Hand::ALL.map(|hand| stay(pair, hand)))
                .collect(),
            axle: side_view(&plan.axle.coords),
            rim: bead,
            tyre_width: job.wheel.tyre_width.mm(),
            tyre_reach: 0.5 * (bead + height),
            touch: Vector2::new(job.fixture.bench.touch_u.mm(), job.fixture.bench.touch_w.mm()),
            touch_sign: if job.fixture.touch_from == TouchSide::Front { 1.0 } else { -1.0 },
        }
    }

    pub(super) fn stay(&self, pair: PairName, hand: Hand) -> Option<&StaySetUp> {
        self.stays.iter().find(|(own, stay)| *own == pair && stay.hand == hand).map(|(_, stay)| stay)
    }
}

impl StaySetUp {
    fn new(plan: &Plan, pair: PairName, hand: Hand) -> Self {
        let stay = plan.pair(pair).stay(hand);
        let side: &Side = plan.job.pair(pair).side(hand);
        let clamp = &stay.clamp;
        let axle = Vector3::new(stay.slide.mm(), side.rear.half_spacing.mm(), stay.axle_height.mm());
        let length = stay.rear_point - stay.front_point;
        let (hinge, anchor) = hinge(plan, side, stay, pair);
        let held = held_posts(plan, pair, hand);
        let at = CutAt { pair, hand, at_front: true };
        let bent = BentSetUp::new(plan, at, held.map(|posts| posts.map(|post| post.x)));
        let posts = held.unwrap_or_else(|| ends(side, length.dot(&clamp.u)));
        let trim = stay.bent.as_ref().map_or(side.tube.front_trim, |bent| bent.trim);
        Self {
            hand,
            front: stay.front.round().map(|cut| round(cut, clamp, hand)),
            rear: stay.rear.round().map(|cut| round(cut, clamp, hand)),
            slotted: matches!(stay.rear, Cut::Slot(_)),
            hinge,
            anchor,
            axle,
            posts,
            secant: length.norm() / length.dot(&clamp.u),
            tube: Tube { front_trim: trim, ..side.tube },
            chord: bent.as_ref().map_or(posts, |bent| bent.chord),
            bent,
            along: side_view(&clamp.u),
            above: side_view(&clamp.w),
        }
    }

    /// Where along the fixture the stay hangs on its hinge.
    pub(super) fn foot(&self) -> f64 {
        self.bent_foot().map_or(self.front.as_ref().map_or(0.0, |round| round.axis.point.x), |foot| foot.x)
    }

    /// How far outboard of the centre line it does so where the hinge runs across, at `foot` along the fixture.
    pub(super) fn foot_outboard(&self, foot: f64) -> f64 {
        let [a, b] = self.posts;
        let straight = || a.y + (foot - a.x) * (b.y - a.y) / (b.x - a.x);
        self.bent_foot().map_or_else(straight, |foot| foot.y)
    }

    /// The place of a bent stay's front end that is nearest to its hinge.
    fn bent_foot(&self) -> Option<Point3<f64>> {
        let front = self.bent.as_ref()?.front;
        let nearest = self.front.as_ref().map(|round| front.nearest(&round.axis));
        match nearest {
            Some(Nearest::Skew { station, .. }) => Some(front.at(station)),
            _ => Some(front.point),
        }
    }

    /// The way an end runs, rearwards, as planned.
    pub(super) fn way(&self, at_front: bool) -> Vector3<f64> {
        match (&self.bent, at_front) {
            (Some(bent), true) => bent.front.direction,
            (Some(bent), false) => bent.rear.direction,
            (None, _) => {
                let [a, b] = self.chord;
                Vector3::new(b.x - a.x, b.y - a.y, 0.0).normalize()
            }
        }
    }
}

/// The frame's line that the front end hangs on, and its place nearest to the stay's axis.
fn hinge(plan: &Plan, side: &Side, stay: &Stay, pair: PairName) -> (Hinge, Vector2<f64>) {
    let cut = stay.front.round();
    let onto_seat_tube = matches!(&side.front_end, End::Cope(cope) if cope.onto == Member::SeatTube);
    match cut {
        Some(cut) if onto_seat_tube => {
            let direction = plan.seat_tube_direction;
            let axis = Line { point: cut.axis_point, direction };
            let along = stay.front_point - axis.point;
            let front = stay_pose(plan, CutAt { pair, hand: stay.hand, at_front: true }).axis;
            let at = |station| {
                if stay.bent.is_some() { front.at(Length::mm(station)) } else { at_station(stay, station) }
            };
            let nearest = cut.axis_station.map_or(stay.front_point, at);
            let foot = if cut.axis_station.is_some() {
                (nearest - axis.point).dot(&direction)
            } else {
                along.dot(&direction)
            };
            (Hinge::Upright(side_view(&direction)), side_view(&axis.at(foot).coords))
        }
        Some(cut) => (Hinge::Across, side_view(&cut.axis_point.coords)),
        None => (Hinge::Across, side_view(&stay.clamp.origin.coords)),
    }
}

fn at_station(stay: &Stay, station: Length) -> Point3<f64> {
    let along = (stay.rear_point - stay.front_point).normalize();
    stay.front_point + along * station.mm()
}

fn round(cut: &RoundCut, clamp: &ClampFrame, hand: Hand) -> RoundSetUp {
    let outboard = |v: Vector3<f64>| Vector3::new(v.x, v.y * hand.sign(), v.z);
    let direction = outboard(clamp.local_direction(&cut.axis_direction));
    let against = if cut.setting.on_side { direction.y } else { direction.z };
    RoundSetUp {
        axis: Line {
            point: Point3::from(outboard(clamp.local(&cut.axis_point))),
            direction: if against < 0.0 { -direction } else { direction },
        },
        on_side: cut.setting.on_side,
        cutter: cut.cutter.mm(),
        member: cut.member.mm(),
    }
}

/// Two posts nearer than this hold no direction, mm.
const NEAR: f64 = 1.0;

/// The first and the last post that the stay reaches; `None` where it reaches fewer than two.
fn held_posts(plan: &Plan, pair: PairName, hand: Hand) -> Option<[Vector2<f64>; 2]> {
    let at = |post: &crate::plan::Post| {
        let held = if hand == Hand::Right { post.right } else { post.left };
        Some(Vector2::new(post.u.mm(), held?.mm()))
    };
    let held = || plan.pair(pair).posts.iter().filter_map(at);
    let first = held().min_by(|a, b| a.x.total_cmp(&b.x));
    let last = held().max_by(|a, b| a.x.total_cmp(&b.x));
    let (first, last) = (first?, last?);
    (last.x - first.x > NEAR).then_some([first, last])
}

/// A stay's two reference points.
fn ends(side: &Side, along: f64) -> [Vector2<f64>; 2] {
    [Vector2::new(0.0, side.front.half_spacing.mm()), Vector2::new(along, side.rear.half_spacing.mm())]
}

/// Whether one pass of the saw cuts that end of both stays.
pub(super) fn in_one_pass(plan: &Plan, pair: PairName, at_front: bool) -> bool {
    let both = plan.pair(pair);
    let cuts = Hand::ALL.map(|hand| {
        let stay = both.stay(hand);
        if at_front { &stay.front } else { &stay.rear }
    });
    let same = |job: &Job| {
        let [right, left] = Hand::ALL.map(|hand| {
            let side = job.pair(pair).side(hand);
            if at_front { side.front_end } else { side.rear_end }
        });
        right == left
    };
    let [right, left] = cuts;
    both.one_plane && same(&plan.job) && right.kind() == left.kind() && is_round(right)
}

fn is_round(cut: &Cut) -> bool {
    matches!(cut.kind(), EndKind::Cope | EndKind::Boss)
}
