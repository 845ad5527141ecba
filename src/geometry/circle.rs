//! Searching a function on a circle: samples at every degree show where to look, brackets find the place itself.

use std::f64::consts::TAU;
use std::sync::LazyLock;

/// Samples to the turn.
const STEPS: u32 = 360;

/// Golden sections of a bracket. Each leaves 0.618 of it, so that two degrees shrink to 1e-9 rad: a smooth extreme is then
/// exact to rounding, and one at a kink to 1e-7 mm on any tube.
const SECTIONS: usize = 36;

/// First step from a place towards where a slope turns, radians.
const FIRST: f64 = 0.05;

/// No step away from a place is longer than half a turn, radians.
const FURTHEST: f64 = std::f64::consts::PI;

/// A turning place is found to within this, radians, or to where the slope is no more than [`LEVEL`].
const TURNED: f64 = 1e-10;

/// A slope that counts as none.
const LEVEL: f64 = 1e-12;

/// Halvings of a bracket; two degrees shrink to the spacing of floating-point numbers.
const HALVINGS: usize = 52;

/// A direction with its sine and cosine.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Node {
    /// Radians.
    pub phi: f64,
    /// Cosine of `phi`.
    pub cos: f64,
    /// Sine of `phi`.
    pub sin: f64,
}

impl Node {
    /// The direction `phi`.
    pub fn at(phi: f64) -> Self {
        let (sin, cos) = phi.sin_cos();
        Self { phi, cos, sin }
    }
}

/// Every whole degree from 0 to 359.
pub fn table() -> &'static [Node] {
    static TABLE: LazyLock<Vec<Node>> =
        LazyLock::new(|| (0..STEPS).map(|degree| Node::at(f64::from(degree).to_radians())).collect());
    &TABLE
}

/// `phi` brought into one turn from 0.
pub fn wrapped(phi: f64) -> f64 {
    let turned = phi.rem_euclid(TAU);
    // A tiny negative angle comes out as the whole turn.
    if turned >= TAU { 0.0 } else { turned }
}

/// Where between `inside` and `outside` a property that holds at the first stops holding; the returned place is the
/// last one found where it holds.
pub(super) fn boundary(mut inside: f64, mut outside: f64, holds: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..HALVINGS {
        let middle = 0.5 * (inside + outside);
        if holds(middle) { inside = middle } else { outside = middle }
    }
    inside
}

/// The least place of a function with one valley between `low` and `high`, by golden sections
/// (Kiefer 1953, Proc. Amer. Math. Soc. 4:502).
pub(super) fn valley(low: f64, high: f64, f: impl Fn(f64) -> f64) -> f64 {
    narrowed(SECTIONS, low, high, f)
}

/// The same by a number of golden sections.
pub(super) fn narrowed(sections: usize, mut low: f64, mut high: f64, f: impl Fn(f64) -> f64) -> f64 {
    const SHARE: f64 = 0.618_033_988_749_894_8;
    let (mut a, mut b) = (high - SHARE * (high - low), low + SHARE * (high - low));
    let (mut at_a, mut at_b) = (f(a), f(b));
    for _ in 0..sections {
        if at_a <= at_b {
            (high, b, at_b) = (b, a, at_a);
            a = high - SHARE * (high - low);
            at_a = f(a);
        } else {
            (low, a, at_a) = (a, b, at_b);
            b = low + SHARE * (high - low);
            at_b = f(b);
        }
    }
    if at_a <= at_b { a } else { b }
}

/// Where a slope on a circle turns from falling to rising, near `start`: bracketed by steps that double, then found by false
/// position, with either end's weight halved where the other stays (Dowell and Jarratt 1971, BIT 11:168). `None` where the slope keeps its
/// sign as far as [`FURTHEST`].
pub(super) fn turning(start: f64, slope: impl Fn(f64) -> f64) -> Option<f64> {
    let mut fixed = (start, slope(start));
    let way = if fixed.1 > 0.0 { -1.0 } else { 1.0 };
    let (mut moving, mut step) = (fixed, FIRST);
    while moving.1 * fixed.1 > 0.0 {
        if step > FURTHEST {
            return None;
        }
        fixed = moving;
        let angle = start + way * step;
        moving = (angle, slope(angle));
        step *= 2.0;
    }
    for _ in 0..HALVINGS {
        if moving.1.abs() < LEVEL || (moving.0 - fixed.0).abs() < TURNED {
            break;
        }
        let angle = (fixed.1 * moving.0 - moving.1 * fixed.0) / (fixed.1 - moving.1);
        let next = (angle, slope(angle));
        fixed = if next.1 * moving.1 < 0.0 { moving } else { (fixed.0, 0.5 * fixed.1) };
        moving = next;
    }
    Some(moving.0)
}

/// One sample of a function that need not exist everywhere.
pub(super) type Sample = (f64, Option<f64>);

/// Samples round a circle in rising order of angle within one turn, and before and after them their neighbours across the
/// seam, each a turn off.
pub struct Ring(Vec<Sample>);

impl Ring {
    /// The samples, closed to a ring.
    pub fn closed(samples: impl Iterator<Item = Sample>) -> Self {
        let mut ring = Vec::with_capacity(STEPS as usize + 2);
        ring.push((0.0, None));
        ring.extend(samples);
        let (first, last) = (ring.get(1).copied(), ring.last().copied());
        let turned = |(phi, value): Sample, turn: f64| (phi + turn, value);
        if let (Some(seam), Some(last)) = (ring.first_mut(), last) {
            *seam = turned(last, -TAU);
        }
        ring.extend(first.map(|first| turned(first, TAU)));
        Self(ring)
    }

    /// Each sample with its two neighbours: `[before, here, after]`, angles rising through them.
    pub(super) fn triples(&self) -> impl Iterator<Item = [&Sample; 3]> {
        self.0.windows(3).filter_map(|three| match three {
            [before, here, after] => Some([before, here, after]),
            _ => None,
        })
    }

    /// The ring of what is largest where this one is least.
    pub(super) fn turned_over(mut self) -> Self {
        for (_, value) in &mut self.0 {
            *value = value.map(|value| -value);
        }
        self
    }
}

/// Where `f` is least, or `None` where it exists nowhere.
///
/// `ring` holds its values at angles at most a few degrees apart. Each valley between
/// samples is narrowed to rounding, and so is each limit of where `f` exists, so the answer is exact unless two valleys
/// share one gap between samples.
pub fn least(ring: &Ring, f: impl Fn(f64) -> Option<f64>) -> Option<f64> {
    // Asked at the angle that is given back: a turn more or less rounds otherwise, and at a limit of `f` that decides.
    let f = |phi: f64| f(wrapped(phi));
    let sure = |phi: f64| f(phi).unwrap_or(f64::INFINITY);
    let mut best: Option<(f64, f64)> = None;
    let mut offer = |phi: f64, value: f64| {
        if best.is_none_or(|(_, least)| value < least) {
            best = Some((phi, value));
        }
    };
    for [before, here, after] in ring.triples() {
        let Some(value) = here.1 else { continue };
        offer(here.0, value);
        let (mut low, mut high) = (before.0, after.0);
        for (neighbour, end) in [(before, &mut low), (after, &mut high)] {
            if neighbour.1.is_none() {
                *end = boundary(here.0, neighbour.0, |phi| f(phi).is_some());
                offer(*end, sure(*end));
            }
        }
        let lowest = before.1.is_none_or(|x| value < x) && after.1.is_none_or(|x| value <= x);
        if lowest {
            let phi = valley(low, high, sure);
            offer(phi, sure(phi));
        }
    }
    best.map(|(phi, _)| wrapped(phi))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    fn sampled(f: impl Fn(f64) -> Option<f64>) -> Ring {
        Ring::closed(table().iter().map(|node| (node.phi, f(node.phi))))
    }

    #[test]
    fn the_valley_is_found_between_samples_and_across_the_seam() {
        for at in [0.3, 2.0 * PI - 0.002, 0.001, 1.234_567] {
            let f = |phi: f64| Some(-(phi - at).cos());
            let found = least(&sampled(f), f).unwrap_or(f64::NAN);
            assert!((found - at).abs() < 2e-8, "{at}: {found}");
        }
    }

    #[test]
    fn the_limit_of_a_function_counts() {
        let f = |phi: f64| (phi.cos() > 0.5).then(|| -phi.sin());
        let found = least(&sampled(f), f).unwrap_or(f64::NAN);
        assert!((found - PI / 3.0).abs() < 1e-14, "{found}");
        assert_eq!(least(&sampled(|_| None), |_| None), None);
    }

    #[test]
    fn the_function_exists_at_the_place_found_even_at_a_limit_across_the_seam() {
        for step in 1..200 {
            let shift = f64::from(step) * 8e-5;
            let f = |phi: f64| Some((phi + shift).sin()).filter(|height| *height > 0.0);
            let found = least(&sampled(f), f).unwrap_or(f64::NAN);
            assert!(f(found).is_some_and(|height| height < 1e-12), "{shift}: {found}");
        }
    }

    #[test]
    fn neighbours_close_the_circle() {
        let samples = [(0.0, Some(1.0)), (2.0, Some(2.0)), (4.0, None)];
        let ring = Ring::closed(samples.into_iter());
        let all: Vec<_> = ring.triples().collect();
        assert_eq!(all[0], [&(4.0 - TAU, None), &(0.0, Some(1.0)), &(2.0, Some(2.0))]);
        assert_eq!(all[2], [&(2.0, Some(2.0)), &(4.0, None), &(TAU, Some(1.0))]);
    }
}
