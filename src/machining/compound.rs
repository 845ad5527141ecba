//! A cutter that stands neither in the centre plane nor square to it: the fixture is turned and tilted.

use crate::plan::EndUp;
use crate::units::{Angle, Length};
use nalgebra::{Point3, Vector3};

/// Components of a direction below this count as none.
const SQUARE: f64 = 1e-9;

/// How the fixture stands for any direction of the spindle.
///
/// It is turned about its own normal, and the end named goes up, about the table's cross direction, by what `tilt` leaves to
/// 90°. Either may come first, as the normal goes with the tilt.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Compound {
    /// The fixture's turn about its normal, counter-clockwise as seen from above the stays; the plan's `swivel_deg`
    /// counts the other way.
    pub turn: Angle,
    /// Between clamp plane and spindle.
    pub tilt: Angle,
    /// Which end goes up.
    pub end_up: EndUp,
    /// The table's direction along, in fixture components: rearwards along the fixture before it was turned.
    pub along: Vector3<f64>,
    /// The table's other direction, in fixture components: to the drive side before the fixture was turned.
    pub across: Vector3<f64>,
}

/// How the fixture stands for a spindle along `spindle`, a direction of length 1 in fixture components, either way round.
pub fn compound(spindle: &Vector3<f64>) -> Compound {
    let flips = spindle.z < -SQUARE || (spindle.z.abs() <= SQUARE && spindle.x > 0.0);
    let spindle = if flips { -spindle } else { *spindle };
    let flat = spindle.x.hypot(spindle.y);
    let rear = spindle.x > SQUARE;
    let towards = if rear { 1.0 } else { -1.0 };
    let turn = if flat <= SQUARE { 0.0 } else { -(towards * spindle.y).atan2(towards * spindle.x) };
    let (sin, cos) = turn.sin_cos();
    // From the room back into the fixture.
    let back = |v: Vector3<f64>| Vector3::new(v.x * cos + v.y * sin, v.y * cos - v.x * sin, v.z);
    Compound {
        turn: Angle::from_radians(turn),
        tilt: Angle::from_radians(spindle.z.atan2(flat)),
        end_up: match (flat <= SQUARE, rear) {
            (true, _) => EndUp::Level,
            (_, true) => EndUp::Rear,
            (_, false) => EndUp::Front,
        },
        along: back(Vector3::new(spindle.z, 0.0, -towards * flat)),
        across: back(Vector3::y()),
    }
}

impl Compound {
    /// How far the cutter goes, along and across, from over a corner of the fixture that was touched to over a point of
    /// the cutter's axis. An edge will not do for a datum here: turned, it runs along neither direction.
    pub fn from_corner(&self, corner: &Point3<f64>, axis_point: &Point3<f64>) -> (Length, Length) {
        let way = axis_point - corner;
        (Length::from_mm(way.dot(&self.along)), Length::from_mm(way.dot(&self.across)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use nalgebra::{Rotation3, Vector3};

    /// Turns and tilts a fixture in the room, u along X, v along Y, w up, and looks where the spindle then stands.
    fn check(x: f64, y: f64, z: f64) -> Compound {
        let spindle = Vector3::new(x, y, z).normalize();
        let stand = compound(&spindle);
        let turned = Rotation3::from_axis_angle(&Vector3::z_axis(), stand.turn.radians());
        let by = stand.tilt.complement().radians();
        // Front end up is a turn about +Y that takes −X upwards.
        let by = if stand.end_up == EndUp::Front { by } else { -by };
        let pose = Rotation3::from_axis_angle(&Vector3::y_axis(), by) * turned;
        assert!((pose * spindle).cross(&Vector3::z()).norm() < 1e-12, "{x} {y} {z}");
        assert!((pose * stand.along - Vector3::x()).norm() < 1e-12, "{x} {y} {z}");
        assert!((pose * stand.across - Vector3::y()).norm() < 1e-12, "{x} {y} {z}");
        assert!(
            stand.turn.degrees().abs() <= 90.0 + 1e-9
                && (-1e-9..=90.0 + 1e-9).contains(&stand.tilt.degrees())
        );
        stand
    }

    #[test]
    fn the_spindle_stands_upright_when_the_fixture_has_been_turned_and_tilted() {
        for i in 0..12 {
            for k in -3..=3 {
                let (around, up) = (f64::from(i) * 0.55, f64::from(k) * 0.5);
                check(around.cos() * up.cos(), around.sin() * up.cos(), up.sin());
            }
        }
        assert_eq!(check(0.0, 0.0, 1.0).end_up, EndUp::Level);
        assert_eq!(check(1.0, 0.0, 0.0).end_up, EndUp::Front);
        check(0.0, 1.0, 0.0);
    }

    /// By hand: 45° out of the clamp plane, leaning to the front and the drive side.
    #[test]
    fn a_skew_spindle_by_hand() {
        let stand = check(-1.0, 1.0, 2f64.sqrt());
        assert!((stand.turn.degrees() - 45.0).abs() < 1e-12 && (stand.tilt.degrees() - 45.0).abs() < 1e-12);
        assert_eq!(stand.end_up, EndUp::Front);
        let (along, across) = stand.from_corner(&Point3::origin(), &Point3::new(0.0, 10.0, 0.0));
        assert!((along.mm() + 5.0).abs() < 1e-12 && (across.mm() - 50f64.sqrt()).abs() < 1e-12);
    }

    #[test]
    fn without_a_turn_the_directions_are_the_plans() {
        for spindle in [Vector3::new(-0.6, 0.0, 0.8), Vector3::new(0.28, 0.0, 0.96)] {
            let (stand, ways) = (compound(&spindle), crate::plan::table_ways(&spindle));
            assert!((stand.along - ways.along).norm() < 1e-15 && (stand.across - ways.across).norm() < 1e-15);
            assert_eq!(stand.turn.degrees(), 0.0);
        }
    }
}
