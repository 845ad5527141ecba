//! Laying marks on a sheet: scale first, then outlines, then as many figures as find a free place.

use super::area::Area;
use super::sheet::{Anchor, Handle, Mark, Pen, Point, Room, Shape, Sheet};
use crate::quantity::{Angle, Length, LengthUnit, fixed, trimmed};

/// Width of a letter, as a share of its height.
const LETTER: f64 = 0.62;

/// How far lines may leave a sheet, in lettering heights: there is that much free about it.
const OVER: f64 = 0.6;

/// Room for figures round the outlines, in lettering heights.
#[derive(Clone, Copy, Debug)]
pub(super) struct Margins {
    pub(super) left: f64,
    pub(super) right: f64,
    pub(super) top: f64,
    pub(super) bottom: f64,
}

/// A sheet in the making.
pub(super) struct Canvas {
    sheet: Sheet,
    boxes: Vec<Area>,
    /// Height of the lettering, mm.
    pub(super) letter: f64,
    unit: LengthUnit,
}

impl Canvas {
    pub(super) fn new(title: impl Into<String>, extent: Area, margins: Margins, room: Room) -> Self {
        let free = |dots: f64, letters: f64| (dots - letters * room.lettering).max(0.2 * dots);
        let wide = (extent.max.x - extent.min.x).max(1.0);
        let high = (extent.max.y - extent.min.y).max(1.0);
        let across = wide / free(room.width, margins.left + margins.right);
        let down = high / free(room.height, margins.top + margins.bottom);
        let letter = room.lettering * across.max(down);
        let (left, right) = (margins.left * letter, margins.right * letter);
        // A sheet as wide as its room keeps that scale on the screen, whatever its height.
        let spare = (room.width * across.max(down) - wide - left - right) / 2.0;
        let sheet = Sheet {
            title: title.into(),
            text: String::new(),
            min: Point::new(extent.min.x - left - spare, extent.min.y - margins.top * letter),
            max: Point::new(extent.max.x + right + spare, extent.max.y + margins.bottom * letter),
            marks: Vec::new(),
            handles: Vec::new(),
        };
        Self { sheet, boxes: Vec::new(), letter, unit: room.unit }
    }

    /// A sheet to the scale of `above` and as wide, between two heights.
    pub(super) fn like(title: String, above: Area, [top, bottom]: [f64; 2], letter: f64, room: Room) -> Self {
        let (min, max) = (Point::new(above.min.x, top), Point::new(above.max.x, bottom));
        let (text, marks, handles) = (String::new(), Vec::new(), Vec::new());
        let sheet = Sheet { title, text, min, max, marks, handles };
        Self { sheet, boxes: Vec::new(), letter, unit: room.unit }
    }

    /// The finished sheet; lines that leave it end at its edge.
    pub(super) fn finish(mut self, text: String) -> Sheet {
        let within = self.area().grown(OVER * self.letter);
        let marks = std::mem::take(&mut self.sheet.marks);
        for Mark { topic, pen, shape } in marks {
            let parts = within.clipped(shape).into_iter();
            self.sheet.marks.extend(parts.map(|shape| Mark { topic: topic.clone(), pen, shape }));
        }
        self.sheet.text = text;
        self.sheet
    }

    pub(super) const fn area(&self) -> Area {
        Area { min: self.sheet.min, max: self.sheet.max }
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
        self.boxes.push(Area { min, max });
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

    /// The smallest step of a scale that is round in the sheet's unit and not less than `least`, all mm.
    pub(super) fn round_step(&self, least: f64) -> f64 {
        let (one, first) = self.round_unit();
        let mut step = first * one;
        for factor in [2.0, 2.5, 2.0].into_iter().cycle().take(18) {
            if step >= least {
                break;
            }
            step *= factor;
        }
        step
    }

    /// A round length of a scale.
    pub(super) fn round_figure(&self, mm: f64) -> String {
        trimmed(mm / self.round_unit().0, 2).replacen('-', "−", 1)
    }

    /// The sheet's unit in mm, and the smallest step of a scale in it.
    fn round_unit(&self) -> (f64, f64) {
        match self.unit {
            LengthUnit::Millimetre => (1.0, 1.0),
            LengthUnit::Inch => (Length::from_inches(1.0).mm(), 0.05),
        }
    }

    /// A length with its unit, for the sentence.
    pub(super) fn said(&self, length: Length) -> String {
        let sign = if self.unit == LengthUnit::Millimetre { "mm" } else { "in" };
        format!("{} {sign}", self.figure(length))
    }

    /// Writes `text` at the first of `places` that is free and on the sheet, if there is one where the fewest lines pass through
    /// it. Where none is free it is left out.
    pub(super) fn note(&mut self, topic: &str, text: &str, places: &[(Point, Anchor)]) -> Option<Area> {
        self.write(topic, text, places, usize::MAX)
    }

    /// The same, but only where no line passes through it.
    pub(super) fn clear_note(&mut self, topic: &str, text: &str, places: &[(Point, Anchor)]) -> Option<Area> {
        self.write(topic, text, places, 0)
    }

    fn write(&mut self, topic: &str, text: &str, places: &[(Point, Anchor)], most: usize) -> Option<Area> {
        let mut best: Option<(usize, Point, Anchor, Area)> = None;
        for (at, anchor) in places {
            let text_box = self.text_box(text, *at, *anchor);
            if !self.is_free(&text_box) {
                continue;
            }
            let lines = self.lines_through(&text_box);
            if lines <= most && best.is_none_or(|best| lines < best.0) {
                best = Some((lines, *at, *anchor, text_box));
            }
            if lines == 0 {
                break;
            }
        }
        let (_, at, anchor, text_box) = best?;
        self.boxes.push(text_box);
        self.put(Pen::Text, topic, Shape::Text { at, text: text.to_owned(), anchor });
        Some(text_box)
    }

    /// A thin line from a place to the text that speaks of it, where that stands apart from it.
    pub(super) fn leader(&mut self, topic: &str, from: Point, text: &Area) {
        let to = text.nearest(from);
        if from.distance(to) > 0.6 * self.letter {
            self.line(Pen::Thin, topic, from, to);
        }
    }

    /// Whether a place lies on the sheet.
    pub(super) fn has(&self, point: Point) -> bool {
        self.area().has(point)
    }

    fn lines_through(&self, text_box: &Area) -> usize {
        self.sheet.marks.iter().filter(|mark| text_box.meets(&mark.shape)).count()
    }

    fn text_box(&self, text: &str, at: Point, anchor: Anchor) -> Area {
        let wide = text.chars().count() as f64 * LETTER * self.letter;
        let left = match anchor {
            Anchor::Start => at.x,
            Anchor::Middle => at.x - wide / 2.0,
            Anchor::End => at.x - wide,
        };
        Area {
            min: Point::new(left, at.y - 0.85 * self.letter),
            max: Point::new(left + wide, at.y + 0.25 * self.letter),
        }
    }

    fn is_free(&self, text_box: &Area) -> bool {
        self.area().holds(text_box) && !self.boxes.iter().any(|other| other.overlaps(text_box))
    }

    /// A dimension between `a` and `b`, drawn `off` away from them. It is left out where its figure finds no free place.
    pub(super) fn dimension(&mut self, topic: &str, text: &str, a: Point, b: Point, off: Point) {
        self.draw_dimension(topic, text, [a, b], off, usize::MAX);
    }

    /// The same, left out too where a line would pass through its figure; whether it is there.
    pub(super) fn clear_dimension(
        &mut self,
        topic: &str,
        text: &str,
        a: Point,
        b: Point,
        off: Point,
    ) -> bool {
        self.draw_dimension(topic, text, [a, b], off, 0)
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
        let places = [0.5, 0.75, 0.25].map(|share| {
            let direction = from + (to - from) * share;
            let anchor = if direction.cos() >= 0.0 { Anchor::Start } else { Anchor::End };
            (at(direction, radius + 0.6 * self.letter).plus(0.0, 0.3 * self.letter), anchor)
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
