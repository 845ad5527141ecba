//! Everything that can be wrong with a job before any geometry is done.

use super::bends::Bend;
use super::end::{End, EndKind};
use super::fault::{EndMisfit, Fault, LongList, LongText, NamedFigure, Relation, Wrong};
use super::fixture::MOST_POSTS;
use super::group::{Group, below};
use super::job::Job;
use super::pair_name::PairName;
use super::side::{Hand, Side};
use super::tube::Tube;

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
                let at = format!("{}.{}", name.key(), hand.key());
                side_faults(&at, pair.side(hand), &mut faults);
                self.dropout_fault(&at, name, hand, &mut faults);
            }
        }
        faults
    }

    /// A rear end that its dropout does not go with.
    fn dropout_fault(&self, at: &str, name: PairName, hand: Hand, faults: &mut Vec<Fault>) {
        let Some(dropouts) = &self.dropouts else { return };
        let (dropout, kind) = (dropouts.side(hand).kind(), self.pair(name).side(hand).rear_end.kind());
        if kind != dropout.end_kind() && kind.fits(false) {
            let what = Wrong::EndNotOfDropout { dropout };
            faults.push(Fault::new(format!("{at}.rear.end.kind"), kind.key(), what));
        }
    }

    fn frame_faults(&self, faults: &mut Vec<Fault>) {
        let (length, drop) = (self.frame.chainstay_length.mm(), self.frame.bb_drop.mm());
        if drop.abs() >= length && sound(faults, "frame", &["bb_drop", "chainstay_length"]) {
            let drop = NamedFigure::mm("bottom bracket drop", drop);
            let length = NamedFigure::mm("chainstay length", length);
            faults.push(Fault::against("frame.bb_drop_mm", drop, Relation::LessThan, length));
        }
    }

    fn text_faults(&self, faults: &mut Vec<Fault>) {
        let texts = [
            ("name", LongText::JobName, &self.name, LONGEST_NAME),
            ("notes", LongText::Notes, &self.notes, LONGEST_NOTES),
        ];
        for (field, which, text, most) in texts {
            let count = text.chars().count();
            if count > most {
                faults.push(Fault::new(field, text.as_str(), Wrong::TooLong { text: which, count, most }));
            }
        }
    }

    fn fixture_faults(&self, faults: &mut Vec<Fault>) {
        let bench = &self.fixture.bench;
        let ranges = [
            (
                "slide_max_mm",
                "slide_m",
                ["slide minimum", "slide maximum"],
                bench.slide_min.mm(),
                bench.slide_max.mm(),
            ),
            (
                "axle_height_max_mm",
                "axle_height_m",
                ["axle height minimum", "axle height maximum"],
                bench.axle_height_min.mm(),
                bench.axle_height_max.mm(),
            ),
        ];
        for (key, both, [low, high], min, max) in ranges {
            if max < min && sound(faults, "fixture", &[both]) {
                let (low, high) = (NamedFigure::mm(low, min), NamedFigure::mm(high, max));
                faults.push(Fault::against(below("fixture", key), high, Relation::AtLeast, low));
            }
        }
        let count = self.fixture.posts.len();
        if count > MOST_POSTS {
            let what = Wrong::TooMany { list: LongList::Posts, count, most: MOST_POSTS };
            faults.push(Fault::new("fixture.posts_u_mm", count, what));
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
    let misfit = match kind {
        EndKind::Cope => EndMisfit::MiterAtRear,
        EndKind::Boss => EndMisfit::RoundDropoutAtFront,
        _ => EndMisfit::SlotAtFront,
    };
    faults.push(Fault::new(below(at, "kind"), kind.key(), Wrong::EndMisfit(misfit)));
}

fn tube_faults(at: &str, tube: &Tube, faults: &mut Vec<Fault>) {
    let (start, end) = (tube.taper_start.mm(), tube.taper_end.mm());
    let tapers = tube.od_front != tube.od_rear;
    let behind = end > start || (!tapers && end == start);
    if !behind && sound(faults, at, &["od_", "taper_"]) {
        let relation = if tapers { Relation::Behind } else { Relation::AtOrBehind };
        let (start, end) = (NamedFigure::mm("taper start", start), NamedFigure::mm("taper end", end));
        faults.push(Fault::against(below(at, "taper_end_mm"), end, relation, start));
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
            let what = Wrong::NoBore { wall, diameter: slimmest };
            faults.push(Fault::new(below(&at, "wall_mm"), wall, what));
        }
    };
    check(at.to_owned(), tube.wall.mm());
    for (i, butt) in tube.butts.list.iter().enumerate() {
        check(format!("{at}.butts[{i}]"), butt.wall.mm());
    }
    let stations = tube.butts.list.iter().map(|butt| butt.at.mm());
    for (i, (before, here)) in stations.clone().zip(stations.skip(1)).enumerate() {
        if here <= before {
            let before = NamedFigure::mm("the one before,", before);
            let here = NamedFigure::mm("butt station", here);
            faults.push(Fault::against(
                format!("{at}.butts[{}].at_mm", i + 1),
                here,
                Relation::Behind,
                before,
            ));
        }
    }
}

fn oval_faults(at: &str, tube: &Tube, faults: &mut Vec<Fault>) {
    let mut free = f64::NEG_INFINITY;
    for (i, oval) in tube.ovals.list.iter().enumerate() {
        let (from, to) = (oval.from.mm(), oval.to.mm());
        if to < from {
            let (start, end) = (NamedFigure::mm("oval start", from), NamedFigure::mm("oval end", to));
            faults.push(Fault::against(format!("{at}.ovals[{i}].to_mm"), end, Relation::AtOrBehind, start));
        }
        if from - oval.blend.mm() < free {
            let start = NamedFigure::mm("oval start", from);
            let free =
                NamedFigure::mm("the end of the oval before with both blends,", free + oval.blend.mm());
            faults.push(Fault::against(
                format!("{at}.ovals[{i}].from_mm"),
                start,
                Relation::AtOrBehind,
                free,
            ));
        }
        free = to + oval.blend.mm();
    }
}

fn bend_faults(at: &str, tube: &Tube, faults: &mut Vec<Fault>) {
    let half = 0.5 * tube.od_front.mm().max(tube.od_rear.mm());
    for (i, bend) in tube.bends.list.iter().enumerate() {
        let radius = bend.radius.mm();
        if bend.angle.degrees() > 0.0 && radius <= half {
            let radius = NamedFigure::mm("bend radius", radius);
            let half = NamedFigure::mm("half the tube's diameter,", half);
            faults.push(Fault::against(
                format!("{at}.bends[{i}].radius_mm"),
                radius,
                Relation::MoreThan,
                half,
            ));
        }
    }
    let takes = |bend: &Bend| bend.before.mm() + bend.radius.mm() * bend.angle.radians();
    let needed: f64 = tube.bends.list.iter().map(takes).sum();
    if needed > tube.length.mm() && needed.is_finite() {
        let length = NamedFigure::mm("tube length", tube.length.mm());
        let needed = NamedFigure::mm("the end of its last bend,", needed);
        faults.push(Fault::against(below(at, "length_mm"), length, Relation::AtLeast, needed));
    }
}
