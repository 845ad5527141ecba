//! How a cope's long point moves along the stay when its angle changes.

use crate::geometry::{Line, Nearest};
use crate::model::Tube;
use crate::plan::{RoundCut, Stay};
use crate::units::Real;

/// A cope's long point, from where the stay's axis comes nearest to the member's.
///
/// With `t` along the stay, `p` square to it in the plane it makes with the member's axis `a = t cos α + p sin α`, and
/// `m = t × p`, the generator in the direction `p cos ψ + m sin ψ` of a tube of radius `r` meets the cut, of radius `R`
/// and `e` off along `m`, at `(r cos ψ cos α ± √(R² − (r sin ψ − e)²)) / sin α`. The long point is an extreme over `ψ`,
/// so to first order `ψ` stays where it is.
#[derive(Clone, Copy, Debug)]
pub(super) struct Tip {
    /// Degrees.
    angle: f64,
    /// `r cos ψ`.
    beside: f64,
    /// The root, with its sign.
    half: f64,
}

impl Tip {
    /// The long point of a cut; `None` where it has none.
    pub(super) fn new(stay: &Stay, tube: &Tube, cut: &RoundCut, at_front: bool) -> Option<Self> {
        let axis = Line::between(stay.front_point, stay.rear_point).0;
        let against = axis.direction.dot(&cut.axis_direction) < 0.0;
        let direction = if against { -cut.axis_direction } else { cut.axis_direction };
        let Nearest::Skew { normal: m, distance, .. } =
            axis.nearest(&Line { point: cut.axis_point, direction })
        else {
            return None;
        };
        let p = m.cross(&axis.direction);
        let phi = cut.long_point_phi?.radians();
        let e0 = stay.clamp.w;
        let outwards = e0 * phi.cos() + axis.direction.cross(&e0) * phi.sin();
        let radius = crate::plan::stay_outline(tube).radius(cut.long_point?.mm());
        let off = radius * outwards.dot(&m) + distance;
        let reach = 0.5 * cut.cutter.mm();
        let square = (reach - off) * (reach + off);
        let half = (square > 0.0).then(|| square.sqrt())?;
        Some(Self {
            angle: cut.angle.radians(),
            beside: radius * outwards.dot(&p),
            half: if at_front { half } else { -half },
        })
    }

    /// Station of the long point from the axes' nearest place, for a cut whose angle is larger by so many radians.
    pub(super) fn station<T: Real>(&self, larger: T) -> T {
        let (sin, cos) = (T::of(self.angle) + larger).sin_cos();
        (cos * T::of(self.beside) + T::of(self.half)) / sin
    }

    /// How far it has then moved.
    pub(super) fn moves<T: Real>(&self, larger: T) -> T {
        self.station(larger) - self.station(T::zero())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::{Hand, Job, PairName, starters};
    use crate::placement::solve;

    /// The solver's long points, found by searching the whole edge, on tubes without taper.
    #[test]
    fn long_points_are_those_of_the_solver() {
        for starter in starters() {
            let mut job: Job = starter.job;
            for name in PairName::ALL {
                let pair = job.pair_mut(name);
                pair.right.tube.od_rear = pair.right.tube.od_front;
                pair.left = None;
            }
            let plan = solve(&job);
            for name in PairName::ALL {
                for hand in Hand::ALL {
                    let stay = plan.pair(name).stay(hand);
                    let tube = &job.pair(name).right.tube;
                    for (cut, at_front) in [(&stay.front, true), (&stay.rear, false)] {
                        let Some(cut) = cut.round() else { continue };
                        let tip = Tip::new(stay, tube, cut, at_front).expect("a full cope has a long point");
                        let wanted =
                            cut.long_point.expect("full").mm() - cut.axis_station.expect("skew").mm();
                        assert!((tip.station(0.0) - wanted).abs() < 1e-9, "{} {wanted}", tip.station(0.0));
                    }
                }
            }
        }
    }
}
