//! A bent tube in some place: the room it has there, and whether its ends can be cut.

use crate::clearance::{
    Obstacle, ObstacleSolid, PlacedObstacle, obstacles_beside, post_columns, surroundings_of,
};
use crate::geometry::{Centreline, Closest, Line, Outline, Pipe, SURE as EXACT, gap_below};
use crate::model::{Hand, Job, PairName, Side};
use crate::plan::{
    Axes, Bed, Placement, Round, StayGeometry, Tips, Which, beyond_centre, entered, reach, tips,
};

/// No change of place.
pub(super) const HERE: Placement = Placement { trim: 0.0, roll: 0.0 };

/// Room is told to within this, mm: beside a round tube, and beside one that is oval somewhere, where it costs more.
const SURE: (f64, f64) = (0.01, 0.05);

/// No cut lies further outside its reference point than this, mm, nor further inside it.
const CUT_OFF: f64 = 100.0;

/// What one look at a place says.
#[derive(Clone, Copy, Debug)]
pub(super) struct Looked {
    /// What is left over the limits at the tightest place; not sure where it is below what was wanted.
    pub(super) spare: f64,
    /// What can be left at most within the reach that was asked for.
    pub(super) most: f64,
    /// By how much both cuts clear the bends and the raw tube's ends; negative where they do not.
    pub(super) cuts: f64,
    /// How fast the tube can move there, per mm of front trim and per radian of roll, at the place that decides.
    pub(super) rates: Placement,
}

/// A stay whose tube is tried in one place after another.
pub(super) struct Trial<'a> {
    axes: &'a Axes<f64>,
    job: &'a Job,
    side: &'a Side,
    /// The stay with its tube in some place.
    laid: &'a StayGeometry<f64>,
    bed: Bed<f64>,
    beside: Vec<PlacedObstacle<f64>>,
    /// The axis and the radius that the ends are cut to; `None` for an end that is not round.
    cutters: [Option<(Line, f64)>; 2],
}

/// A stay in one place.
struct Here {
    laid: StayGeometry<f64>,
    /// Between its long points.
    from: f64,
    to: f64,
    cuts: [Tips<f64>; 2],
}

impl<'a> Trial<'a> {
    /// The stay `laid` with the neighbours of all `sides`, brought over to its own.
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
        let mut trial = Self { axes, job, side, laid, bed, beside: Vec::new(), cutters };
        // The tightest as the tube was entered are asked first: they mostly decide.
        let mut ranked: Vec<(f64, PlacedObstacle<f64>)> = Vec::with_capacity(about.len());
        for beside in about {
            trial.beside = vec![beside];
            let looked = trial.look(&entered(&side.tube), &HERE, f64::NEG_INFINITY);
            ranked.push((looked.spare, beside));
        }
        ranked.sort_by(|a, b| a.0.total_cmp(&b.0));
        trial.beside = ranked.into_iter().map(|(_, beside)| beside).collect();
        trial
    }

    /// Front trims worth a look: neither cut lies further from its reference point than this leaves.
    pub(super) fn trims(&self) -> (f64, f64) {
        let last = self.side.tube.length.mm() - self.bed.span + CUT_OFF;
        (-CUT_OFF, last.max(-CUT_OFF))
    }

    /// The room in a place, and the most in any place that differs from it by no more than `half`. What leaves less than `wanted`
    /// everywhere there is not looked at closely.
    pub(super) fn look(&self, placement: &Placement, half: &Placement, wanted: f64) -> Looked {
        self.look_to(placement, half, wanted, self.sure())
    }

    /// What is left over the limits in a place, as it is told of a plan.
    pub(super) fn spare(&self, placement: &Placement) -> f64 {
        self.look_to(placement, &HERE, f64::NEG_INFINITY, EXACT).spare
    }

    fn look_to(&self, placement: &Placement, half: &Placement, wanted: f64, sure: f64) -> Looked {
        let here = self.here(placement);
        let (spare, most) = (f64::INFINITY, f64::INFINITY);
        let mut looked = Looked { spare, most, cuts: self.cuts(&here), rates: HERE };
        for beside in &self.beside {
            // The other stay is the mirror of this one and comes towards it as fast.
            let twice = if beside.to == Obstacle::Other { 2.0 } else { 1.0 };
            let ceiling = (looked.spare + beside.limit.mm()) / twice;
            let Some(closest) = here.closest(beside, sure, ceiling) else { continue };
            let left = twice * closest.distance - beside.limit.mm();
            looked.spare = looked.spare.min(left);
            // Anywhere in the cell this place of the tube is no further from the neighbour than it can move.
            let rates = self.rates(&here, half, closest.station);
            let most = left + twice * (half.trim * rates.trim + half.roll * rates.roll);
            if most < looked.most {
                (looked.most, looked.rates) = (most, rates);
            }
            if looked.most <= wanted {
                break;
            }
        }
        looked
    }

    fn here(&self, placement: &Placement) -> Here {
        let mut laid = self.laid.clone();
        laid.bend(&self.bed, &self.side.tube, *placement, None);
        let known = (self.axes, &self.job.frame);
        let cuts = [Which::Front, Which::Rear].map(|which| tips(&laid, known, self.side, which));
        let (from, to) = reach(cuts.map(|cut| cut.long), laid.length);
        Here { laid, from, to, cuts }
    }

    /// How fast the tube at `station` can come away from what is beside it.
    fn rates(&self, here: &Here, half: &Placement, station: f64) -> Placement {
        let (bed, outline) = (&self.bed, &here.laid.outer);
        let Some(line) = here.line() else { return HERE };
        let by_trim = bed.rate(line, here.laid.length, station, half.trim) + steepest(outline);
        let radius = outline.radius(station);
        let to_end = (station - here.from).min(here.to - station);
        // A section's rim turns with the middle line: by all of it at an end, elsewhere by as much as it stands off square.
        let share = if to_end < radius { 1.0 } else { steepest(outline).min(1.0) };
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

    /// What a look's room is sure to.
    pub(super) fn sure(&self) -> f64 {
        if self.side.tube.ovals.list.is_empty() { SURE.0 } else { SURE.1 }
    }

    /// By how much both cuts lie on the raw tube and off its bends.
    fn cuts(&self, here: &Here) -> f64 {
        let [front, rear] = &here.cuts;
        let raw = here.laid.raw;
        let rooms = [front.extent.0 - raw.0, front.clear, rear.clear, raw.1 - rear.extent.1];
        rooms.into_iter().fold(f64::INFINITY, f64::min)
    }
}

impl Here {
    fn line(&self) -> Option<&Centreline> {
        self.laid.bent.as_ref().map(|bent| &bent.line)
    }

    /// The nearest place to a neighbour.
    fn closest(&self, beside: &PlacedObstacle<f64>, sure: f64, ceiling: f64) -> Option<Closest> {
        let outline = &self.laid.outer;
        let pipe = Pipe { line: self.line()?, outline, from: self.from, to: self.to };
        gap_below(&pipe, &beside.solid, sure, ceiling)
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
