//! From a cutter's axis to how the fixture stands and where the table goes.

use super::clamp::ClampFrame;
use super::result::{EndUp, Setting};
use crate::geometry::Line;
use crate::model::{Fixture, Touch, TouchSide};
use crate::units::{Angle, Length, Real};
use nalgebra::{Point3, Vector3};

/// Components of a direction below this count as none.
const SQUARE: f64 = 1e-9;

/// What the machine is found with.
pub(super) struct Found<'a, T: Real> {
    pub(super) clamp: ClampFrame<T>,
    pub(super) fixture: &'a Fixture<T>,
    pub(super) touch: &'a Touch<T>,
}

/// How the fixture stands to the spindle.
struct Stand<T> {
    tilt: Angle<T>,
    swivel: Angle<T>,
    on_side: bool,
    end_up: EndUp,
}

impl<T: Real> Found<'_, T> {
    /// How everything is set for a cutter about `axis`.
    pub(super) fn setting(&self, axis: &Line<T>) -> Setting<T> {
        let spindle = self.clamp.local_direction(&axis.direction);
        let stand = stand(&spindle);
        let along = self.along(&axis.point, &table_direction(&spindle));
        let across = if stand.on_side { self.above_base(axis) } else { self.beyond_block_side(axis) };
        Setting {
            tilt: stand.tilt,
            swivel: stand.swivel,
            on_side: stand.on_side,
            end_up: stand.end_up,
            dro_along: along,
            dro_across: across,
            along_spindle: self.after_touch(along),
            across_spindle: across + self.tip(),
        }
    }

    /// From the touched datum to a point, along a direction of the fixture.
    pub(super) fn along(&self, point: &Point3<T>, direction: &Vector3<T>) -> Length<T> {
        let bench = &self.fixture.bench;
        let datum = Vector3::new(bench.touch_u.mm(), T::zero(), bench.touch_w.mm());
        Length::from_mm((self.clamp.local(point) - datum).dot(direction))
    }

    /// A distance from the touched datum as it reads from where the spindle stood at the touch.
    pub(super) fn after_touch(&self, along: Length<T>) -> Length<T> {
        match self.fixture.touch_from {
            TouchSide::Front => along + self.tip(),
            TouchSide::Rear => along - self.tip(),
        }
    }

    /// Half of the edge finder's tip.
    fn tip(&self) -> Length<T> {
        Length::from_mm(self.touch.edge_finder.mm() * T::of(0.5))
    }

    fn above_base(&self, axis: &Line<T>) -> Length<T> {
        let above = self.clamp.local(&axis.point).z;
        self.fixture.bench.clamp_height + Length::from_mm(above)
    }

    fn beyond_block_side(&self, axis: &Line<T>) -> Length<T> {
        let off_centre = self.clamp.local(&axis.point).y;
        Length::from_mm(self.fixture.bench.block_width.mm() * T::of(0.5) + off_centre)
    }
}

fn stand<T: Real>(spindle: &Vector3<T>) -> Stand<T> {
    let none = |component: T| component.value().abs() < SQUARE;
    let zero = Angle::from_degrees(T::zero());
    if none(spindle.x) && none(spindle.z) {
        return Stand { tilt: zero, swivel: zero, on_side: true, end_up: EndUp::Level };
    }
    let flat = spindle.xy();
    let reach = if none(spindle.x) && none(spindle.y) { T::zero() } else { flat.norm() };
    let tilt = Angle::from_radians(spindle.z.abs().atan2(reach));
    let swivel = if none(spindle.y) { zero } else { swivel(spindle) };
    Stand { tilt, swivel, on_side: false, end_up: end_up(spindle) }
}

/// The turn about the fixture's own normal that brings the spindle over the centre plane, −90 to 90°.
fn swivel<T: Real>(spindle: &Vector3<T>) -> Angle<T> {
    let forward = spindle.x.value() >= 0.0;
    let (x, y) = if forward { (spindle.x, spindle.y) } else { (-spindle.x, -spindle.y) };
    Angle::from_radians(y.atan2(x))
}

/// The base face stays down, so the spindle leaves the clamp plane on its `w` side; the end that it leans towards is up.
fn end_up<T: Real>(spindle: &Vector3<T>) -> EndUp {
    let (along, above) = (spindle.x.value(), spindle.z.value());
    if along.abs() < SQUARE {
        EndUp::Level
    } else if above.abs() < SQUARE {
        EndUp::Either
    } else if along * above < 0.0 {
        EndUp::Front
    } else {
        EndUp::Rear
    }
}

/// The mill's two directions square to the spindle, in fixture components `(u, v, w)`, length 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TableWays<T: nalgebra::Scalar = f64> {
    /// Along the fixture, rearwards: where `dro_along` is read.
    pub along: Vector3<T>,
    /// From the touched side or base face towards the cutter: where `dro_across` is read.
    pub across: Vector3<T>,
}

/// The directions of a setting whose spindle, in fixture components, is `spindle`.
pub fn table_ways<T: Real>(spindle: &Vector3<T>) -> TableWays<T> {
    let on_side = spindle.x.value().abs() < SQUARE && spindle.z.value().abs() < SQUARE;
    let across = if on_side { Vector3::z() } else { Vector3::y() };
    TableWays { along: table_direction(spindle), across }
}

/// The table's direction: in the fixture's upright plane, square to the spindle, pointing rearwards; upwards where the
/// spindle itself points rearwards.
fn table_direction<T: Real>(spindle: &Vector3<T>) -> Vector3<T> {
    let (along, above) = (spindle.x, spindle.z);
    if along.value().abs() < SQUARE {
        return Vector3::x();
    }
    if above.value().abs() < SQUARE {
        return Vector3::z();
    }
    let square = Vector3::new(above, T::zero(), -along).normalize();
    if square.x.value() < 0.0 { -square } else { square }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn standing(along: f64, across: f64, above: f64) -> (f64, f64, bool, EndUp) {
        let stand = stand(&Vector3::new(along, across, above).normalize());
        (stand.tilt.degrees(), stand.swivel.degrees(), stand.on_side, stand.end_up)
    }

    #[test]
    fn a_spindle_square_to_the_clamp_plane_leaves_the_fixture_flat() {
        assert_eq!(standing(0.0, 0.0, 1.0), (90.0, 0.0, false, EndUp::Level));
    }

    #[test]
    fn a_spindle_across_lays_the_fixture_on_its_side() {
        assert_eq!(standing(0.0, -1.0, 0.0), (0.0, 0.0, true, EndUp::Level));
    }

    #[test]
    fn the_end_that_the_spindle_leans_to_goes_up_whichever_way_the_axis_is_written() {
        let (tilt, swivel, on_side, up) = standing(-1.0, 0.0, 1.0);
        assert!((tilt - 45.0).abs() < 1e-12);
        assert_eq!((swivel, on_side, up), (0.0, false, EndUp::Front));
        assert_eq!(standing(1.0, 0.0, -1.0).3, EndUp::Front);
        assert_eq!(standing(1.0, 0.0, 1.0).3, EndUp::Rear);
        assert_eq!(standing(1.0, 0.0, 0.0), (0.0, 0.0, false, EndUp::Either));
    }

    /// Worked by hand: a spindle that leans 30° sideways out of the upright 45° plane.
    #[test]
    fn a_skew_spindle_needs_tilt_and_swivel() {
        let (tilt, swivel, on_side, up) = standing(-1.0, 1.0, 2f64.sqrt());
        assert!((tilt - 45.0).abs() < 1e-12 && (swivel + 45.0).abs() < 1e-12, "{tilt} {swivel}");
        assert_eq!((on_side, up), (false, EndUp::Front));
    }

    #[test]
    fn the_table_runs_rearwards_square_to_the_spindle() {
        let h = table_direction(&Vector3::new(-0.6, 0.0, 0.8));
        assert!((h - Vector3::new(0.8, 0.0, 0.6)).norm() < 1e-15);
        let h = table_direction(&Vector3::new(-0.6, 0.0, -0.8));
        assert!((h - Vector3::new(0.8, 0.0, -0.6)).norm() < 1e-15);
    }
}
