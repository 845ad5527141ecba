//! Every figure of a shop with its path, what is known of it and its number.

use super::cutter::HoleSaw;
use super::fixture::MeasuredFixture;
use super::mill::{Axis, Mill, Speeds};
use super::{Metal, Shop};
use crate::model::group::{Group, Spec, below};
use crate::units::{Bounds, Kind};

/// What is known of a hole saw's measured diameter.
pub static CUTTING: Spec = Spec {
    key: "cutting_mm",
    name: "measured diameter",
    meaning: "Diameter of the hole saw, measured over its teeth.",
    kind: Kind::Length,
    bounds: Bounds::new(4.0, 200.0),
};

/// What is known of one speed that the spindle has.
pub static SPEED: Spec = Spec {
    key: "speeds_rpm",
    name: "spindle speed",
    meaning: "One speed that the spindle has.",
    kind: Kind::SpindleSpeed,
    bounds: Bounds::new(1.0, 60000.0),
};

/// What is known of a cutting speed of the builder's own.
pub static OWN_SPEED: Spec = Spec {
    key: "own_speeds_m_min",
    name: "own cutting speed",
    meaning: "A cutting speed of your own.",
    kind: Kind::CuttingSpeed,
    bounds: Bounds::new(0.5, 1000.0),
};

type Visit<'a> = dyn FnMut(&str, &'static Spec, f64) + 'a;

impl Shop {
    /// Visits every figure in the order of the file.
    pub fn each(&self, visit: &mut dyn FnMut(&str, &'static Spec, f64)) {
        for (i, saw) in self.hole_saws.iter().enumerate() {
            hole_saw(saw, &format!("hole_saws[{i}]"), visit);
        }
        for (i, saw) in self.slitting_saws.iter().enumerate() {
            saw.each(&format!("slitting_saws[{i}]"), visit);
        }
        for (i, mill) in self.end_mills.iter().enumerate() {
            mill.each(&format!("end_mills[{i}]"), visit);
        }
        fixture(&self.fixture, visit);
        self.touch.each("", visit);
        mill(&self.mill, visit);
        for (i, process) in self.processes.iter().enumerate() {
            process.gap.each(&format!("processes[{i}]"), visit);
        }
        for metal in Metal::ALL {
            if let Some(speed) = self.own_speed(metal) {
                visit(&below(OWN_SPEED.key, metal.key()), &OWN_SPEED, speed.m_per_min());
            }
        }
    }
}

fn hole_saw(saw: &HoleSaw, at: &str, visit: &mut Visit<'_>) {
    saw.size.each(at, visit);
    if let Some(cutting) = saw.cutting {
        visit(&below(at, CUTTING.key), &CUTTING, cutting.mm());
    }
    saw.arbor.each(at, visit);
}

fn fixture(fixture: &MeasuredFixture, visit: &mut Visit<'_>) {
    fixture.figures.each("fixture", visit);
    fixture.bed.each("fixture.bed", visit);
    fixture.block.each("fixture.block", visit);
    fixture.post.each("fixture.post", visit);
    fixture.axle.each("fixture.axle", visit);
    fixture.limits.each("fixture.limits", visit);
    for (key, scale) in [
        ("slide", fixture.slide),
        ("axle_height", fixture.axle_height),
        ("half_spacing", fixture.half_spacing),
    ] {
        scale.figures.each(&format!("fixture.scales.{key}"), visit);
    }
    for (key, scale) in [("tilt", fixture.tilt), ("swivel", fixture.swivel)] {
        scale.figures.each(&format!("fixture.scales.{key}"), visit);
    }
}

fn mill(mill: &Mill, visit: &mut Visit<'_>) {
    for axis in Axis::ALL {
        mill.readout(axis).0.each(&format!("mill.{}", axis.key()), visit);
    }
    mill.body.each("mill", visit);
    match &mill.speeds {
        Speeds::Steps(steps) => {
            for (i, speed) in steps.iter().enumerate() {
                visit(&format!("mill.{}[{i}]", SPEED.key), &SPEED, speed.rpm());
            }
        }
        Speeds::Range(slowest, fastest) => {
            visit("mill.slowest_rpm", &SPEED, slowest.rpm());
            visit("mill.fastest_rpm", &SPEED, fastest.rpm());
        }
    }
}
