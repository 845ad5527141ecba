//! Nearest places of a pipe as far as a search asks for them: not brought to the bottom of their valleys.

use super::parts::Part;
use super::pipe::{Closest, OVAL_SURE, Pipe, before_faces, room_at, search};
use super::section::Touch;
use super::solid::Solid;
use crate::units::Real;

/// What is asked of a distance, mm.
#[derive(Clone, Copy, Debug)]
pub struct Asked {
    /// It is the least to within this, or to [`OVAL_SURE`] where sections count.
    pub sure: f64,
    /// Where none is below this, any will do.
    pub ceiling: f64,
    /// Any that is below this will do.
    pub floor: f64,
}

/// A place of the pipe whose distance from a solid is what is asked for. Unlike [`gap_below`](super::gap_below) it does not go on to
/// the bottom of the place's valley. A station that is known to be near saves work.
pub fn near_below<T: Real>(
    pipe: &Pipe<'_, T>,
    solid: &impl Solid<T>,
    Asked { sure, ceiling, floor }: Asked,
    known: Option<T>,
) -> Option<Closest<T>> {
    let parts = pipe.flat_parts();
    let covered: Vec<Part<T>> = parts.iter().map(Part::covered).collect();
    let known = known.and_then(|at| Some((part_at(&parts, at)?, at)));
    let (nearest, station, within) = search(&covered, solid, (0.5 * sure, ceiling), known)?;
    let part = parts.get(nearest)?;
    let least = room_at(covered.get(nearest)?, solid, station).value();
    let found = touch(part, solid, station, within);
    let far = found.distance.value();
    if part.section.is_none() || least >= ceiling || far - least <= sure || far < floor {
        return Some(found);
    }
    let bounds = (sure.max(OVAL_SURE), ceiling);
    let (nearest, station, within) = search(&parts, solid, bounds, Some((nearest, station)))?;
    let side = touch(parts.get(nearest)?, solid, station, within);
    Some(before_faces(&parts, solid, side))
}

/// The place of the ball, or of the section, at `station` that is nearest to a solid: its distance is no less than that of the
/// pipe. `None` beyond the pipe's ends.
pub fn near_at<T: Real>(pipe: &Pipe<'_, T>, solid: &impl Solid<T>, station: T) -> Option<Closest<T>> {
    let parts = pipe.flat_parts();
    Some(touch(parts.get(part_at(&parts, station)?)?, solid, station, 0.0))
}

fn part_at<T: Real>(parts: &[Part<T>], station: T) -> Option<usize> {
    let at = station.value();
    parts.iter().position(|part| part.from.value() <= at && at <= part.to.value())
}

/// The nearest place of the ball or the section at a station.
fn touch<T: Real>(part: &Part<T>, solid: &impl Solid<T>, station: T, within: f64) -> Closest<T> {
    if let Some(section) = &part.section {
        let Touch { point: here, near, .. } = section.nearest(&part.stretch.marked(station), solid, station);
        return Closest {
            distance: near.distance,
            station,
            here,
            there: near.foot(&here),
            error_bound: within,
        };
    }
    let middle = part.stretch.at(station).point;
    let (near, radius) = (solid.near(&middle), part.radius(station));
    let here = middle - near.away * radius;
    Closest {
        distance: near.distance - radius,
        station,
        here,
        there: near.foot(&middle),
        error_bound: within,
    }
}
