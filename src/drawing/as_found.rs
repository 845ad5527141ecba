//! A pair of finished stays as found, beside the plan.

use super::area::Area;
use super::canvas::{Canvas, Margins};
use super::sheet::{Anchor, Pen, Point, Sheet, Viewport};
use super::tube::Drawn;
use super::view::View;
use crate::model::{Hand, PairName};
use crate::plan::{Plan, Stay};
use crate::units::{Bounds, Length, trimmed};
use serde::{Deserialize, Serialize};

/// By how much one stay differs from the plan.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Differs {
    /// Its length, mm.
    pub length: f64,
    /// The sharp angle of its front cope, degrees; on the shell it turns the stay across the fixture.
    pub front_angle: f64,
    /// How far outboard of its place its dropout sits, mm.
    pub dropout: f64,
}

/// The largest difference is drawn this part of the stays' length.
const SHOWN: f64 = 0.12;

/// The lettering for which the lines are fine enough when room is measured out, mm.
const ROUGH: f64 = 8.0;

/// Smaller differences than this shows are none.
const MOST: f64 = 1000.0;

/// The pair's axes as planned and, differences drawn larger by a whole factor that the sheet tells, as found; right, then
/// left.
pub fn as_found(plan: &Plan, name: PairName, differs: [Differs; 2], viewport: Viewport) -> Sheet {
    let pair = plan.pair(name);
    let view = View::clamp_plane(&pair.right.clamp);
    let stays = Hand::ALL.map(|hand| Drawn::new(pair.stay(hand), &plan.job.pair(name).side(hand).tube, view));
    let [right, left] = differs;
    let by = [(&pair.right, right), (&pair.left, left)].map(|(stay, by)| moves(stay, by, name));
    let largest = by.iter().map(|by| by.x.hypot(by.y)).fold(0.0, f64::max);
    let factor = factor(chord(&pair.right), largest);
    let by = by.map(|by| Point::new(by.x * factor, by.y * factor));
    let rough = stays.iter().zip(by).flat_map(|(stay, by)| both(stay, by, ROUGH).concat());
    let margins = Margins { left: 4.0, right: 4.0, top: 2.2, bottom: 2.6 };
    let title = format!("As found, {}", name.name());
    let mut canvas = Canvas::new(title, Area::of(rough), margins, viewport);
    let words = format!("differences drawn {} times", trimmed(factor, 0));
    canvas.note(
        "",
        &words,
        &[(Point::new(canvas.right(), canvas.bottom() - 0.4 * canvas.letter), Anchor::End)],
    );
    for ((stay, differs), by) in stays.iter().zip(differs).zip(by) {
        draw(&mut canvas, stay, differs, by);
    }
    let text = told(&canvas, name, differs, factor);
    canvas.finish(text)
}

/// Straight from reference point to reference point, mm.
fn chord(stay: &Stay) -> f64 {
    stay.bent.as_ref().map_or(stay.length, |bent| bent.chord).mm()
}

/// A stay's middle line as planned and as found. What moves its dropout moves the rest of it as far as it is along the stay.
fn both(stay: &Drawn<'_>, by: Point, letter: f64) -> [Vec<Point>; 2] {
    let planned = stay.between_points(letter);
    let found = planned.iter().map(|(share, place)| place.plus(by.x * share, by.y * share)).collect();
    [planned.iter().map(|(_, place)| *place).collect(), found]
}

/// How far the dropout has moved on the sheet, true to scale.
fn moves(stay: &Stay, by: Differs, name: PairName) -> Point {
    let length = chord(stay);
    let splay = stay.splay.radians();
    // On the seat tube the axle takes the stay along: its angle shows in the joint, not here. A blunter cope on the shell
    // splays the stay less, a stay that runs inwards more.
    let turned =
        if name == PairName::Chainstays { -by.front_angle.to_radians() * splay.signum() } else { 0.0 };
    let out = by.length * splay.sin() + length * turned * splay.cos() + by.dropout;
    let back = by.length * splay.cos() - length * turned * splay.sin();
    Point::new(-back, stay.hand.sign() * out)
}

fn factor(length: f64, largest: f64) -> f64 {
    if largest < 1e-6 { 1.0 } else { Bounds::new(1.0, MOST).nearest((SHOWN * length / largest).floor()) }
}

fn draw(canvas: &mut Canvas, stay: &Drawn<'_>, differs: Differs, by: Point) {
    let h = canvas.letter;
    let [planned, found] = both(stay, by, h);
    let (Some(front), Some(rear), Some(dropout)) =
        (planned.first().copied(), planned.last().copied(), found.last().copied())
    else {
        return;
    };
    let chord = Point::new(0.5 * (front.x + dropout.x), 0.5 * (front.y + dropout.y));
    let middle = found.get(found.len() / 2).copied().filter(|_| found.len() > 2).unwrap_or(chord);
    canvas.chain(Pen::Axis, "", planned);
    canvas.chain(Pen::Visible, "", found);
    canvas.cross("", rear, 6.0);
    canvas.circle(Pen::Visible, "", dropout, 4.0);
    let more = Length::from_mm(differs.length.abs());
    let word = if differs.length < 0.0 { "short" } else { "long" };
    let text =
        if more.mm() < 0.005 { "as planned".to_owned() } else { format!("{} {word}", canvas.said(more)) };
    let out = stay.hand().sign();
    let places =
        [1.2, 1.8, 2.4, -1.2, -2.4].map(|lines| (middle.plus(0.0, (out * lines + 0.3) * h), Anchor::Middle));
    canvas.note("", &text, &places);
}

fn told(canvas: &Canvas, name: PairName, differs: [Differs; 2], factor: f64) -> String {
    let one = |(hand, by): (Hand, Differs)| {
        format!(
            "the {} one is {} longer, its dropout {} further out",
            hand.key(),
            canvas.said(Length::from_mm(by.length)),
            canvas.said(Length::from_mm(by.dropout)),
        )
    };
    let [right, left] = [(Hand::Right, differs[0]), (Hand::Left, differs[1])].map(one);
    format!(
        "The {} as found beside the plan, differences drawn {} times: {right}; {left}.",
        name.name(),
        trimmed(factor, 0)
    )
}
