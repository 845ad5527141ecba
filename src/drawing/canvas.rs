//! Laying marks on a sheet: scale first, then outlines, then as many figures as find a free place.

use super::sheet::{Anchor, Handle, Mark, Pen, Point, Room, Shape, Sheet};
use crate::quantity::{Angle, Length, LengthUnit, fixed};

/// Width of a letter, as a share of its height.
const LETTER: f64 = 0.62;

/// The stretch of the sheet that the outlines need.
#[derive(Clone, Copy, Debug)]
pub(super) struct Extent {
    min: Point,
    max: Point,
}

impl Extent {
    /// The smallest stretch that holds all points; nothing at all gives a small one about the origin.
    pub(super) fn of(points: impl IntoIterator<Item = Point>) -> Self {
        let mut extent: Option<Self> = None;
        for point in points {
            let (min, max) = extent.map_or((point, point), |extent| (extent.min, extent.max));
            let low = Point::new(min.x.min(point.x), min.y.min(point.y));
            extent = Some(Self { min: low, max: Point::new(max.x.max(point.x), max.y.max(point.y)) });
        }
        extent.unwrap_or(Self { min: Point::new(-1.0, -1.0), max: Point::new(1.0, 1.0) })
    }
}

/// Room for figures round the outlines, in lettering heights.
#[derive(Clone, Copy, Debug)]
pub(super) struct Margins {
    pub(super) side: f64,
    pub(super) top: f64,
    pub(super) bottom: f64,
}

/// The box of a text.
#[derive(Clone, Copy)]
struct TextBox {
    min: Point,
    max: Point,
}

impl TextBox {
    fn overlaps(&self, other: &Self) -> bool {
        self.min.x < other.max.x
            && other.min.x < self.max.x
            && self.min.y < other.max.y
            && other.min.y < self.max.y
    }
}

/// A sheet in the making.
pub(super) struct Canvas {
    sheet: Sheet,
    boxes: Vec<TextBox>,
    /// Height of the lettering, mm.
    pub(super) letter: f64,
    unit: LengthUnit,
}

impl Canvas {
    pub(super) fn new(title: impl Into<String>, extent: Extent, margins: Margins, room: Room) -> Self {
        let free = |dots: f64, letters: f64| (dots - letters * room.lettering).max(0.2 * dots);
        let wide = (extent.max.x - extent.min.x).max(1.0);
        let high = (extent.max.y - extent.min.y).max(1.0);
        let across = wide / free(room.width, 2.0 * margins.side);
        let down = high / free(room.height, margins.top + margins.bottom);
        let letter = room.lettering * across.max(down);
        // A sheet as wide as its room keeps that scale on the screen, whatever its height.
        let spare = (room.width * across.max(down) - wide) / 2.0;
        let sheet = Sheet {
            title: title.into(),
            text: String::new(),
            min: Point::new(extent.min.x - spare, extent.min.y - margins.top * letter),
            max: Point::new(extent.max.x + spare, extent.max.y + margins.bottom * letter),
            marks: Vec::new(),
            handles: Vec::new(),
        };
        Self { sheet, boxes: Vec::new(), letter, unit: room.unit }
    }

    pub(super) fn finish(mut self, text: String) -> Sheet {
        self.sheet.text = text;
        self.sheet
    }

    pub(super) fn left(&self) -> f64 {
        self.sheet.min.x
    }

    /// The sheet's lower edge.
    pub(super) fn bottom(&self) -> f64 {
        self.sheet.max.y
    }

    pub(super) fn right(&self) -> f64 {
        self.sheet.max.x
    }

    pub(super) fn put(&mut self, pen: Pen, topic: &str, shape: Shape) {
        let topic = (!topic.is_empty()).then(|| topic.to_owned());
        self.sheet.marks.push(Mark { topic, pen, shape });
    }

    pub(super) fn line(&mut self, pen: Pen, topic: &str, a: Point, b: Point) {
        self.put(pen, topic, Shape::Line { a, b });
    }

    pub(super) fn path(&mut self, pen: Pen, topic: &str, points: Vec<Point>, closed: bool) {
        if points.len() > 1 {
            self.put(pen, topic, Shape::Path { points, closed });
        }
    }

    /// A chain of lines, which may be a single one.
    pub(super) fn chain(&mut self, pen: Pen, topic: &str, points: Vec<Point>) {
        match *points.as_slice() {
            [a, b] => self.line(pen, topic, a, b),
            _ => self.path(pen, topic, points, false),
        }
    }

    pub(super) fn circle(&mut self, pen: Pen, topic: &str, at: Point, radius: f64) {
        self.put(pen, topic, Shape::Circle { at, radius });
    }

    /// A small cross of axes.
    pub(super) fn cross(&mut self, topic: &str, at: Point, arm: f64) {
        self.line(Pen::Axis, topic, at.plus(-arm, 0.0), at.plus(arm, 0.0));
        self.line(Pen::Axis, topic, at.plus(0.0, -arm), at.plus(0.0, arm));
    }

    /// Puts a handle, and keeps figures off it.
    pub(super) fn handle(&mut self, handle: Handle) {
        // A finger takes hold further out than the knob is drawn; a figure is wide, so it is kept off above and below.
        let (wide, high) = (0.6 * self.letter, self.letter);
        let (min, max) = (handle.at.plus(-wide, -high), handle.at.plus(wide, high));
        self.boxes.push(TextBox { min, max });
        self.sheet.handles.push(handle);
    }

    /// A length as a drawing writes it: without a unit (ISO 129-1).
    pub(super) fn figure(&self, length: Length) -> String {
        let text = match self.unit {
            LengthUnit::Millimetre => fixed(length.mm(), 2),
            LengthUnit::Inch => fixed(length.inches(), 3),
        };
        text.replacen('-', "−", 1)
    }

    /// A length with its unit, for the sentence.
    pub(super) fn said(&self, length: Length) -> String {
        let sign = if self.unit == LengthUnit::Millimetre { "mm" } else { "in" };
        format!("{} {sign}", self.figure(length))
    }

    /// Writes `text` at the first of `places` that is free and on the sheet; `false` where none is.
    pub(super) fn note(&mut self, topic: &str, text: &str, places: &[(Point, Anchor)]) -> bool {
        let free = places.iter().find_map(|(at, anchor)| {
            let text_box = self.text_box(text, *at, *anchor);
            self.is_free(&text_box).then_some((*at, *anchor, text_box))
        });
        let Some((at, anchor, text_box)) = free else { return false };
        self.boxes.push(text_box);
        self.put(Pen::Text, topic, Shape::Text { at, text: text.to_owned(), anchor });
        true
    }

    fn text_box(&self, text: &str, at: Point, anchor: Anchor) -> TextBox {
        let wide = text.chars().count() as f64 * LETTER * self.letter;
        let left = match anchor {
            Anchor::Start => at.x,
            Anchor::Middle => at.x - wide / 2.0,
            Anchor::End => at.x - wide,
        };
        TextBox {
            min: Point::new(left, at.y - 0.85 * self.letter),
            max: Point::new(left + wide, at.y + 0.25 * self.letter),
        }
    }

    fn is_free(&self, text_box: &TextBox) -> bool {
        let inside = self.sheet.min.x <= text_box.min.x
            && text_box.max.x <= self.sheet.max.x
            && self.sheet.min.y <= text_box.min.y
            && text_box.max.y <= self.sheet.max.y;
        inside && !self.boxes.iter().any(|other| other.overlaps(text_box))
    }

    /// A dimension between `a` and `b`, drawn `off` away from them. It is left out where its figure finds no free place.
    pub(super) fn dimension(&mut self, topic: &str, text: &str, a: Point, b: Point, off: Point) {
        let (from, to) = (a.plus(off.x, off.y), b.plus(off.x, off.y));
        if !self.note(topic, text, &self.figure_places(text, from, to)) {
            return;
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
    }

    /// Where the figure of a dimension may stand: over the middle of a level line, beside an upright one, past its ends.
    fn figure_places(&self, text: &str, from: Point, to: Point) -> Vec<(Point, Anchor)> {
        let h = self.letter;
        let middle = from.towards(to, 0.5);
        let (dx, dy) = ((to.x - from.x).abs(), (to.y - from.y).abs());
        let wide = text.chars().count() as f64 * LETTER * h;
        let beside =
            [(middle.plus(0.4 * h, 0.3 * h), Anchor::Start), (middle.plus(-0.4 * h, 0.3 * h), Anchor::End)];
        let mut places = Vec::new();
        if dx > dy {
            let slope = dy / dx.max(1e-9);
            let lift = 0.35 * h + slope * wide / 2.0;
            if dx > wide {
                places.push((middle.plus(0.0, -lift), Anchor::Middle));
            }
            let (left, right) = if from.x < to.x { (from, to) } else { (to, from) };
            places.push((right.plus(0.9 * h, -0.3 * h), Anchor::Start));
            places.push((left.plus(-0.9 * h, -0.3 * h), Anchor::End));
            places.push((middle.plus(0.0, -lift), Anchor::Middle));
            places.push((middle.plus(0.0, 1.1 * h), Anchor::Middle));
        } else {
            places.extend(beside);
            let (top, bottom) = if from.y < to.y { (from, to) } else { (to, from) };
            places.push((top.plus(0.0, -0.9 * h), Anchor::Middle));
            places.push((bottom.plus(0.0, 1.7 * h), Anchor::Middle));
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
        let places = [0.5, 0.75, 0.25].map(|share| {
            let direction = from + (to - from) * share;
            let anchor = if direction.cos() >= 0.0 { Anchor::Start } else { Anchor::End };
            (at(direction, radius + 0.6 * self.letter).plus(0.0, 0.3 * self.letter), anchor)
        });
        let above = (at(middle, radius).plus(0.0, -0.6 * self.letter), Anchor::Middle);
        if !self.note(topic, &text, &[places.as_slice(), &[above]].concat()) {
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
