//! What passes a pen: flags, choices, groups of figures, and what need not be there.
//!
//! Format 3 and the equipment are written so: nothing here may change what is written.

use super::pen::Pen;
use crate::model::{Group, InlineVec};

/// The figures of a group as they were when its format was given out: keys, and what each starts at. When a figure is
/// renamed later, [`place`] is where the old key is led to the new one.
pub(super) type Table = [(&'static str, f64)];

/// A choice whose every answer has a number for ever.
pub(super) trait Choice: Copy {
    /// The answer's number.
    fn number(self) -> u32;
    /// The answer of that number.
    fn of(number: u32) -> Option<Self>;
}

/// Numbers the answers of a choice.
macro_rules! numbered {
    ($Name:ident { $($Answer:ident = $number:literal),+ }) => {
        impl $crate::link::pass::Choice for $Name {
            fn number(self) -> u32 {
                match self { $(Self::$Answer => $number,)+ }
            }
            fn of(number: u32) -> Option<Self> {
                match number { $($number => Some(Self::$Answer),)+ _ => None }
            }
        }
    };
}
pub(super) use numbered;

fn place(table: &Table, key: &str) -> Option<usize> {
    table.iter().position(|(known, _)| *known == key)
}

/// The group with every figure that the format knows at its start.
pub(super) fn start<G: Group<f64, Over<f64> = G> + Default>(table: &Table) -> G {
    let start = |key: &str| table.iter().find(|(known, _)| *known == key).map(|(_, start)| *start);
    G::default().map("", &mut |key, _, value| start(key).unwrap_or(value))
}

pub(super) fn flag(pen: &mut dyn Pen, value: bool) -> Option<bool> {
    match pen.count(u32::from(value))? {
        0 => Some(false),
        1 => Some(true),
        _ => None,
    }
}

pub(super) fn choice<C: Choice>(pen: &mut dyn Pen, value: C) -> Option<C> {
    C::of(pen.count(value.number())?)
}

/// As many as there are of something.
pub(super) fn length(pen: &mut dyn Pen, value: usize) -> Option<usize> {
    let count = pen.count(u32::try_from(value).unwrap_or(u32::MAX))?;
    usize::try_from(count).ok()
}

/// A figure that need not be there.
pub(super) fn number_if_there(pen: &mut dyn Pen, value: Option<f64>) -> Option<Option<f64>> {
    let there = flag(pen, value.is_some())?;
    if there { pen.number(value.unwrap_or_default()).map(Some) } else { Some(None) }
}

/// A mark for each figure that is not as in `base`, then those figures.
pub(super) fn figures(pen: &mut dyn Pen, values: &[f64], base: &[f64]) -> Option<Vec<f64>> {
    let pairs = || values.iter().zip(base).enumerate();
    let mark =
        |(place, (value, base)): (usize, (&f64, &f64))| u32::from(value.to_bits() != base.to_bits()) << place;
    let marks = pen.count(pairs().map(mark).sum())?;
    if marks >> base.len() != 0 {
        return None;
    }
    let mut passed = |(place, (value, base)): (usize, (&f64, &f64))| {
        if marks >> place & 1 == 1 { pen.number(*value) } else { Some(*base) }
    };
    pairs().map(&mut passed).collect()
}

/// A group by what is not as in `base`.
pub(super) fn group<G: Group<f64, Over<f64> = G>>(
    pen: &mut dyn Pen,
    value: &G,
    base: &G,
    table: &Table,
) -> Option<G> {
    let known = |group: &G| {
        let mut known = vec![0.0; table.len()];
        group.each("", &mut |key, _, value| {
            if let Some(at) = place(table, key).and_then(|place| known.get_mut(place)) {
                *at = value;
            }
        });
        known
    };
    let passed = figures(pen, &known(value), &known(base))?;
    let found = |key: &str| passed.get(place(table, key)?).copied();
    Some(base.map("", &mut |key, _, value| found(key).unwrap_or(value)))
}

/// A group that need not be there.
pub(super) fn group_if_there<G: Group<f64, Over<f64> = G> + Default>(
    pen: &mut dyn Pen,
    value: Option<&G>,
    table: &Table,
) -> Option<Option<G>> {
    if !flag(pen, value.is_some())? {
        return Some(None);
    }
    let start = start(table);
    group(pen, value.unwrap_or(&start), &start, table).map(Some)
}

/// A short list, each item by what is not as at the same place of `base`, or as at the start beyond its end.
pub(super) fn few<G: Group<f64, Over<f64> = G> + Default, const N: usize>(
    pen: &mut dyn Pen,
    list: &InlineVec<G, N>,
    base: &InlineVec<G, N>,
    table: &Table,
) -> Option<InlineVec<G, N>> {
    let start = start(table);
    let mut passed = InlineVec::default();
    for place in 0..length(pen, list.len())? {
        let base = base.iter().nth(place).unwrap_or(&start);
        let item = group(pen, list.iter().nth(place).unwrap_or(base), base, table)?;
        passed.push(item).ok()?;
    }
    Some(passed)
}
