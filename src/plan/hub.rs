//! Whether the hub fits between the rear ends: what these say of the dropouts' inner faces, against the hub's faces.
//!
//! A dropout that is known says where its face lies. A slot alone places the whole plate: its inner face is half the plate inboard of the slot's middle. A plate that splays is bent
//! somewhere between the stay's end and the axle, so its inner face lies between two bounds. A round dropout's width is not
//! known, but it must carry the whole miter: where the miter reaches inboard of the hub's face, so does the dropout. Of a square
//! end no more is known than where the tube ends: a hub face that the tube does not stand across is worth a look.

use super::held::{held_face, hub_face};
use super::notices::Notices;
use super::problem::Problem;
use super::result::Stay;
use super::stay::Span;
use super::stay_geometry::StayGeometry;
use super::which::Which;
use crate::model::{End, Job, PairName, Side, Slot};
use crate::units::{Length, Real};

/// Hub and dropouts that differ by less than this fit, mm: half a division of what they are read with.
pub(super) const FITS: f64 = 0.05;

/// A rear end as the hub meets it.
pub(super) struct RearEnd<'a, T: Real> {
    pub(super) laid: &'a StayGeometry<T>,
    pub(super) stay: &'a Stay<T>,
    pub(super) side: &'a Side<T>,
    pub(super) span: Option<&'a Span<T>>,
}

/// What is wrong between the hub and the two rear ends of a pair.
pub(super) fn hub_warnings<T: Real>(
    job: &Job<T>,
    name: PairName,
    ends: [RearEnd<'_, T>; 2],
    notices: &mut Notices<'_>,
) {
    let hub = job.frame.axle_spacing.mm().value();
    let inner = ends.each_ref().map(|end| end.inner_face(held_face(job, name, end.stay.hand)));
    if let [Some(right), Some(left)] = inner {
        let between = hub + outside(right.0 + left.0, right.1 + left.1, hub);
        if (between - hub).abs() > FITS {
            let [between, hub] = [between, hub].map(Length::from_mm);
            notices.warn(Problem::DropoutsOffHub { between, hub });
        }
        return;
    }
    for (end, inner) in ends.iter().zip(inner) {
        let face = hub_face(&job.frame, end.stay.hand).mm().value();
        if let Some(problem) = end.problem(inner, face) {
            notices.at_stay(end.stay.hand).at_end(Which::Rear).warn(problem);
        }
    }
}

/// From `wanted` to the nearest figure between `low` and `high`.
fn outside(low: f64, high: f64, wanted: f64) -> f64 {
    (low - wanted).max(0.0) + (high - wanted).min(0.0)
}

impl<T: Real> RearEnd<'_, T> {
    /// The least and the most that the face for the hub may lie outboard of the centre plane, mm, where a known dropout has it at
    /// `held`; `None` where neither that nor the end says anything of it.
    fn inner_face(&self, held: Option<Length<T>>) -> Option<(f64, f64)> {
        let held = held.map(|held| held.mm().value());
        let End::Slot(slot) = &self.side.rear_end else { return held.map(|held| (held, held)) };
        let Slot { plate, plate_splay, .. } = slot;
        let near =
            held.unwrap_or_else(|| self.side.rear.half_spacing.mm().value() - plate.mm().value() / 2.0);
        let splay = plate_splay.radians().value();
        let far = near + self.side.rear.reach.mm().value() * splay.tan();
        Some((near.min(far), near.max(far)))
    }

    /// What is wrong at this end alone, the hub's face lying `hub` outboard of the centre plane.
    fn problem(&self, inner: Option<(f64, f64)>, hub: f64) -> Option<Problem> {
        match (inner, &self.side.rear_end) {
            (Some((low, high)), _) => {
                let by = outside(low, high, hub);
                (by.abs() > FITS).then_some(Problem::DropoutOffHubFace { by: Length::from_mm(by) })
            }
            (_, End::Boss(_)) => {
                let by = hub - self.inboard()?;
                (by > FITS).then_some(Problem::RoundDropoutInsideHub { by: Length::from_mm(by) })
            }
            _ => {
                let (low, high) = self.across();
                let by = outside(low, high, hub);
                (by.abs() > FITS).then_some(Problem::EndBesideHubFace { by: Length::from_mm(by) })
            }
        }
    }

    /// How far from the centre plane a miter onto a round dropout comes nearest to it. The dropout's axis starts on that plane.
    fn inboard(&self) -> Option<f64> {
        let span = self.span?;
        let out = span.axis.direction.y.value() * self.stay.hand.sign();
        Some((span.low.value() * out).min(span.high.value() * out))
    }

    /// From where to where across the bicycle a tube that is cut square ends.
    fn across(&self) -> (f64, f64) {
        let straight = self.laid.straight_at(self.laid.reference(Which::Rear));
        let tangent = straight.axis.direction.y.value();
        let middle = self.stay.rear_point.y.value() * self.stay.hand.sign();
        let half =
            self.laid.outer.radius(self.laid.length).value() * (1.0 - tangent * tangent).max(0.0).sqrt();
        (middle - half, middle + half)
    }
}

#[cfg(test)]
mod tests {
    use super::outside;

    #[test]
    fn a_figure_between_its_bounds_is_off_by_nothing() {
        assert_eq!(
            [outside(1.0, 3.0, 2.0), outside(1.0, 3.0, 0.5), outside(1.0, 3.0, 4.0)],
            [0.0, 0.5, -1.0]
        );
    }
}
