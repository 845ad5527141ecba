//! Flat shading: a few tones by the direction of a facet.

use super::turn::SceneView;
use nalgebra::Vector3;

/// The lightest tone; the darkest is 0.
pub const LIGHTEST: u8 = 5;

/// Where the light comes from: to the right, up and towards the viewer. It stays as it is when the scene turns.
const LIGHT: [f64; 3] = [-0.42, 0.66, 0.62];

/// What a facet has that is turned away from the light, as a share of the lightest.
const AMBIENT: f64 = 0.3;

/// The tone of a facet with that normal.
pub(super) fn tone(normal: &Vector3<f64>, view: &SceneView) -> u8 {
    let [right, up, towards] = LIGHT;
    let light = view.right * right + view.up * up + view.towards * towards;
    let bright = (normal.dot(&light) + AMBIENT) / (1.0 + AMBIENT);
    let tone = (bright * f64::from(LIGHTEST)).round();
    tone.max(0.0).min(f64::from(LIGHTEST)) as u8
}
