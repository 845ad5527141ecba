//! A pair of finished stays as found, beside the plan.

use super::canvas::{Canvas, Extent, Margins};
use super::sheet::{Anchor, Pen, Point, Room, Sheet};
use super::view::View;
use crate::plan::{Plan, Stay};
use crate::quantity::{Bounds, Length, trimmed};
use crate::trade::{Hand, PairName};
use nanoserde::{DeBin, SerBin};

/// By how much one stay differs from the plan.
#[derive(Clone, Copy, Debug, Default, PartialEq, SerBin, DeBin)]
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

/// Smaller differences than this shows are none.
const MOST: f64 = 1000.0;

/// The pair's axes as planned and, differences drawn larger by a whole factor that the sheet tells, as found; right, then
/// left.
pub fn as_found(plan: &Plan, name: PairName, differs: [Differs; 2], room: Room) -> Sheet {
    let pair = plan.pair(name);
    let view = View::clamp_plane(&pair.right.clamp);
    let stays = [(&pair.right, differs[0]), (&pair.left, differs[1])];
    let ends = stays.map(|(stay, by)| {
        (view.point(&stay.front_point), view.point(&stay.rear_point), moves(stay, by, name))
    });
    let largest = ends.iter().map(|(.., by)| by.x.hypot(by.y)).fold(0.0, f64::max);
    let factor = factor(pair.right.length.mm(), largest);
    let mut corners: Vec<Point> = ends.iter().flat_map(|(front, rear, _)| [*front, *rear]).collect();
    corners.extend(ends.iter().map(|(_, rear, by)| rear.plus(by.x * factor, by.y * factor)));
    let margins = Margins { side: 4.0, top: 2.2, bottom: 2.6 };
    let title = format!("As found, {}", name.name());
    let mut canvas = Canvas::new(title, Extent::of(corners), margins, room);
    for ((stay, by), (front, rear, moved)) in stays.iter().zip(&ends) {
        draw(&mut canvas, stay, *by, [*front, *rear], rear.plus(moved.x * factor, moved.y * factor));
    }
    let words = format!("differences drawn {} times", trimmed(factor, 0));
    canvas.note(
        "",
        &words,
        &[(Point::new(canvas.right(), canvas.bottom() - 0.4 * canvas.letter), Anchor::End)],
    );
    let text = told(&canvas, name, differs, factor);
    canvas.finish(text)
}

/// How far the dropout has moved on the sheet, true to scale.
fn moves(stay: &Stay, by: Differs, name: PairName) -> Point {
    let length = stay.length.mm();
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

fn draw(canvas: &mut Canvas, stay: &Stay, by: Differs, [front, rear]: [Point; 2], found: Point) {
    canvas.line(Pen::Axis, "", front, rear);
    canvas.line(Pen::Visible, "", front, found);
    canvas.cross("", rear, 6.0);
    canvas.circle(Pen::Visible, "", found, 4.0);
    let h = canvas.letter;
    let more = Length::from_mm(by.length.abs());
    let word = if by.length < 0.0 { "short" } else { "long" };
    let text =
        if more.mm() < 0.005 { "as planned".to_owned() } else { format!("{} {word}", canvas.said(more)) };
    let out = stay.hand.sign();
    let middle = Point::new(0.5 * (front.x + found.x), 0.5 * (front.y + found.y));
    let places = [1.2, 2.4, -1.2].map(|lines| (middle.plus(0.0, (out * lines + 0.3) * h), Anchor::Middle));
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
