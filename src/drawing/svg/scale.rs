//! From a sheet's millimetres to the screen's pixels.

use crate::drawing::{Point, Sheet};
use crate::units::fixed;

/// Room around a sheet for what stands at its edge, in px.
pub const EDGE: f64 = 12.0;

/// The one scale of a drawing and where its corner lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    /// Pixels to the millimetre.
    pub px_per_mm: f64,
    /// Size of the drawing, in px.
    pub width: f64,
    /// See `width`.
    pub height: f64,
    left: f64,
    top: f64,
}

impl Scale {
    /// The scale at which `sheet` fills `width` px, unless it would then be more than `most_high` px high.
    pub fn fit(sheet: &Sheet, width: f64, most_high: f64) -> Self {
        let (wide, high) = ((sheet.max.x - sheet.min.x).max(1.0), (sheet.max.y - sheet.min.y).max(1.0));
        let px_per_mm = ((width - 2.0 * EDGE) / wide).min((most_high - 2.0 * EDGE) / high).max(0.01);
        let height = high * px_per_mm + 2.0 * EDGE;
        let left = (width - wide * px_per_mm) / 2.0 - sheet.min.x * px_per_mm;
        Self { px_per_mm, width, height, left, top: EDGE - sheet.min.y * px_per_mm }
    }

    /// The scale while nothing is known of the room.
    pub const fn unknown() -> Self {
        Self { px_per_mm: 1.0, width: 0.0, height: 0.0, left: 0.0, top: 0.0 }
    }

    /// A point of the sheet, in px.
    pub fn at(self, point: Point) -> (f64, f64) {
        (self.left + point.x * self.px_per_mm, self.top + point.y * self.px_per_mm)
    }
}

/// A coordinate for markup. A tenth of a pixel is finer than can be seen.
pub fn px(value: f64) -> String {
    fixed(value, 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sheet(wide: f64, high: f64) -> Sheet {
        Sheet {
            title: String::new(),
            text: String::new(),
            min: Point { x: -10.0, y: -20.0 },
            max: Point { x: wide - 10.0, y: high - 20.0 },
            marks: Vec::new(),
            handles: Vec::new(),
        }
    }

    #[test]
    fn a_wide_sheet_fills_the_width_and_a_tall_one_the_height() {
        let wide = Scale::fit(&sheet(200.0, 10.0), 424.0, 300.0);
        assert_eq!((wide.px_per_mm, wide.height), (2.0, 44.0));
        assert_eq!(wide.at(Point { x: -10.0, y: -20.0 }), (12.0, 12.0));
        let tall = Scale::fit(&sheet(10.0, 100.0), 424.0, 124.0);
        assert_eq!((tall.px_per_mm, tall.height), (1.0, 124.0));
        assert_eq!(tall.at(Point { x: -5.0, y: 80.0 }), (212.0, 112.0));
    }
}
