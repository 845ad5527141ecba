//! Everything that can be wrong with a shop.

use super::Shop;
use super::fixture::MeasuredFixture;
use super::mill::{Axis, Speeds};
use super::process::Process;
use crate::model::{Fault, Job, LongList, LongText, NamedFigure, Relation, Wrong};
use crate::units::Length;

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
                let field = format!("{at}.name");
                faults.push(Fault::new(field, process.name.as_str(), Wrong::SameName));
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
                let what = Wrong::TooMany { list: LongList::Other, count, most: LONGEST_LIST };
                faults.push(Fault::new(field, count, what));
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
            let [low, high] = [("least tilt", low), ("largest tilt", high)]
                .map(|(name, value)| NamedFigure { name, value, unit: "°" });
            faults.push(at_most("fixture.limits.tilt_min_deg", low, high));
        }
    }

    fn mill_faults(&self, faults: &mut Vec<Fault>) {
        if self.mill.lies_along == Axis::Z {
            faults.push(Fault::new("mill.fixture_along", "z", Wrong::FixtureAlongSpindle));
        }
        match &self.mill.speeds {
            Speeds::Steps(steps) => {
                if steps.is_empty() {
                    faults.push(Fault::new("mill.speeds_rpm", 0.0, Wrong::NoSpeed));
                }
            }
            Speeds::Range(slowest, fastest) => {
                let (slow, fast) = (slowest.rpm(), fastest.rpm());
                if slow > fast {
                    let [slow, fast] = [("slowest speed", slow), ("fastest speed", fast)]
                        .map(|(name, value)| NamedFigure { name, value, unit: "rpm" });
                    faults.push(at_most("mill.slowest_rpm", slow, fast));
                }
            }
        }
    }
}

fn process_faults(process: &Process, at: &str, faults: &mut Vec<Fault>) {
    text_fault(&format!("{at}.name"), &process.name, LONGEST_NAME, faults);
    text_fault(&format!("{at}.source"), &process.origin.source, LONGEST_SOURCE, faults);
    if process.name.is_empty() {
        faults.push(Fault::new(format!("{at}.name"), "", Wrong::NoName));
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
fn order(at: &str, low: (&str, &'static str, Length), high: Named, faults: &mut Vec<Fault>) {
    let ((key, name, low), (high_name, high)) = (low, high);
    if low.mm() > high.mm() {
        let (low, high) = (NamedFigure::mm(name, low.mm()), NamedFigure::mm(high_name, high.mm()));
        faults.push(at_most(format!("{at}.{key}"), low, high));
    }
}

fn at_most(field: impl Into<String>, figure: NamedFigure, other: NamedFigure) -> Fault {
    Fault::against(field, figure, Relation::AtMost, other)
}

fn text_fault(field: &str, text: &str, most: usize, faults: &mut Vec<Fault>) {
    let count = text.chars().count();
    if count > most {
        faults.push(Fault::new(field, text, Wrong::TooLong { text: LongText::Other, count, most }));
    }
}
