//! Dimensions of lengths and angles (ISO 129-1).

use super::canvas::{Canvas, FAINT, LETTER};
use super::sheet::{Anchor, Pen, Point, Shape};
use crate::units::{Angle, fixed};

impl Canvas {
    /// A dimension between `a` and `b`, drawn `off` away from them. It is left out where its figure finds no free place.
    pub(super) fn dimension(&mut self, topic: &str, text: &str, a: Point, b: Point, off: Point) {
        self.draw_dimension(topic, text, [a, b], off, usize::MAX);
    }

    /// The same, left out too where more than a faint line would pass through its figure; whether it is there.
    pub(super) fn clear_dimension(
        &mut self,
        topic: &str,
        text: &str,
        a: Point,
        b: Point,
        off: Point,
    ) -> bool {
        self.draw_dimension(topic, text, [a, b], off, FAINT)
    }

    fn draw_dimension(
        &mut self,
        topic: &str,
        text: &str,
        [a, b]: [Point; 2],
        off: Point,
        most: usize,
    ) -> bool {
        let (from, to) = (a.plus(off.x, off.y), b.plus(off.x, off.y));
        let places = self.figure_places(text, from, to);
        if self.write(topic, text, &places, most).is_none() {
            return false;
        }
        for (start, end) in [(a, from), (b, to)] {
            let gap = start.distance(end);
            if gap > 0.6 * self.letter {
                let share = |mm: f64| mm / gap;
                let first = start.towards(end, share(0.2 * self.letter));
                self.line(Pen::Thin, topic, first, start.towards(end, 1.0 + share(0.25 * self.letter)));
            }
        }
        self.dimension_line(topic, from, to);
        true
    }

    /// Where the figure of a dimension may stand: over the middle of a level line, beside an upright one, past its ends.
    fn figure_places(&self, text: &str, from: Point, to: Point) -> Vec<(Point, Anchor)> {
        let h = self.letter;
        let middle = from.towards(to, 0.5);
        let (dx, dy) = ((to.x - from.x).abs(), (to.y - from.y).abs());
        let wide = text.chars().count() as f64 * LETTER * h;
        let beside = [0.5, 0.25, 0.75, 0.9].map(|share| from.towards(to, share)).into_iter().flat_map(|at| {
            [(at.plus(0.4 * h, 0.3 * h), Anchor::Start), (at.plus(-0.4 * h, 0.3 * h), Anchor::End)]
        });
        let mut places = Vec::new();
        if dx > dy {
            let slope = dy / dx.max(1e-9);
            let lift = 0.35 * h + slope * wide / 2.0;
            if dx > wide {
                let over = [0.5, 0.25, 0.75].map(|share| from.towards(to, share).plus(0.0, -lift));
                places.extend(over.map(|at| (at, Anchor::Middle)));
            }
            let (left, right) = if from.x < to.x { (from, to) } else { (to, from) };
            places.push((right.plus(0.9 * h, -0.3 * h), Anchor::Start));
            places.push((left.plus(-0.9 * h, -0.3 * h), Anchor::End));
            places.push((middle.plus(0.0, -lift), Anchor::Middle));
            places.push((middle.plus(0.0, 1.1 * h), Anchor::Middle));
        } else {
            places.extend(beside);
            // Past its ends, the second one first: there is nothing beyond it.
            for (end, other) in [(to, from), (from, to)] {
                let off = if end.y < other.y { -1.3 * h } else { 2.1 * h };
                places.push((end.plus(0.0, off), Anchor::Middle));
            }
        }
        places
    }

    fn dimension_line(&mut self, topic: &str, from: Point, to: Point) {
        let length = from.distance(to);
        let head = 0.6 * self.letter;
        if length < 1e-9 {
            return;
        }
        if length > 2.5 * head {
            self.line(Pen::Thin, topic, from, to);
            self.arrow(topic, from, to);
            self.arrow(topic, to, from);
        } else {
            // Too short for arrows between: they come from outside.
            let tail = 2.0 * head / length;
            let (before, after) = (from.towards(to, -tail), from.towards(to, 1.0 + tail));
            self.line(Pen::Thin, topic, before, after);
            self.arrow(topic, from, before);
            self.arrow(topic, to, after);
        }
    }

    /// An arrowhead whose point is at `tip` and whose shaft comes from `from`; 15° a side.
    pub(super) fn arrow(&mut self, topic: &str, tip: Point, from: Point) {
        let length = tip.distance(from);
        if length < 1e-9 {
            return;
        }
        let head = 0.6 * self.letter;
        let base = tip.towards(from, head / length);
        let (x, y) = ((from.x - tip.x) / length, (from.y - tip.y) / length);
        let half = 0.17 * head;
        let points = vec![tip, base.plus(-y * half, x * half), base.plus(y * half, -x * half)];
        self.put(Pen::Arrow, topic, Shape::Path { points, closed: true });
    }

    /// The angle at `apex` from direction `from` to direction `to` (radians, clockwise on the sheet from its right), drawn
    /// at `radius` with its figure outside.
    pub(super) fn angle(&mut self, topic: &str, angle: Angle, apex: Point, from: f64, to: f64, radius: f64) {
        let at = |direction: f64, radius: f64| apex.plus(radius * direction.cos(), radius * direction.sin());
        let text = format!("{}°", fixed(angle.degrees(), 2));
        let middle = 0.5 * (from + to);
        let places = [(0.5, 0.6), (0.75, 0.6), (0.25, 0.6), (0.5, 2.4), (0.75, 2.4), (0.25, 2.4)];
        let places = places.map(|(share, off)| {
            let direction = from + (to - from) * share;
            let anchor = if direction.cos() >= 0.0 { Anchor::Start } else { Anchor::End };
            (at(direction, radius + off * self.letter).plus(0.0, 0.3 * self.letter), anchor)
        });
        let above = (at(middle, radius).plus(0.0, -0.6 * self.letter), Anchor::Middle);
        if self.note(topic, &text, &[places.as_slice(), &[above]].concat()).is_none() {
            return;
        }
        let steps = 24;
        let points: Vec<Point> =
            (0..=steps).map(|i| at(from + (to - from) * f64::from(i) / f64::from(steps), radius)).collect();
        let ends = [
            (points.first().copied(), points.get(2).copied()),
            (points.last().copied(), points.get(22).copied()),
        ];
        for (tip, near) in ends {
            if let (Some(tip), Some(near)) = (tip, near)
                && radius * (to - from).abs() > 1.5 * self.letter
            {
                self.arrow(topic, tip, near);
            }
        }
        self.path(Pen::Thin, topic, points, false);
    }
}
