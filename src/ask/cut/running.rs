//! Speed and feed, with where they come from, and what to mind.

use super::Here;
use super::told::Told;
use crate::machining::{Cutter, Tool, advice, running};
use crate::model::capital;
use crate::model::shop::{HoleSaw, ToothMaterial};
use crate::procedure::Reading;
use crate::text::machining as words;
use crate::units::{CuttingSpeed, Length, LengthUnit, fixed, show, trimmed};

pub(super) const fn saw_cutter(diameter: Length, saw: &HoleSaw) -> Cutter {
    Cutter { tool: Tool::HoleSaw, diameter, teeth: saw.size.teeth.number(), tooth: saw.tooth }
}

/// A cutter of which only the planned diameter is known.
pub(super) fn planned(here: Here<'_>, tool: Tool, diameter: Length) -> Told {
    let cutter = Cutter { tool, diameter, teeth: 0.0, tooth: ToothMaterial::HighSpeedSteel };
    run(here, cutter, None)
}

/// How a cutter is run; with a saw, also what to mind.
pub(super) fn run(here: Here<'_>, cutter: Cutter, saw: Option<&HoleSaw>) -> Told {
    let metal = here.shop.metal;
    let run = running(here.shop, metal, cutter);
    let mut told = Told::new("Speed and feed");
    told.fact("Metal", capital(metal.name()));
    if let Some(set) = run.set {
        told.fact("Spindle", Reading::Speed(set).text(here.unit));
    }
    told.fact("Nearest not above", Reading::Speed(run.wanted).text(here.unit));
    told.fact("Cutting speed", surface(run.cutting, here.unit));
    told.say_from(format!("Cutting speed {}.", surface(run.cutting, here.unit)), &run.origin);
    if cutter.teeth > 0.0 {
        told.fact("Feed per tooth", show::fine(run.per_tooth.mm(), false, here.unit));
        if let Some(feed) = run.feed {
            told.fact("Feed, at most", Reading::Feed(feed).text(here.unit));
        }
        told.say_from("The feed is a start, to be cut back where it chatters.", &run.feed_origin);
    }
    if let Some(times) = run.too_fast {
        let wanted = trimmed(run.wanted.rpm(), 0);
        let times = trimmed(times, 1);
        told.say_bad(format!(
            "This cutter wants {wanted} rpm; the mill's slowest speed is {times} times that."
        ));
    }
    if let Some(saw) = saw {
        let tube = &here.plan.job.pair(here.at.pair).side(here.at.hand).tube;
        for one in advice(metal, saw, tube) {
            let reason = words::advice_reason(one, here.style());
            told.say_from(format!("{} Because {reason}.", words::advice(one)), &words::advice_origin(one));
        }
    }
    told
}

fn surface(speed: CuttingSpeed, unit: LengthUnit) -> String {
    match unit {
        LengthUnit::Millimetre => format!("{} m/min", fixed(speed.m_per_min(), 1)),
        LengthUnit::Inch => format!("{} ft/min", fixed(speed.feet_per_min(), 0)),
    }
}
