//! Where the axle stands once the stays are on the frame.

use super::as_cut::Built;
use super::set_up::{Hinge, SetUp, StaySetUp};
use crate::model::{Hand, PairName};
use crate::units::Real;
use nalgebra::Vector2;

/// All four stays, in the order of [`SetUp::stays`].
pub(super) type Stays<T> = [Option<Built<T>>];

/// How the rear end stands. Every figure is the difference from what was planned, mm, but the gaps, which are whole.
#[derive(Clone, Debug)]
pub(super) struct Assembly<T> {
    pub(super) off_centre: Option<T>,
    pub(super) square: Option<T>,
    pub(super) difference: Option<T>,
    pub(super) lean: Option<T>,
    pub(super) length: Option<T>,
    pub(super) drop: Option<T>,
    pub(super) spacing: Option<T>,
    /// Front and rear of each stay.
    pub(super) gaps: Vec<[Option<Gap<T>>; 2]>,
    pub(super) tyre: Vec<Option<T>>,
}

/// What opens at a cope.
#[derive(Clone, Copy, Debug)]
pub(super) struct Gap<T> {
    /// What the saw's size leaves.
    pub(super) size: T,
    /// What opens on one side where the stay is held off the way it was cut; the sign says on which.
    pub(super) rock: T,
}

/// Both stays of a pair, right first.
#[derive(Clone, Copy)]
struct Sides<V>([V; 2]);

impl<V: Copy> Sides<V> {
    fn map<W>(self, f: impl FnMut(V) -> W) -> Sides<W> {
        Sides(self.0.map(f))
    }
}

impl<T: Real> Sides<T> {
    fn middle(self) -> T {
        let [right, left] = self.0;
        (right + left) * T::of(0.5)
    }

    /// Right less left.
    fn difference(self) -> T {
        let [right, left] = self.0;
        right - left
    }
}

impl<V> Sides<Option<V>> {
    fn both(self) -> Option<Sides<V>> {
        let [right, left] = self.0;
        Some(Sides([right?, left?]))
    }
}

/// A stay as built beside the stay as planned.
#[derive(Clone, Copy)]
struct MountedStay<'a, T: nalgebra::Scalar> {
    nominal: &'a StaySetUp,
    built: Built<T>,
}

/// Where the axle stands and what that does, for stays as they are.
pub(super) fn stand<T: Real>(set_up: &SetUp, stays: &Stays<T>) -> Assembly<T> {
    let both = |pair| Sides(Hand::ALL.map(|hand| standee(set_up, stays, pair, hand))).both();
    let (chain, seat) = (both(PairName::Chainstays), both(PairName::Seatstays));
    let across = chain.and_then(|chain| chain.map(|stay| stay.strays()).both());
    let off_centre = across.map(|strays| strays.difference() * T::of(0.5));
    let chain_reach = chain.and_then(|chain| chain.map(|stay| stay.reach(off_centre)).both());
    let seat_reach = seat.and_then(|seat| seat.map(|stay| stay.reach(off_centre)).both());
    let ends = ends(set_up, [chain, seat], [chain_reach, seat_reach]);
    let wheel = chain.map(|chain| wheel(set_up, &chain, chain_reach, ends));
    let nominal_length =
        chain.map(|chain| chain.map(|stay| T::of((set_up.axle - stay.nominal.anchor).norm())).middle());
    let rim = |turn: Option<T>| Some(turn? * T::of(set_up.rim));
    let pose = wheel.as_ref();
    let mut standing = Assembly {
        off_centre,
        square: rim(pose.and_then(|wheel| wheel.turn)),
        difference: chain_reach.map(Sides::difference),
        lean: rim(pose.and_then(|wheel| wheel.rise)).map(|lean| -lean),
        length: chain_reach.zip(nominal_length).map(|(reach, nominal)| reach.middle() - nominal),
        drop: ends.map(|Sides([right, left])| (right.y + left.y) * T::of(0.5) - T::of(set_up.axle.y)),
        spacing: across.map(|strays| strays.middle() * T::of(2.0)),
        gaps: Vec::with_capacity(stays.len()),
        tyre: Vec::with_capacity(stays.len()),
    };
    for ((_, nominal), built) in set_up.stays.iter().zip(stays) {
        let stay = built.map(|built| MountedStay { nominal, built });
        let end = ends.map(|Sides([right, left])| if nominal.hand == Hand::Right { right } else { left });
        standing.gaps.push(stay.map_or([None, None], |stay| stay.gaps(off_centre, end)));
        standing.tyre.push(stay.and_then(|stay| stay.tyre(set_up, off_centre?, pose?)));
    }
    standing
}

fn standee<'a, T: Real>(
    set_up: &'a SetUp,
    stays: &Stays<T>,
    pair: PairName,
    hand: Hand,
) -> Option<MountedStay<'a, T>> {
    let mut paired = set_up.stays.iter().zip(stays);
    let ((_, nominal), built) = paired.find(|((own, nominal), _)| *own == pair && nominal.hand == hand)?;
    Some(MountedStay { nominal, built: (*built)? })
}

impl<T: Real> MountedStay<'_, T> {
    fn sign(&self) -> T {
        T::of(self.nominal.hand.sign())
    }

    /// How far outboard of its nominal place the dropout wants to stand; `None` for a stay that swings freely sideways.
    fn strays(&self) -> Option<T> {
        match self.nominal.hinge {
            Hinge::Across => Some(self.built.foot + self.built.along_hinge - T::of(self.nominal.axle.y)),
            Hinge::Upright(_) => None,
        }
    }

    /// Where the dropout stands, outboard of the centre plane: the axle keeps both at their spacing.
    fn outboard(&self, off_centre: Option<T>) -> T {
        T::of(self.nominal.axle.y) + off_centre.map_or(T::zero(), |off| off * self.sign())
    }

    /// How far outboard of its hinge the axle holds the dropout.
    fn across(&self, off_centre: Option<T>) -> T {
        match (self.nominal.hinge, off_centre) {
            (Hinge::Across, None) => self.built.along_hinge,
            (Hinge::Across, _) => self.outboard(off_centre) - self.built.foot,
            (Hinge::Upright(_), _) => self.outboard(off_centre),
        }
    }

    /// From the hinge to the dropout, seen from the side.
    fn reach(&self, off_centre: Option<T>) -> Option<T> {
        let across = self.across(off_centre);
        let square = (self.built.length - across) * (self.built.length + across);
        (square.value() > 0.0).then(|| square.sqrt())
    }

    fn anchor(&self) -> Vector2<T> {
        let nominal = self.nominal.anchor.map(T::of);
        match self.nominal.hinge {
            Hinge::Across => nominal,
            Hinge::Upright(direction) => nominal + direction.map(T::of) * self.built.foot,
        }
    }

    /// What opens at its copes, front and rear.
    fn gaps(&self, off_centre: Option<T>, end: Option<Vector2<T>>) -> [Option<Gap<T>>; 2] {
        let built = &self.built;
        let across = off_centre.map(|_| self.across(off_centre));
        let along_hinge = match self.nominal.hinge {
            Hinge::Across => across,
            Hinge::Upright(direction) => end.map(|end| (end - self.anchor()).dot(&direction.map(T::of))),
        };
        let [front, rear] = built.gaps;
        let [front_diameter, rear_diameter] = built.diameters;
        let gap = |size: Option<T>, along: Option<T>, cut: T, diameter: T| {
            Some(Gap { size: size?, rock: rock(along?, cut, built.length)? * diameter })
        };
        [
            gap(front, along_hinge, built.along_hinge, front_diameter),
            gap(rear, across, built.along_rear.unwrap_or(T::zero()), rear_diameter),
        ]
    }

    fn tyre(&self, set_up: &SetUp, off_centre: T, wheel: &Wheel<T>) -> Option<T> {
        let beside = self.built.beside_tyre?;
        let rear = self.outboard(Some(off_centre)) + beside.rear;
        let tube = beside.front + (rear - beside.front) * beside.part - beside.half;
        let tyre = off_centre - wheel.leans_at(&beside.from_axle);
        Some(tube - tyre * self.sign() - T::of(0.5 * set_up.tyre_width))
    }
}

/// The angle, rad, between a way of that length and itself with another part of it along a line.
fn rock<T: Real>(along: T, cut: T, length: T) -> Option<T> {
    let angle = |along: T| {
        let square = (length - along) * (length + along);
        (square.value() > 0.0).then(|| along.atan2(square.sqrt()))
    };
    Some(angle(along)? - angle(cut)?)
}

/// Where both ends of the axle stand, seen from the side: as far from the chainstay's hinge as that stay reaches, and
/// from the seat stay's.
fn ends<T: Real>(
    set_up: &SetUp,
    [chain, seat]: [Option<Sides<MountedStay<'_, T>>>; 2],
    [chain_reach, seat_reach]: [Option<Sides<T>>; 2],
) -> Option<Sides<Vector2<T>>> {
    let (Sides(chain), Sides(seat)) = (chain?, seat?);
    let (Sides(chain_reach), Sides(seat_reach)) = (chain_reach?, seat_reach?);
    let [right, left] = [0, 1].map(|i| {
        let (chain, seat) = (chain.get(i)?, seat.get(i)?);
        crossing([chain.anchor(), seat.anchor()], [*chain_reach.get(i)?, *seat_reach.get(i)?], set_up.axle)
    });
    Sides([right, left]).both()
}

/// Where two circles cross, of the two places the one on the side of `near`; `None` where they do not.
fn crossing<T: Real>([a, b]: [Vector2<T>; 2], [ra, rb]: [T; 2], near: Vector2<f64>) -> Option<Vector2<T>> {
    let between = b - a;
    let square = between.norm_squared();
    if square.value() < 1.0 {
        return None;
    }
    let along = (square + (ra - rb) * (ra + rb)) / (square * T::of(2.0));
    let rest = ra * ra / square - along * along;
    if rest.value() <= 0.0 {
        return None;
    }
    let beside = Vector2::new(-between.y, between.x);
    let flip = (near.map(T::of) - a).dot(&beside).value() < 0.0;
    let height = if flip { -rest.sqrt() } else { rest.sqrt() };
    Some(a + between * along + beside * height)
}

/// How the wheel stands to the centre plane. Right less left end of the axle, over its length, along the chainstays and
/// square to them.
struct Wheel<T: nalgebra::Scalar> {
    along: Vector2<T>,
    turn: Option<T>,
    rise: Option<T>,
}

fn wheel<T: Real>(
    set_up: &SetUp,
    chain: &Sides<MountedStay<'_, T>>,
    reach: Option<Sides<T>>,
    ends: Option<Sides<Vector2<T>>>,
) -> Wheel<T> {
    let Sides([right, left]) = *chain;
    let along = (set_up.axle - (right.nominal.anchor + left.nominal.anchor) * 0.5).normalize().map(T::of);
    let spacing = T::of(right.nominal.axle.y + left.nominal.axle.y);
    let apart = ends.map(|Sides([right, left])| (right - left) / spacing);
    Wheel {
        along,
        turn: apart.map(|apart| apart.dot(&along)).or_else(|| Some(reach?.difference() / spacing)),
        rise: apart.map(|apart| apart.dot(&Vector2::new(-along.y, along.x))),
    }
}

impl<T: Real> Wheel<T> {
    /// How far to the left the wheel's plane stands at a place seen from the axle.
    fn leans_at(&self, place: &Vector2<T>) -> T {
        let up = Vector2::new(-self.along.y, self.along.x);
        let part = |turn: Option<T>, along: T| turn.map_or(T::zero(), |turn| turn * along);
        part(self.turn, place.dot(&self.along)) + part(self.rise, place.dot(&up))
    }
}
