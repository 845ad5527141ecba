//! A stay's skin and ends, from its tube's own figures, and the places on them nearest to something.

use super::pressed::polar;
use nalgebra::{Point3, Vector3};
use staywright::model::{Hand, Tube};
use staywright::plan::Plan;

/// The place, the way on and the tube's mark by station.
type Middle<'a> = Box<dyn Fn(f64) -> (Point3<f64>, Vector3<f64>, Vector3<f64>) + 'a>;

/// A place on the skin or an end: station, share of the radius, direction from the tube's mark.
pub type Place = [f64; 3];

/// A place with its point.
pub type Sample = (Place, Point3<f64>);

/// A stay's skin and flat ends.
pub struct Skin<'a> {
    tube: &'a Tube,
    trim: f64,
    ends: (f64, f64),
    sign: f64,
    at: Middle<'a>,
}

impl<'a> Skin<'a> {
    /// That of a chainstay.
    pub fn new(plan: &'a Plan, hand: Hand) -> Self {
        let stay = plan.pairs.chainstays.stay(hand);
        let tube = &plan.job.chainstays.side(hand).tube;
        let ends = (stay.front.long_point().unwrap().mm(), stay.rear.long_point().unwrap().mm());
        let chord = (stay.rear_point - stay.front_point).normalize();
        let outboard = Vector3::y() * hand.sign();
        let level = (outboard - chord * outboard.dot(&chord)).normalize();
        let at = move |s: f64| match &stay.bent {
            Some(bent) => (bent.line.at(s).point, bent.line.at(s).tangent, bent.line.mark(s)),
            None => (stay.front_point + chord * s, chord, level),
        };
        let trim = stay.bent.as_ref().map_or(tube.front_trim.mm(), |bent| bent.trim.mm());
        Self { tube, trim, ends, sign: hand.sign(), at: Box::new(at) }
    }

    /// The point at a place.
    pub fn point(&self, [s, share, angle]: Place) -> Point3<f64> {
        let (middle, tangent, mark) = (self.at)(s);
        let up = tangent.cross(&mark) * self.sign;
        middle + (mark * angle.cos() + up * angle.sin()) * (share * polar(self.tube, s + self.trim, angle))
    }

    /// Those of [`Self::places`] with their points.
    pub fn samples(&self) -> Vec<Sample> {
        self.places().into_iter().map(|place| (place, self.point(place))).collect()
    }

    /// Places all over the skin and the ends; more where a taper or an oval starts and ends.
    pub fn places(&self) -> Vec<Place> {
        let (from, to) = self.ends;
        let mut stations: Vec<f64> = (0..=250).map(|i| from + (to - from) * f64::from(i) / 250.0).collect();
        for oval in self.tube.ovals.list.iter() {
            let blend = oval.blend.mm();
            let knots = [oval.from.mm() - blend, oval.from.mm(), oval.to.mm(), oval.to.mm() + blend];
            stations.extend(knots.map(|raw| raw - self.trim).into_iter().filter(|s| from <= *s && *s <= to));
        }
        let taper = (self.tube.taper_start.mm() - self.trim, self.tube.taper_end.mm() - self.trim);
        let along = (0..=20).map(|i| taper.0 + (taper.1 - taper.0) * f64::from(i) / 20.0);
        stations.extend(along.filter(|s| from <= *s && *s <= to));
        let around = || (0..72).map(|i| f64::from(i).to_radians() * 5.0);
        let skin = stations.iter().flat_map(|s| around().map(|angle| [*s, 1.0, angle]));
        let circles = [from, to].into_iter().flat_map(|s| (0..8).map(move |i| (s, f64::from(i) / 8.0)));
        let faces = circles.flat_map(|(s, share)| around().map(move |angle| [s, share, angle]));
        skin.chain(faces).collect()
    }

    /// The least value of `distance` all over the stay, from its lowest samples on.
    pub fn least(&self, places: &[Sample], distance: impl Fn(&Point3<f64>) -> f64) -> f64 {
        let mut rough: Vec<(f64, Place)> =
            places.iter().map(|(place, point)| (distance(point), *place)).collect();
        rough.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut starts: Vec<Place> = Vec::new();
        for (_, place) in rough {
            let beside =
                |known: &Place| (known[0] - place[0]).abs() <= 4.0 && (known[1] < 1.0) == (place[1] < 1.0);
            if starts.len() < 4 && !starts.iter().any(beside) {
                starts.push(place);
            }
        }
        starts.into_iter().map(|start| self.narrowed(start, &distance).1).fold(f64::INFINITY, f64::min)
    }

    /// The lowest place about one, and the value there. On an end the steps go straight across it.
    fn narrowed(&self, start: Place, distance: &impl Fn(&Point3<f64>) -> f64) -> (Place, f64) {
        let (mut best, mut least) = (start, distance(&self.point(start)));
        let on_end = start[1] < 1.0;
        let grid = || (-4..=4).map(|i| f64::from(i) / 4.0);
        let stepped = |[station, share, angle]: Place, i: f64, j: f64| {
            if on_end {
                let (across, up) = (share * angle.cos() + 0.1 * i, share * angle.sin() + 0.1 * j);
                [station, across.hypot(up).min(1.0), up.atan2(across)]
            } else {
                [(station + 2.0 * i).max(self.ends.0).min(self.ends.1), share, angle + 0.1 * j]
            }
        };
        let mut reach = 1.0;
        for _ in 0..80 {
            let middle = best;
            for (i, j) in grid().flat_map(|i| grid().map(move |j| (i, j))) {
                let place = stepped(middle, reach * i, reach * j);
                let value = distance(&self.point(place));
                if value < least {
                    (best, least) = (place, value);
                }
            }
            reach *= 0.8;
        }
        (best, least)
    }
}

/// The least distance of two stays' skins and ends: of all pairs of coarse samples the lowest, narrowed on either in turn.
pub fn least_between(one: &Skin<'_>, other: &Skin<'_>) -> f64 {
    let places = |skin: &Skin<'_>| -> Vec<Sample> {
        let all = skin.places().into_iter().step_by(7);
        all.map(|place| (place, skin.point(place))).collect()
    };
    let (mine, others) = (places(one), places(other));
    let pairs = mine.iter().flat_map(|a| others.iter().map(move |b| ((a.1 - b.1).norm(), a.0, b.0)));
    let mut starts: Vec<(f64, Place, Place)> = Vec::new();
    for pair in pairs {
        let beside = starts.iter_mut().find(|known| (known.1[0] - pair.1[0]).abs() < 20.0);
        match beside {
            Some(known) if pair.0 < known.0 => *known = pair,
            None => starts.push(pair),
            _ => {}
        }
    }
    starts.sort_by(|a, b| a.0.total_cmp(&b.0));
    let settle = |(_, here, there): &(f64, Place, Place)| {
        let (mut here, mut there, mut least) = (*here, *there, f64::INFINITY);
        for _ in 0..12 {
            (here, _) = one.narrowed(here, &|point: &Point3<f64>| (point - other.point(there)).norm());
            (there, least) = other.narrowed(there, &|point: &Point3<f64>| (point - one.point(here)).norm());
        }
        least
    };
    starts.iter().take(3).map(settle).fold(f64::INFINITY, f64::min)
}
