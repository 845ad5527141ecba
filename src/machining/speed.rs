//! Spindle speed and feed.

use super::published::{CARBIDE, PublishedSpeed, feed_per_tooth, published_speed};
use crate::model::shop::{Metal, Origin, Shop, Speeds, Sure, ToothMaterial};
use crate::units::{CuttingSpeed, Feed, Length, SpindleSpeed};
use std::f64::consts::PI;

/// A kind of cutter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tool {
    /// A hole saw.
    HoleSaw,
    /// A slitting saw.
    SlittingSaw,
    /// An end mill.
    EndMill,
}

/// How fast a cutter of `diameter` turns for its rim to go at `speed`: `n = v/(π·D)`.
pub fn spindle_speed(speed: CuttingSpeed, diameter: Length) -> SpindleSpeed {
    SpindleSpeed::from_rpm(1000.0 * speed.m_per_min() / (PI * diameter.mm()))
}

/// How fast the rim of a cutter goes.
pub fn rim_speed(speed: SpindleSpeed, diameter: Length) -> CuttingSpeed {
    CuttingSpeed::from_m_per_min(PI * diameter.mm() * speed.rpm() / 1000.0)
}

/// Feed of a cutter: each tooth bites `per_tooth` at each turn.
pub fn feed(per_tooth: Length, teeth: f64, speed: SpindleSpeed) -> Feed {
    Feed::from_mm_per_min(per_tooth.mm() * teeth * speed.rpm())
}

/// The speed that the mill has nearest to the wanted one and not above it; `None` where even its slowest is faster.
pub fn nearest_not_above(speeds: &Speeds, wanted: SpindleSpeed) -> Option<SpindleSpeed> {
    match speeds {
        Speeds::Range(slowest, fastest) => {
            (slowest.rpm() <= wanted.rpm()).then(|| SpindleSpeed::from_rpm(wanted.rpm().min(fastest.rpm())))
        }
        Speeds::Steps(steps) => {
            let slower = steps.iter().filter(|step| step.rpm() <= wanted.rpm());
            slower.copied().max_by(|a, b| a.rpm().total_cmp(&b.rpm()))
        }
    }
}

/// The slowest speed that the mill has.
pub fn slowest(speeds: &Speeds) -> Option<SpindleSpeed> {
    match speeds {
        Speeds::Range(slowest, _) => Some(*slowest),
        Speeds::Steps(steps) => steps.iter().copied().min_by(|a, b| a.rpm().total_cmp(&b.rpm())),
    }
}

/// A cutter as far as its speed is concerned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cutter {
    /// Its kind.
    pub tool: Tool,
    /// Its cutting diameter.
    pub diameter: Length,
    /// How many teeth.
    pub teeth: f64,
    /// What its teeth are made of.
    pub tooth: ToothMaterial,
}

/// How a cutter is run.
#[derive(Clone, Debug, PartialEq)]
pub struct Running {
    /// The cutting speed to start with.
    pub cutting: CuttingSpeed,
    /// Where that comes from.
    pub origin: Origin,
    /// What it comes to at the spindle.
    pub wanted: SpindleSpeed,
    /// The mill's nearest speed not above it; `None` where even its slowest is faster.
    pub set: Option<SpindleSpeed>,
    /// How many times too fast the mill's slowest speed is, where it is.
    pub too_fast: Option<f64>,
    /// Feed per tooth to start with.
    pub per_tooth: Length,
    /// Where that comes from.
    pub feed_origin: Origin,
    /// The feed at the speed that is set (at the slowest where none will do).
    pub feed: Option<Feed>,
}

/// How a cutter is run in a metal on the shop's mill.
pub fn running(shop: &Shop, metal: Metal, cutter: Cutter) -> Running {
    let (cutting, origin) = cutting_speed(shop, metal, cutter);
    let wanted = spindle_speed(cutting, cutter.diameter);
    let set = nearest_not_above(&shop.mill.speeds, wanted);
    let slowest = slowest(&shop.mill.speeds);
    let too_fast = if set.is_some() { None } else { slowest.map(|slowest| slowest.rpm() / wanted.rpm()) };
    let (per_tooth, feed_origin) = feed_per_tooth(metal, cutter.tool, cutter.diameter);
    let turning = set.or(slowest);
    let feed = turning.map(|turning| feed(per_tooth, cutter.teeth, turning));
    Running { cutting, origin, wanted, set, too_fast, per_tooth, feed_origin, feed }
}

/// The builder's own figure, or the published one; carbide goes faster than the tables' high-speed steel.
fn cutting_speed(shop: &Shop, metal: Metal, cutter: Cutter) -> (CuttingSpeed, Origin) {
    if let Some(own) = shop.own_speed(metal) {
        return (own, Origin::new(Sure::Own, "the shop's own cutting speed"));
    }
    let PublishedSpeed { start, origin, .. } = published_speed(metal, cutter.tool);
    match cutter.tooth {
        ToothMaterial::HighSpeedSteel => (start, origin),
        ToothMaterial::Carbide => (CuttingSpeed::from_m_per_min(start.m_per_min() * CARBIDE), origin),
    }
}
