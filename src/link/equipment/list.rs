//! Lists that may be one of those a shop can start with.

use crate::link::pass::length;
use crate::link::pen::Pen;

/// As many items as a list is read with: far more than any shop may have.
const MOST_ITEMS: usize = 1000;

/// A list, whole where it is one of `known`; else each item by what is not as in the one before it, the first by what is not
/// as in `start`.
pub(super) fn list<I: Clone + PartialEq>(
    pen: &mut dyn Pen,
    items: &[I],
    known: &[Vec<I>],
    start: &I,
    item: fn(&mut dyn Pen, &I, &I) -> Option<I>,
) -> Option<Vec<I>> {
    let own = known.len();
    let place = known.iter().position(|list| list == items);
    let place = length(pen, place.unwrap_or(own.saturating_add(items.len())))?;
    if let Some(list) = known.get(place) {
        return Some(list.clone());
    }
    if place - own > MOST_ITEMS {
        return None;
    }
    let mut passed: Vec<I> = Vec::new();
    for place in 0..place - own {
        let before = passed.last().unwrap_or(start);
        let next = item(pen, items.get(place).unwrap_or(before), before)?;
        passed.push(next);
    }
    Some(passed)
}

/// Figures, whole where they are those of `known`.
pub(super) fn numbers(pen: &mut dyn Pen, values: &[f64], known: &[f64]) -> Option<Vec<f64>> {
    let number = |pen: &mut dyn Pen, value: &f64, _: &f64| pen.number(*value);
    list(pen, values, &[known.to_vec()], &0.0, number)
}
