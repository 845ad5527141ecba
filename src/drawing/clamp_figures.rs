//! The figures of a pair in its clamp plane.

use super::canvas::{Canvas, FAINT};
use super::clamp_plane::Scene;
use super::gaps::nearby;
use super::sheet::{Anchor, Point};
use crate::model::Hand;
use crate::plan::{BendPlace, Post};
use crate::units::Length;

impl Scene<'_> {
    /// The figures to set, the most needed first.
    pub(super) fn draw_figures(&self, canvas: &mut Canvas) {
        let h = canvas.letter;
        let key = self.name.key();
        let slide = self.slide();
        let row = self.low + (2.4 + self.bend_rows()) * h;
        let text = canvas.figure(self.pair.slide);
        let topic = format!("{key}.slide_mm");
        canvas.dimension(&topic, &text, Self::at(slide, 0.0), Self::at(0.0, 0.0), Point::new(0.0, row));
        let reach = self.side(Hand::Right).rear.reach;
        let text = canvas.figure(reach);
        let rear = self.view.point(&self.pair.right.rear_point);
        let topic = format!("{key}.right.rear.reach_mm");
        let top = -self.low - 2.5 * h;
        canvas.dimension(
            &topic,
            &text,
            Point::new(-slide, top),
            Point::new(rear.x, top),
            Point::new(0.0, 0.0),
        );
        for hand in Hand::ALL {
            self.end_figures(canvas, hand);
        }
        for (i, post) in self.pair.posts.iter().enumerate() {
            self.post_figures(canvas, post, &format!("{key}.posts.{i}"));
        }
    }

    fn post_figures(&self, canvas: &mut Canvas, post: &Post, topic: &str) {
        let h = canvas.letter;
        let u = post.u.mm();
        // Between the tubes there is room for three lines of lettering, or the outer two go outside.
        let roomy = post.inside.is_some_and(|inside| inside.mm() > 4.5 * h);
        for (v, hand) in [(post.right, Hand::Right), (post.left, Hand::Left)] {
            let (Some(v), sign) = (v, hand.sign()) else { continue };
            canvas.arrow(topic, Self::at(u, sign * v.mm()), Self::at(u, 0.0));
            let edge = post.outside.map_or(v.mm() + h, |over| over.mm() / 2.0);
            let between = |side: f64| Self::at(u, sign * v.mm() * 0.5).plus(side * h, 0.3 * h);
            let beyond =
                |lines: f64, side: f64| Self::at(u, sign * (edge + lines * h)).plus(side * 0.4 * h, 0.3 * h);
            let beyond = [0.8, 1.9]
                .map(|lines| [(beyond(lines, 1.0), Anchor::Start), (beyond(lines, -1.0), Anchor::End)]);
            let mut places = beyond.concat();
            if roomy {
                places.splice(0..0, [(between(0.4), Anchor::Start), (between(-0.4), Anchor::End)]);
            }
            let text = canvas.figure(v);
            // A mirrored side says it only where that costs nothing.
            if self.handle_hand(hand) == hand {
                canvas.note(topic, &text, &places);
            } else {
                canvas.clear_note(topic, &text, &places);
            }
        }
        Self::caliper_figures(canvas, post, topic);
    }

    /// Between the tubes and over them, as a caliper reads at a post.
    fn caliper_figures(canvas: &mut Canvas, post: &Post, topic: &str) {
        let (h, u) = (canvas.letter, post.u.mm());
        let middle = Self::at(u, 0.0).plus(0.0, -0.3 * h);
        let calipers = [(post.inside, "in ", 0.0), (post.outside, "over ", 1.2 * h)];
        for (reading, word, down) in calipers {
            let Some(reading) = reading else { continue };
            let text = format!("{word}{}", canvas.figure(reading));
            let top = [post.right, post.left].into_iter().flatten().map(|v| v.mm()).fold(0.0, f64::max);
            let outside = -top - 14.0 - 0.4 * h;
            let places = [
                (middle.plus(-0.5 * h, -down), Anchor::End),
                (middle.plus(0.5 * h, -down), Anchor::Start),
                (middle.plus(0.5 * h, 1.6 * h), Anchor::Start),
                (middle.plus(-0.5 * h, 1.6 * h), Anchor::End),
                (Point::new(-u, outside - 1.2 * h), Anchor::Middle),
                (Point::new(-u, outside - 2.5 * h), Anchor::Middle),
                (Point::new(-u, -outside + 1.1 * h), Anchor::Middle),
                (Point::new(-u, -outside + 2.4 * h), Anchor::Middle),
            ];
            let places = if word == "over " { places.into_iter().skip(4).collect() } else { places.to_vec() };
            canvas.note(topic, &text, &places);
        }
    }

    /// Half spacings at the two reference points.
    fn end_figures(&self, canvas: &mut Canvas, hand: Hand) {
        let h = canvas.letter;
        let stay = self.pair.stay(hand);
        let side = self.side(hand);
        let shown = self.handle_hand(hand);
        let ends = [
            (stay.front_point, side.front.half_spacing, "front", -1.65 * h),
            (stay.rear_point, side.rear.half_spacing, "rear", 1.65 * h),
        ];
        for (point, spacing, end, off) in ends {
            let at = self.view.point(&point);
            let topic = format!("{}.{}.{end}.half_spacing_mm", self.name.key(), shown.key());
            let text = canvas.figure(spacing);
            // Behind the axle at the rear, before the member at the front.
            let x = if end == "front" { canvas.right() - at.x + off } else { canvas.left() - at.x + off };
            let (middle, off) = (Point::new(at.x, 0.0), Point::new(x, 0.0));
            // A mirrored side says it only where that costs nothing.
            if hand == shown {
                canvas.dimension(&topic, &text, middle, at, off);
            } else {
                canvas.clear_dimension(&topic, &text, middle, at, off);
            }
        }
    }

    /// At each bend's apex: how far it stands off the centre line, and how far above or below the clamp plane.
    pub(super) fn bend_figures(&self, canvas: &mut Canvas) {
        for (hand, stay) in Hand::ALL.into_iter().zip(&self.stays) {
            if self.handle_hand(hand) != hand {
                continue;
            }
            for (i, bend) in stay.bends().enumerate() {
                let apex = stay.on_axis(bend.apex.mm());
                let way = if bend.from_plane.mm() < -0.005 { "↓" } else { "↑" };
                let off = Length::from_mm(bend.from_plane.mm().abs());
                let short = format!("{} {way}{}", canvas.figure(bend.from_centre), canvas.figure(off));
                let long = format!("bend {short}");
                let topic = format!("{}.{}.bends.{i}.apex_mm", self.name.key(), hand.key());
                let edge = hand.sign()
                    * 0.5
                    * (stay.beside(bend.apex.mm(), 1.0, 0.0).y - stay.beside(bend.apex.mm(), -1.0, 0.0).y)
                        .abs();
                let places = apex_places(apex, edge, hand.sign() * canvas.letter);
                let rings = nearby(apex, canvas.letter, hand.sign());
                let mut note = |text: &str, places: &[_], most| {
                    canvas.led_note(&topic, text, apex, places, most).is_some()
                };
                let _ = note(&long, &places, FAINT)
                    || note(&short, &places, FAINT)
                    || note(&short, &places, usize::MAX)
                    || rings.iter().any(|ring| note(&short, ring, usize::MAX));
            }
        }
    }

    pub(super) fn bends_said(&self, canvas: &Canvas) -> String {
        let one = |hand: Hand, i: usize, bend: &BendPlace| {
            let side = if bend.from_plane.mm() < -0.005 { "below" } else { "above" };
            format!(
                " Apex of {} bend {}: {} from the centre line, {} {side} the clamp plane.",
                hand.key(),
                i + 1,
                canvas.said(bend.from_centre),
                canvas.said(Length::from_mm(bend.from_plane.mm().abs()))
            )
        };
        let both = Hand::ALL.into_iter().zip(&self.stays);
        both.flat_map(|(hand, stay)| stay.bends().enumerate().map(move |(i, bend)| one(hand, i, bend)))
            .collect()
    }
}

/// Places for the figures of an apex that lies `edge` inside the tube: outboard first, `out` being a line of lettering that way.
fn apex_places(apex: Point, edge: f64, out: f64) -> Vec<(Point, Anchor)> {
    let h = out.abs();
    let rows = [1.2, 2.4, 3.6, 4.8, -1.2, -2.4];
    let row = |row: f64| {
        let off = if row > 0.0 { edge } else { -edge };
        let at = apex.plus(0.0, off + row * out + 0.3 * h);
        [(at, Anchor::Middle), (at.plus(-0.6 * h, 0.0), Anchor::Start), (at.plus(0.6 * h, 0.0), Anchor::End)]
    };
    rows.into_iter().flat_map(row).collect()
}
