//! A bent tube in some place: the room it has there, and whether its ends can be cut.

use super::super::axes::Axes;
use super::super::bed::{Bed, Placing, entered, turns};
use super::super::cut::Which;
use super::super::lay::{Laid, surface_from};
use super::super::member::Round;
use super::gaps::all_about;
use super::neighbour::{Beside, Body, Neighbour, beside};
use crate::geometry::{Centreline, Line, Nearest, Outline, Pipe, Turn, Turned, gap_below};
use crate::trade::{End, Hand, Job, PairName, Side};
use nalgebra::{Point3, Vector3};

/// No change of place.
pub(super) const HERE: Placing = Placing { trim: 0.0, roll: 0.0 };

/// Room is told to within this, mm: beside a round tube, and beside one that is oval somewhere, where it costs more.
const SURE: (f64, f64) = (0.01, 0.05);

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
    pub(super) rates: Placing,
}

/// Where a cut lies along its stay.
#[derive(Clone, Copy)]
struct Cut {
    low: f64,
    /// Where the tube is taken to end.
    end: f64,
    high: f64,
}

/// A stay whose tube is tried in one place after another.
pub(super) struct Trial<'a> {
    side: &'a Side,
    bed: Bed<f64>,
    turns: Vec<Turn>,
    beside: Vec<Beside<f64>>,
    members: [Option<Round<f64>>; 2],
}

impl<'a> Trial<'a> {
    /// The stay `laid` with the neighbours of all `sides`, brought over to its own.
    pub(super) fn new(
        axes: &Axes<f64>,
        job: &'a Job,
        pair: PairName,
        laid: &Laid<f64>,
        sides: &[Hand],
    ) -> Self {
        let side = job.pair(pair).side(laid.hand);
        let all = all_about(job);
        let mut about: Vec<Beside<f64>> = Vec::new();
        for hand in sides {
            // What both sides have is alike on both.
            let more = beside(axes, job, &all, (pair, *hand), laid.hand);
            about.extend(
                more.into_iter()
                    .filter(|beside| about.iter().all(|known| known.to != beside.to))
                    .collect::<Vec<_>>(),
            );
        }
        about.push(Beside { to: Neighbour::Other, limit: all.limits.other, body: beyond_centre(laid.hand) });
        let members = [&side.front_end, &side.rear_end].map(|end| Round::of(end, &job.frame, axes, laid));
        let (front, rear) = laid.reference_points();
        let bed = Bed::new(front, rear, laid.hand.sign());
        let mut trial = Self { side, bed, turns: turns(&side.tube), beside: Vec::new(), members };
        // The tightest as the tube was entered are asked first: they mostly decide.
        let mut ranked: Vec<(f64, Beside<f64>)> = Vec::with_capacity(about.len());
        for beside in about {
            trial.beside = vec![beside];
            let looked = trial.look(&entered(&side.tube), &HERE, f64::NEG_INFINITY);
            ranked.push((looked.spare, beside));
        }
        ranked.sort_by(|a, b| a.0.total_cmp(&b.0));
        trial.beside = ranked.into_iter().map(|(_, beside)| beside).collect();
        trial
    }

    /// Front trims worth a look: from a tube that begins behind its reference point to one that has its first bend there.
    pub(super) fn trims(&self) -> (f64, f64) {
        let first = self.turns.first().map_or(0.0, |turn| turn.before);
        (-100.0, first.min(self.side.tube.length.mm()))
    }

    /// The room in a place, and the most in any place that differs from it by no more than `half`. What leaves less than `wanted`
    /// everywhere there is not looked at closely.
    pub(super) fn look(&self, placing: &Placing, half: &Placing, wanted: f64) -> Looked {
        let line = self.bed.line(&self.turns, placing);
        let length = line.reach(0.0, self.bed.span);
        let outline = surface_from(&self.side.tube, placing.trim);
        let [front, rear] = [(Which::Front, 0.0), (Which::Rear, length)]
            .map(|(which, reference)| self.cut(which, &line.tangent(reference), reference, &outline));
        let (bed, taper) = (&self.bed, steepest(&outline));
        let mut looked = Looked {
            spare: f64::INFINITY,
            most: f64::INFINITY,
            cuts: self.cuts(&line, placing, &front, &rear),
            rates: HERE,
        };
        let pipe = Pipe { line: &line, outline: &outline, from: front.end, to: rear.end };
        for beside in &self.beside {
            // The other stay is the mirror of this one and comes towards it as fast.
            let twice = if beside.to == Neighbour::Other { 2.0 } else { 1.0 };
            let ceiling = (looked.spare + beside.limit.mm()) / twice;
            let Some(closest) = gap_below(&pipe, &beside.body, self.sure(), ceiling) else { continue };
            let left = twice * closest.distance - beside.limit.mm();
            looked.spare = looked.spare.min(left);
            // Anywhere in the cell this place of the tube is no further from the neighbour than it can move.
            let by_trim = bed.rate(&line, length, closest.station, half.trim) + taper;
            let radius = outline.radius(closest.station);
            let to_end = (closest.station - pipe.from).min(pipe.to - closest.station);
            let tilting = if to_end < radius { bed.tilting(&line, closest.station, radius) } else { 0.0 };
            let off = bed.off(&line.at(closest.station).point) + outline.unround() + tilting;
            let by_roll = off + by_trim * half.trim + 0.05;
            let most = left + twice * (half.trim * by_trim + half.roll * by_roll);
            if most < looked.most {
                (looked.most, looked.rates) = (most, Placing { trim: by_trim, roll: by_roll });
            }
            if looked.most <= wanted {
                break;
            }
        }
        looked
    }

    /// What a look's room is sure to.
    pub(super) fn sure(&self) -> f64 {
        if self.side.tube.ovals.list.is_empty() { SURE.0 } else { SURE.1 }
    }

    fn cuts(&self, line: &Centreline, placing: &Placing, front: &Cut, rear: &Cut) -> f64 {
        let raw = (-placing.trim, self.side.tube.length.mm() - placing.trim);
        let first = line.arcs().next().map_or(f64::INFINITY, |arc| arc.from);
        let last = line.arcs().last().map_or(f64::NEG_INFINITY, |arc| arc.to);
        let rooms = [front.low - raw.0, first - front.high, rear.low - last, raw.1 - rear.high];
        rooms.into_iter().fold(f64::INFINITY, f64::min)
    }

    /// A bound on where a cut lies: a tube of radius `r` that meets a cutter of radius `R` at the angle θ has all of its
    /// edge between `r cot θ` outside the nearest place of the two axes and `(R + r cos θ)/sin θ` inside.
    fn cut(&self, which: Which, axis: &Line, reference: f64, outline: &Outline) -> Cut {
        let (place, way) = if which == Which::Front { (0, 1.0) } else { (1, -1.0) };
        let plain = Cut { low: reference, end: reference, high: reference };
        let Some(member) = self.members.get(place).and_then(Option::as_ref) else {
            let End::Slot(slot) = &self.side.rear_end else { return plain };
            let mouth = reference + slot.overhang.mm();
            return if which == Which::Rear {
                Cut { low: mouth - slot.depth.mm(), end: mouth, high: mouth }
            } else {
                plain
            };
        };
        let Nearest::Skew { station, distance, .. } = axis.nearest(&member.cut.axis) else { return plain };
        let (sin, cos) = axis.angle_to(&member.cut.axis).sin_cos();
        let (r, big) = (outline.radius(reference), member.cut.radius);
        let middle = station + way * (big * big - distance * distance).max(0.0).sqrt() / sin;
        let (outside, inside) = (station - way * r * cos / sin, station + way * (big + r * cos) / sin);
        Cut { low: outside.min(inside), end: middle, high: outside.max(inside) }
    }
}

/// The steepest taper, radius by station.
fn steepest(outline: &Outline) -> f64 {
    outline.pieces().iter().map(|piece| piece.slope.abs()).fold(0.0, f64::max)
}

/// All that lies beyond the centre plane. The mirror of a body is twice as far from it as this.
fn beyond_centre(hand: Hand) -> Body<f64> {
    let axis = Line { point: Point3::origin(), direction: Vector3::y() * hand.sign() };
    let endless = f64::INFINITY;
    Body::Turned(Turned { axis, hole: 0.0, rim: endless, low: -endless, high: 0.0, rounding: 0.0 })
}
