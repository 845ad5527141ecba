//! What another cutter than the planned one would leave of an end.

use super::at::CutAt;
use super::axes::Axes;
use super::cut::{contact, towards_member};
use super::fit::fit;
use super::lay::lay_again;
use super::member::Round;
use super::result::{Contact, Plan};
use super::which::Which;
use crate::geometry::{Cylinder, Edge};
use crate::units::{Length, Real};
use nalgebra::Vector3;

/// An end as another cutter would leave it.
#[derive(Clone, Copy, Debug)]
pub struct Trial<T = f64> {
    /// How the cutter meets the stay.
    pub contact: Contact,
    /// How far the stay then goes towards the member until it touches.
    pub push: Option<Length<T>>,
    /// The largest distance then left.
    pub gap: Option<Length<T>>,
}

/// The end at `at`, cut with a saw of `diameter` whose axis is moved from the member's by `moved` (frame axes, mm).
/// `None` where the end is not round.
pub fn try_cutter<T: Real>(
    plan: &Plan<T>,
    at: CutAt,
    diameter: Length<T>,
    moved: &Vector3<T>,
) -> Option<Trial<T>> {
    let job = &plan.job;
    let axes = Axes::new(&job.frame);
    let whole = lay_again(&axes, plan, at.pair, at.hand);
    let side = job.pair(at.pair).side(at.hand);
    let (which, end) =
        if at.at_front { (Which::Front, &side.front_end) } else { (Which::Rear, &side.rear_end) };
    let laid = whole.straight_at(whole.cut_at(which));
    let member = Round::of(end, &job.frame, &axes, &laid)?;
    let mut axis = member.surface.axis;
    axis.point += moved;
    let cutter = Cylinder { axis, radius: diameter.mm() * T::of(0.5) };
    let edge = Edge::new(laid.generators(&laid.outer), &cutter, which.keep());
    let seated = fit(&edge, &member.surface, &towards_member(&laid, which));
    Some(Trial {
        contact: contact(edge.meeting()),
        push: seated.as_ref().map(|fit| fit.push),
        gap: seated.as_ref().map(|fit| fit.gap),
    })
}
