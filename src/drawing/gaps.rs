//! The room between two bodies, as a line with its figure.

use super::canvas::{Canvas, FAINT};
use super::sheet::{Anchor, Pen, Point};
use super::view::View;
use crate::units::{Length, ranked};
use nalgebra::Point3;

/// As many gaps get a figure, the tightest first.
const FIGURES: usize = 6;

/// As many tight ones get it even where lines pass through it.
const FORCED: usize = 3;

/// As many of the places about a gap lie right beside it: where there is room enough, its figure stands there or not at all.
const NEAR: usize = 4;

/// As many rings about a gap are searched for a place that nothing crosses.
const CLEAR: usize = 3;

/// Places for a figure about its gap: how far off it in lettering heights, to the right and down.
const ABOUT: [(f64, f64); 10] = [
    (1.0, 0.3),
    (-1.0, 0.3),
    (0.0, -1.0),
    (0.0, 1.7),
    (1.2, -1.6),
    (-1.2, -1.6),
    (1.2, 2.3),
    (-1.2, 2.3),
    (0.0, -2.8),
    (0.0, 3.4),
];

/// The least distance between two bodies, as a line to be drawn: plain data, whoever worked it out.
#[derive(Clone, Debug, PartialEq)]
pub struct GapLine {
    /// What the room is to: `tyre`.
    pub name: String,
    /// Topic of its marks.
    pub topic: String,
    /// The point on this body, of the two that the room lies between.
    pub from: Point3<f64>,
    /// The point on what it is to.
    pub to: Point3<f64>,
    /// The room; negative by the depth to which the two run into each other.
    pub gap: Length,
    /// The room that is wanted.
    pub limit: Length,
}

impl GapLine {
    /// Whether less is left than is wanted.
    pub fn is_tight(&self) -> bool {
        self.gap.mm() < self.limit.mm()
    }

    /// The room, with what is wanted where that is more; and the room alone.
    fn words(&self, canvas: &Canvas) -> [String; 2] {
        let words = format!("{} {}", self.name, canvas.figure(self.gap));
        [format!("{words} < {}", canvas.figure(self.limit)), words]
    }
}

/// Draws every gap as a line between its two points; a tight one has a ring round it.
pub(super) fn draw_lines(canvas: &mut Canvas, view: &View, gaps: &[GapLine]) {
    let h = canvas.letter;
    for gap in gaps {
        let (a, b) = (view.point(&gap.from), view.point(&gap.to));
        if gap.is_tight() {
            canvas.line(Pen::Tight, &gap.topic, a, b);
            canvas.circle(Pen::Tight, &gap.topic, a.towards(b, 0.5), 0.5 * a.distance(b) + 0.35 * h);
        } else {
            canvas.line(Pen::Thin, &gap.topic, a, b);
            if a.distance(b) > 1.2 * h {
                canvas.arrow(&gap.topic, a, b);
                canvas.arrow(&gap.topic, b, a);
            }
        }
    }
}

/// Writes the figures of the tightest gaps, the same words once; those with room enough only where nothing is in the way.
pub(super) fn draw_figures(canvas: &mut Canvas, view: &View, gaps: &[GapLine], tight: bool) {
    let spare = |gap: &GapLine| gap.gap.mm() - gap.limit.mm();
    let order = ranked(gaps, |a, b| spare(a) <= spare(b));
    let mut written: Vec<String> = Vec::new();
    for gap in order {
        let [_, short] = gap.words(canvas);
        if written.len() >= FIGURES || written.contains(&short) {
            continue;
        }
        if gap.is_tight() != tight || figure(canvas, view, gap, written.len() < FORCED) {
            written.push(short);
        }
    }
}

/// Writes the figure of a gap; whether it found a place. Only a tight one may be `forced` to.
fn figure(canvas: &mut Canvas, view: &View, gap: &GapLine, forced: bool) -> bool {
    let [long, short] = gap.words(canvas);
    let (a, b) = (view.point(&gap.from), view.point(&gap.to));
    let middle = a.towards(b, 0.5);
    let places = around(middle, 0.5 * a.distance(b), canvas.letter);
    let (texts, near) =
        if gap.is_tight() { (vec![&long, &short], places.len()) } else { (vec![&short], NEAR) };
    let near = places.get(..near).unwrap_or_default();
    let mut clear = texts.into_iter().map(|text| canvas.led_note(&gap.topic, text, middle, near, FAINT));
    if clear.any(|placed| placed.is_some()) {
        return true;
    }
    let down = (b.y - a.y) * gap.gap.mm();
    gap.is_tight() && forced && force(canvas, gap, middle, near, &nearby(middle, canvas.letter, down))
}

/// Writes a figure that finds no free place about its gap: on a ring near by where that is clear, else over lines.
fn force(
    canvas: &mut Canvas,
    gap: &GapLine,
    middle: Point,
    about: &[(Point, Anchor)],
    rings: &[Vec<(Point, Anchor)>],
) -> bool {
    let [_, short] = gap.words(canvas);
    let mut note = |places: &[_], most| canvas.led_note(&gap.topic, &short, middle, places, most).is_some();
    rings.iter().take(CLEAR).any(|ring| note(ring, FAINT))
        || note(about, usize::MAX)
        || rings.iter().any(|ring| note(ring, usize::MAX))
}

/// Places for a figure about a line of which `half` lies either side of `middle`.
fn around(middle: Point, half: f64, h: f64) -> Vec<(Point, Anchor)> {
    let place = |(x, y): (f64, f64)| {
        let anchor = match () {
            () if x > 0.0 => Anchor::Start,
            () if x < 0.0 => Anchor::End,
            () => Anchor::Middle,
        };
        let off = |share: f64| if share.abs() < 0.5 { share * h } else { share * h + half * share.signum() };
        (middle.plus(if x == 0.0 { 0.0 } else { off(x) }, off(y)), anchor)
    };
    ABOUT.map(place).to_vec()
}

/// Places for a figure that finds none about its place: rings ever further out, eight lettering heights at the most, and all
/// on the side that `down` says by its sign, so that no line to it crosses the stay.
pub(super) fn nearby(middle: Point, h: f64, down: f64) -> Vec<Vec<(Point, Anchor)>> {
    let ring = |out: i32| {
        let edge = (-out..=out).flat_map(move |i| [(i, -out), (i, out), (-out, i), (out, i)]);
        let there = edge.map(|(x, y)| (f64::from(x), f64::from(y))).filter(|(_, y)| y * down >= 0.0);
        there.map(|(x, y)| (middle.plus(x * h, y * h), Anchor::Middle)).collect()
    };
    (2..=8).map(ring).collect()
}

/// The room to each, for the sentence.
pub(super) fn gaps_said(canvas: &Canvas, gaps: &[GapLine]) -> String {
    let one = |gap: &GapLine| {
        let less = if gap.is_tight() { ", less than wanted" } else { "" };
        format!(" Room to the {}: {}{less}.", gap.name, canvas.said(gap.gap))
    };
    gaps.iter().map(one).collect()
}
