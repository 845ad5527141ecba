//! The surface of a tube with oval stretches, from its own figures.

use staywright::model::Tube;

/// Radius of an ellipse of that width and height in a direction from its width.
pub fn radius((width, height): (f64, f64), angle: f64) -> f64 {
    let (a, b) = (width / 2.0, height / 2.0);
    a * b / (b * angle.cos()).hypot(a * angle.sin())
}

/// The tube's own figures at a place of the raw tube: half width, half height and roll of the oval that is there or nearest, as
/// far as it has grown.
pub fn polar(tube: &Tube, raw: f64, angle: f64) -> f64 {
    let round = |raw: f64| {
        let (start, end) = (tube.taper_start.mm(), tube.taper_end.mm());
        let share = ((raw - start) / (end - start)).clamp(0.0, 1.0);
        0.5 * (tube.od_front.mm() + share * (tube.od_rear.mm() - tube.od_front.mm()))
    };
    for oval in tube.ovals.list.iter() {
        let (from, to, blend) = (oval.from.mm(), oval.to.mm(), oval.blend.mm());
        let there = radius((oval.width.mm(), oval.height.mm()), angle - oval.roll.radians());
        if raw > from - blend && raw < to + blend {
            let share = ((raw - from + blend) / blend).min((to + blend - raw) / blend).min(1.0);
            let edge = if raw < from { from - blend } else { to + blend };
            return round(edge) + share * (there - round(edge));
        }
    }
    round(raw)
}
