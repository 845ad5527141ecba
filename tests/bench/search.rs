//! How long the searches take over a fixed set of generated jobs: the placement of bent tubes, ways to more clearance, and the widest
//! tyre. Prints the median and the worst, in times that one plain plan takes on the same machine.

use staywright::clearance::{clearances, ways, widest_tyre};
use staywright::model::{Bend, Bends, Hand, Job, PairName, Press, SolveFor, Surroundings, Tube};
use staywright::placement;
use staywright::plan::{Placements, Plan, as_placed, faults, solve_placed};
use staywright::units::{Angle, Length};
use std::hint::black_box;
use std::time::Instant;

const JOBS: usize = 40;

/// A plain generator of numbers, the same in every run.
struct Numbers(u64);

impl Numbers {
    fn between(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        low + (high - low) * (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn length(&mut self, low: f64, high: f64) -> Length {
        Length::from_mm(self.between(low, high))
    }

    fn one_in(&mut self, count: f64) -> bool {
        self.between(0.0, count) < 1.0
    }
}

fn bend_tube(numbers: &mut Numbers, tube: &mut Tube, with_ovals: bool) {
    let bends = 1 + numbers.between(0.0, 3.0) as usize;
    let bend = |numbers: &mut Numbers| Bend {
        before: numbers.length(20.0, 160.0),
        rotation: Angle::from_degrees(numbers.between(0.0, 360.0)),
        angle: Angle::from_degrees(numbers.between(3.0, 20.0)),
        radius: numbers.length(80.0, 300.0),
    };
    let list: Vec<Bend> = (0..bends).map(|_| bend(numbers)).collect();
    tube.bends = Bends::of(list);
    tube.bends.find = SolveFor::Both;
    tube.length = numbers.length(460.0, 560.0);
    if with_ovals && !numbers.one_in(3.0) {
        let from = numbers.between(60.0, 150.0);
        let to = Length::from_mm(from + numbers.between(40.0, 150.0));
        tube.ovals.list =
            [Press { from: Length::from_mm(from), to, ..Press::default() }].into_iter().collect();
    }
}

fn jobs(with_ovals: bool) -> Vec<Job> {
    let mut numbers = Numbers(7);
    let mut one = || {
        let mut job = Job { surroundings: Some(Surroundings::starting()), ..Job::default() };
        bend_tube(&mut numbers, &mut job.chainstays.right.tube, with_ovals);
        if numbers.one_in(3.0) {
            let mut left = job.chainstays.right;
            bend_tube(&mut numbers, &mut left.tube, with_ovals);
            job.chainstays.left = Some(left);
        }
        job
    };
    std::iter::repeat_with(&mut one).filter(|job| faults(job).is_empty()).take(JOBS).collect()
}

fn seconds<R>(work: impl FnOnce() -> R) -> f64 {
    let began = Instant::now();
    black_box(work());
    began.elapsed().as_secs_f64()
}

/// The middle and the last of these, in plain plans.
fn print(name: &str, mut times: Vec<f64>, unit: f64) {
    times.sort_by(f64::total_cmp);
    let at = |place: usize| times.get(place).copied().unwrap_or_default() / unit;
    println!(
        "{name}: median {:.0}, worst {:.0} plain plans",
        at(times.len() / 2),
        at(times.len().max(1) - 1)
    );
}

fn all_ways(plan: &Plan) -> usize {
    let stay = (PairName::Chainstays, Hand::Right);
    let short = clearances(plan).into_iter().take(1).flat_map(|stay| stay.clearances);
    short.filter(|it| it.margin().mm() < 0.0).map(|it| ways(plan, stay, it.to).len()).sum()
}

fn main() {
    let plain = |_| seconds(|| solve_placed(&Job::default(), &Placements::default()));
    let mut plans: Vec<f64> = (0..201).map(plain).collect();
    plans.sort_by(f64::total_cmp);
    let unit = plans.get(100).copied().unwrap_or(1.0);
    for (name, with_ovals) in [("round", false), ("with ovals", true)] {
        let jobs = jobs(with_ovals);
        print(
            &format!("placement, {name}"),
            jobs.iter().map(|job| seconds(|| placement::search(job))).collect(),
            unit,
        );
        let placed: Vec<Plan> = jobs.iter().map(placement::solve).collect();
        let again = |plan: &Plan| solve_placed(&as_placed(plan), &Placements::default());
        print(&format!("ways, {name}"), placed.iter().map(|plan| seconds(|| all_ways(plan))).collect(), unit);
        print(
            &format!("widest tyre, {name}"),
            placed.iter().map(|plan| seconds(|| widest_tyre(plan))).collect(),
            unit,
        );
        print(&format!("plan, {name}"), placed.iter().map(|plan| seconds(|| again(plan))).collect(), unit);
    }
}
