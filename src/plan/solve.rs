//! From a job and the placements of its bent tubes to its plan.

use super::axes::Axes;
use super::dropouts::dropouts;
use super::lay::{lay, middles};
use super::pair::pair;
use super::placements::Placements;
use super::problem::{Problem, Warning};
use super::resolved::resolved;
use super::result::{Pairs, Plan};
use crate::model::{Fault, Hand, Job, Location, PairName, Side, Stays, Wrong};
use crate::units::{Length, Real};

/// Version of the plan's keys.
const FORMAT: u32 = 1;

/// Shortest stay, along the fixture, and shortest way from a front datum to the axle that is planned, mm. Below it there
/// is no direction to lay anything along.
const SHORTEST: Length = Length::from_mm(20.0);

/// The plan of a job, or everything that is wrong with it, each fault naming field, value and allowed range. Tubes that leave their
/// placement to a search lie as `placements` has them, be they of this job or of one that it was changed from; as entered where it
/// has none.
pub fn plan_placed(job: &Job, placements: &Placements) -> Result<Plan, Vec<Fault>> {
    let faults = faults(job);
    if faults.is_empty() { Ok(solve_placed(job, placements)) } else { Err(faults) }
}

impl Default for Plan {
    /// The plan of the starting job.
    fn default() -> Self {
        solve_placed(&Job::default(), &Placements::default())
    }
}

/// All faults of a job: those of its figures, and where these are good, those of where they put things.
pub fn faults(job: &Job) -> Vec<Fault> {
    let faults = job.faults();
    if !faults.is_empty() {
        return faults;
    }
    let axes = Axes::new(&job.frame);
    if job.dropouts.is_none() {
        return placed_faults(&axes, job);
    }
    let apart: Vec<Fault> =
        PairName::ALL.into_iter().filter_map(|name| datum_fault(&axes, job, name)).collect();
    if !apart.is_empty() {
        return apart;
    }
    let job = resolved(job);
    let faults = job.faults();
    if faults.is_empty() { placed_faults(&axes, &job) } else { faults }
}

fn placed_faults(axes: &Axes<f64>, job: &Job) -> Vec<Fault> {
    PairName::ALL.into_iter().flat_map(|name| pair_faults(axes, job, name)).collect()
}

/// A pair that starts where the axle is: nothing can be laid along it.
fn datum_fault(axes: &Axes<f64>, job: &Job, name: PairName) -> Option<Fault> {
    let way = axes.datum_to_axle(job, name);
    (way.mm() < SHORTEST.mm()).then(|| {
        let station = job.seatstay_node.front_station.mm();
        let what = Wrong::SeatStaysTooShort { way: way.mm(), least: SHORTEST.mm() };
        Fault::new("seatstays.front_station_mm", station, what)
    })
}

fn pair_faults(axes: &Axes<f64>, job: &Job, name: PairName) -> Vec<Fault> {
    if let Some(fault) = datum_fault(axes, job, name) {
        return vec![fault];
    }
    let sides = Hand::ALL.into_iter().filter(|hand| *hand == Hand::Right || job.pair(name).left.is_some());
    sides.filter_map(|hand| side_fault(axes, job, name, hand)).collect()
}

fn side_fault(axes: &Axes<f64>, job: &Job, name: PairName, hand: Hand) -> Option<Fault> {
    let side: &Side = job.pair(name).side(hand);
    let (front, rear) = middles(axes, job, name, side);
    let length = Length::from_mm((rear - front).norm());
    (length.mm() < SHORTEST.mm()).then(|| {
        let field = format!("{}.{}.rear.reach_mm", name.key(), hand.key());
        let what = Wrong::StayTooShort { left: length.mm(), least: SHORTEST.mm() };
        Fault::new(field, side.rear.reach.mm(), what)
    })
}

const fn cannot_span(name: PairName, hand: Hand) -> Warning {
    Warning { location: Location::Stay(name, Stays::One(hand)), problem: Problem::TubeCannotSpan }
}

/// [`plan_placed`] over any number type. The job must be without [`faults`]; figures of a faulty one would be meaningless.
pub fn solve_placed<T: Real>(job: &Job<T>, placements: &Placements) -> Plan<T> {
    let job = resolved(job);
    let job = &*job;
    let axes = Axes::new(&job.frame);
    let mut warnings = Vec::new();
    let mut worked = |name: PairName| {
        let laid = Hand::ALL.map(|hand| {
            let found = placements.of(job, name, hand);
            warnings.extend((found == Some(None)).then(|| cannot_span(name, hand)));
            lay(&axes, job, name, hand, found.flatten())
        });
        let pair = pair(&axes, job, name, &laid, &mut warnings);
        (laid, pair)
    };
    let ((chainstays_laid, chainstays), (seatstays_laid, seatstays)) =
        (worked(PairName::Chainstays), worked(PairName::Seatstays));
    let pairs = Pairs { chainstays, seatstays };
    let laid = [chainstays_laid, seatstays_laid];
    let dropouts = dropouts(&axes, job, &laid, &pairs, &mut warnings);
    Plan {
        format: FORMAT,
        pairs,
        dropouts,
        warnings,
        axle: axes.axle,
        seat_tube_foot: axes.seat_tube.point,
        seat_tube_direction: axes.seat_tube.direction,
        job: job.clone(),
    }
}
