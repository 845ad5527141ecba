//! What a setting that is a little off does to the cut.

use crate::geometry::{Line, Nearest};
use crate::machining::{Placed, ways};
use crate::plan::{CutAt, EndUp, Plan, Setting};
use crate::units::{Angle, Length};
use nalgebra::{Point3, Vector3};

/// How far a cut is off.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Effect {
    /// How far the cut moves along the stay, rearwards: the stay's nearest point to the cutter's axis, or a slot's root.
    pub along: Length,
    /// How much the distance between the two axes grows; how far a slot's middle is off; how far out a clamp that is off
    /// brings the stay's front reference point.
    pub offset: Length,
    /// How much the angle between stay and cutter grows; for a clamp, the stay's splay.
    pub angle: Angle,
}

impl Effect {
    /// How much it is off by, to compare two stays: a degree counts as a millimetre.
    fn size(&self) -> f64 {
        self.along.mm().abs() + self.offset.mm().abs() + self.angle.degrees().abs()
    }
}

/// The figures that place a cutter's axis in the fixture.
#[derive(Clone, Copy, Debug)]
pub(super) struct Axled {
    /// Between the clamp plane and the spindle.
    pub(super) tilt: Angle,
    /// Touched datum to axis along the table.
    pub(super) along: Length,
    /// Touched side or base face to axis.
    pub(super) across: Length,
}

impl Axled {
    pub(super) const fn of(setting: &Setting) -> Self {
        Self { tilt: setting.tilt, along: setting.dro_along, across: setting.dro_across }
    }

    /// Where that puts the cutter's axis, in fixture components. `None` for a compound setting.
    fn axis(&self, plan: &Plan, setting: &Setting) -> Option<Line> {
        let bench = &plan.job.fixture.bench;
        if setting.swivel.degrees() != 0.0 {
            return None;
        }
        let (sin, cos) = self.tilt.radians().sin_cos();
        let direction = match (setting.on_side, setting.end_up) {
            (true, _) => Vector3::y(),
            (_, EndUp::Rear) => Vector3::new(cos, 0.0, sin),
            (_, EndUp::Level) if self.tilt.degrees() > 89.999_999 => Vector3::z(),
            _ => Vector3::new(-cos, 0.0, sin),
        };
        let ways = ways(&Line { point: Point3::origin(), direction });
        let datum = Point3::new(bench.touch_u.mm(), 0.0, bench.touch_w.mm());
        let point = datum + ways.along * self.along.mm();
        let point = if setting.on_side {
            Point3::new(point.x, 0.0, self.across.mm() - bench.clamp_height.mm())
        } else {
            Point3::new(point.x, self.across.mm() - bench.block_width.mm() / 2.0, point.z)
        };
        Some(Line { point, direction })
    }
}

/// What it does to the cuts at `cuts`, each of which wants its axis where it says, that one figure of it is set as `change` does;
/// of several stays, to the one that it does most to. They stand as `setting` does.
pub(super) fn effect(
    plan: &Plan,
    cuts: impl Iterator<Item = (CutAt, Axled)>,
    setting: &Setting,
    change: impl Fn(Axled) -> Axled,
) -> Option<Effect> {
    let each = cuts.filter_map(|(at, wanted)| {
        let stay = Placed::new(plan, at).axis;
        let (set, wanted) = (change(wanted).axis(plan, setting)?, wanted.axis(plan, setting)?);
        let ((station, offset), (was, was_offset)) = (nearest(&stay, &set)?, nearest(&stay, &wanted)?);
        Some(Effect {
            along: Length::from_mm(station - was),
            offset: Length::from_mm(offset - was_offset),
            angle: Angle::from_radians(stay.angle_to(&set) - stay.angle_to(&wanted)),
        })
    });
    each.max_by(|a, b| a.size().total_cmp(&b.size()))
}

fn nearest(stay: &Line, cutter: &Line) -> Option<(f64, f64)> {
    match stay.nearest(cutter) {
        Nearest::Skew { station, distance, .. } => Some((station, distance.abs())),
        Nearest::Parallel { .. } => None,
    }
}
