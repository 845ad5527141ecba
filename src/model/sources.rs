//! Where the starting figures of the surroundings come from, and how sure each is.

use super::group::Group;
use super::shop::Sure;
use super::surroundings::Surroundings;

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

/// What is published for the figures of [`super::Surroundings`]. Figures that are not named here start from memory.
pub const SOURCES: [Sourced; 11] = [
    sourced("limits.tyre_mm", 1.6, "16 CFR 1512.11(b): wheel to fork or any frame member", Sure::Read),
    sourced("limits.tyre_mm", 4.0, "EN 14781:2005, 4.10.2, racing bicycles", Sure::Quoted),
    sourced("limits.tyre_mm", 6.0, "ISO 4210-2, other bicycles", Sure::Remembered),
    sourced("limits.chainring_mm", 3.0, "a ring maker's advice", Sure::Quoted),
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_source_is_of_a_figure_that_there_is() {
        for known in SOURCES {
            assert_ne!(known.name(), "", "{}", known.key);
        }
    }
}
