//! A slot for a dropout plate.

use super::notices::{Notices, length};
use super::problem::Problem;
use super::result::{SlotCut, SlotFace};
use super::setting::Found;
use super::stay_geometry::StayGeometry;
use crate::model::Slot;
use crate::units::{Angle, Length, Real};
use nalgebra::Vector3;

/// The upright plane that a plate lies in, through the rear reference point.
struct Plane<T> {
    /// Sine and cosine of what it splays.
    turn: (T, T),
    /// Outboard from the clamp frame's origin, square to it.
    out: T,
}

impl<T: Real> Plane<T> {
    fn new(stay: &StayGeometry<T>, splay: Angle<T>, half_spacing: Length<T>) -> Self {
        let (sin, cos) = splay.radians().sin_cos();
        let back = stay.clamp.local(&stay.rear_middle).x;
        Self { turn: (sin, cos), out: half_spacing.mm() * cos - back * sin }
    }

    /// The part of a direction square to the plane, outboard.
    fn outwards(&self, stay: &StayGeometry<T>, direction: &Vector3<T>) -> T {
        let (sin, cos) = self.turn;
        direction.y * T::of(stay.hand.sign()) * cos - direction.dot(&stay.clamp.u) * sin
    }

    /// From the axis at `station` outboard to what lies `aside` from the plane.
    fn across(&self, stay: &StayGeometry<T>, station: T, aside: T) -> T {
        self.out + aside - self.outwards(stay, &(stay.axis.at(station) - stay.clamp.origin))
    }
}

/// The slot in a stay's rear end. `half_spacing` places its middle.
pub(super) fn slot<T: Real>(
    stay: &StayGeometry<T>,
    slot: &Slot<T>,
    half_spacing: Length<T>,
    found: &Found<'_, T>,
    notices: &mut Notices<'_>,
) -> SlotCut<T> {
    let mouth = stay.length + slot.overhang.mm();
    let root = mouth - slot.depth.mm();
    let half = slot.width().mm() * T::of(0.5);
    let plane = Plane::new(stay, slot.plate_splay, half_spacing);
    let (sin, cos) = plane.turn;
    let sign = T::of(stay.hand.sign());
    let face = |side, aside| face(stay, &plane, (side, aside), (mouth, root));
    let along = found.along(&stay.axis.at(root), &Vector3::new(cos, sin * sign, T::zero()));
    let datum = found.along(&stay.clamp.origin, &Vector3::new(-sin, cos * sign, T::zero()));
    let cut = SlotCut {
        angle: Angle::from_degrees(stay.splay_from(slot.plate_splay).degrees().abs()),
        mouth: Length::from_mm(mouth),
        root: Length::from_mm(root),
        plate: slot.plate,
        width: slot.width(),
        from_centre: half_spacing,
        dro_along: along,
        along_spindle: found.after_touch(along),
        on_side: true,
        swivel: Angle::from_degrees(slot.plate_splay.degrees() * sign + T::zero()),
        from_datum: Length::from_mm(plane.out) + datum,
        faces: [face("inboard", -half), face("outboard", half)],
    };
    warn(&cut, notices);
    cut
}

fn face<T: Real>(
    stay: &StayGeometry<T>,
    plane: &Plane<T>,
    (side, aside): (&'static str, T),
    (mouth, root): (T, T),
) -> SlotFace<T> {
    let across = |station: T| plane.across(stay, station, aside);
    SlotFace {
        side,
        mouth_phi: leaves(stay, plane, across(mouth), mouth),
        root_phi: leaves(stay, plane, across(root), root),
        mouth_across: Length::from_mm(across(mouth)),
        root_across: Length::from_mm(across(root)),
    }
}

/// The two directions in which a plane parallel to the plate's, `across` outboard of the axis at `station`, meets the tube's
/// surface there; `None` where it passes the tube by or only touches it.
fn leaves<T: Real>(stay: &StayGeometry<T>, plane: &Plane<T>, across: T, station: T) -> Option<[Angle<T>; 2]> {
    let generators = stay.generators(&stay.outer);
    let ahead = plane.outwards(stay, &generators.first);
    let outwards = plane.outwards(stay, &generators.second);
    let (swing, lead) = if ahead.value() == 0.0 {
        (outwards, T::zero())
    } else {
        ((ahead * ahead + outwards * outwards).sqrt(), ahead.atan2(outwards))
    };
    if stay.outer.is_oval() {
        return oval_leaves(stay, across, station, (ahead, outwards));
    }
    let sine = across / (stay.outer.radius(station) * swing);
    if sine.value().abs() >= 1.0 {
        return None;
    }
    let (phi, lead) = (Angle::from_radians(sine.asin()).degrees(), Angle::from_radians(lead).degrees());
    let (one, other) = (in_turn(phi - lead), in_turn(T::of(180.0) - phi - lead));
    Some(if one.value() <= other.value() { [one, other] } else { [other, one] }.map(Angle::from_degrees))
}

/// The same for an elliptical section, by the ellipse's own parameter.
fn oval_leaves<T: Real>(
    stay: &StayGeometry<T>,
    across: T,
    station: T,
    (ahead, outwards): (T, T),
) -> Option<[Angle<T>; 2]> {
    let ((a, b), turn) = stay.outer.section(station);
    let (sin, cos) = turn.sin_cos();
    // How far outboard the ends of the two halves lie.
    let (first, second) = ((ahead * cos + outwards * sin) * a, (outwards * cos - ahead * sin) * b);
    let swing = (first * first + second * second).sqrt();
    let share = across / swing;
    if share.value().abs() >= 1.0 {
        return None;
    }
    let (lead, opening) = (second.atan2(first), share.acos());
    let phi = |parameter: T| {
        let (sin, cos) = parameter.sin_cos();
        in_turn((turn + (b * sin).atan2(a * cos)) * T::of(180.0 / std::f64::consts::PI))
    };
    let (one, other) = (phi(lead - opening), phi(lead + opening));
    Some(if one.value() <= other.value() { [one, other] } else { [other, one] }.map(Angle::from_degrees))
}

fn in_turn<T: Real>(degrees: T) -> T {
    if degrees.value() < 0.0 {
        degrees + T::of(360.0)
    } else if degrees.value() >= 360.0 {
        degrees - T::of(360.0)
    } else {
        degrees
    }
}

fn warn<T: Real>(cut: &SlotCut<T>, notices: &mut Notices<'_>) {
    for (face, outboard) in cut.faces.iter().zip([false, true]) {
        if face.mouth_phi.is_none() || face.root_phi.is_none() {
            notices.warn(Problem::SlotOutsideTube { at_mouth: face.mouth_phi.is_none(), outboard });
        }
    }
    if cut.root.mm().value() <= 0.0 {
        notices.warn(Problem::SlotTooDeep { past: length(-cut.root) });
    }
}
