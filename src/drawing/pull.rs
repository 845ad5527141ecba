//! What pulling a handle does to its figure.

use super::sheet::Point;
use crate::quantity::Bounds;
use nanoserde::{DeBin, SerBin};
use std::f64::consts::PI;

/// The least way of the hand for a radian of a turn, mm: 0.2 mm for each degree.
const LEAST: f64 = 0.2 * 180.0 / PI;

/// A sine below this is that of a turn that lies flat.
const FLAT: f64 = 1e-9;

/// What a cosine can be.
const COSINE: Bounds = Bounds::new(-1.0, 1.0);

/// How a figure answers when its handle is pulled.
#[derive(Clone, Copy, Debug, PartialEq, SerBin, DeBin)]
pub enum Pull {
    /// The handle goes this far on the sheet for each mm or degree.
    Along(Point),
    /// The handle goes round.
    Round(Round),
}

impl Pull {
    /// By how many mm or degrees the figure changes where the hand goes by `by` on the sheet.
    pub fn pulled(self, by: Point) -> f64 {
        let dot = |along: Point| by.x * along.x + by.y * along.y;
        match self {
            Self::Along(along) => dot(along) / dot_self(along),
            Self::Round(round) => round.turned(dot(round.along)).to_degrees(),
        }
    }
}

fn dot_self(along: Point) -> f64 {
    along.x * along.x + along.y * along.y
}

/// Something that goes round in a circle seen edgewise: to and fro by `swing · cos phase`.
///
/// It follows the hand as long as it is seen to move by more than [`LEAST`] for each radian. Where it hardly moves, because
/// it lies flat or its circle is small, the hand goes by that much instead, so that nothing spins. Pulled on past the place
/// where it lies flat, it goes on round. The way of the hand is a growing function of the turn in each drag.
#[derive(Clone, Copy, Debug, PartialEq, SerBin, DeBin)]
pub struct Round {
    /// The way it swings on the sheet, length 1.
    pub along: Point,
    /// How far it stands from its middle at most, mm on the sheet.
    pub swing: f64,
    /// Where it stands, radians: 0 where it lies flat, as far `along` as it goes; growing with its figure, up to half a
    /// turn on the side that is looked at.
    pub phase: f64,
}

impl Round {
    /// How far it turns where the hand goes by `by` along its swing, radians.
    fn turned(self, by: f64) -> f64 {
        // On the side that is looked at, turning on brings it back. What lies flat comes towards the eye.
        let way = if self.phase.sin() > -FLAT { -1.0 } else { 1.0 };
        self.phase_at(self.way_to(self.phase) + way * by) - self.phase
    }

    /// How much of a quarter turn counts as flat, radians.
    fn flat(self) -> f64 {
        (LEAST / self.swing).min(1.0).asin()
    }

    /// The way of the hand in half a turn, mm.
    fn half(self) -> f64 {
        2.0 * (LEAST * self.flat() + self.swing * self.flat().cos())
    }

    /// The way of the hand from phase 0, mm.
    fn way_to(self, phase: f64) -> f64 {
        let halves = (phase / PI).floor();
        let (phase, flat) = (phase - halves * PI, self.flat());
        let way = if phase <= flat {
            LEAST * phase
        } else if phase <= PI - flat {
            LEAST * flat + self.swing * (flat.cos() - phase.cos())
        } else {
            self.half() - LEAST * (PI - phase)
        };
        halves * self.half() + way
    }

    /// The phase that such a way leads to.
    fn phase_at(self, way: f64) -> f64 {
        let (half, flat) = (self.half(), self.flat());
        let halves = (way / half).floor();
        let way = way - halves * half;
        let phase = if way <= LEAST * flat {
            way / LEAST
        } else if way <= half - LEAST * flat {
            COSINE.nearest(flat.cos() - (way - LEAST * flat) / self.swing).acos()
        } else {
            PI - (half - way) / LEAST
        };
        halves * PI + phase
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SWINGS: [f64; 7] = [0.0, 1e-300, 0.4, LEAST, 14.0, 40.0, 300.0];

    fn round(swing: f64, phase: f64) -> Round {
        Round { along: Point::new(0.0, 1.0), swing, phase }
    }

    /// Where it is seen at the phase.
    fn seen(round: Round, phase: f64) -> f64 {
        round.swing * phase.cos()
    }

    #[test]
    fn it_follows_the_hand_where_it_stands_upright() {
        for (swing, phase) in [(40.0, 1.2), (40.0, -1.9), (14.0, 1.6), (300.0, 2.9), (300.0, -6.0)] {
            for by in [-3.0, -0.1, 0.0, 0.2, 2.0] {
                let one = round(swing, phase);
                let to = phase + one.turned(by);
                assert!((seen(one, to) - seen(one, phase) - by).abs() < 1e-9, "{swing} {phase} {by}");
            }
        }
    }

    #[test]
    fn flat_it_takes_a_fifth_of_a_mm_for_each_degree_and_comes_towards_the_eye() {
        for phase in [0.0, -1e-15, 1e-15, std::f64::consts::TAU] {
            let pull = Pull::Round(round(14.0, phase));
            assert!((pull.pulled(Point::new(5.0, -1.0)) - 5.0).abs() < 1e-9, "{phase}");
        }
        let inwards = Pull::Round(round(14.0, PI));
        assert!((inwards.pulled(Point::new(0.0, 1.0)) + 5.0).abs() < 1e-9);
    }

    /// Wherever a drag starts: it starts from where the figure stands, goes one way, never faster than the least way allows, and
    /// comes back when the hand does.
    #[test]
    fn a_drag_never_jumps_and_never_turns_round() {
        for swing in SWINGS {
            for phase in (-80..=80).map(|tenth| f64::from(tenth) * 0.1) {
                let one = round(swing, phase);
                assert!(one.turned(0.0).abs() < 1e-7, "{swing} {phase}");
                let turned: Vec<f64> = (-2000..2000).map(|step| one.turned(f64::from(step) * 0.05)).collect();
                let way = (turned[1] - turned[0]).signum();
                for pair in turned.windows(2) {
                    let step = (pair[1] - pair[0]) * way;
                    assert!(step > 0.0 && step < 0.05 / LEAST + 1e-6, "{swing} {phase}: {step}");
                }
            }
        }
    }
}
