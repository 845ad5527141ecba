//! Everything that can be wrong with a shop.

use super::Shop;
use super::fixture::MeasuredFixture;
use super::mill::{Axis, Speeds};
use super::process::Process;
use crate::model::{Fault, Job};
use crate::units::{Length, said};
use serde_json::Value;

/// Longest name of a shop or a process, in characters.
const LONGEST_NAME: usize = 120;
/// Longest source, in characters.
const LONGEST_SOURCE: usize = 400;
/// As many entries as one list may have.
const LONGEST_LIST: usize = 120;

impl Shop {
    /// All faults of the shop at once; empty when it can be worked with.
    pub fn faults(&self) -> Vec<Fault> {
        let mut faults = Vec::new();
        self.each(&mut |path, spec, value| {
            if !spec.bounds.contain(value) {
                faults.push(Fault::outside(path, spec, value));
            }
        });
        self.list_faults(&mut faults);
        self.cutter_faults(&mut faults);
        self.fixture_faults(&mut faults);
        self.mill_faults(&mut faults);
        for (i, process) in self.processes.iter().enumerate() {
            let at = format!("processes[{i}]");
            process_faults(process, &at, &mut faults);
            if self.processes.iter().take(i).any(|other| other.name == process.name) {
                let message = "another way of joining has the same name";
                faults.push(Fault::new(format!("{at}.name"), Value::from(process.name.as_str()), message));
            }
        }
        text_fault("name", &self.name, LONGEST_NAME, &mut faults);
        faults
    }

    fn list_faults(&self, faults: &mut Vec<Fault>) {
        let speeds = if let Speeds::Steps(steps) = &self.mill.speeds { steps.len() } else { 1 };
        let lists = [
            ("hole_saws", self.hole_saws.len()),
            ("slitting_saws", self.slitting_saws.len()),
            ("end_mills", self.end_mills.len()),
            ("processes", self.processes.len()),
            ("mill.speeds_rpm", speeds),
        ];
        for (field, count) in lists {
            if count > LONGEST_LIST {
                let message = format!("{count} entries are given; 0 to {LONGEST_LIST} are allowed");
                faults.push(Fault::new(field, Value::from(count), message));
            }
        }
    }

    fn cutter_faults(&self, faults: &mut Vec<Fault>) {
        for (i, saw) in self.hole_saws.iter().enumerate() {
            let at = format!("hole_saws[{i}]");
            order(
                &at,
                ("neck_length_mm", "neck length", saw.arbor.neck_length),
                ("arbor reach", saw.arbor.reach),
                faults,
            );
            let radius = Length::from_mm(saw.diameter().mm() / 2.0);
            order(&at, ("kerf_mm", "kerf", saw.size.kerf), ("half the saw's diameter", radius), faults);
        }
        for (i, saw) in self.slitting_saws.iter().enumerate() {
            let at = format!("slitting_saws[{i}]");
            order(&at, ("collar_mm", "collar diameter", saw.collar), ("saw diameter", saw.diameter), faults);
        }
    }

    fn fixture_faults(&self, faults: &mut Vec<Fault>) {
        // The rules of a job's fixture, which stands here under the same keys.
        let job = Job { fixture: self.fixture.figures.clone(), ..Job::default() };
        let known: Vec<String> = faults.iter().map(|fault| fault.field.clone()).collect();
        faults.extend(job.faults().into_iter().filter(|fault| !known.contains(&fault.field)));
        for (at, low, high) in ends(&self.fixture) {
            order(&format!("fixture.{at}"), low, high, faults);
        }
        let limits = &self.fixture.limits;
        let (low, high) = (limits.tilt_min.degrees(), limits.tilt_max.degrees());
        if low > high {
            let message =
                format!("least tilt {}° must not be more than largest tilt {}°", said(low, 3), said(high, 3));
            faults.push(Fault::new("fixture.limits.tilt_min_deg", Value::from(low), message));
        }
    }

    fn mill_faults(&self, faults: &mut Vec<Fault>) {
        if self.mill.lies_along == Axis::Z {
            let message = "the fixture lies along x or y: z is the spindle's own axis";
            faults.push(Fault::new("mill.fixture_along", Value::from("z"), message));
        }
        match &self.mill.speeds {
            Speeds::Steps(steps) => {
                if steps.is_empty() {
                    let message = "at least one spindle speed is needed";
                    faults.push(Fault::new("mill.speeds_rpm", Value::from(0), message));
                }
            }
            Speeds::Range(slowest, fastest) => {
                let (slow, fast) = (slowest.rpm(), fastest.rpm());
                if slow > fast {
                    let message = format!(
                        "slowest speed {} rpm must not be more than fastest speed {} rpm",
                        said(slow, 3),
                        said(fast, 3)
                    );
                    faults.push(Fault::new("mill.slowest_rpm", Value::from(slow), message));
                }
            }
        }
    }
}

fn process_faults(process: &Process, at: &str, faults: &mut Vec<Fault>) {
    text_fault(&format!("{at}.name"), &process.name, LONGEST_NAME, faults);
    text_fault(&format!("{at}.source"), &process.origin.source, LONGEST_SOURCE, faults);
    if process.name.is_empty() {
        faults.push(Fault::new(format!("{at}.name"), Value::from(""), "a way of joining needs a name"));
    }
    let gap = &process.gap;
    order(at, ("best_mm", "best gap", gap.best), ("largest gap", gap.most), faults);
    order(at, ("least_mm", "least gap", gap.least), ("best gap", gap.best), faults);
}

/// A length with its name.
type Named = (&'static str, Length);

/// Pairs of the fixture's lengths of which the first, under its key in a group, must not pass the second.
fn ends(fixture: &MeasuredFixture) -> [(&'static str, (&'static str, &'static str, Length), Named); 4] {
    let (bed, block) = (&fixture.bed, &fixture.block);
    let (post, limits) = (&fixture.post, &fixture.limits);
    let (least, most) = (limits.half_spacing_min, limits.half_spacing_max);
    [
        ("bed", ("front_u_mm", "bed front end", bed.front), ("bed rear end", bed.rear)),
        ("block", ("front_u_mm", "block front end", block.front), ("block rear end", block.rear)),
        ("post", ("front_u_mm", "foremost post place", post.front), ("rearmost post place", post.rear)),
        ("limits", ("half_spacing_min_mm", "least clamp spacing", least), ("largest clamp spacing", most)),
    ]
}

/// A fault where one length is more than another that it must not pass.
fn order(at: &str, low: (&str, &str, Length), high: (&str, Length), faults: &mut Vec<Fault>) {
    let ((key, name, low), (high_name, high)) = (low, high);
    if low.mm() > high.mm() {
        let message = format!(
            "{name} {} mm must not be more than {high_name} {} mm",
            said(low.mm(), 3),
            said(high.mm(), 3)
        );
        faults.push(Fault::new(format!("{at}.{key}"), Value::from(low.mm()), message));
    }
}

fn text_fault(field: &str, text: &str, most: usize, faults: &mut Vec<Fault>) {
    let count = text.chars().count();
    if count > most {
        let message = format!("the text has {count} characters; at most {most} fit");
        faults.push(Fault::new(field, Value::from(text), message));
    }
}
