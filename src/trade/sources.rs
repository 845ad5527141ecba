//! Where the starting figures of the surroundings come from, and how sure each is.

use super::shop::Sure;

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
