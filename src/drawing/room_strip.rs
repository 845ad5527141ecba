//! The room along one stay: the gap at every station to each neighbour.

use super::area::Area;
use super::canvas::{Canvas, FAINT};
use super::clamp_plane::Scene;
use super::sheet::{Anchor, Pen, Point, Sheet, Viewport};
use super::tube::Drawn;
use crate::model::{Hand, PairName};
use crate::plan::Plan;
use crate::units::{Bounds, Length};

/// The room from a stay to one neighbour along it: plain data, whoever worked it out.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    /// What the room is to.
    pub name: String,
    /// Topic of its marks.
    pub topic: String,
    /// The room that is wanted.
    pub limit: Length,
    /// Stations in rising order, each with its room.
    pub points: Vec<(Length, Length)>,
    /// Station and room where it is least, from a search of its own; else the least of `points`.
    pub least: Option<(Length, Length)>,
}

/// Height of the field, in lettering heights.
const HIGH: f64 = 11.0;

/// Height of the scale of stations below the field, in lettering heights.
const STATIONS: f64 = 4.0;

/// Between two stations of the scale, at least, in lettering heights.
const APART: f64 = 4.5;

/// Room drawn at least, mm.
const LEAST: f64 = 12.0;

/// Room drawn at most, in limits: what has more is clear for all to see.
const MOST: f64 = 3.0;

/// Deeper than this, mm, nothing is drawn.
const DEEPEST: f64 = -12.0;

/// Between the lines that show how little room a tight place has, in lettering heights.
const HATCH: f64 = 0.45;

/// The room along a stay. It is as wide as the drawing of its clamp plane in the same room, and each station lies below its
/// own place there; upwards it has a scale of its own.
pub fn room_strip(plan: &Plan, pair: PairName, hand: Hand, strips: &[Strip], viewport: Viewport) -> Sheet {
    let scene = Scene::new(plan, pair);
    let title = format!("Room along the {} {}", hand.key(), pair.one());
    let clamp_plane = scene.canvas(viewport);
    let (above, h) = (clamp_plane.area(), clamp_plane.letter);
    let field = Field::new(&scene, hand, strips, h);
    let mut canvas = Canvas::like(title, above, field.area(h), h, viewport);
    field.draw_scale(&mut canvas, above);
    field.draw_stations(&mut canvas);
    let mut drawn: Vec<&Strip> = strips.iter().filter(|strip| strip.least().is_some()).collect();
    drawn.sort_by(|a, b| a.spare().total_cmp(&b.spare()));
    for strip in drawn.iter().rev() {
        field.draw_curve(&mut canvas, strip);
    }
    for strip in &drawn {
        field.draw_words(&mut canvas, strip);
    }
    for strip in &drawn {
        field.draw_limit_words(&mut canvas, strip);
    }
    let text = said(&canvas, pair, hand, &drawn);
    canvas.finish(text)
}

impl Strip {
    fn least(&self) -> Option<(Length, Length)> {
        let lower = |a: &&(Length, Length), b: &&(Length, Length)| a.1.mm().total_cmp(&b.1.mm());
        self.least.or_else(|| self.points.iter().min_by(lower).copied())
    }

    fn spare(&self) -> f64 {
        self.least().map_or(f64::INFINITY, |(_, gap)| (gap - self.limit).mm())
    }

    fn is_tight(&self) -> bool {
        self.spare() < 0.0
    }
}

/// Where stations and rooms lie on the sheet.
struct Field<'a> {
    scene: &'a Scene<'a>,
    hand: Hand,
    /// The least and the most room drawn, mm.
    rooms: Bounds,
    /// Sheet mm to the mm of room.
    rate: f64,
}

impl<'a> Field<'a> {
    fn new(scene: &'a Scene<'a>, hand: Hand, strips: &[Strip], h: f64) -> Self {
        let limit = strips.iter().map(|strip| strip.limit.mm()).fold(0.0, f64::max);
        let most = (MOST * limit).max(LEAST);
        let deepest = strips.iter().filter_map(|strip| Some(strip.least()?.1.mm())).fold(0.0, f64::min);
        let rooms = Bounds::new(deepest.max(DEEPEST), most);
        Self { scene, hand, rooms, rate: HIGH * h / (rooms.max - rooms.min) }
    }

    const fn stay(&self) -> &Drawn<'a> {
        match self.hand {
            Hand::Right => &self.scene.stays[0],
            Hand::Left => &self.scene.stays[1],
        }
    }

    /// The place of a room at a station; rooms beyond the field lie on its edge.
    fn at(&self, (station, gap): (Length, Length)) -> Point {
        Point::new(self.stay().on_axis(station.mm()).x, self.level(gap.mm()))
    }

    fn level(&self, gap: f64) -> f64 {
        -self.rooms.nearest(gap) * self.rate
    }

    /// From the most to the least room drawn.
    fn area(&self, h: f64) -> [f64; 2] {
        [self.level(self.rooms.max) - 1.6 * h, self.level(self.rooms.min) + STATIONS * h]
    }

    /// Lines at round rooms, with their figures at the left edge.
    fn draw_scale(&self, canvas: &mut Canvas, above: Area) {
        let h = canvas.letter;
        let step = canvas.round_step(1.5 * h / self.rate);
        let mut gap = (self.rooms.min / step).ceil() * step;
        while gap <= self.rooms.max {
            let y = self.level(gap);
            let pen = if gap == 0.0 { Pen::Visible } else { Pen::Thin };
            let figure = canvas.round_figure(gap);
            let from = Point::new(above.min.x, y);
            canvas.note("", &figure, &[(from.plus(0.0, 0.3 * h), Anchor::Start)]);
            let tick = if gap == 0.0 { above.max.x } else { from.x + 3.2 * h };
            canvas.line(pen, "", from.plus(2.6 * h, 0.0), Point::new(tick, y));
            gap += step;
        }
    }

    /// Round stations from the front reference point to the rear one, below the field, with a ring at each bend's apex.
    fn draw_stations(&self, canvas: &mut Canvas) {
        let (h, length) = (canvas.letter, self.scene.pair.stay(self.hand).length.mm());
        let y = self.level(self.rooms.min) + 2.4 * h;
        let at = |station: f64| Point::new(self.stay().on_axis(station).x, y);
        canvas.line(Pen::Thin, "", at(0.0), at(length));
        for bend in self.stay().bends() {
            canvas.circle(Pen::Thin, "", at(bend.apex.mm()), 0.25 * h);
        }
        let step = canvas.round_step(APART * h);
        let stations = (0..).map(|i| f64::from(i) * step).take_while(|station| *station <= length);
        for station in stations {
            let tick = at(station);
            canvas.line(Pen::Thin, "", tick.plus(0.0, -0.2 * h), tick.plus(0.0, 0.2 * h));
            let figure = canvas.round_figure(station);
            let figure = if station == 0.0 { format!("{figure} front") } else { figure };
            canvas.note("", &figure, &[(tick.plus(0.0, 1.3 * h), Anchor::Middle)]);
        }
    }

    /// The curve, and where it lies below its limit: wide, and hatched up to the limit.
    fn draw_curve(&self, canvas: &mut Canvas, strip: &Strip) {
        let limit = strip.limit.mm();
        for run in runs(&strip.points, self.rooms.max) {
            let points: Vec<Point> = run.iter().map(|point| self.at(*point)).collect();
            let level = self.level(limit);
            if let (Some(first), Some(last)) = (points.first(), points.last()) {
                let ends = [first, last].map(|end| Point::new(end.x, level));
                canvas.line(Pen::Hidden, &strip.topic, ends[0], ends[1]);
            }
            canvas.path(Pen::Thin, &strip.topic, points, false);
        }
        for run in runs(&strip.points, limit) {
            self.draw_tight(canvas, strip, &run);
        }
    }

    fn draw_tight(&self, canvas: &mut Canvas, strip: &Strip, run: &[(Length, Length)]) {
        let points: Vec<Point> = run.iter().map(|point| self.at(*point)).collect();
        let limit = self.level(strip.limit.mm());
        let (Some(first), Some(last)) = (points.first().copied(), points.last().copied()) else { return };
        canvas.line(Pen::Tight, &strip.topic, Point::new(first.x, limit), Point::new(last.x, limit));
        let step = HATCH * canvas.letter;
        let mut next = first.x;
        for (a, b) in points.iter().zip(points.iter().skip(1)) {
            while (next - a.x) * (next - b.x) <= 0.0 && a.x != b.x {
                let on = a.towards(*b, (next - a.x) / (b.x - a.x));
                canvas.line(Pen::Thin, &strip.topic, on, Point::new(next, limit));
                next += if b.x < a.x { -step } else { step };
            }
        }
        canvas.path(Pen::Tight, &strip.topic, points, false);
    }

    /// Its name with the least room, at the place of the least room.
    fn draw_words(&self, canvas: &mut Canvas, strip: &Strip) {
        let Some(least) = strip.least() else { return };
        let h = canvas.letter;
        let at = self.at(least);
        if least.1.mm() > self.rooms.max {
            return;
        }
        canvas.circle(Pen::Thin, &strip.topic, at, 0.25 * h);
        let short = format!("{} {}", strip.name, canvas.figure(least.1));
        let long = format!("{short} < {}", canvas.figure(strip.limit));
        let texts = if strip.is_tight() { vec![&long, &short] } else { vec![&short] };
        let rows = [-0.7, 1.4, -1.9, 2.6, -3.1, 3.8];
        let places: Vec<(Point, Anchor)> = rows
            .into_iter()
            .flat_map(|row| {
                let row = at.plus(0.0, row * h);
                [
                    (row, Anchor::Middle),
                    (row.plus(0.6 * h, 0.0), Anchor::Start),
                    (row.plus(-0.6 * h, 0.0), Anchor::End),
                ]
            })
            .collect();
        let mut note = |text: &str, most| canvas.led_note(&strip.topic, text, at, &places, most).is_some();
        let _ = texts.iter().any(|text| note(text, FAINT)) || note(&short, usize::MAX);
    }
}

impl Field<'_> {
    /// Writes a limit at one end of its line, where nothing is in the way.
    fn draw_limit_words(&self, canvas: &mut Canvas, strip: &Strip) {
        let h = canvas.letter;
        let runs = runs(&strip.points, self.rooms.max);
        let ends = runs.iter().filter_map(|run| Some([*run.first()?, *run.last()?])).flatten();
        let level = self.level(strip.limit.mm());
        let places: Vec<(Point, Anchor)> = ends
            .flat_map(|end| {
                let at = Point::new(self.at(end).x, level + 0.3 * h);
                [(at.plus(0.4 * h, 0.0), Anchor::Start), (at.plus(-0.4 * h, 0.0), Anchor::End)]
            })
            .collect();
        canvas.clear_note(&strip.topic, &format!("limit {}", canvas.figure(strip.limit)), &places);
    }
}

/// The runs of points whose room is no more than `most`, with the places where they reach it.
fn runs(points: &[(Length, Length)], most: f64) -> Vec<Vec<(Length, Length)>> {
    let mut runs: Vec<Vec<(Length, Length)>> = Vec::new();
    let mut open = false;
    for (a, b) in points.iter().zip(points.iter().skip(1)) {
        let (low, high) = (a.1.mm(), b.1.mm());
        let share = (most - low) / (high - low);
        let between = |of: fn(&(Length, Length)) -> f64| Length::from_mm(of(a) + (of(b) - of(a)) * share);
        let crossing = || (between(|p| p.0.mm()), Length::from_mm(most));
        if !open && low <= most {
            runs.push(vec![*a]);
        } else if low > most && high <= most {
            runs.push(vec![crossing()]);
        }
        open = high <= most;
        if let Some(run) = runs.last_mut() {
            if open {
                run.push(*b);
            } else if low <= most {
                run.push(crossing());
            }
        }
    }
    runs
}

fn said(canvas: &Canvas, pair: PairName, hand: Hand, strips: &[&Strip]) -> String {
    let one = |strip: &&Strip| {
        let (station, gap) = strip.least()?;
        let less = if strip.is_tight() { ", less than wanted" } else { "" };
        let at = canvas.said(station);
        Some(format!(
            " {}: least {} at {at} from its front reference point{less}.",
            strip.name,
            canvas.said(gap)
        ))
    };
    let all: String = strips.iter().filter_map(one).collect();
    format!("The room along the {} {}, its front to the right.{all}", hand.key(), pair.one())
}
