//! The placement of a bent tube that leaves the most clearance.

use super::evaluate::{Evaluation, Evaluator, HERE};
use crate::model::{Group, Hand, Job, PairName, SolveFor};
use crate::plan::{Axes, BestPlacement, Placement, entered, lay};
use crate::units::Real;
use std::f64::consts::PI;
use std::rc::Rc;

/// The best placement is found to within this, mm, unless the search ends before.
const SURE: f64 = 0.05;

/// As many distances from solids are worked out for one stay, at most: the budget of a search.
const WORK: u32 = 1_000_000;

/// The first and the least step of the last ascent, mm.
const STEPS: (f64, f64) = (0.25, 1e-3);

/// A step that gains no more than this is not taken, mm.
const GAIN: f64 = 1e-3;

/// Placements within one rectangle.
#[derive(Clone, Debug)]
struct Cell {
    middle: Placement,
    /// Half its sides.
    half: Placement,
    /// No placement in it leaves more.
    most: f64,
    /// Whether the front trim counts for more than the roll.
    by_trim: bool,
    /// Where the tube is nearest to the obstacles.
    stations: Rc<[f64]>,
}

impl Cell {
    /// Halves across the side along which clearance can change more.
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
        [-1.0, 1.0].map(|sign| Self { middle: moved(sign), half, ..self.clone() })
    }
}

/// Where each stay of a pair is placed, right first, when its tube leaves that to the search: `None` for a tube that does not,
/// `Some(None)` where no placement will do. Of a mirrored pair the right stay stands for both, with the obstacles of both. Of
/// a pair whose sides differ each keeps to its own half of the room between them.
pub(super) fn most_room<T: Real>(job: &Job<T>, pair: PairName) -> [Option<Option<BestPlacement>>; 2] {
    let stays = job.pair(pair);
    let asks = |hand: Hand| stays.side(hand).tube.bends.find != SolveFor::Nothing;
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

fn search(axes: &Axes<f64>, job: &Job, pair: PairName, hand: Hand, sides: &[Hand]) -> Option<BestPlacement> {
    let tube = &job.pair(pair).side(hand).tube;
    let laid = lay(axes, job, pair, hand, None);
    let evaluator = Evaluator::new(axes, job, pair, &laid, sides);
    let mut search = Search::new(&evaluator, tube.bends.find);
    search.run(entered(tube), WORK);
    search.best
}

/// Branch and bound over front trim and roll.
struct Search<'a> {
    evaluator: &'a Evaluator<'a>,
    find: SolveFor,
    best: Option<BestPlacement>,
    open: Vec<Cell>,
    /// Where the best placement is nearest to the obstacles.
    stations: Vec<f64>,
}

impl<'a> Search<'a> {
    fn new(evaluator: &'a Evaluator<'a>, find: SolveFor) -> Self {
        Self { evaluator, find, best: None, open: Vec::new(), stations: Vec::new() }
    }

    fn run(&mut self, entered: Placement, budget: u32) {
        for cell in start(self.evaluator.trims(), self.find, entered) {
            self.look(cell);
        }
        let (mut most, mut complete) = (f64::NEG_INFINITY, true);
        while let Some(at) = highest(&self.open) {
            let cell = self.open.swap_remove(at);
            complete = cell.most <= self.wanted();
            if complete || self.evaluator.work() >= budget {
                most = cell.most;
                break;
            }
            complete = true;
            for half in cell.halves() {
                self.look(half);
            }
        }
        self.ascend(budget + budget / 4);
        self.finish(most, complete);
    }

    /// What a cell must be able to beat.
    fn wanted(&self) -> f64 {
        self.best.map_or(f64::NEG_INFINITY, |best| best.spare + SURE)
    }

    /// Says how good the best placement is, where no cell that was left open holds more than `most`.
    fn finish(&mut self, most: f64, complete: bool) {
        if let Some(best) = &mut self.best {
            best.within = (most - best.spare).max(SURE);
            best.complete = complete;
        }
    }

    /// Evaluates a cell's middle, and keeps the cell open where it may hold a better placement.
    fn look(&mut self, cell: Cell) {
        let found = self.evaluator.evaluate(&cell.middle, &cell.half, self.wanted(), &cell.stations);
        self.offer(cell.middle, &found, 0.0);
        let most = found.most.min(cell.most);
        if most > self.wanted() && cell.half.trim + cell.half.roll > 1e-9 {
            let stations = if found.stations.is_empty() { cell.stations } else { found.stations.into() };
            self.open.push(Cell { most, by_trim: found.by_trim, stations, ..cell });
        }
    }

    /// Takes a placement over where it is the best so far by more than `least`.
    fn offer(&mut self, placement: Placement, found: &Evaluation, least: f64) -> bool {
        let best = self.best.map_or(f64::NEG_INFINITY, |best| best.spare + least);
        if found.cuts < 0.0 || found.spare <= best {
            return false;
        }
        let spare = self.evaluator.spare(&placement);
        let better = spare > best;
        if better {
            self.stations.clone_from(&found.stations);
            self.best = Some(BestPlacement { placement, spare, within: f64::INFINITY, complete: false });
        }
        better
    }

    /// Brings the best placement uphill in ever smaller steps, as long as the budget lasts.
    fn ascend(&mut self, budget: u32) {
        let (mut by, least) = STEPS;
        while by > least && self.evaluator.work() < budget {
            let Some(best) = self.best else { return };
            let steps = steps(self.find, by);
            let stations = self.stations.clone();
            let better = steps.into_iter().filter(|step| self.step(&best, step, &stations)).count() > 0;
            if !better {
                by *= 0.5;
            }
        }
    }

    fn step(&mut self, from: &BestPlacement, step: &Placement, stations: &[f64]) -> bool {
        let Placement { trim, roll } = from.placement;
        let placement = Placement { trim: trim + step.trim, roll: roll + step.roll };
        let wanted = self.best.map_or(f64::NEG_INFINITY, |best| best.spare);
        let found = self.evaluator.evaluate(&placement, &HERE, wanted, stations);
        self.offer(placement, &found, GAIN)
    }
}

/// Steps of `by` mm and as many degrees, along what is left open.
fn steps(find: SolveFor, by: f64) -> Vec<Placement> {
    let trim = if matches!(find, SolveFor::Trim | SolveFor::Both) { by } else { 0.0 };
    let roll = if matches!(find, SolveFor::Roll | SolveFor::Both) { by.to_radians() } else { 0.0 };
    let ways = [-1.0, 0.0, 1.0];
    let all = ways.into_iter().flat_map(|x| ways.map(|y| Placement { trim: x * trim, roll: y * roll }));
    all.filter(|step| *step != HERE).collect()
}

fn highest(open: &[Cell]) -> Option<usize> {
    open.iter().enumerate().max_by(|a, b| a.1.most.total_cmp(&b.1.most)).map(|(at, _)| at)
}

/// Cells that hold every placement there is.
fn start((low, high): (f64, f64), find: SolveFor, entered: Placement) -> Vec<Cell> {
    let (trims, trim) = match find {
        SolveFor::Trim | SolveFor::Both => (4, (low, high)),
        _ => (1, (entered.trim, entered.trim)),
    };
    let (rolls, roll) = match find {
        SolveFor::Roll | SolveFor::Both => (8, (-PI, PI)),
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
    let cell = |(i, j)| Cell {
        middle: middle(i, j),
        half,
        most: f64::INFINITY,
        by_trim: true,
        stations: Rc::new([]),
    };
    all.map(cell).collect()
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

    fn job(bends: &[Bend], find: SolveFor) -> Job {
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

    fn evaluator_of<'a>(axes: &'a Axes<f64>, job: &'a Job, laid: &'a StayGeometry<f64>) -> Evaluator<'a> {
        Evaluator::new(axes, job, PairName::Chainstays, laid, &Hand::ALL)
    }

    fn pressed(mut job: Job, from: f64, to: f64) -> Job {
        let press = Press { from: Length::from_mm(from), to: Length::from_mm(to), ..Press::default() };
        job.chainstays.right.tube.ovals.list = [press].into_iter().collect();
        job
    }

    #[test]
    fn ten_thousand_other_placements_leave_no_more_clearance() {
        for bends in tables() {
            let job = job(&bends, SolveFor::Both);
            let axes = Axes::new(&job.frame);
            let laid = right(&axes, &job);
            let evaluator = evaluator_of(&axes, &job, &laid);
            let [Some(Some(found)), _] = most_room(&job, PairName::Chainstays) else {
                panic!("no placement")
            };
            assert!(found.complete && found.within < 0.25, "{found:?}");
            let (low, high) = evaluator.trims();
            let mut could = 0;
            for (across, up) in places(10_000) {
                let placement = Placement { trim: low + (high - low) * across, roll: PI * (2.0 * up - 1.0) };
                let there = evaluator.evaluate(&placement, &HERE, found.spare, &[]);
                if there.cuts >= 0.0 {
                    could += 1;
                    assert!(there.spare <= found.spare + found.within, "{placement:?} {there:?} {found:?}");
                }
            }
            assert!(could > 500, "{could} placements had room for their cuts");
        }
    }

    /// What the search goes by: neither clearance nor the room for the cuts grows beyond the bounds that one placement gives.
    #[test]
    fn no_placement_leaves_more_than_the_bound_from_one_near_it() {
        let jobs = tables().map(|bends| (job(&bends, SolveFor::Both), 1500));
        let mut ends = [job(&tables()[0], SolveFor::Both), job(&tables()[2], SolveFor::Both)];
        ends[0].chainstays.right.rear_end = End::Boss(Boss::default());
        ends[1].chainstays.right.rear_end = End::Square;
        let mut steep = job(&tables()[2], SolveFor::Both);
        let tube = &mut steep.chainstays.right.tube;
        (tube.taper_start, tube.taper_end) = (Length::from_mm(102.0), Length::from_mm(142.0));
        tube.od_rear = Length::from_mm(14.0);
        let oval = pressed(job(&tables()[2], SolveFor::Both), -200.0, 90.0);
        let others = ends.into_iter().map(|job| (job, 1000)).chain([(oval, 60), (steep, 300)]);
        let mut hopeless = 0;
        for (job, count) in jobs.into_iter().chain(others) {
            let axes = Axes::new(&job.frame);
            let laid = right(&axes, &job);
            let evaluator = evaluator_of(&axes, &job, &laid);
            for (across, up) in places(count) {
                let half = Placement { trim: 4.0 * up, roll: 0.15 * across };
                let at = Placement { trim: 200.0 * across - 90.0, roll: PI * (2.0 * up - 1.0) };
                let here = evaluator.evaluate(&at, &half, f64::NEG_INFINITY, &[]);
                for (trim, roll) in [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0), (0.3, -0.6)] {
                    let there =
                        Placement { trim: at.trim + trim * half.trim, roll: at.roll + roll * half.roll };
                    let found = evaluator.evaluate(&there, &HERE, f64::NEG_INFINITY, &here.stations);
                    if here.most == f64::NEG_INFINITY {
                        hopeless += 1;
                        assert!(found.cuts < 0.0, "{at:?} {half:?}: {found:?}");
                    } else if found.spare > f64::NEG_INFINITY {
                        let spare = evaluator.spare(&there);
                        assert!(spare <= here.most + 1e-5, "{at:?} {half:?}: {spare} {}", here.most);
                        assert!(found.spare >= spare - 1e-5, "{there:?}: {} {spare}", found.spare);
                    }
                }
            }
        }
        assert!(hopeless > 100, "{hopeless}");
    }

    /// A tube that is oval all along costs most. What the search has at the end of its budget is a placement, and its bound holds.
    #[test]
    fn a_search_that_runs_out_of_its_budget_says_so() {
        let job = pressed(job(&tables()[2], SolveFor::Both), 0.0, 480.0);
        let axes = Axes::new(&job.frame);
        let laid = right(&axes, &job);
        let run = |budget: u32| {
            let evaluator = evaluator_of(&axes, &job, &laid);
            let mut search = Search::new(&evaluator, SolveFor::Both);
            search.run(entered(&job.chainstays.right.tube), budget);
            (search.best.unwrap(), evaluator.work())
        };
        let (little, little_work) = run(200_000);
        let (more, _) = run(1_000_000);
        assert!(!little.complete && little.within.is_finite(), "{little:?}");
        assert!(more.spare <= little.spare + little.within, "{little:?} {more:?}");
        assert!(little.spare <= more.spare + more.within, "{little:?} {more:?}");
        // What is under way when the budget ends is finished, and the best is brought uphill.
        assert!(little_work < 400_000, "{little_work}");
        assert_eq!(run(200_000).0, little, "the same job, the same placement");
    }

    #[test]
    fn a_single_choice_leaves_the_other_as_entered() {
        for (find, trims, rolls) in [(SolveFor::Trim, true, false), (SolveFor::Roll, false, true)] {
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
        let mut short = job(&tables()[0], SolveFor::Both);
        short.chainstays.right.tube.length = Length::from_mm(370.0);
        assert_eq!(most_room(&short, PairName::Chainstays), [Some(None), Some(None)]);
        assert_eq!(most_room(&short, PairName::Seatstays), [None, None]);
    }
}
