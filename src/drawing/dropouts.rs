//! Dropouts and the axle between them, as far as the job says how they lie. Their outlines have no figures in the job: only
//! what a stay is cut to is true to scale, and what joins that to the axle is drawn as a plain strap.

use super::canvas::Canvas;
use super::frame_part::FramePart;
use super::material::Material;
use super::sheet::Point;
use super::solid::Look;
use super::tube::Drawn;
use super::view::View;
use crate::plan::{Cut, Stay};

/// Radius of the axle's end and of the dropout about it in the side view, mm. No figure of the job.
const AXLE: f64 = 6.0;

/// See `AXLE`.
const ROUND_AXLE: f64 = 12.0;

const PLATE: Look<'static> = Look::new(FramePart::Hub, Material::Plate, "frame.axle_spacing_mm");
const HUB: Look<'static> = Look::new(FramePart::Hub, Material::Hub, "frame.axle_spacing_mm");

/// From the side, what lies behind the end of a stay: the strap to a plate's slot or to a round dropout.
pub(super) fn strap_from_side(canvas: &mut Canvas, stay: &Stay, drawn: &Drawn<'_>, axle: Point, view: View) {
    let (at, radius) = match &stay.rear {
        Cut::Slot(cut) => (drawn.on_axis(cut.root.mm()), 0.7 * drawn.half_width(cut.root.mm())),
        Cut::Boss(cut) => (view.point(&cut.axis_point), 0.5 * cut.member.mm()),
        _ => return,
    };
    canvas.link(PLATE, [(at, radius), (axle, ROUND_AXLE)]);
}

/// From the side, what lies before the end of a stay: the face of a round dropout.
pub(super) fn boss_from_side(canvas: &mut Canvas, stay: &Stay, view: View) {
    if let Cut::Boss(cut) = &stay.rear {
        canvas.disc(PLATE, view.point(&cut.axis_point), 0.5 * cut.member.mm());
    }
}

/// The end of the axle from the side.
pub(super) fn axle_from_side(canvas: &mut Canvas, axle: Point) {
    canvas.disc(HUB, axle, AXLE);
    canvas.cross("", axle, 16.0);
}
