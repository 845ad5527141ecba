//! The end of a stay, unrolled.

use super::area::Area;
use super::canvas::{Canvas, Margins};
use super::sheet::{Anchor, Pen, Point, Sheet, Viewport};
use super::tube::EndTube;
use crate::geometry::{Node, Outline, perimeter};
use crate::plan::{Cut, CutAt, Plan, ProfilePoint, RoundCut, SlotCut, stay_line, stay_surface};
use crate::units::{Angle, Length};
use std::f64::consts::TAU;

/// How much tube is drawn behind the shortest point, mm.
const BEHIND: f64 = 8.0;

/// Every how many degrees a point of the edge is drawn.
const STEP: usize = 3;

/// One end unrolled to scale: the outer edge, the bore's edge, long and short point, every 45° ticked.
pub fn profile(plan: &Plan, place: CutAt, viewport: Viewport) -> Sheet {
    let cut = place.cut(plan);
    let long = cut.long_point().map_or(0.0, Length::mm);
    let short = cut.short_point().map_or(long, Length::mm);
    let around = around(plan, place, short);
    let sign = if place.at_front { 1.0 } else { -1.0 };
    let deep = (short - long).abs() + BEHIND;
    let wide = around.whole();
    let unrolled = Unrolled { around, sign, long };
    let margins = Margins { left: 0.9, right: 4.6, top: 2.2, bottom: 3.2 };
    let extent = Area::of([Point::new(0.0, 0.0), Point::new(wide, deep)]);
    let mut canvas = Canvas::new("Profile, unrolled", extent, margins, viewport);
    unrolled.draw_ticks(&mut canvas, deep);
    match cut {
        Cut::Cope(cut) | Cut::Boss(cut) => unrolled.draw_round(&mut canvas, cut),
        Cut::Slot(cut) => unrolled.draw_slot(&mut canvas, cut),
        Cut::Square(_) => canvas.line(Pen::Visible, "", Point::new(0.0, 0.0), Point::new(wide, 0.0)),
    }
    let text = sentence(place, cut, &canvas);
    canvas.finish(text)
}

/// The scale of the unrolled end: the long point at the top, the tube below.
struct Unrolled {
    around: Around,
    sign: f64,
    long: f64,
}

/// The way round a section, from φ = 0.
enum Around {
    /// A circle of that radius.
    Round(f64),
    /// An oval: the way at every whole degree, 0 to 360.
    Oval(Vec<f64>),
}

impl Around {
    /// The oval that `outline` has at `station`; its chords are stretched to the true length of the curve.
    fn oval(outline: &Outline, station: f64) -> Self {
        let point = |degree: i32| {
            let node = Node::at(f64::from(degree).to_radians());
            let radius = outline.radius_towards(node, station);
            Point::new(radius * node.cos, radius * node.sin)
        };
        let mut ways = vec![0.0];
        let mut way = 0.0;
        for degree in 1..=360 {
            way += point(degree - 1).distance(point(degree));
            ways.push(way);
        }
        let stretch = perimeter(outline.section(station).0) / way;
        Self::Oval(ways.into_iter().map(|way| way * stretch).collect())
    }

    fn at(&self, phi: Angle) -> f64 {
        let ways = match self {
            Self::Round(radius) => return phi.radians() * radius,
            Self::Oval(ways) => ways,
        };
        let degrees = phi.degrees().min(360.0);
        let at = |degree: usize| ways.get(degree.min(360)).copied().unwrap_or(0.0);
        let low = degrees.floor() as usize;
        at(low) + (at(low + 1) - at(low)) * degrees.fract()
    }

    /// All the way round.
    fn whole(&self) -> f64 {
        match self {
            Self::Round(radius) => TAU * radius,
            Self::Oval(_) => self.at(Angle::from_degrees(360.0)),
        }
    }
}

/// The way round the tube at `station` near an end.
fn around(plan: &Plan, place: CutAt, station: f64) -> Around {
    let stay = place.stay(plan);
    let surface = stay_surface(stay, &plan.job.pair(place.pair).side(place.hand).tube);
    let ((a, b), _) = surface.section(station);
    if a == b {
        return Around::Round(a);
    }
    Around::oval(&EndTube::new(stay, &stay_line(stay), &surface, place.at_front).outline, station)
}

impl Unrolled {
    fn at(&self, phi: Angle, station: Length) -> Point {
        Point::new(self.around.at(phi), self.sign * (station.mm() - self.long))
    }

    fn draw_ticks(&self, canvas: &mut Canvas, deep: f64) {
        let h = canvas.letter;
        // Between the edge and the ticks a figure has room.
        let deep = deep + 1.2 * h;
        canvas.line(Pen::Thin, "", Point::new(0.0, deep), Point::new(self.around.whole(), deep));
        for eighth in 0..=8 {
            let phi = Angle::from_degrees(f64::from(eighth) * 45.0);
            let x = self.around.at(phi);
            let long = eighth % 2 == 0;
            let up = if long { 1.0 } else { 0.5 } * 0.6 * h;
            canvas.line(Pen::Thin, "", Point::new(x, deep), Point::new(x, deep - up));
            if long {
                canvas.note(
                    "",
                    &format!("{}°", eighth * 45),
                    &[(Point::new(x, deep + 1.2 * h), Anchor::Middle)],
                );
            }
        }
    }

    fn draw_round(&self, canvas: &mut Canvas, cut: &RoundCut) {
        for run in runs(&cut.bore) {
            canvas.path(Pen::Hidden, "bore", self.points(run), false);
        }
        for run in runs(&cut.outer) {
            canvas.path(Pen::Visible, "outer", self.points(run), false);
        }
        let h = canvas.letter;
        let marks = [
            ("long_point_mm", cut.long_point, cut.long_point_phi, -0.7 * h),
            ("short_point_mm", cut.short_point, cut.short_point_phi, -0.7 * h),
        ];
        for (topic, station, phi, lift) in marks {
            let (Some(station), Some(phi)) = (station, phi) else { continue };
            let at = self.at(phi, station);
            canvas.circle(Pen::Thin, topic, at, 0.22 * h);
            let word = if topic == "long_point_mm" { "long" } else { "short" };
            let text = format!("{word} {}", canvas.figure(station));
            let places = [
                (at.plus(0.0, lift), Anchor::Middle),
                (at.plus(0.5 * h, lift), Anchor::Start),
                (at.plus(-0.5 * h, lift), Anchor::End),
                (at.plus(0.0, 1.4 * h), Anchor::Middle),
            ];
            canvas.note(topic, &text, &places);
        }
        if let (Some(long), Some(short)) = (cut.long_point, cut.short_point) {
            let deep = (short - long).mm().abs();
            let text = canvas.figure(Length::from_mm(deep));
            let x = self.around.whole();
            let off = Point::new(0.9 * h, 0.0);
            canvas.dimension("short_point_mm", &text, Point::new(x, 0.0), Point::new(x, deep), off);
        }
    }

    fn points(&self, run: &[ProfilePoint]) -> Vec<Point> {
        let last = run.len().saturating_sub(1);
        let kept = run.iter().enumerate().filter(|(i, _)| i % STEP == 0 || *i == last);
        let mut points: Vec<Point> = kept.map(|(_, point)| self.at(point.phi, point.s)).collect();
        // A run over the whole turn closes at 360°.
        if run.len() == 360 {
            points.extend(run.first().map(|first| self.at(Angle::from_degrees(360.0), first.s)));
        }
        points
    }

    fn draw_slot(&self, canvas: &mut Canvas, cut: &SlotCut) {
        let deep = self.at(Angle::from_degrees(0.0), cut.root).y;
        canvas.line(Pen::Visible, "mouth_s_mm", Point::new(0.0, 0.0), Point::new(self.around.whole(), 0.0));
        canvas.line(Pen::Hidden, "root_s_mm", Point::new(0.0, deep), Point::new(self.around.whole(), deep));
        for face in &cut.faces {
            let (Some(mouth), Some(root)) = (face.mouth_phi, face.root_phi) else { continue };
            for (a, b) in mouth.into_iter().zip(root) {
                canvas.line(Pen::Cutter, face.side, self.at(a, cut.mouth), self.at(b, cut.root));
            }
        }
        let text = canvas.figure(Length::from_mm(deep.abs()));
        let x = self.around.whole();
        let off = Point::new(0.9 * canvas.letter, 0.0);
        canvas.dimension("root_s_mm", &text, Point::new(x, 0.0), Point::new(x, deep), off);
    }
}

/// The stretches of a profile without a gap.
fn runs(points: &[ProfilePoint]) -> impl Iterator<Item = &[ProfilePoint]> {
    points.chunk_by(|a, b| b.phi.degrees() - a.phi.degrees() < 1.5)
}

fn sentence(place: CutAt, cut: &Cut, canvas: &Canvas) -> String {
    let name = place.name();
    match (cut.long_point(), cut.short_point(), cut) {
        (Some(mouth), Some(root), Cut::Slot(_)) => format!(
            "The {name} unrolled: slot from {} at the mouth to {} at the root.",
            canvas.said(mouth),
            canvas.said(root)
        ),
        (_, _, Cut::Square(_)) => format!("The {name} unrolled: cut square."),
        (Some(long), Some(short), _) => format!(
            "The {name} unrolled, outer edge and bore: long point at {}, short point at {} along the stay.",
            canvas.said(long),
            canvas.said(short)
        ),
        _ => format!("The {name} has no cut to unroll."),
    }
}
