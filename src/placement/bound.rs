//! The most that the least of several linear functions can be on a rectangle.

use crate::plan::Placement;

/// As many functions are combined, the lowest; the others count one by one.
const COMBINED: usize = 6;

/// A linear function of a change of placement.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Linear {
    /// Without a change, mm.
    pub(super) value: f64,
    /// Slopes: mm by mm of front trim, and by radian of roll.
    pub(super) slope: Placement,
}

impl Linear {
    /// The same value everywhere.
    pub(super) const fn level(value: f64) -> Self {
        Self { value, slope: Placement { trim: 0.0, roll: 0.0 } }
    }

    /// The most for changes of at most `half` either way.
    pub(super) fn most(&self, half: &Placement) -> f64 {
        self.value + self.slope.trim.abs() * half.trim + self.slope.roll.abs() * half.roll
    }

    /// `share` of this and the rest of another.
    fn mixed(&self, other: &Self, share: f64) -> Self {
        let mix = |a: f64, b: f64| a * share + b * (1.0 - share);
        let slope = Placement {
            trim: mix(self.slope.trim, other.slope.trim),
            roll: mix(self.slope.roll, other.slope.roll),
        };
        Self { value: mix(self.value, other.value), slope }
    }

    fn cross(&self, other: &Self) -> f64 {
        self.slope.trim * other.slope.roll - self.slope.roll * other.slope.trim
    }
}

/// An upper bound on the least of the functions, over changes of at most `half` either way.
///
/// No mixture of functions is below their least, so the most of any mixture bounds it: of single ones, of two where their slopes
/// along one side cancel, and of three where all slopes cancel. Exact but for optima at which one side of the rectangle and three
/// functions decide.
pub(super) fn most_of_least(functions: &[Linear], half: &Placement) -> f64 {
    let mut ranked: Vec<(f64, Linear)> = functions.iter().map(|it| (it.most(half), *it)).collect();
    ranked.sort_by(|a, b| a.0.total_cmp(&b.0));
    ranked.truncate(COMBINED);
    let mut least = ranked.first().map_or(f64::INFINITY, |(most, _)| *most);
    for (i, (_, one)) in ranked.iter().enumerate() {
        for (j, (_, two)) in ranked.iter().enumerate().skip(i + 1) {
            least = least.min(of_two(one, two, half));
            for (_, three) in ranked.iter().skip(j + 1) {
                least = least.min(of_three(one, two, three));
            }
        }
    }
    least
}

/// The mixtures of two in which a slope vanishes.
fn of_two(one: &Linear, two: &Linear, half: &Placement) -> f64 {
    let shares = [
        two.slope.trim / (two.slope.trim - one.slope.trim),
        two.slope.roll / (two.slope.roll - one.slope.roll),
    ];
    let within = shares.into_iter().filter(|share| 0.0 < *share && *share < 1.0);
    within.map(|share| one.mixed(two, share).most(half)).fold(f64::INFINITY, f64::min)
}

/// The mixture of three in which all slopes vanish; infinite where there is none.
fn of_three(one: &Linear, two: &Linear, three: &Linear) -> f64 {
    let shares = [two.cross(three), three.cross(one), one.cross(two)];
    let sum: f64 = shares.iter().sum();
    if shares.iter().any(|share| *share * sum <= 0.0) {
        return f64::INFINITY;
    }
    let values = [one, two, three].map(|it| it.value);
    shares.iter().zip(values).map(|(share, value)| share / sum * value).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(value: f64, trim: f64, roll: f64) -> Linear {
        Linear { value, slope: Placement { trim, roll } }
    }

    const HALF: Placement = Placement { trim: 2.0, roll: 0.5 };

    /// By hand: a ridge between 1 + x and 3 − x is 2 high at x = 1; a roof of three meets at the mean of their heights.
    #[test]
    fn opposite_slopes_hold_each_other_down() {
        assert_eq!(most_of_least(&[line(1.0, 1.0, 0.0), line(3.0, -1.0, 0.0)], &HALF), 2.0);
        let roof = [line(1.0, 0.0, 1.0), line(1.0, 0.5, -0.5), line(4.0, -0.5, -0.5)];
        assert!((most_of_least(&roof, &Placement { trim: 9.0, roll: 9.0 }) - 2.0).abs() < 1e-12);
        // The first alone holds it down where the roll goes no further.
        assert_eq!(most_of_least(&roof, &HALF), 1.5);
        assert_eq!(most_of_least(&[], &HALF), f64::INFINITY);
        assert_eq!(most_of_least(&[line(1.0, 3.0, 4.0)], &HALF), 9.0);
    }

    /// Against dense samples: never below what is there, and mostly no higher than it.
    #[test]
    fn it_bounds_what_samples_find() {
        let part = |i: u32, share: f64| (f64::from(i) * share).fract() - 0.5;
        let mut tight = 0;
        for i in 1..400 {
            let functions: Vec<Linear> = (0..5)
                .map(|k| 5 * i + k)
                .map(|k| line(part(k, 0.819_17), 2.0 * part(k, 0.671_04), 8.0 * part(k, 0.549_7)))
                .collect();
            let at = |trim: f64, roll: f64| {
                let values =
                    functions.iter().map(|it| it.value + it.slope.trim * trim + it.slope.roll * roll);
                values.fold(f64::INFINITY, f64::min)
            };
            let steps = || (-20..=20).map(|k| f64::from(k) / 20.0);
            let sampled =
                steps().flat_map(|x| steps().map(move |y| (x, y))).map(|(x, y)| at(2.0 * x, 0.5 * y));
            let (sampled, bound) =
                (sampled.fold(f64::NEG_INFINITY, f64::max), most_of_least(&functions, &HALF));
            assert!(bound >= sampled - 1e-9, "{i}: {bound} {sampled}");
            tight += u32::from(bound < sampled + 0.15);
        }
        assert!(tight > 300, "{tight}");
    }
}
