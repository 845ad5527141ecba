//! Where the starting figures of the surroundings come from, and how sure each is.

use super::group::Group;
use super::shop::Sure;
use super::surroundings::Surroundings;
use serde::{Deserialize, Serialize};

/// A published or remembered figure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sourced {
    /// The key of the figure below `surroundings`.
    pub key: &'static str,
    /// The figure, in the key's unit.
    pub value: f64,
    /// Where it stands, and for what.
    pub source: &'static str,
    /// How sure it is.
    pub sure: Sure,
}

impl Sourced {
    /// What the figure is called.
    pub fn name(&self) -> &'static str {
        let key = self.key.rsplit('.').next().unwrap_or_default();
        let mut name = "";
        let group = self.key.split('.').next().unwrap_or_default();
        Surroundings::starting().each("", &mut |path, spec, _| {
            if path.starts_with(group) && spec.key == key {
                name = spec.name;
            }
        });
        name
    }
}

const fn sourced(key: &'static str, value: f64, source: &'static str, sure: Sure) -> Sourced {
    Sourced { key, value, source, sure }
}

/// Figures that differ by less are the same.
const SAME: f64 = 1e-6;

/// What is published for the figures of [`super::Surroundings`]. Figures that are not named here start from memory.
pub const SOURCES: [Sourced; 10] = [
    sourced("limits.tyre_mm", 1.6, "16 CFR 1512.11(b): wheel to fork or any frame member", Sure::Read),
    sourced("limits.tyre_mm", 4.0, "EN 14781:2005, 4.10.2, racing bicycles", Sure::Quoted),
    sourced("limits.tyre_mm", 6.0, "ISO 4210-2, other bicycles", Sure::Remembered),
    sourced("limits.run_out_mm", 0.8, "TBIS 15194:2019, table 22, column order unclear", Sure::Quoted),
    sourced("chainrings.chainline_mm", 42.0, "common practice, track and single road ring", Sure::Quoted),
    sourced("chainrings.chainline_mm", 43.5, "common practice, middle of a road double", Sure::Quoted),
    sourced(
        "chainrings.chainline_mm",
        52.0,
        "common practice, single ring on a triple's place",
        Sure::Quoted,
    ),
    sourced("sprocket.chain_width_mm", 7.1, "chain list, 8 sprockets", Sure::Quoted),
    sourced("sprocket.chain_width_mm", 6.8, "chain list, 9 sprockets", Sure::Quoted),
    sourced("sprocket.chain_width_mm", 6.2, "chain list, 10 sprockets", Sure::Quoted),
];

/// What a limit rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Basis {
    /// It is a published figure.
    Published,
    /// It is the figure that jobs start with: a shop habit, without a source.
    Habit,
    /// The builder chose it.
    Own,
}

/// What a figure of the surroundings rests on; `key` as in [`Sourced::key`], the value in the key's unit.
pub fn basis(key: &str, value: f64) -> Basis {
    let same = |known: f64| (known - value).abs() < SAME;
    let is_known = |known: &&Sourced| known.key == key && same(known.value);
    if SOURCES.iter().find(is_known).is_some_and(|known| known.sure != Sure::Remembered) {
        return Basis::Published;
    }
    let mut basis = Basis::Own;
    Surroundings::starting().each("", &mut |path, _, start| {
        if path == key && value != 0.0 && same(start) {
            basis = Basis::Habit;
        }
    });
    basis
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_limit_says_what_it_rests_on() {
        assert_eq!(basis("limits.tyre_mm", 4.0), Basis::Published);
        assert_eq!(basis("limits.tyre_mm", 6.0), Basis::Habit);
        assert_eq!(basis("limits.heel_mm", 5.0), Basis::Habit);
        assert_eq!(basis("limits.heel_mm", 5.5), Basis::Own);
        assert_eq!(basis("limits.caliper_mm", 0.0), Basis::Own);
    }

    #[test]
    fn every_source_is_of_a_figure_that_there_is() {
        for known in SOURCES {
            assert_ne!(known.name(), "", "{}", known.key);
        }
    }
}
