//! A bent tube in one placement: the clearance it has there, bounds on what it can have near it, and whether its ends can be cut.

use super::bound::{Linear, most_of_least};
use super::motion::Motion;
use crate::clearance::{
    Obstacle, ObstacleSolid, PlacedObstacle, obstacles_beside, post_columns, surroundings_of,
};
use crate::geometry::{
    Asked, Centreline, Closest, Line, Near, Outline, Pipe, SURE as EXACT, Solid, gap_below, near_at,
    near_below,
};
use crate::model::{Hand, Job, PairName, Side};
use crate::plan::{
    Axes, Bed, Placement, Round, StayGeometry, Tips, Which, beyond_centre, entered, reach, tips,
};
use nalgebra::Point3;
use std::cell::Cell;

/// No change of placement.
pub(super) const HERE: Placement = Placement { trim: 0.0, roll: 0.0 };

/// Clearance is evaluated to within this, mm: beside a cylinder, and beside a tube that tapers or is oval somewhere, where it
/// costs more.
const SURE: (f64, f64) = (0.005, 0.03);

/// No cut lies further outside its reference point than this, mm, nor further inside it.
const CUT_OFF: f64 = 100.0;

/// What laying a tube and its cuts costs, in distances from a solid.
const LAYING: u32 = 120;

/// A ball about the middle line whose distance is a body's, to rounding, mm.
const SAME: f64 = 1e-6;

/// A body nearer than this has no direction away from its obstacle, mm.
const TOUCHING: f64 = 1e-3;

/// What is known of a placement, and of those near it.
#[derive(Clone, Debug)]
pub(super) struct Evaluation {
    /// No more than this is left over the limits at the tightest obstacle, mm; hardly less, where it is above what was wanted.
    pub(super) spare: f64,
    /// Upper bound on that within the reach that was asked for.
    pub(super) most: f64,
    /// By how much both cuts clear the bends and the raw tube's ends; negative where they do not.
    pub(super) cuts: f64,
    /// Whether a change of front trim within the reach counts for more than one of roll.
    pub(super) by_trim: bool,
    /// The stations nearest to the obstacles, as far as these were looked at.
    pub(super) stations: Vec<f64>,
}

/// A stay whose tube is tried in one placement after another.
pub(super) struct Evaluator<'a> {
    axes: &'a Axes<f64>,
    job: &'a Job,
    side: &'a Side,
    /// The stay with its tube in some placement.
    laid: &'a StayGeometry<f64>,
    bed: Bed<f64>,
    obstacles: Vec<PlacedObstacle<f64>>,
    /// The axis and the radius that the ends are cut to; `None` for an end that is not round.
    cutters: [Option<(Line, f64)>; 2],
    /// Steepest taper, radius by station.
    steepest: f64,
    /// Distances from a solid that were worked out.
    work: Cell<u32>,
}

/// A stay in one placement.
struct Here {
    laid: StayGeometry<f64>,
    /// Between its long points.
    from: f64,
    to: f64,
    cuts: [Tips<f64>; 2],
}

/// An obstacle whose distances are counted.
struct Counted<'a> {
    beside: &'a PlacedObstacle<f64>,
    work: &'a Cell<u32>,
}

impl Solid<f64> for Counted<'_> {
    fn near(&self, point: &Point3<f64>) -> Near<f64> {
        self.work.set(self.work.get().saturating_add(1));
        self.beside.solid.near(point)
    }

    fn dip(&self, point: &Point3<f64>, reach: f64) -> f64 {
        self.beside.solid.dip(point, reach)
    }
}

impl<'a> Evaluator<'a> {
    /// The stay `laid` with the obstacles of all `sides`, brought over to its own.
    pub(super) fn new(
        axes: &'a Axes<f64>,
        job: &'a Job,
        pair: PairName,
        laid: &'a StayGeometry<f64>,
        sides: &[Hand],
    ) -> Self {
        let side = job.pair(pair).side(laid.hand);
        let about = all_beside(axes, job, pair, laid, sides);
        let cutter = |end| {
            let member = Round::of(end, &job.frame, axes, laid)?;
            Some((member.cut.axis, member.cut.radius))
        };
        let cutters = [&side.front_end, &side.rear_end].map(cutter);
        let (front, rear) = laid.reference_points();
        let bed = Bed::new(front, rear, laid.hand.sign());
        let (steepest, work) = (steepest(&laid.outer), Cell::new(0));
        let mut all = Self { axes, job, side, laid, bed, obstacles: Vec::new(), cutters, steepest, work };
        // The tightest as the tube was entered come first: they mostly decide.
        let mut ranked: Vec<(f64, PlacedObstacle<f64>)> = Vec::with_capacity(about.len());
        for beside in about {
            all.obstacles = vec![beside];
            let found = all.evaluate(&entered(&side.tube), &HERE, f64::NEG_INFINITY, &[]);
            ranked.push((found.spare, beside));
        }
        ranked.sort_by(|a, b| a.0.total_cmp(&b.0));
        all.obstacles = ranked.into_iter().map(|(_, beside)| beside).collect();
        all
    }

    /// Front trims worth a look: neither cut lies further from its reference point than this leaves.
    pub(super) fn trims(&self) -> (f64, f64) {
        let last = self.side.tube.length.mm() - self.bed.span + CUT_OFF;
        (-CUT_OFF, last.max(-CUT_OFF))
    }

    /// The distances from a solid that were worked out so far: what a search costs.
    pub(super) fn work(&self) -> u32 {
        self.work.get()
    }

    /// The nearest places are looked for to within this, mm.
    fn sure(&self) -> f64 {
        if self.steepest == 0.0 && !self.laid.outer.is_oval() { SURE.0 } else { SURE.1 }
    }

    /// Clearance over the limits in a placement, as it is told of a plan, mm.
    pub(super) fn spare(&self, placement: &Placement) -> f64 {
        let here = self.here(placement);
        self.obstacles.iter().fold(f64::INFINITY, |spare, beside| {
            let ceiling = (spare + beside.limit.mm()) / times(beside);
            let distance = here.distance(&self.counted(beside), ceiling);
            distance.map_or(spare, |distance| spare.min(times(beside) * distance - beside.limit.mm()))
        })
    }

    fn counted<'b>(&'b self, beside: &'b PlacedObstacle<f64>) -> Counted<'b> {
        Counted { beside, work: &self.work }
    }

    /// The clearance in a placement, and bounds for those that differ from it by no more than `half`. What leaves no more than
    /// `wanted` everywhere there is not looked at closely. `stations` are where a placement near this one was nearest.
    pub(super) fn evaluate(
        &self,
        placement: &Placement,
        half: &Placement,
        wanted: f64,
        stations: &[f64],
    ) -> Evaluation {
        self.work.set(self.work.get().saturating_add(LAYING));
        let here = self.here(placement);
        let (cuts, rates) = (self.cuts(&here), self.most_cut_rates(&here));
        let mut found = Evaluation {
            spare: f64::NEG_INFINITY,
            most: f64::NEG_INFINITY,
            cuts,
            by_trim: half.trim * rates.trim >= half.roll * rates.roll,
            stations: Vec::new(),
        };
        let reach = half.trim * rates.trim + half.roll * rates.roll;
        if self.hope(&here, reach) + reach < 0.0 {
            return found;
        }
        let motion = Motion::new(&self.bed, &self.side.tube, placement, half);
        let near =
            here.line().map_or_else(Vec::new, |line| self.seen_from(&here, line, &motion, wanted, stations));
        found.most = most_of_least(&near, half);
        if found.most > wanted {
            self.look(&here, &motion, wanted, stations, &mut found);
        }
        found
    }

    /// The nearest places to all obstacles, the tightest first, until they settle that nothing near leaves what is wanted.
    fn look(&self, here: &Here, motion: &Motion, wanted: f64, stations: &[f64], found: &mut Evaluation) {
        let Some(line) = here.line() else { return };
        let (mut spare, mut bounds) = (f64::INFINITY, Vec::with_capacity(self.obstacles.len()));
        for (i, beside) in self.obstacles.iter().enumerate() {
            let ceiling = (spare + beside.limit.mm()) / times(beside);
            let asked = Asked { sure: self.sure(), ceiling, floor: f64::NEG_INFINITY };
            let known = stations.get(i).copied();
            let Some(closest) = here.nearest(&self.counted(beside), asked, known) else { continue };
            found.stations.push(closest.station);
            let left = times(beside) * closest.distance - beside.limit.mm();
            let bound = self.bound(here, line, motion, beside, &closest);
            let most = bound.most(&motion.half);
            bounds.push(bound);
            if left < spare {
                spare = left;
                if found.cuts >= 0.0 {
                    found.by_trim = motion.is_by_trim(&self.bed, line, closest.station);
                }
            }
            if most <= wanted {
                (found.most, found.spare) = (most, spare);
                return;
            }
        }
        found.spare = spare;
        found.most = found.most.min(most_of_least(&bounds, &motion.half));
    }

    /// Bounds from the stations that were nearest elsewhere, the tightest first, until one settles that nothing near leaves what is
    /// wanted: one ball or section each.
    fn seen_from(
        &self,
        here: &Here,
        line: &Centreline,
        motion: &Motion,
        wanted: f64,
        stations: &[f64],
    ) -> Vec<Linear> {
        let mut bounds = Vec::with_capacity(stations.len());
        for (beside, station) in self.obstacles.iter().zip(stations) {
            let Some(closest) = here.at(&self.counted(beside), *station) else { continue };
            let bound = self.bound(here, line, motion, beside, &closest);
            bounds.push(bound);
            if bound.most(&motion.half) <= wanted {
                break;
            }
        }
        bounds
    }

    fn here(&self, placement: &Placement) -> Here {
        let mut laid = self.laid.clone();
        laid.bend(&self.bed, &self.side.tube, *placement, None);
        let known = (self.axes, &self.job.frame);
        let cuts = [Which::Front, Which::Rear].map(|which| tips(&laid, known, self.side, which));
        let (from, to) = reach(cuts.map(|cut| cut.long), laid.length);
        Here { laid, from, to, cuts }
    }

    /// An upper bound on the spare clearance to an obstacle, by the change of placement: the place that is nearest now is no
    /// nearer than from where it moves to, and the obstacle's point no further than it is.
    fn bound(
        &self,
        here: &Here,
        line: &Centreline,
        motion: &Motion,
        beside: &PlacedObstacle<f64>,
        closest: &Closest,
    ) -> Linear {
        let (half, times) = (&motion.half, times(beside));
        let left = times * closest.distance - beside.limit.mm();
        // Anywhere near, the place is no further off than it can move.
        let rates = self.rates(here, half, closest.station);
        let level = Linear::level(left + times * (half.trim * rates.trim + half.roll * rates.roll));
        let middle = line.at(closest.station).point;
        let radius = here.laid.outer.radius(closest.station);
        let depth = (middle - closest.there).norm() - closest.distance;
        let lean = (1.0 + self.steepest * self.steepest).sqrt();
        let is_ball = depth <= radius + SAME
            && depth * lean >= radius - SAME
            && (middle - closest.here).norm() <= depth + SAME
            && !here.laid.outer.is_oval();
        let (place, is_sharp) = if is_ball { (middle, false) } else { (closest.here, true) };
        let apart = (place - closest.there).norm();
        if apart < TOUCHING
            || (is_sharp && closest.distance < 0.0)
            || (!is_sharp && closest.distance + depth < 0.0)
        {
            return level;
        }
        let away = (place - closest.there) / apart;
        let moved = motion.of(&self.bed, line, closest.station, &place);
        let shape = if is_sharp {
            motion.of_section(line, &here.laid.outer, closest.station) + self.steepest * half.trim
        } else {
            0.0
        };
        let (growth, kink) =
            if is_sharp { (0.0, 0.0) } else { motion.of_radius(&here.laid.outer, closest.station, lean) };
        let sideways = if matches!(beside.solid, ObstacleSolid::Half(_)) {
            0.0
        } else {
            moved.bulge(&away, apart, half)
        };
        let cut = self.cut_slack(here, line, half, closest.station, if is_sharp { 0.0 } else { radius });
        let rest = moved.rest + sideways + shape + kink + cut;
        let bound = Linear {
            value: left + times * rest,
            slope: Placement {
                trim: times * (away.dot(&moved.by_trim) - growth),
                roll: times * away.dot(&moved.by_roll),
            },
        };
        if bound.most(half) < level.value { bound } else { level }
    }

    /// How far the end that is then nearest can be off where a cut moves past a place that lies `room` from it at least.
    fn cut_slack(&self, here: &Here, line: &Centreline, half: &Placement, station: f64, room: f64) -> f64 {
        let to_end = (station - here.from).min(here.to - station);
        let cut = self.cut_rates(here, line, 2.0 * station > here.from + here.to);
        let by = half.trim * cut.trim + half.roll * cut.roll;
        if to_end - room < by { by } else { 0.0 }
    }

    /// How fast the tube at `station` can come away from what is beside it.
    fn rates(&self, here: &Here, half: &Placement, station: f64) -> Placement {
        let (bed, outline) = (&self.bed, &here.laid.outer);
        let Some(line) = here.line() else { return HERE };
        let by_trim = bed.rate(line, here.laid.length, station, half.trim) + self.steepest;
        let radius = outline.radius(station);
        let to_end = (station - here.from).min(here.to - station);
        // A section's rim turns with the middle line: by all of it at an end, elsewhere by as much as it stands off square.
        let share = if to_end < radius { 1.0 } else { self.steepest.min(1.0) };
        let tilting = share * bed.tilting(line, station, radius);
        let off = bed.off(&line.at(station).point) + outline.unround() + tilting;
        let by_roll = off + by_trim * half.trim + 0.05;
        // Where the cut moves past this place, the end that is then nearest lies as much further off at most.
        let cut = self.cut_rates(here, line, 2.0 * station > here.from + here.to);
        let cut_away = to_end < half.trim * cut.trim + half.roll * cut.roll;
        let more = if cut_away { cut } else { HERE };
        Placement { trim: by_trim + more.trim, roll: by_roll + more.roll }
    }

    /// How fast a cut moves along its stay: by what the stay leans more, times the radii that meet there.
    fn cut_rates(&self, here: &Here, line: &Centreline, rear: bool) -> Placement {
        let [front_cutter, rear_cutter] = &self.cutters;
        let [front, back] = &here.cuts;
        let (cutter, tips) = if rear { (rear_cutter, back) } else { (front_cutter, front) };
        let Some((axis, radius)) = cutter else { return HERE };
        let sin = line.tangent(tips.on).angle_to(axis).sin().max(0.1);
        let far = 1.25 * (radius + here.laid.outer.radius(tips.on)) / (sin * sin);
        let aslant = |station: f64| self.bed.tilting(line, station, 1.0);
        let turns = (aslant(0.0) + aslant(here.laid.length)) / self.bed.span;
        Placement { trim: far * turns, roll: far * aslant(tips.on) }
    }

    /// How fast the room for the cuts can change: the bends move with the trim, and the cuts as the stay leans.
    fn most_cut_rates(&self, here: &Here) -> Placement {
        let Some(line) = here.line() else { return HERE };
        let [front, rear] = [false, true].map(|rear| self.cut_rates(here, line, rear));
        Placement { trim: 1.1 + front.trim.max(rear.trim), roll: front.roll.max(rear.roll) }
    }

    /// By how much both cuts lie on the raw tube and off its bends.
    fn cuts(&self, here: &Here) -> f64 {
        let [front, rear] = &here.cuts;
        let raw = here.laid.raw;
        let rooms = [front.extent.0 - raw.0, front.clear, rear.clear, raw.1 - rear.extent.1];
        rooms.into_iter().fold(f64::INFINITY, f64::min)
    }

    /// The same as far as it stays so where all of it changes by less than `reach`: an end that comes to lie on another straight
    /// piece has another place on the raw tube.
    fn hope(&self, here: &Here, reach: f64) -> f64 {
        let [front, rear] = &here.cuts;
        let raw = here.laid.raw;
        let ends = [(front, 0.0, front.extent.0 - raw.0), (rear, here.laid.length, raw.1 - rear.extent.1)];
        let rooms = ends.into_iter().zip(&self.cutters).map(|((tips, reference, on_tube), cutter)| {
            if tips.long.is_none() && cutter.is_some() {
                f64::INFINITY
            } else if tips.clear < reach || tips.on != reference {
                tips.clear
            } else {
                on_tube
            }
        });
        rooms.fold(f64::INFINITY, f64::min)
    }
}

/// The other stay is the mirror of this one and comes towards it as fast.
fn times(beside: &PlacedObstacle<f64>) -> f64 {
    if beside.to == Obstacle::Other { 2.0 } else { 1.0 }
}

impl Here {
    fn line(&self) -> Option<&Centreline> {
        self.laid.bent.as_ref().map(|bent| &bent.line)
    }

    fn pipe(&self) -> Option<Pipe<'_>> {
        Some(Pipe { line: self.line()?, outline: &self.laid.outer, from: self.from, to: self.to })
    }

    /// The distance to an obstacle, as it is told of a plan.
    fn distance(&self, obstacle: &Counted<'_>, ceiling: f64) -> Option<f64> {
        gap_below(&self.pipe()?, obstacle, EXACT, ceiling).map(|closest| closest.distance)
    }

    /// A place that is as near to an obstacle as is asked.
    fn nearest(&self, obstacle: &Counted<'_>, asked: Asked, known: Option<f64>) -> Option<Closest> {
        near_below(&self.pipe()?, obstacle, asked, known.map(|station| self.within(station)))
    }

    /// The place at a station.
    fn at(&self, obstacle: &Counted<'_>, station: f64) -> Option<Closest> {
        near_at(&self.pipe()?, obstacle, self.within(station))
    }

    fn within(&self, station: f64) -> f64 {
        station.max(self.from).min(self.to)
    }
}

/// What a stay has beside it on all `sides`, the other stay and the posts among it.
fn all_beside(
    axes: &Axes<f64>,
    job: &Job,
    pair: PairName,
    laid: &StayGeometry<f64>,
    sides: &[Hand],
) -> Vec<PlacedObstacle<f64>> {
    let all = surroundings_of(job);
    let mut about: Vec<PlacedObstacle<f64>> = Vec::new();
    for hand in sides {
        // What both sides have is alike on both.
        let more = obstacles_beside(axes, job, &all, (pair, *hand), laid.hand);
        let new = more.into_iter().filter(|beside| about.iter().all(|known| known.to != beside.to));
        about.extend(new.collect::<Vec<_>>());
    }
    about.extend(post_columns(job, &all, &laid.clamp));
    about.push(PlacedObstacle {
        to: Obstacle::Other,
        limit: all.limits.other,
        solid: ObstacleSolid::Half(beyond_centre(laid.hand.sign())),
    });
    about
}

/// The steepest taper, radius by station.
fn steepest(outline: &Outline) -> f64 {
    outline.pieces().iter().map(|piece| piece.slope.abs()).fold(0.0, f64::max)
}
