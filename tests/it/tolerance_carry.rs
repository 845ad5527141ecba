//! The carrying of errors against published worked examples and closed forms.

use proptest::prelude::*;
use staywright::tolerance::{
    Budget, Distribution, Input, Model, allocations, budget, chi_square_above, normal_below, normal_between,
    sample, slopes, worked_examples,
};
use staywright::units::Real;

fn student(standard: f64, freedom: u32) -> Distribution {
    Distribution::Student { standard, freedom }
}

fn rectangular(half_width: f64) -> Distribution {
    Distribution::Rectangular { half_width }
}

fn one_budget<M: Model>(model: &M, inputs: &[Input]) -> Budget {
    budget(slopes(model, inputs)[0].as_ref().unwrap(), inputs)
}

/// JCGM 100 H.1 (end gauge), JCGM 101 9.5 (gauge block, drawn) and a stack of parts. Which figures were read and which are
/// from memory stands in each example's own source.
#[test]
fn published_examples_come_out_as_published() {
    let worked = worked_examples(200_000, 1);
    assert_eq!(worked.iter().map(|worked| worked.figures.len()).collect::<Vec<_>>(), [7, 4, 3]);
    for worked in worked {
        for figure in &worked.figures {
            assert!(figure.agrees(), "{}: {figure:?}", worked.name);
        }
    }
}

/// The slopes miss what products of errors add; drawing shows it.
#[test]
fn drawing_shows_what_slopes_miss() {
    struct Product;
    impl Model for Product {
        fn results<T: Real>(&self, x: &[T]) -> Vec<Option<T>> {
            vec![Some(x[0] * x[1])]
        }
    }
    let inputs = [Input::new(0.0, rectangular(2.0)), Input::new(0.0, rectangular(3.0))];
    assert_eq!(one_budget(&Product, &inputs).standard, 0.0);
    // By hand: the variance of a product of independent errors about 0 is the product of their variances.
    let drawn = sample(&Product, &inputs, 50_000, 2)[0].standard().unwrap();
    assert!((drawn - 2.0).abs() < 0.03, "{drawn}");
}

#[test]
fn the_same_seed_draws_the_same() {
    let inputs = [40.0, 25.0, 2.0, 10.0].map(|nominal| Input::new(nominal, student(0.1, 5)));
    let draw = |seed| sample(&Stack, &inputs, 500, seed);
    assert_eq!(draw(7), draw(7));
    assert_ne!(draw(7)[0].sorted, draw(8)[0].sorted);
}

/// What is left of a bore over three parts in it.
struct Stack;

impl Model for Stack {
    fn results<T: Real>(&self, x: &[T]) -> Vec<Option<T>> {
        vec![Some(x[0] - x[1] - x[2] - x[3])]
    }
}

/// By hand: the limits given back, put in again, give the limit that was asked for.
#[test]
fn held_to_what_is_given_back_the_result_keeps_its_limit() {
    let inputs = [40.0, 25.0, 2.0, 10.0].map(|nominal| Input::new(nominal, rectangular(0.2)));
    let found = one_budget(&Stack, &inputs);
    let held = allocations(&found, &inputs, 0.5);
    assert_eq!(held.len(), 4);
    let with = |width: fn(&staywright::tolerance::ToleranceAllocation) -> f64| {
        let mut inputs = inputs;
        for held in &held {
            inputs[held.input].spread = rectangular(width(held));
        }
        one_budget(&Stack, &inputs)
    };
    assert!((with(|held| held.by_worst).worst - 0.5).abs() < 1e-12);
    assert!((with(|held| held.by_squares).standard * 2.0 - 0.5).abs() < 1e-12);
    assert!(held.iter().all(|held| (held.alone - 0.5).abs() < 1e-12));
}

/// A function with a result that does not exist for half of its inputs, and one that never does.
struct Half;

impl Model for Half {
    fn results<T: Real>(&self, x: &[T]) -> Vec<Option<T>> {
        vec![(x[0].value() >= 0.0).then(|| x[0].sqrt()), None]
    }
}

#[test]
fn results_that_do_not_exist_are_counted() {
    let at = |estimate| [Input::new(estimate, rectangular(1.0))];
    assert!(slopes(&Half, &at(4.0))[0].as_ref().is_some_and(|found| (found.slopes[0] - 0.25).abs() < 1e-15));
    // At 0 the root's slope is infinite: no slope is given, rather than an infinite one.
    assert_eq!(slopes(&Half, &at(0.0)), [None, None]);
    assert_eq!(slopes(&Half, &at(-1.0)), [None, None]);
    let drawn = sample(&Half, &at(0.0), 4000, 3);
    assert!((drawn[0].missing as f64 / 4000.0 - 0.5).abs() < 0.04);
    assert_eq!((drawn[1].missing, drawn[1].mean(), drawn[1].interval(0.9)), (4000, None, None));
    assert!(sample(&Half, &at(0.0), 0, 3).is_empty());
}

/// Closed forms of the spreads: JCGM 101 table 1, and for inexact limits w²/3 + d²/9 (its 6.4.3.4). Student's t drawn
/// has ν/(ν − 2) times the scale's square.
#[test]
fn every_spread_is_drawn_as_wide_as_it_says() {
    struct Same;
    impl Model for Same {
        fn results<T: Real>(&self, x: &[T]) -> Vec<Option<T>> {
            vec![Some(x[0])]
        }
    }
    let spreads = [
        (Distribution::Exact, 0.0),
        (rectangular(3.0), 3.0),
        (Distribution::Triangular { half_width: 6.0 }, 6.0),
        (Distribution::Arcsine { half_width: 2.0 }, 2.0),
        (Distribution::InexactLimits { half_width: 2.0, doubt: 1.0 }, 4.0 / 3.0 + 1.0 / 9.0),
        (Distribution::Normal { standard: 1.5 }, 2.25),
        (student(2.0, 10), 5.0),
    ];
    for (spread, variance) in spreads {
        assert!(spread.is_sound());
        let drawn = &sample(&Same, &[Input::new(10.0, spread)], 40_000, 11)[0];
        let found = drawn.standard().unwrap().powi(2);
        assert!((found - variance).abs() <= 0.06 * variance, "{spread:?}: {found}");
        assert!((drawn.mean().unwrap() - 10.0).abs() <= 0.02 * (1.0 + variance.sqrt()));
        if !matches!(spread, Distribution::Student { .. }) {
            assert!((spread.standard().powi(2) - variance).abs() < 1e-12, "{spread:?}");
            let wider = spread.with_standard(7.0).standard();
            assert!((wider - 7.0).abs() < 1e-12, "{spread:?}");
        }
    }
    assert!(
        !rectangular(-1.0).is_sound() && !rectangular(f64::NAN).is_sound() && !student(1.0, 0).is_sound()
    );
}

/// The table of chi-square's upper 5 % and 1 % points that every handbook prints (from memory).
#[test]
fn chi_square_has_its_tabled_points() {
    let table = [
        (1, 3.841, 6.635),
        (2, 5.991, 9.210),
        (3, 7.815, 11.345),
        (4, 9.488, 13.277),
        (5, 11.070, 15.086),
        (10, 18.307, 23.209),
        (15, 24.996, 30.578),
    ];
    for (freedom, five, one) in table {
        assert!((chi_square_above(five, freedom) - 0.05).abs() < 1e-4, "{freedom}");
        assert!((chi_square_above(one, freedom) - 0.01).abs() < 1e-4, "{freedom}");
    }
    assert_eq!((chi_square_above(3.0, 0), chi_square_above(0.0, 4)), (1.0, 1.0));
}

/// The normal table (from memory): 1.645 has 95 % below it, 1.96 has 97.5 %.
#[test]
fn the_normal_table() {
    assert!((normal_below(1.644_854) - 0.95).abs() < 1e-6);
    assert!((normal_between(0.0, 2.0, -3.919_928, 3.919_928) - 0.95).abs() < 1e-6);
    assert_eq!((normal_between(1.0, 0.0, 0.0, 1.0), normal_between(1.1, 0.0, 0.0, 1.0)), (1.0, 0.0));
    assert_eq!(normal_between(0.0, 1.0, f64::NEG_INFINITY, f64::INFINITY), 1.0);
}

proptest! {
    #[test]
    fn probabilities_stay_within_0_and_1(square in 0.0..1e6f64, freedom in 0usize..60, z in -1e3..1e3f64) {
        prop_assert!((0.0..=1.0).contains(&chi_square_above(square, freedom)));
        prop_assert!((0.0..=1.0).contains(&normal_below(z)));
    }
}
