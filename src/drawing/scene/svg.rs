//! A scene as SVG, whose classes the page's styles know.

use super::assembly::Scene;
use super::merge::{Patch, patches};
use super::turn::Turn;
use crate::drawing::Point;
use crate::drawing::svg::{EDGE, escaped, px};
use crate::units::write_fixed;

/// The scale of a picture and where its middle lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SceneScale {
    /// Dots to the millimetre.
    pub px_per_mm: f64,
    /// Width and height of the picture, in dots.
    pub size: (f64, f64),
    /// The place on the sheet, mm, that lies in the picture's middle.
    pub middle: Point,
}

/// One path of a picture.
#[derive(Clone, Debug, PartialEq)]
pub struct ScenePath {
    /// Its classes.
    pub class: String,
    /// The part that it shows, by its key; nothing for lines.
    pub part: String,
    /// Where it runs, in dots.
    pub d: String,
}

impl SceneScale {
    /// The scale at which a scene fills a picture of that size, in dots.
    pub fn fit(scene: &Scene, turn: Turn, size: (f64, f64)) -> Self {
        let [min, max] = scene.bounds(turn);
        let room = |dots: f64, mm: f64| (dots - 2.0 * EDGE).max(1.0) / mm.max(1.0);
        let px_per_mm = room(size.0, max.x - min.x).min(room(size.1, max.y - min.y)).max(0.01);
        Self { px_per_mm, size, middle: min.towards(max, 0.5) }
    }

    /// A place on the sheet, in dots.
    pub fn at(self, point: Point) -> (f64, f64) {
        let x = (point.x - self.middle.x) * self.px_per_mm + self.size.0 / 2.0;
        (x, (point.y - self.middle.y) * self.px_per_mm + self.size.1 / 2.0)
    }
}

impl Scene {
    /// The paths of the scene at a turn, the first painted first: areas with a material and a tone, and the lines over them.
    pub fn paths(&self, turn: Turn, scale: SceneScale) -> Vec<ScenePath> {
        patches(self.painted(turn)).iter().flat_map(|patch| self.drawn(patch, scale)).collect()
    }

    fn drawn(&self, patch: &Patch, scale: SceneScale) -> Vec<ScenePath> {
        let Some(body) = self.bodies.get(patch.body) else { return Vec::new() };
        let class = format!("{} tone-{}", body.material.class(), patch.tone);
        let area = ScenePath { class, part: body.part.key(), d: written(&patch.areas, true, scale) };
        let lines = ScenePath {
            class: "scene-edge".into(),
            part: String::new(),
            d: written(&patch.lines, false, scale),
        };
        [area, lines].into_iter().filter(|path| !path.d.is_empty()).collect()
    }

    /// The scene at a turn as the text of an `svg` element of that size in dots.
    pub fn svg(&self, turn: Turn, size: (f64, f64)) -> String {
        let paths = self.paths(turn, SceneScale::fit(self, turn, size));
        let path = |ScenePath { class, part, d }: &ScenePath| {
            let part = if part.is_empty() { String::new() } else { format!(r#" data-part="{part}""#) };
            format!(r#"<path class="{class}"{part} d="{d}"/>"#)
        };
        let marks: String = paths.iter().map(path).collect();
        format!(
            r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {} {}" role="img" aria-label="{}"><g class="scene" aria-hidden="true">{marks}</g></svg>"#,
            px(size.0),
            px(size.1),
            escaped(&self.text)
        )
    }
}

/// Chains as the data of a path.
fn written(chains: &[Vec<Point>], closed: bool, scale: SceneScale) -> String {
    let mut d = String::new();
    for chain in chains {
        let mut letter = 'M';
        for point in chain {
            let (x, y) = scale.at(*point);
            d.push(letter);
            write_fixed(&mut d, x, 1);
            d.push(' ');
            write_fixed(&mut d, y, 1);
            letter = 'L';
        }
        if closed {
            d.push('Z');
        }
    }
    d
}
