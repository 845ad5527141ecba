//! The place of a bent tube that leaves the most room.

use super::evaluate::{HERE, Looked, Trial};
use crate::model::{Find, Group, Hand, Job, PairName};
use crate::plan::{Axes, BestPlacement, Placement, entered, lay};
use crate::units::Real;
use std::f64::consts::PI;

/// The best place is found to within this, mm, unless the search ends before.
const SURE: f64 = 0.02;

/// Places looked at, at most.
const LOOKS: usize = 2000;

/// How fast the room for the cuts can change with front trim, and with roll, mm a radian: their slant changes with it.
const CUTS: (f64, f64) = (2.0, 60.0);

/// Front trims and rolls of one rectangle.
#[derive(Clone, Copy)]
struct Cell {
    middle: Placement,
    /// Half its sides.
    half: Placement,
    /// No place in it leaves more.
    most: f64,
    /// Whether the front trim moves the tube more than the roll does.
    by_trim: bool,
}

impl Cell {
    /// Halves across the side along which room can change more.
    fn halves(&self) -> [Self; 2] {
        let (mut half, mut way) = (self.half, Placement { trim: 0.0, roll: 0.0 });
        if self.by_trim {
            half.trim *= 0.5;
            way.trim = half.trim;
        } else {
            half.roll *= 0.5;
            way.roll = half.roll;
        }
        let moved = |sign: f64| Placement {
            trim: self.middle.trim + sign * way.trim,
            roll: self.middle.roll + sign * way.roll,
        };
        [-1.0, 1.0].map(|sign| Self { middle: moved(sign), half, ..*self })
    }
}

/// Where each stay of a pair is laid, right first, when its tube leaves that to the solver: `None` for a tube that does not,
/// `Some(None)` where no place will do. Of a mirrored pair the right stay stands for both, with the neighbours of both. Of
/// a pair whose sides differ each keeps to its own half of the room between them.
pub(super) fn most_room<T: Real>(job: &Job<T>, pair: PairName) -> [Option<Option<BestPlacement>>; 2] {
    let stays = job.pair(pair);
    let asks = |hand: Hand| stays.side(hand).tube.bends.find != Find::Nothing;
    if !Hand::ALL.into_iter().any(asks) {
        return [None, None];
    }
    let job: Job = job.map("", &mut |_, _, value| value.value());
    let axes = Axes::new(&job.frame);
    if stays.left.is_none() {
        let found = search(&axes, &job, pair, Hand::Right, &Hand::ALL);
        return [Some(found), Some(found)];
    }
    Hand::ALL.map(|hand| asks(hand).then(|| search(&axes, &job, pair, hand, &[hand])))
}

/// Branch and bound over front trim and roll: room cannot change faster than the tube moves.
fn search(axes: &Axes<f64>, job: &Job, pair: PairName, hand: Hand, sides: &[Hand]) -> Option<BestPlacement> {
    let tube = &job.pair(pair).side(hand).tube;
    let laid = lay(axes, job, pair, hand, None);
    let trial = Trial::new(axes, job, pair, &laid, sides);
    let mut best: Option<BestPlacement> = None;
    let mut open: Vec<Cell> = Vec::new();
    let mut looks = 0;
    for cell in start(&trial, tube.bends.find, entered(tube)) {
        open.extend(look(&trial, cell, &mut best));
        looks += 1;
    }
    while let Some(at) = highest(&open) {
        let cell = open.swap_remove(at);
        let wanted = best.map_or(f64::NEG_INFINITY, |best| best.spare);
        if cell.most <= wanted + SURE || looks >= LOOKS {
            if let Some(best) = &mut best {
                best.within = (cell.most - wanted).max(SURE) + trial.sure();
            }
            break;
        }
        for half in cell.halves() {
            open.extend(look(&trial, half, &mut best));
            looks += 1;
        }
    }
    best.map(|best| polished(&trial, tube.bends.find, best))
}

fn highest(open: &[Cell]) -> Option<usize> {
    open.iter().enumerate().max_by(|a, b| a.1.most.total_cmp(&b.1.most)).map(|(at, _)| at)
}

/// Looks at a cell's middle; gives the cell back where it may hold a better place.
fn look(trial: &Trial<'_>, cell: Cell, best: &mut Option<BestPlacement>) -> Option<Cell> {
    let wanted = best.map_or(f64::NEG_INFINITY, |best| best.spare);
    let Looked { spare, most, cuts, rates } = trial.look(&cell.middle, &cell.half, wanted);
    if cuts >= 0.0 && spare > wanted {
        *best = Some(BestPlacement { placement: cell.middle, spare, within: SURE + trial.sure() });
    }
    let may_cut = cuts + cell.half.trim * CUTS.0 + cell.half.roll * CUTS.1 >= 0.0;
    let most = most.min(cell.most);
    let wanted = best.map_or(f64::NEG_INFINITY, |best| best.spare);
    let by_trim = cell.half.trim * rates.trim >= cell.half.roll * rates.roll;
    (may_cut && most > wanted && cell.half.trim + cell.half.roll > 1e-9).then_some(Cell {
        most,
        by_trim,
        ..cell
    })
}

/// Cells that hold every place there is.
fn start(trial: &Trial<'_>, find: Find, entered: Placement) -> Vec<Cell> {
    let (low, high) = trial.trims();
    let (trims, trim) = match find {
        Find::Trim | Find::Both => (4, (low, high)),
        _ => (1, (entered.trim, entered.trim)),
    };
    let (rolls, roll) = match find {
        Find::Roll | Find::Both => (8, (-PI, PI)),
        _ => (1, (entered.roll, entered.roll)),
    };
    let half = Placement {
        trim: 0.5 * (trim.1 - trim.0) / f64::from(trims),
        roll: 0.5 * (roll.1 - roll.0) / f64::from(rolls),
    };
    let middle = |i: i32, j: i32| Placement {
        trim: trim.0 + half.trim * f64::from(2 * i + 1),
        roll: roll.0 + half.roll * f64::from(2 * j + 1),
    };
    let all = (0..trims).flat_map(|i| (0..rolls).map(move |j| (i, j)));
    all.map(|(i, j)| Cell { middle: middle(i, j), half, most: f64::INFINITY, by_trim: true }).collect()
}

/// The best place brought uphill in ever smaller steps.
fn polished(trial: &Trial<'_>, find: Find, mut best: BestPlacement) -> BestPlacement {
    let (mut by_trim, mut by_roll) = (0.25, 0.25_f64.to_radians());
    let found_at = best.spare;
    while by_trim > 1e-5 {
        let trims = if matches!(find, Find::Trim | Find::Both) { by_trim } else { 0.0 };
        let rolls = if matches!(find, Find::Roll | Find::Both) { by_roll } else { 0.0 };
        let ways = [
            (1.0, 0.0),
            (-1.0, 0.0),
            (0.0, 1.0),
            (0.0, -1.0),
            (1.0, 1.0),
            (1.0, -1.0),
            (-1.0, 1.0),
            (-1.0, -1.0),
        ];
        let tried = ways.map(|(trim, roll)| {
            let placement = Placement {
                trim: best.placement.trim + trim * trims,
                roll: best.placement.roll + roll * rolls,
            };
            let Looked { spare, cuts, .. } = trial.look(&placement, &HERE, best.spare);
            (if cuts >= 0.0 { spare } else { f64::NEG_INFINITY }, placement)
        });
        let better =
            tried.into_iter().max_by(|a, b| a.0.total_cmp(&b.0)).filter(|(spare, _)| *spare > best.spare);
        match better {
            Some((spare, placement)) => (best.spare, best.placement) = (spare, placement),
            None => (by_trim, by_roll) = (0.5 * by_trim, 0.5 * by_roll),
        }
    }
    best.within = (best.within - (best.spare - found_at)).max(trial.sure());
    best.spare = trial.spare(&best.placement);
    best
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::{Bend, Bends, Boss, End, Press, Surroundings};
    use crate::plan::StayGeometry;
    use crate::units::{Angle, Length};

    fn bend(before: f64, rotation: f64, angle: f64, radius: f64) -> Bend {
        Bend {
            before: Length::from_mm(before),
            rotation: Angle::from_degrees(rotation),
            angle: Angle::from_degrees(angle),
            radius: Length::from_mm(radius),
        }
    }

    fn job(bends: &[Bend], find: Find) -> Job {
        let mut job = Job { surroundings: Some(Surroundings::starting()), ..Job::default() };
        let tube = &mut job.chainstays.right.tube;
        tube.bends = Bends::of(bends.iter().copied());
        tube.bends.find = find;
        tube.length = Length::from_mm(480.0);
        job
    }

    fn tables() -> [Vec<Bend>; 4] {
        [
            vec![bend(90.0, 0.0, 9.0, 200.0), bend(60.0, 180.0, 12.0, 200.0)],
            vec![bend(140.0, 0.0, 14.0, 150.0)],
            vec![bend(80.0, 30.0, 8.0, 180.0), bend(50.0, 140.0, 10.0, 180.0), bend(60.0, 70.0, 6.0, 200.0)],
            vec![bend(100.0, 0.0, 16.0, 130.0), bend(30.0, 180.0, 16.0, 130.0)],
        ]
    }

    /// A plain generator of places in the unit square (R₂ of Roberts, low discrepancy): the same in every run.
    fn places(count: u32) -> impl Iterator<Item = (f64, f64)> {
        (1..=count).map(|i| {
            let step = f64::from(i);
            ((step * 0.754_877_666_246_692_7).fract(), (step * 0.569_840_290_998_053_2).fract())
        })
    }

    fn right(axes: &Axes<f64>, job: &Job) -> StayGeometry<f64> {
        lay(axes, job, PairName::Chainstays, Hand::Right, None)
    }

    fn trial_of<'a>(axes: &'a Axes<f64>, job: &'a Job, laid: &'a StayGeometry<f64>) -> Trial<'a> {
        Trial::new(axes, job, PairName::Chainstays, laid, &Hand::ALL)
    }

    #[test]
    fn ten_thousand_other_places_leave_no_more_room() {
        for bends in tables() {
            let job = job(&bends, Find::Both);
            let axes = Axes::new(&job.frame);
            let laid = right(&axes, &job);
            let trial = trial_of(&axes, &job, &laid);
            let [Some(Some(found)), _] = most_room(&job, PairName::Chainstays) else { panic!("no place") };
            assert!(found.within < 0.25, "{found:?}");
            let (low, high) = trial.trims();
            let mut could = 0;
            for (across, up) in places(10_000) {
                let placement = Placement { trim: low + (high - low) * across, roll: PI * (2.0 * up - 1.0) };
                let looked = trial.look(&placement, &HERE, found.spare);
                if looked.cuts >= 0.0 {
                    could += 1;
                    assert!(looked.spare <= found.spare + found.within, "{placement:?} {looked:?} {found:?}");
                }
            }
            assert!(could > 500, "{could} places had room for their cuts");
        }
    }

    /// What the search goes by: room changes no faster than the rates say.
    #[test]
    fn room_changes_no_faster_than_the_tube_moves() {
        let jobs = tables().map(|bends| (job(&bends, Find::Both), 1500));
        let mut oval = job(&tables()[2], Find::Both);
        let press = Press { from: Length::from_mm(-200.0), to: Length::from_mm(90.0), ..Press::default() };
        oval.chainstays.right.tube.ovals.list = [press].into_iter().collect();
        let mut ends = [job(&tables()[0], Find::Both), job(&tables()[2], Find::Both)];
        ends[0].chainstays.right.rear_end = End::Boss(Boss::default());
        ends[1].chainstays.right.rear_end = End::Square;
        let others = ends.into_iter().map(|job| (job, 1000)).chain([(oval, 60)]);
        for (job, count) in jobs.into_iter().chain(others) {
            let axes = Axes::new(&job.frame);
            let laid = right(&axes, &job);
            let trial = trial_of(&axes, &job, &laid);
            for (across, up) in places(count) {
                let half = Placement { trim: 4.0 * up, roll: 0.15 * across };
                let at = Placement { trim: 60.0 * across, roll: PI * (2.0 * up - 1.0) };
                let here = trial.look(&at, &half, f64::NEG_INFINITY);
                for (trim, roll) in [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)] {
                    let there =
                        Placement { trim: at.trim + trim * half.trim, roll: at.roll + roll * half.roll };
                    let spare = trial.look(&there, &half, f64::NEG_INFINITY).spare;
                    assert!(
                        spare <= here.most + 2.0 * trial.sure(),
                        "{at:?} {half:?}: {spare} {}",
                        here.most
                    );
                }
            }
        }
    }

    #[test]
    fn a_single_choice_leaves_the_other_as_entered() {
        for (find, trims, rolls) in [(Find::Trim, true, false), (Find::Roll, false, true)] {
            let job = job(&tables()[0], find);
            let [Some(Some(found)), Some(Some(left))] = most_room(&job, PairName::Chainstays) else {
                panic!()
            };
            assert_eq!(found, left, "a mirrored pair is laid alike");
            assert!(
                (found.placement.trim == 10.0) != trims && (found.placement.roll == 0.0) != rolls,
                "{found:?}"
            );
        }
    }

    #[test]
    fn a_tube_that_cannot_span_has_no_place() {
        let mut short = job(&tables()[0], Find::Both);
        short.chainstays.right.tube.length = Length::from_mm(370.0);
        assert_eq!(most_room(&short, PairName::Chainstays), [Some(None), Some(None)]);
        assert_eq!(most_room(&short, PairName::Seatstays), [None, None]);
    }
}
