//! Everything that can be wrong with a job before any geometry is done.

use super::bends::Bend;
use super::end::{End, EndKind};
use super::fault::Fault;
use super::fixture::MOST_POSTS;
use super::group::{Group, below};
use super::job::{Job, PairName};
use super::side::{Hand, Side};
use super::tube::Tube;
use crate::units::said;

/// Longest name and longest notes, in characters. A link carries both.
pub(crate) const LONGEST_NAME: usize = 120;
pub(crate) const LONGEST_NOTES: usize = 2000;

impl Job {
    /// All faults of the job at once; empty when it can be planned.
    pub fn faults(&self) -> Vec<Fault> {
        let mut faults = Vec::new();
        self.each("", &mut |path, spec, value| {
            if !spec.bounds.contain(value) {
                faults.push(Fault::outside(path, spec, value));
            }
        });
        self.frame_faults(&mut faults);
        self.text_faults(&mut faults);
        self.fixture_faults(&mut faults);
        for name in PairName::ALL {
            for hand in Hand::ALL {
                let pair = self.pair(name);
                if hand == Hand::Left && pair.left.is_none() {
                    continue;
                }
                side_faults(&format!("{}.{}", name.key(), hand.key()), pair.side(hand), &mut faults);
            }
        }
        faults
    }

    fn frame_faults(&self, faults: &mut Vec<Fault>) {
        let (length, drop) = (self.frame.chainstay_length.mm(), self.frame.bb_drop.mm());
        if drop.abs() >= length && sound(faults, "frame", &["bb_drop", "chainstay_length"]) {
            faults.push(Fault::new(
                "frame.bb_drop_mm",
                drop,
                format!(
                    "bottom bracket drop {} mm must be less than the chainstay length {} mm",
                    said(drop, 3),
                    said(length, 3)
                ),
            ));
        }
    }

    fn text_faults(&self, faults: &mut Vec<Fault>) {
        let texts = [
            ("name", "the job's name has", &self.name, LONGEST_NAME),
            ("notes", "the notes have", &self.notes, LONGEST_NOTES),
        ];
        for (field, has, text, most) in texts {
            let count = text.chars().count();
            if count > most {
                let message = format!("{has} {count} characters; at most {most} fit");
                faults.push(Fault::new(field, text.as_str(), message));
            }
        }
    }

    fn fixture_faults(&self, faults: &mut Vec<Fault>) {
        let bench = &self.fixture.bench;
        let ranges = [
            ("slide_max_mm", "slide_m", "slide", bench.slide_min.mm(), bench.slide_max.mm()),
            (
                "axle_height_max_mm",
                "axle_height_m",
                "axle height",
                bench.axle_height_min.mm(),
                bench.axle_height_max.mm(),
            ),
        ];
        for (key, both, name, min, max) in ranges {
            if max < min && sound(faults, "fixture", &[both]) {
                let message =
                    format!("{name} maximum {} mm is below its minimum {} mm", said(max, 3), said(min, 3));
                faults.push(Fault::new(below("fixture", key), max, message));
            }
        }
        let count = self.fixture.posts.len();
        if count > MOST_POSTS {
            let message = format!("{count} posts are given; 0 to {MOST_POSTS} are allowed");
            faults.push(Fault::new("fixture.posts_u_mm", count, message));
        }
    }
}

fn side_faults(at: &str, side: &Side, faults: &mut Vec<Fault>) {
    end_faults(&format!("{at}.front.end"), side.front_end, true, faults);
    end_faults(&format!("{at}.rear.end"), side.rear_end, false, faults);
    tube_faults(&format!("{at}.tube"), &side.tube, faults);
}

fn end_faults(at: &str, end: End, at_front: bool, faults: &mut Vec<Fault>) {
    let kind = end.kind();
    if kind.fits(at_front) {
        return;
    }
    let message = match kind {
        EndKind::Cope => "a rear end meets no shell or seat tube: it can be boss, slot or square",
        EndKind::Boss => "a boss is a round dropout, at the rear end only: a front end can be cope or square",
        _ => "a slot holds a dropout plate, at the rear end only: a front end can be cope or square",
    };
    faults.push(Fault::new(below(at, "kind"), kind.key(), message));
}

fn tube_faults(at: &str, tube: &Tube, faults: &mut Vec<Fault>) {
    let (start, end) = (tube.taper_start.mm(), tube.taper_end.mm());
    let tapers = tube.od_front != tube.od_rear;
    let behind = end > start || (!tapers && end == start);
    if !behind && sound(faults, at, &["od_", "taper_"]) {
        let message = format!(
            "taper end {} mm must lie {} taper start {} mm",
            said(end, 3),
            if tapers { "behind" } else { "at or behind" },
            said(start, 3)
        );
        faults.push(Fault::new(below(at, "taper_end_mm"), end, message));
    }
    if sound(faults, at, &["od_", "wall_", "butts", "ovals"]) {
        wall_faults(at, tube, faults);
    }
    if sound(faults, at, &["od_", "length_", "bends"]) {
        bend_faults(at, tube, faults);
    }
    if sound(faults, at, &["ovals"]) {
        oval_faults(at, tube, faults);
    }
}

/// Whether no fault is known of the figures below `at` whose keys start like that: with one that is out of its range itself, nothing
/// is to be said of how it stands to others.
fn sound(faults: &[Fault], at: &str, keys: &[&str]) -> bool {
    let key = |fault: &Fault| {
        let rest = fault.field.strip_prefix(at).and_then(|rest| rest.strip_prefix('.'));
        rest.is_some_and(|rest| keys.iter().any(|key| rest.starts_with(key)))
    };
    !faults.iter().any(key)
}

fn wall_faults(at: &str, tube: &Tube, faults: &mut Vec<Fault>) {
    let halves = tube.ovals.list.iter().flat_map(|oval| [oval.width.mm(), oval.height.mm()]);
    let slimmest = halves.fold(tube.od_front.mm().min(tube.od_rear.mm()), f64::min);
    let mut check = |at: String, wall: f64| {
        if 2.0 * wall >= slimmest {
            let message = format!(
                "wall {} mm leaves no bore in a tube of {} mm: less than {} mm is needed",
                said(wall, 3),
                said(slimmest, 3),
                said(slimmest / 2.0, 3)
            );
            faults.push(Fault::new(below(&at, "wall_mm"), wall, message));
        }
    };
    check(at.to_owned(), tube.wall.mm());
    for (i, butt) in tube.butts.list.iter().enumerate() {
        check(format!("{at}.butts[{i}]"), butt.wall.mm());
    }
    let stations = tube.butts.list.iter().map(|butt| butt.at.mm());
    for (i, (before, here)) in stations.clone().zip(stations.skip(1)).enumerate() {
        if here <= before {
            let message = format!(
                "butt station {} mm must lie behind the one before, {} mm",
                said(here, 3),
                said(before, 3)
            );
            faults.push(Fault::new(format!("{at}.butts[{}].at_mm", i + 1), here, message));
        }
    }
}

fn oval_faults(at: &str, tube: &Tube, faults: &mut Vec<Fault>) {
    let mut free = f64::NEG_INFINITY;
    for (i, oval) in tube.ovals.list.iter().enumerate() {
        let (from, to) = (oval.from.mm(), oval.to.mm());
        if to < from {
            let message =
                format!("oval end {} mm must not lie before its start {} mm", said(to, 3), said(from, 3));
            faults.push(Fault::new(format!("{at}.ovals[{i}].to_mm"), to, message));
        }
        if from - oval.blend.mm() < free {
            let message = format!(
                "oval start {} mm must lie at or behind {} mm, where the one before is round again, and its own blend",
                said(from, 3),
                said(free, 3)
            );
            faults.push(Fault::new(format!("{at}.ovals[{i}].from_mm"), from, message));
        }
        free = to + oval.blend.mm();
    }
}

fn bend_faults(at: &str, tube: &Tube, faults: &mut Vec<Fault>) {
    let half = 0.5 * tube.od_front.mm().max(tube.od_rear.mm());
    for (i, bend) in tube.bends.list.iter().enumerate() {
        let radius = bend.radius.mm();
        if bend.angle.degrees() > 0.0 && radius <= half {
            let message = format!(
                "bend radius {} mm must be more than half the tube's diameter, {} mm",
                said(radius, 3),
                said(half, 3)
            );
            faults.push(Fault::new(format!("{at}.bends[{i}].radius_mm"), radius, message));
        }
    }
    let takes = |bend: &Bend| bend.before.mm() + bend.radius.mm() * bend.angle.radians();
    let needed: f64 = tube.bends.list.iter().map(takes).sum();
    if needed > tube.length.mm() && needed.is_finite() {
        let message = format!(
            "tube length {} mm is too short for its bends, which end at {} mm",
            said(tube.length.mm(), 3),
            said(needed, 3)
        );
        faults.push(Fault::new(below(at, "length_mm"), tube.length.mm(), message));
    }
}
