//! A round body about a centreline, and its least distance from a solid.

use super::circle::valley;
use super::parts::{Part, smaller};
use super::section::{Section, Touch};
use super::solid::Solid;
use super::{Centreline, Outline};
use crate::units::Real;
use nalgebra::Point3;

/// The least distance is found to within this, mm: well below a thousandth of what a shop can measure.
pub const SURE: f64 = 1e-6;

/// The same where the nearest place is on an oval, at an edge or an end, or on a taper in a bend.
pub(super) const OVAL_SURE: f64 = 0.01;

/// A place so near the end of its part lies at it, mm.
const BORDER: f64 = 1e-6;

/// An end that is no higher than this over the valley inside is its bottom, mm.
const SETTLED: f64 = 1e-9;

/// Halvings of an interval, at most. A stretch of metres is then shorter than rounding.
pub(super) const ROUNDS: usize = 50;

/// As many intervals are looked at in one round; a body that is equally near along its whole length has this many.
pub(super) const MOST: usize = 4096;

/// A stretch of a body about a centreline, with flat ends: all its sections square to the line, round or oval.
#[derive(Clone, Copy, Debug)]
pub struct Pipe<'a, T: nalgebra::Scalar = f64> {
    /// Its middle.
    pub line: &'a Centreline<T>,
    /// Its radius by station.
    pub outline: &'a Outline<T>,
    /// First station.
    pub from: T,
    /// Last station.
    pub to: T,
}

/// The least distance between a pipe and something else, with the two points that it lies between.
#[derive(Clone, Copy, Debug)]
pub struct Closest<T: nalgebra::Scalar = f64> {
    /// The distance; negative by the depth to which the two run into each other, for a round pipe that of its balls.
    pub distance: T,
    /// Station on the pipe.
    pub station: T,
    /// The point on the pipe's surface.
    pub here: Point3<T>,
    /// The point on the other's surface.
    pub there: Point3<T>,
    /// No distance is smaller than `distance` by more than this.
    pub error_bound: f64,
}

/// A place of the pipe that is no further than this beyond the balls that hold it counts as the nearest, mm.
const BESIDE: f64 = 2e-3;

/// Distance of the ball, or of the section, at `station` from a solid.
pub(super) fn room_at<T: Real>(part: &Part<T>, solid: &impl Solid<T>, station: T) -> T {
    match &part.section {
        None => solid.near(&part.stretch.at(station).point).distance - part.radius(station),
        Some(section) => section.nearest(&part.stretch.marked(station), solid, station).near.distance,
    }
}

/// The best place so far.
pub(super) struct Best<P> {
    pub(super) least: f64,
    pub(super) found: Option<P>,
}

impl<P> Best<P> {
    pub(super) fn offer(&mut self, value: f64, place: impl FnOnce() -> P) {
        if value < self.least {
            (self.least, self.found) = (value, Some(place()));
        }
    }
}

/// An interval of stations on one part.
#[derive(Clone, Copy)]
pub(super) struct Span<'a, T: nalgebra::Scalar> {
    place: usize,
    pub(super) part: &'a Part<T>,
    pub(super) middle: f64,
    pub(super) half: f64,
}

impl<'a, T: Real> Span<'a, T> {
    pub(super) fn whole((place, part): (usize, &'a Part<T>)) -> Self {
        let (from, to) = (part.from.value(), part.to.value());
        Self { place, part, middle: 0.5 * (from + to), half: 0.5 * (to - from) }
    }

    pub(super) fn halves(&self) -> [Self; 2] {
        let half = 0.5 * self.half;
        [-half, half].map(|way| Self { middle: self.middle + way, half, ..*self })
    }

    /// Offers the distance at the middle; gives the floor under all distances in the interval. Nobody asks for those that are
    /// `enough`.
    fn look(&self, solid: &impl Solid<T>, best: &mut Best<(usize, T)>, enough: f64) -> f64 {
        // One distance settles most intervals; going round a section costs dozens.
        if self.part.section.is_some() {
            let below = self.below(solid);
            if below >= enough {
                return below;
            }
        }
        let (room, floor) = self.floor(solid);
        best.offer(room, || (self.place, T::of(self.middle)));
        floor
    }

    /// A floor under all distances in the interval from the solid's distance of one place alone.
    pub(super) fn below(&self, solid: &impl Solid<T>) -> f64 {
        let Some(section) = &self.part.section else { return self.floor(solid).1 };
        section.below(&self.part.stretch, solid, T::of(self.middle), self.half)
    }

    /// The distance at the middle, and a floor under all distances in the interval.
    pub(super) fn floor(&self, solid: &impl Solid<T>) -> (f64, f64) {
        let (part, half, station) = (self.part, self.half, T::of(self.middle));
        if let Some(section) = &part.section {
            return section.floor(&part.stretch, solid, station, half);
        }
        let here = part.stretch.at(station);
        let near = solid.near(&here.point);
        let room = (near.distance - part.radius(station)).value();
        let slope = part.slope.value();
        let by_length = room - (1.0 + slope.abs()) * half;
        if near.away.norm_squared().value() == 0.0 {
            return (room, by_length);
        }
        let steep = (near.away.dot(&here.tangent).value() - slope).abs();
        let dip = part.stretch.curvature() + solid.dip(&here.point, half);
        (room, by_length.max(room - steep * half - 0.5 * dip * half * half))
    }
}

/// The place where a pipe comes nearest to a solid; `None` for a pipe without length.
///
/// Branch and bound: each interval of stations has a floor under its distances, from the slope at its middle and from how
/// strongly distance and centreline can bend; intervals whose floor is not below the best place found, less [`SURE`],
/// are done. Where balls count the floor is off by the square of the interval's length, so that the work grows with the logarithm of the
/// accuracy.
pub fn gap<T: Real>(pipe: &Pipe<'_, T>, solid: &impl Solid<T>) -> Option<Closest<T>> {
    gap_below(pipe, solid, SURE, f64::INFINITY)
}

/// [`gap`] to within `sure`, for one who only asks whether it is below `ceiling`: with a distance at or above it the place
/// need not be the nearest.
pub fn gap_below<T: Real>(
    pipe: &Pipe<'_, T>,
    solid: &impl Solid<T>,
    sure: f64,
    ceiling: f64,
) -> Option<Closest<T>> {
    let parts = pipe.flat_parts();
    let round: Vec<Part<T>> = parts.iter().map(Part::covered).collect();
    let (nearest, station, within) = search(&round, solid, (0.5 * sure, ceiling), None)?;
    // Balls that hold its sections are nowhere further than these. Where the nearest ball is of another part, it is the nearest
    // place; where even so nothing is below the ceiling, that is all that was asked.
    let part = parts.get(nearest)?;
    let least = room_at(round.get(nearest)?, solid, station).value();
    if part.section.is_none() || least >= ceiling {
        return Some(place(part, solid, station, within));
    }
    let found = settled(&parts, (nearest, station), solid, within)?;
    // Off the ends the depth is that of the ball, as beside the part.
    if found.distance.value() < 0.0 && pipe.is_deep_by_ball(part, station) {
        return Some(place(&part.covered(), solid, station, within));
    }
    // A section that hardly stands back from its ball has no other before it by more than that.
    let within = within + (found.distance.value() - least).max(0.0);
    if within <= BESIDE.max(sure) {
        return Some(Closest { error_bound: within, ..found });
    }
    let bounds = (sure.max(OVAL_SURE), ceiling);
    let (nearest, station, within) = search(&parts, solid, bounds, Some((nearest, station)))?;
    let side = settled(&parts, (nearest, station), solid, within)?;
    Some(before_faces(&parts, solid, side))
}

/// A flat end where it is nearer than the nearest place of the side.
pub(super) fn before_faces<T: Real>(
    parts: &[Part<T>],
    solid: &impl Solid<T>,
    side: Closest<T>,
) -> Closest<T> {
    let ends = [parts.first().map(|part| (part, part.from)), parts.last().map(|part| (part, part.to))];
    // A face reaches no further than the section about it.
    let hopeful = |(part, end): &(&Part<T>, T)| {
        let below = |section: &Section<T>| section.below(&part.stretch, solid, *end, 0.0);
        part.section.as_ref().is_some_and(|section| below(section) < side.distance.value())
    };
    let faces = ends.into_iter().flatten().filter(hopeful);
    let faces = faces.filter_map(|(part, end)| face(part, solid, end, side.error_bound));
    faces.fold(side, |a, b| if b.distance.value() < a.distance.value() { b } else { a })
}

/// The bottom of the valley about a place of one part. Where that is the part's border, it may lie in the part beyond; where it
/// does not, the place is the border itself, which moves with the tube.
fn settled<T: Real>(
    parts: &[Part<T>],
    (nearest, station): (usize, T),
    solid: &impl Solid<T>,
    within: f64,
) -> Option<Closest<T>> {
    let own = parts.get(nearest)?;
    let found = place(own, solid, station, within);
    let on = |end: T| (end.value() - found.station.value()).abs() < BORDER;
    let Some(border) = [own.from, own.to].into_iter().find(|end| on(*end)) else { return Some(found) };
    let kept = place(own, solid, border, within);
    let others = parts.iter().enumerate().filter(|(i, _)| *i != nearest).map(|(_, part)| part);
    // Where balls and sections overlap, the border of the ones lies inside the others.
    let beyond = others.filter_map(|part| {
        let (after, before) = (border - part.from, part.to - border);
        let into = if on(part.from) {
            BORDER
        } else if on(part.to) {
            -BORDER
        } else {
            0.0
        };
        let there = after.value() > -BORDER && before.value() > -BORDER;
        there.then(|| place(part, solid, border + T::of(into), within))
    });
    let lower =
        |a: Closest<T>, b: Closest<T>| if b.distance.value() < a.distance.value() - SURE { b } else { a };
    Some(beyond.fold(kept, lower))
}

/// The nearest place on a flat end.
fn face<T: Real>(part: &Part<T>, solid: &impl Solid<T>, end: T, within: f64) -> Option<Closest<T>> {
    let Touch { point: here, near, .. } = part.section.as_ref()?.face(&part.stretch.marked(end), solid, end);
    Some(Closest {
        distance: near.distance,
        station: end,
        here,
        there: near.foot(&here),
        error_bound: within,
    })
}

/// The part and the station of the nearest place, and what it is sure to. A place that is known to be near saves work.
pub(super) fn search<T: Real>(
    parts: &[Part<T>],
    solid: &impl Solid<T>,
    (sure, ceiling): (f64, f64),
    near: Option<(usize, T)>,
) -> Option<(usize, T, f64)> {
    let mut best = Best { least: f64::INFINITY, found: None };
    let ends = parts.iter().enumerate().flat_map(|(i, part)| [(i, part.from), (i, part.to)]);
    for (i, station) in near.into_iter().chain(ends) {
        let Some(part) = parts.get(i) else { continue };
        let below = |section: &Section<T>| section.below(&part.stretch, solid, station, 0.0);
        if part.section.as_ref().map_or(f64::NEG_INFINITY, below) < best.least {
            best.offer(room_at(part, solid, station).value(), || (i, station));
        }
    }
    let mut open: Vec<Span<'_, T>> = parts.iter().enumerate().map(Span::whole).collect();
    let mut within = sure;
    for round in 1..=ROUNDS {
        let mut look = |span: &Span<'_, T>| {
            let enough = best.least.min(ceiling) - sure;
            span.look(solid, &mut best, enough)
        };
        let floors: Vec<f64> = open.iter().map(&mut look).collect();
        let enough = best.least.min(ceiling) - sure;
        let lowest = floors.iter().copied().fold(f64::INFINITY, f64::min);
        let hopeful = open.into_iter().zip(floors).filter(|(_, floor)| *floor < enough);
        open = hopeful.flat_map(|(span, _)| span.halves()).collect();
        if open.is_empty() {
            break;
        }
        if round == ROUNDS || open.len() > MOST {
            within = best.least - lowest;
            break;
        }
    }
    best.found.map(|(part, station)| (part, station, within))
}

/// The place near `station`, brought to the bottom of its valley.
pub(super) fn place<T: Real>(part: &Part<T>, solid: &impl Solid<T>, station: T, within: f64) -> Closest<T> {
    let station = bottom(part, solid, station, within);
    if let Some(section) = &part.section {
        let Touch { point: here, near, .. } = section.settled(&part.stretch.marked(station), solid, station);
        return Closest {
            distance: near.distance,
            station,
            here,
            there: near.foot(&here),
            error_bound: within,
        };
    }
    let middle = part.stretch.at(station).point;
    let near = solid.near(&middle);
    let radius = part.radius(station);
    Closest {
        distance: near.distance - radius,
        station,
        here: middle - near.away * radius,
        there: near.foot(&middle),
        error_bound: within,
    }
}

/// The bottom of the valley near `station`, which stays where it is an end of the part and no place inside is lower.
fn bottom<T: Real>(part: &Part<T>, solid: &impl Solid<T>, station: T, within: f64) -> T {
    let at_end = [part.from, part.to].into_iter().find(|end| end.value() == station.value());
    let sure = part.section.is_none() && within <= SURE;
    if let (Some(end), true) = (at_end, sure) {
        return end;
    }
    // Where the floor is rough, the place is; and a section lies off the ball that holds it.
    let reach = if sure { 0.1 } else { 2.0 };
    let around = |by: f64| (station.value() + by).max(part.from.value()).min(part.to.value());
    let room = |station: T| room_at(part, solid, station).value();
    let bottom = T::of(valley(around(-reach), around(reach), |s| room(T::of(s))));
    let kept = at_end.unwrap_or(station);
    let gain = if at_end.is_some() { SETTLED } else { 0.0 };
    if room(bottom) < room(kept) - gain { bottom } else { kept }
}

/// Distance of the pipe's ball or section at `station` from a solid: the room at that place. `None` beyond the pipe's ends.
pub fn gap_at<T: Real>(pipe: &Pipe<'_, T>, solid: &impl Solid<T>, station: T) -> Option<T> {
    let parts = pipe.flat_parts();
    let at = station.value();
    let part = parts.iter().find(|part| part.from.value() <= at && at <= part.to.value())?;
    let room = room_at(part, solid, station);
    let by_ball = room.value() < 0.0 && pipe.is_deep_by_ball(part, station);
    Some(if by_ball { room_at(&part.covered(), solid, station) } else { room })
}

impl<T: Real> Pipe<'_, T> {
    /// Whether the ball about a station of a part tells how deep the pipe runs into something there: on circles, as far from the ends
    /// as the ball reaches.
    fn is_deep_by_ball(&self, part: &Part<T>, station: T) -> bool {
        let to_end = smaller(station - self.from, self.to - station);
        part.section.as_ref().is_some_and(Section::is_round) && to_end.value() >= part.radius(station).value()
    }
}

#[cfg(test)]
mod tests {
    use super::super::solid::{Block, Rod, Turned};
    use super::super::{Frame, Line, OvalStretch, Turn};
    use super::*;
    use nalgebra::Vector3;

    /// By hand: a quarter turn of 100 about the point (0, 100); its middle is 100 from there all along.
    #[test]
    fn an_arc_about_a_ball_is_equally_near_everywhere() {
        let turn = Turn { before: 0.0, rotation: 0.0, angle: std::f64::consts::FRAC_PI_2, radius: 100.0 };
        let line = Centreline::new(Frame::origin(), 0.0, &[turn]);
        let pipe = Pipe { line: &line, outline: &Outline::level(8.0), from: 0.0, to: 157.0 };
        let axis = Line { point: Point3::new(0.0, 100.0, 0.0), direction: Vector3::x() };
        let ball = Rod { axis, from: 0.0, to: 0.0, radius: 12.0 };
        let found = gap(&pipe, &ball).unwrap();
        assert!((found.distance - 80.0).abs() < 1e-9, "{found:?}");
        let beside =
            Rod { axis: Line { point: Point3::new(70.0, 30.0, 0.0), direction: Vector3::x() }, ..ball };
        let found = gap(&pipe, &beside).unwrap();
        // 70√2 from the arc's middle, on the line through its own middle.
        assert!((found.distance - (100.0 - 70.0 * 2f64.sqrt() - 20.0)).abs() < 1e-9, "{found:?}");
    }

    /// By hand: a straight pipe beside a ring whose middle line is a circle of 300 about the z axis.
    #[test]
    fn a_straight_pipe_through_a_rings_hole_is_nearest_at_its_own_ends_or_at_the_ring() {
        let line =
            Centreline::new(Frame { point: Point3::new(-400.0, 250.0, 0.0), ..Frame::origin() }, 0.0, &[]);
        let pipe: Pipe<'_, f64> = Pipe { line: &line, outline: &Outline::level(10.0), from: 0.0, to: 800.0 };
        let axis = Line { point: Point3::origin(), direction: Vector3::z() };
        let ring = Turned { axis, hole: 300.0_f64, rim: 300.0, low: 0.0, high: 0.0, rounding: 20.0 };
        // The pipe's middle passes through the ring's own middle line twice.
        assert!((gap(&pipe, &ring).unwrap().distance + 30.0).abs() < 1e-6);
        let inside = Pipe { from: 350.0, to: 450.0, ..pipe };
        // Its ends are flat: their upper edge stands 260 up.
        let corner = 300.0 - 260f64.hypot(50.0) - 20.0;
        assert!((gap(&inside, &ring).unwrap().distance - corner).abs() < 1e-6);
    }

    #[test]
    fn the_answer_is_the_least_of_many_samples_and_never_above_them() {
        let turns = [
            Turn { before: 60.0, rotation: 0.4, angle: 0.5, radius: 90.0 },
            Turn { before: 40.0, rotation: 2.0, angle: 0.7, radius: 70.0 },
        ];
        let line = Centreline::new(Frame::origin(), 0.0, &turns);
        let outline = Outline::through(&[(80.0, 11.0), (260.0, 7.0)]);
        let pipe = Pipe { line: &line, outline: &outline, from: 3.0, to: 300.0 };
        let axis = Line { point: Point3::new(180.0, 90.0, -30.0), direction: Vector3::new(0.6, 0.0, 0.8) };
        let block = Block {
            middle: Point3::new(120.0, 60.0, 20.0),
            directions: [Vector3::x(), Vector3::y(), Vector3::z()],
            halves: [20.0, 5.0, 9.0],
        };
        let washer = Turned { axis, hole: 40.0, rim: 70.0, low: -3.0, high: 9.0, rounding: 2.0 };
        let samples = || (0..=30_000).map(|i| 3.0 + 297.0 * f64::from(i) / 30_000.0);
        let to_block = samples().filter_map(|s| gap_at(&pipe, &block, s)).fold(f64::INFINITY, f64::min);
        let to_washer = samples().filter_map(|s| gap_at(&pipe, &washer, s)).fold(f64::INFINITY, f64::min);
        for (found, sampled) in [(gap(&pipe, &block), to_block), (gap(&pipe, &washer), to_washer)] {
            let found = found.unwrap().distance;
            assert!(found <= sampled + SURE && found > sampled - 1e-3, "{found} {sampled}");
        }
    }

    /// The floor of every interval lies under every distance in it, and meets them as the interval shrinks.
    #[test]
    fn no_distance_lies_below_the_floor_of_its_interval() {
        let turns = [
            Turn { before: 30.0, rotation: 0.4, angle: 1.1, radius: 60.0 },
            Turn { before: 20.0, rotation: 2.0, angle: 1.4, radius: 45.0 },
        ];
        let line = Centreline::new(Frame::origin(), 0.0, &turns);
        let outline = Outline::through(&[(40.0, 11.0), (160.0, 5.0)]);
        let stretch = OvalStretch { from: 60.0, to: 120.0, blend: 25.0, halves: (7.0, 14.0), turn: 0.7 };
        floors(&line, &outline);
        floors(&line, &outline.pressed(&[stretch]));
        floors(
            &line,
            &Outline::level(9.0).pressed(&[OvalStretch { from: 130.0, to: 140.0, turn: -1.2, ..stretch }]),
        );
    }

    fn floors(line: &Centreline, outline: &Outline) {
        let pipe = Pipe { line, outline, from: 0.0, to: 220.0 };
        let axis = Line { point: Point3::new(60.0, 70.0, 0.0), direction: Vector3::z() };
        let ring = Turned { axis, hole: 80.0, rim: 80.0, low: -4.0, high: 4.0, rounding: 2.0 };
        let point = Rod { axis, from: -9.0, to: -9.0, radius: 0.0 };
        let mut open: Vec<Span<'_, f64>> = Vec::new();
        let parts = pipe.flat_parts();
        open.extend(parts.iter().enumerate().map(Span::whole));
        for _ in 0..7 {
            for span in &open {
                let least = |solid: &dyn Fn(f64) -> f64| {
                    let at = |i: i32| span.middle + span.half * f64::from(i) / 20.0;
                    (-20..=20).map(|i| solid(at(i))).fold(f64::INFINITY, f64::min)
                };
                let mut best = Best { least: f64::INFINITY, found: None };
                let floors =
                    [span.look(&ring, &mut best, f64::INFINITY), span.look(&point, &mut best, f64::INFINITY)];
                let rooms =
                    [least(&|s| room_at(span.part, &ring, s)), least(&|s| room_at(span.part, &point, s))];
                for (floor, room) in floors.into_iter().zip(rooms) {
                    assert!(floor <= room + 1e-9, "{} ± {}: {floor} {room}", span.middle, span.half);
                    assert!(room - floor <= 4.0 * span.half, "{floor} {room}");
                }
            }
            open = open.iter().flat_map(Span::halves).collect();
        }
    }
}
