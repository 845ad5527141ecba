//! Tubes to start from: sizes that are usual, each to be measured before it is cut. Common practice, no source.

use super::bends::{Bend, Bends};
use super::ovals::Press;
use super::tube::Tube;
use crate::units::{Angle, Length};

const fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

/// Their names and figures.
pub fn starting_tubes() -> [(&'static str, Tube); 5] {
    [
        ("Straight chainstay, 22.2 to 16", Tube::default()),
        ("S-bent chainstay, 22.2 to 16", s_bent()),
        ("Oval chainstay, 16 × 30", oval()),
        ("Seat stay, 12.7 all along", seat_stay(12.7, 12.7)),
        ("Seat stay, 12.7 to 11", seat_stay(12.7, 11.0)),
    ]
}

/// Outwards past the tyre first, as it lies unrolled.
fn s_bent() -> Tube {
    let bend =
        |before, turn| Bend { before: mm(before), rotation: Angle::from_degrees(turn), ..Bend::default() };
    let bends = Bends::of([bend(120.0, 180.0), bend(80.0, 180.0)]);
    Tube { bends, taper_start: mm(260.0), taper_end: mm(400.0), ..Tube::default() }
}

fn oval() -> Tube {
    let press =
        Press { from: mm(20.0), to: mm(120.0), width: mm(16.0), height: mm(30.0), ..Press::default() };
    let mut tube = Tube { od_front: mm(24.0), taper_start: mm(180.0), ..Tube::default() };
    tube.ovals.list = [press].into_iter().collect();
    tube
}

fn seat_stay(front: f64, rear: f64) -> Tube {
    Tube {
        od_front: mm(front),
        od_rear: mm(rear),
        taper_start: mm(250.0),
        taper_end: mm(500.0),
        wall: mm(0.7),
        length: mm(570.0),
        front_trim: mm(20.0),
        ..Tube::default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::Job;

    #[test]
    fn every_tube_can_be_put_in() {
        for (name, tube) in starting_tubes() {
            let mut job = Job::default();
            job.chainstays.right.tube = tube;
            assert_eq!(job.faults(), [], "{name}");
        }
    }
}
