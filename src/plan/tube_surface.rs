//! A tube's outer surface and its wall, by station along its stay.

use crate::geometry::{Outline, OvalStretch};
use crate::model::{Press, Tube};
use crate::units::Real;

/// A tube's outer radius by station along its stay, where its front trim stands as entered.
pub fn stay_outline<T: Real>(tube: &Tube<T>) -> Outline<T> {
    outline_from(tube, tube.front_trim.mm())
}

/// A tube's outer radius by station from the place `trim` on it.
pub(crate) fn outline_from<T: Real>(tube: &Tube<T>, trim: T) -> Outline<T> {
    let half = T::of(0.5);
    let (front, rear) = (tube.od_front.mm() * half, tube.od_rear.mm() * half);
    if front == rear {
        return Outline::level(front);
    }
    Outline::through(&[(tube.taper_start.mm() - trim, front), (tube.taper_end.mm() - trim, rear)])
}

/// A tube's outer surface by station from the place `trim` on it, its ovals turned from the tube's own mark: the side that faces
/// outboard where it lies unrolled.
pub(crate) fn surface_from<T: Real>(tube: &Tube<T>, trim: T) -> Outline<T> {
    let half = T::of(0.5);
    let stretch = |oval: &Press<T>| OvalStretch {
        from: oval.from.mm() - trim,
        to: oval.to.mm() - trim,
        blend: oval.blend.mm(),
        halves: (oval.width.mm() * half, oval.height.mm() * half),
        turn: oval.roll.radians(),
    };
    let stretches: Vec<OvalStretch<T>> = tube.ovals.list.iter().map(stretch).collect();
    outline_from(tube, trim).pressed(&stretches)
}

/// A butted tube's wall by station from the place `trim` on it; `None` for a plain wall.
pub(super) fn wall_from<T: Real>(tube: &Tube<T>, trim: T) -> Option<Outline<T>> {
    let knots: Vec<(T, T)> =
        tube.butts.list.iter().map(|butt| (butt.at.mm() - trim, butt.wall.mm())).collect();
    (!knots.is_empty()).then(|| Outline::through(&knots))
}
