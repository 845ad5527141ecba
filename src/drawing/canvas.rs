//! Laying marks on a sheet: scale first, then outlines, then as many figures as find a free place.

use super::area::Area;
use super::filled_within::filled_within;
use super::frame_part::FramePart;
use super::sheet::{Anchor, Handle, Mark, Pen, Point, Shape, Sheet, Viewport};
use crate::units::{Length, LengthUnit, fixed, trimmed};

/// Width of a letter, as a share of its height.
pub(super) const LETTER: f64 = 0.62;

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

/// The weight of one faint line.
pub(super) const FAINT: usize = 1;

/// How much a line disturbs a text that it passes through.
const fn weight(pen: Pen) -> usize {
    match pen {
        Pen::Axis | Pen::Phantom => FAINT,
        Pen::Thin | Pen::Hidden => 2,
        _ if pen.is_line() => 4,
        _ => 0,
    }
}

/// A sheet in the making.
pub(super) struct Canvas {
    sheet: Sheet,
    /// What the texts and handles take.
    boxes: Vec<Area>,
    /// What each of the sheet's marks takes.
    extents: Vec<Area>,
    /// Height of the lettering, mm.
    pub(super) letter: f64,
    pub(super) unit: LengthUnit,
}

impl Canvas {
    pub(super) fn new(title: impl Into<String>, extent: Area, margins: Margins, viewport: Viewport) -> Self {
        let free = |dots: f64, letters: f64| (dots - letters * viewport.lettering).max(0.2 * dots);
        let wide = (extent.max.x - extent.min.x).max(1.0);
        let high = (extent.max.y - extent.min.y).max(1.0);
        let across = wide / free(viewport.width, margins.left + margins.right);
        let down = high / free(viewport.height, margins.top + margins.bottom);
        let letter = viewport.lettering * across.max(down);
        let (left, right) = (margins.left * letter, margins.right * letter);
        // A sheet as wide as its room keeps that scale on the screen, whatever its height.
        let spare = (viewport.width * across.max(down) - wide - left - right) / 2.0;
        let sheet = Sheet {
            title: title.into(),
            text: String::new(),
            min: Point::new(extent.min.x - left - spare, extent.min.y - margins.top * letter),
            max: Point::new(extent.max.x + right + spare, extent.max.y + margins.bottom * letter),
            marks: Vec::new(),
            handles: Vec::new(),
        };
        Self { sheet, boxes: Vec::new(), extents: Vec::new(), letter, unit: viewport.unit }
    }

    /// A sheet to the scale of `above` and as wide, between two heights.
    pub(super) fn like(
        title: String,
        above: Area,
        [top, bottom]: [f64; 2],
        letter: f64,
        viewport: Viewport,
    ) -> Self {
        let (min, max) = (Point::new(above.min.x, top), Point::new(above.max.x, bottom));
        let (text, marks, handles) = (String::new(), Vec::new(), Vec::new());
        let sheet = Sheet { title, text, min, max, marks, handles };
        Self { sheet, boxes: Vec::new(), extents: Vec::new(), letter, unit: viewport.unit }
    }

    /// The finished sheet; lines that leave it end at its edge.
    pub(super) fn finish(mut self, text: String) -> Sheet {
        let within = self.area().grown(OVER * self.letter);
        let marks = std::mem::take(&mut self.sheet.marks);
        for (mark, extent) in marks.into_iter().zip(&self.extents) {
            self.sheet.marks.extend(clipped(mark, extent, within));
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
        self.put_part(pen, None, topic, shape);
    }

    /// A mark that belongs to a part of the frame.
    pub(super) fn put_part(&mut self, pen: Pen, part: Option<FramePart>, topic: &str, shape: Shape) {
        let topic = (!topic.is_empty()).then(|| topic.to_owned());
        self.extents.push(Area::about(&shape));
        self.sheet.marks.push(Mark { topic, part, pen, shape });
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

    /// The same, but only where no more than one faint line passes through it.
    pub(super) fn clear_note(&mut self, topic: &str, text: &str, places: &[(Point, Anchor)]) -> Option<Area> {
        self.write(topic, text, places, FAINT)
    }

    pub(super) fn write(
        &mut self,
        topic: &str,
        text: &str,
        places: &[(Point, Anchor)],
        most: usize,
    ) -> Option<Area> {
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

    /// The same, with a thin line from the place that the text speaks of, where it stands apart from that: a line that runs
    /// through no other text.
    pub(super) fn led_note(
        &mut self,
        topic: &str,
        text: &str,
        from: Point,
        places: &[(Point, Anchor)],
        most: usize,
    ) -> Option<Area> {
        let led = |(at, anchor): &&(Point, Anchor)| {
            let to = self.text_box(text, *at, *anchor).nearest(from);
            !self.boxes.iter().any(|other| !other.has(from) && other.crosses(from, to))
        };
        let places: Vec<(Point, Anchor)> = places.iter().filter(led).copied().collect();
        let text_box = self.write(topic, text, &places, most)?;
        let to = text_box.nearest(from);
        if from.distance(to) > 0.6 * self.letter {
            self.line(Pen::Thin, topic, from, to);
        }
        Some(text_box)
    }

    /// Whether a place lies on the sheet.
    pub(super) fn has(&self, point: Point) -> bool {
        self.area().has(point)
    }

    /// Whether a text on the sheet is `name`, or begins with it and a figure.
    pub(super) fn says(&self, name: &str) -> bool {
        let is_named =
            |text: &str| text.strip_prefix(name).is_some_and(|rest| rest.is_empty() || rest.starts_with(' '));
        let mut marks = self.sheet.marks.iter();
        marks.any(|mark| matches!(&mark.shape, Shape::Text { text, .. } if is_named(text)))
    }

    /// How much of what is drawn passes through a text's box.
    fn lines_through(&self, text_box: &Area) -> usize {
        let near = self.sheet.marks.iter().zip(&self.extents);
        let near = near.filter(|(mark, extent)| weight(mark.pen) > 0 && text_box.touches(extent));
        near.filter(|(mark, _)| text_box.meets(&mark.shape)).map(|(mark, _)| weight(mark.pen)).sum()
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
}

/// What of a mark lies `within`; `extent` is what it takes.
fn clipped(mark: Mark, extent: &Area, within: Area) -> Vec<Mark> {
    if within.holds(extent) {
        return vec![mark];
    }
    let Mark { topic, part, pen, shape } = mark;
    let parts = match pen {
        Pen::Fill(_) => filled_within(&within, &shape).into_iter().collect(),
        _ => within.clipped(shape),
    };
    parts.into_iter().map(|shape| Mark { topic: topic.clone(), part, pen, shape }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_to_a_text_runs_through_no_other() {
        let viewport =
            Viewport { width: 400.0, height: 400.0, lettering: 10.0, unit: LengthUnit::Millimetre };
        let margins = Margins { left: 0.0, right: 0.0, top: 0.0, bottom: 0.0 };
        let extent = Area { min: Point::new(0.0, 0.0), max: Point::new(400.0, 400.0) };
        let mut canvas = Canvas::new("", extent, margins, viewport);
        let from = Point::new(200.0, 100.0);
        let below = |down: f64| from.plus(0.0, down);
        assert!(canvas.note("", "in the way", &[(below(50.0), Anchor::Middle)]).is_some());
        assert!(canvas.led_note("", "behind", from, &[(below(100.0), Anchor::Middle)], FAINT).is_none());
        let placed = canvas.led_note("", "beside", from, &[(below(-60.0), Anchor::Middle)], FAINT);
        assert!(placed.is_some_and(|area| area.max.y < from.y));
        let lines = canvas.sheet.marks.iter().filter(|mark| mark.pen == Pen::Thin).count();
        assert_eq!(lines, 1);
    }
}
