//! How far an arbor bends: a cantilever in steps, for a force that is known only as a band.

use super::published::feed_per_tooth;
use super::speed::Tool;
use crate::model::Tube;
use crate::model::shop::{HoleSaw, Metal, Origin, Sure};
use crate::units::{Force, Length, Stress};
use std::f64::consts::PI;

/// One round length of a cantilever.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Segment {
    /// How long it is.
    pub length: Length,
    /// How thick it is.
    pub diameter: Length,
}

/// Modulus of elasticity of steel, lowest and highest figure found: A36 and pipe steel A106 (both read).
pub const STEEL: (Stress, Stress) = (Stress::from_n_per_mm2(200_000.0), Stress::from_n_per_mm2(210_000.0));

/// How far the end of a cantilever gives way, per newton across it, in millimetres.
///
/// `segments` run from the clamped end outwards; the force acts `beyond` the last of them, on a body that does not bend.
/// By Castigliano's theorem: `∫ x²/(E·I) dx`, `x` from the force, `I = π·d⁴/64`, segment by segment in closed form.
pub fn compliance(segments: &[Segment], beyond: Length, modulus: Stress) -> f64 {
    let mut near = beyond.mm();
    let mut sum = 0.0;
    for segment in segments.iter().rev() {
        let far = near + segment.length.mm();
        let inertia = PI * segment.diameter.mm().powi(4) / 64.0;
        sum += (far.powi(3) - near.powi(3)) / (3.0 * modulus.n_per_mm2() * inertia);
        near = far;
    }
    sum
}

/// The arbor of a saw: shank, then neck.
pub fn arbor(saw: &HoleSaw) -> [Segment; 2] {
    let neck = saw.arbor.neck_length.mm().min(saw.arbor.reach.mm());
    let segment = |length, diameter| Segment { length: Length::from_mm(length), diameter };
    [segment(saw.arbor.reach.mm() - neck, saw.arbor.shank), segment(neck, saw.arbor.neck)]
}

/// How many times stiffer a saw stands when its arbor is shortened by `by` at the holder; `None` where there is not so
/// much of it, or nothing would be left to bend.
pub fn stiffer_by(saw: &HoleSaw, by: Length) -> Option<f64> {
    let mut shorter = *saw;
    shorter.arbor.reach = saw.arbor.reach - by;
    if shorter.arbor.reach.mm() < saw.arbor.neck_length.mm() {
        return None;
    }
    let give = |saw: &HoleSaw| compliance(&arbor(saw), saw.size.depth, STEEL.0);
    let (before, after) = (give(saw), give(&shorter));
    (after > 0.0).then(|| before / after)
}

/// Specific cutting force of a chip 1 mm² in area and 1 mm thick, and how it falls with thickness.
#[derive(Clone, Debug, PartialEq)]
pub struct CuttingForce {
    /// Lowest figure and its exponent.
    pub low: (Stress, f64),
    /// Highest figure and its exponent.
    pub high: (Stress, f64),
    /// Where they come from.
    pub origin: Origin,
}

const GROUPS: &str =
    "a tool maker's table of material groups (ISO 513, VDI 3323), catalogues of 2017 and 2022";
const EDITIONS: &str =
    "a tool maker's table of material groups: the catalogues of 2017 and 2022 disagree, both are kept";
const NO_FIGURE: &str = "no figure was found; that of mild steel stands in";

/// The published specific cutting force of a metal.
pub fn cutting_force(metal: Metal) -> CuttingForce {
    let (low, high, sure, source) = match metal {
        Metal::ChromeMoly => ((1675.0, 0.24), (1775.0, 0.24), Sure::Read, GROUPS),
        Metal::MildSteel => ((1350.0, 0.21), (1350.0, 0.21), Sure::Read, GROUPS),
        Metal::Stainless => ((1875.0, 0.21), (2150.0, 0.20), Sure::Read, GROUPS),
        Metal::Aluminium => ((700.0, 0.25), (800.0, 0.25), Sure::Read, GROUPS),
        Metal::Titanium => ((1160.0, 0.24), (2110.0, 0.22), Sure::Read, EDITIONS),
        Metal::Brass | Metal::CastIron => ((1350.0, 0.21), (1350.0, 0.21), Sure::Remembered, NO_FIGURE),
    };
    let figure = |(stress, exponent)| (Stress::from_n_per_mm2(stress), exponent);
    CuttingForce { low: figure(low), high: figure(high), origin: Origin::new(sure, source) }
}

/// The specific cutting force at a chip thickness of `h` millimetres: `kc = kc1 · h^−m`.
pub fn specific_force((one, exponent): (Stress, f64), h: Length) -> Stress {
    Stress::from_n_per_mm2(one.n_per_mm2() * h.mm().max(1e-4).powf(-exponent))
}

/// A lowest and a highest figure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band<Q> {
    /// The lowest.
    pub low: Q,
    /// The highest.
    pub high: Q,
}

/// The force across the saw: from one tooth in the cut, at the lowest specific force, to as many as can stand in the wall
/// at once where the saw runs along it, all pushing one way, at the highest. A band and no more: the teeth's sharpness
/// alone can double it.
pub fn force(metal: Metal, saw: &HoleSaw, tube: &Tube) -> Band<Force> {
    let (bite, _) = feed_per_tooth(metal, Tool::HoleSaw, saw.diameter());
    let known = cutting_force(metal);
    let tooth = |figure| specific_force(figure, bite).n_per_mm2() * saw.size.kerf.mm() * bite.mm();
    let pitch = PI * saw.diameter().mm() / saw.size.teeth.number().max(1.0);
    let teeth = (2.0 * longest_wall(tube) / pitch).max(1.0).min(saw.size.teeth.number().max(1.0));
    Band { low: Force::from_newtons(tooth(known.low)), high: Force::from_newtons(tooth(known.high) * teeth) }
}

/// The longest straight stretch inside a tube's wall: the chord that touches the bore.
fn longest_wall(tube: &Tube) -> f64 {
    let radius = tube.od_front.mm().max(tube.od_rear.mm()) / 2.0;
    let bore = (radius - tube.wall.mm()).max(0.0);
    2.0 * ((radius - bore) * (radius + bore)).sqrt()
}

/// How far the teeth give way across the saw.
pub fn deflection(metal: Metal, saw: &HoleSaw, tube: &Tube) -> Band<Length> {
    let force = force(metal, saw, tube);
    let give = |modulus| compliance(&arbor(saw), saw.size.depth, modulus);
    Band {
        low: Length::from_mm(force.low.newtons() * give(STEEL.1)),
        high: Length::from_mm(force.high.newtons() * give(STEEL.0)),
    }
}
