//! What pulling a handle does to its figure.

use super::sheet::Point;
use serde::{Deserialize, Serialize};

/// How far and which way the hand goes on the sheet for each mm or degree of the figure, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Pull(pub Point);

impl Pull {
    /// By how many mm or degrees the figure changes where the hand goes by `by` on the sheet; a way across changes nothing.
    pub fn pulled(self, by: Point) -> f64 {
        let Self(along) = self;
        (by.x * along.x + by.y * along.y) / (along.x * along.x + along.y * along.y)
    }
}
