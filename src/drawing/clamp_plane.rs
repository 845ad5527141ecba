//! One pair of stays as it lies in its fixture, seen from above.

use super::canvas::{Canvas, Extent, Margins};
use super::roll_handle::roll_handle;
use super::sheet::{Anchor, Handle, Pen, Point, Room, Sheet};
use super::tube::Drawn;
use super::view::View;
use crate::plan::{Cut, Pair, Plan, Post, Stay};
use crate::quantity::Length;
use crate::trade::{End, Hand, Member, PairName, Side};
use std::f64::consts::TAU;

/// The tyre is drawn from its foremost point to this far behind the axle, mm.
const BEHIND_AXLE: f64 = 18.0;

/// Half the length of the line that stands for the dummy axle beyond the dropouts, mm.
const AXLE_OVER: f64 = 10.0;

/// What the whole drawing goes by.
struct Scene<'a> {
    plan: &'a Plan,
    name: PairName,
    pair: &'a Pair,
    view: View,
    stays: [Drawn<'a>; 2],
}

/// One pair in its clamp plane: stays with their cuts, member, posts, tyre, dummy axle, and the figures to set. Where the
/// sides do not share a plane, it is the right side's, and the left stay is seen from there.
pub fn clamp_plane(plan: &Plan, name: PairName, room: Room) -> Sheet {
    let pair = plan.pair(name);
    let view = View::clamp_plane(&pair.right.clamp);
    let stays = Hand::ALL.map(|hand| Drawn::new(pair.stay(hand), &plan.job.pair(name).side(hand).tube, view));
    let scene = Scene { plan, name, pair, view, stays };
    let drop = drop_height(plan, name);
    let bottom = if drop > 0.0 { 5.0 } else { 3.5 };
    let mut corners = scene.corners();
    let plan_bottom = corners.iter().map(|corner| corner.y).fold(0.0, f64::max);
    if drop > 0.0 {
        corners.push(Point::new(0.0, plan_bottom + drop + 24.0));
    }
    let margins = Margins { side: 0.8, top: 2.4, bottom };
    let title = format!("Clamp plane, {}", name.name());
    let mut canvas = Canvas::new(title, Extent::of(corners), margins, room);
    scene.draw_things(&mut canvas);
    scene.put_handles(&mut canvas);
    scene.draw_figures(&mut canvas, plan_bottom);
    if name == PairName::Chainstays {
        scene.draw_elevation(&mut canvas, plan_bottom);
    }
    let text = scene.sentence(&canvas);
    canvas.finish(text)
}

/// Height of the strip below that shows the chainstays' line from the side, for its drop.
fn drop_height(plan: &Plan, name: PairName) -> f64 {
    if name == PairName::Chainstays { plan.job.frame.bb_drop.mm().abs() } else { 0.0 }
}

impl Scene<'_> {
    fn slide(&self) -> f64 {
        self.pair.slide.mm()
    }

    fn at(u: f64, v: f64) -> Point {
        Point::new(-u, v)
    }

    fn half_axle(&self) -> f64 {
        0.5 * self.plan.job.frame.axle_spacing.mm()
    }

    fn corners(&self) -> Vec<Point> {
        let mut corners: Vec<Point> = self.stays.iter().flat_map(Drawn::corners).collect();
        let across = self.half_axle() + AXLE_OVER;
        corners.push(Self::at(self.slide() + BEHIND_AXLE, across));
        corners.push(Self::at(self.slide() + BEHIND_AXLE, -across));
        corners.push(Self::at(-0.5 * self.plan.job.frame.shell_od.mm(), 0.0));
        corners
    }

    fn draw_things(&self, canvas: &mut Canvas) {
        let slide = self.slide();
        canvas.line(Pen::Axis, "", Self::at(-40.0, 0.0), Self::at(slide + BEHIND_AXLE, 0.0));
        self.draw_tyre(canvas);
        for hand in Hand::ALL {
            let end = self.side(hand).front_end;
            if hand == Hand::Right || end != self.side(Hand::Right).front_end {
                self.draw_member(canvas, &end);
            }
        }
        for (hand, stay) in Hand::ALL.into_iter().zip(&self.stays) {
            stay.draw_waste(canvas);
            stay.draw(canvas, &format!("{}.{}", self.name.key(), hand.key()));
            draw_rear(canvas, self.pair.stay(hand), stay, hand);
        }
        let half = self.half_axle();
        let ends = [Self::at(slide, half + AXLE_OVER), Self::at(slide, -half - AXLE_OVER)];
        let [a, b] = ends;
        canvas.line(Pen::Axis, "frame.axle_spacing_mm", a, b);
        for v in [half, -half] {
            canvas.line(
                Pen::Visible,
                "frame.axle_spacing_mm",
                Self::at(slide - 7.0, v),
                Self::at(slide + 7.0, v),
            );
        }
        for post in &self.pair.posts {
            self.draw_post(canvas, post);
        }
    }

    fn side(&self, hand: Hand) -> &Side {
        self.plan.job.pair(self.name).side(hand)
    }

    /// The tyre's outline from above: straight flanks, a rounded front.
    fn draw_tyre(&self, canvas: &mut Canvas) {
        let wheel = &self.plan.job.wheel;
        let half = 0.5 * wheel.tyre_width.mm();
        let foremost = self.slide() - 0.5 * wheel.bead_seat.mm() - wheel.tyre_height.mm();
        let shoulder = foremost + half;
        let behind = self.slide() + BEHIND_AXLE;
        let mut points = vec![Self::at(behind, -half)];
        points.extend((-12..=12).map(|i| {
            let turn = f64::from(i) / 48.0 * TAU;
            Self::at(shoulder - half * turn.cos(), half * turn.sin())
        }));
        points.push(Self::at(behind, half));
        canvas.path(Pen::Hidden, "wheel.tyre_width_mm", points, false);
    }

    /// Shell from above, or the seat tube where the plane cuts it.
    fn draw_member(&self, canvas: &mut Canvas, end: &End) {
        let frame = &self.plan.job.frame;
        match end {
            End::Cope(cope) if cope.onto == Member::Shell => {
                let (radius, half) = (0.5 * frame.shell_od.mm(), 0.5 * frame.shell_width.mm());
                let middle = self.view.point(&nalgebra::Point3::origin());
                let corners = [(radius, half), (radius, -half), (-radius, -half), (-radius, half)];
                let points = corners.map(|(x, y)| middle.plus(x, y)).to_vec();
                canvas.path(Pen::Visible, "frame.shell_od_mm", points, true);
                canvas.line(Pen::Axis, "", middle.plus(0.0, -half - 8.0), middle.plus(0.0, half + 8.0));
            }
            End::Cope(_) => self.draw_cut_seat_tube(canvas),
            _ => {}
        }
    }

    fn draw_cut_seat_tube(&self, canvas: &mut Canvas) {
        let clamp = &self.pair.right.clamp;
        let lean = self.plan.seat_tube_direction.dot(&clamp.w);
        // A seat tube that lies nearly in the plane is cut nowhere near.
        if lean.abs() < 0.15 {
            return;
        }
        let up = -clamp.local(&self.plan.seat_tube_foot).z / lean;
        let middle = self.view.point(&(self.plan.seat_tube_foot + self.plan.seat_tube_direction * up));
        let radius = 0.5 * self.plan.job.frame.seat_tube_od.mm();
        let points = (0..48).map(|i| {
            let turn = f64::from(i) / 48.0 * TAU;
            middle.plus(radius / lean.abs() * turn.cos(), radius * turn.sin())
        });
        canvas.path(Pen::Visible, "frame.seat_tube_od_mm", points.collect(), true);
        canvas.cross("", middle, radius + 6.0);
    }

    fn draw_post(&self, canvas: &mut Canvas, post: &Post) {
        let reach = self
            .half_axle()
            .max([post.right, post.left].into_iter().flatten().map(|v| v.mm()).fold(0.0, f64::max) + 14.0);
        let u = post.u.mm();
        for side in [1.0, -1.0] {
            canvas.line(Pen::Thin, "fixture.posts_u_mm", Self::at(u, side * reach), Self::at(u, 0.0));
        }
    }

    /// The figures to set, the most needed first.
    fn draw_figures(&self, canvas: &mut Canvas, plan_bottom: f64) {
        let h = canvas.letter;
        let key = self.name.key();
        let slide = self.slide();
        let row = plan_bottom + 2.4 * h;
        let text = canvas.figure(self.pair.slide);
        let topic = format!("{key}.slide_mm");
        canvas.dimension(&topic, &text, Self::at(slide, 0.0), Self::at(0.0, 0.0), Point::new(0.0, row));
        for hand in Hand::ALL {
            self.end_figures(canvas, hand);
        }
        for (i, post) in self.pair.posts.iter().enumerate() {
            self.post_figures(canvas, post, &format!("{key}.posts.{i}"));
        }
        let reach = self.side(Hand::Right).rear.reach;
        let text = canvas.figure(reach);
        let rear = self.view.point(&self.pair.right.rear_point);
        let topic = format!("{key}.right.rear.reach_mm");
        let top = -plan_bottom - 1.2 * h;
        canvas.dimension(
            &topic,
            &text,
            Point::new(-slide, top),
            Point::new(rear.x, top),
            Point::new(0.0, 0.0),
        );
    }

    fn post_figures(&self, canvas: &mut Canvas, post: &Post, topic: &str) {
        let h = canvas.letter;
        let u = post.u.mm();
        // Between the tubes there is room for three lines of lettering, or the outer two go outside.
        let roomy = post.inside.is_some_and(|inside| inside.mm() > 4.5 * h);
        for (v, sign) in [(post.right, 1.0), (post.left, -1.0)] {
            let Some(v) = v else { continue };
            canvas.arrow(topic, Self::at(u, sign * v.mm()), Self::at(u, 0.0));
            let edge = post.outside.map_or(v.mm() + h, |over| over.mm() / 2.0);
            let between = |side: f64| Self::at(u, sign * v.mm() * 0.5).plus(side * h, 0.3 * h);
            let beyond = |lines: f64| Self::at(u, sign * (edge + lines * h)).plus(0.4 * h, 0.3 * h);
            let mut places = vec![(beyond(0.8), Anchor::Start), (beyond(1.9), Anchor::Start)];
            if roomy {
                places.splice(0..0, [(between(0.4), Anchor::Start), (between(-0.4), Anchor::End)]);
            }
            canvas.note(topic, &canvas.figure(v), &places);
        }
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
                (Point::new(-u, outside - 1.2 * h), Anchor::Middle),
                (Point::new(-u, outside - 2.5 * h), Anchor::Middle),
                (Point::new(-u, -outside + 1.1 * h), Anchor::Middle),
                (Point::new(-u, -outside + 2.4 * h), Anchor::Middle),
            ];
            let places = if word == "over " { places.into_iter().skip(2).collect() } else { places.to_vec() };
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
            (stay.front_point, side.front.half_spacing, "front", -2.6 * h),
            (stay.rear_point, side.rear.half_spacing, "rear", 1.6 * h),
        ];
        for (point, spacing, end, off) in ends {
            let at = self.view.point(&point);
            let topic = format!("{}.{}.{end}.half_spacing_mm", self.name.key(), shown.key());
            let text = canvas.figure(spacing);
            // Behind the axle at the rear, before the member at the front.
            let x = if end == "front" { canvas.right() - at.x + off } else { canvas.left() - at.x + off };
            canvas.dimension(&topic, &text, Point::new(at.x, 0.0), at, Point::new(x, 0.0));
        }
    }

    /// Whose figures a side's handles change: the right's where the left mirrors it.
    fn handle_hand(&self, hand: Hand) -> Hand {
        if self.plan.job.pair(self.name).left.is_some() { hand } else { Hand::Right }
    }

    fn put_handles(&self, canvas: &mut Canvas) {
        for hand in Hand::ALL {
            let shown = self.handle_hand(hand);
            let stay = self.pair.stay(hand);
            let side = self.side(hand);
            let sign = hand.sign();
            let ends = [
                ("front", stay.front_point, side.front.half_spacing),
                ("rear", stay.rear_point, side.rear.half_spacing),
            ];
            for (end, point, spacing) in ends {
                canvas.handle(Handle {
                    path: format!("{}.{}.{end}.half_spacing_mm", self.name.key(), shown.key()),
                    name: format!("{} {end} half spacing", hand.key()),
                    at: self.view.point(&point),
                    along: Point::new(0.0, sign),
                    value: spacing.mm(),
                });
            }
            if hand == shown {
                let at = self.view.point(&stay.rear_point);
                canvas.handle(Handle {
                    path: format!("{}.{}.rear.reach_mm", self.name.key(), shown.key()),
                    name: format!("{} reach", hand.key()),
                    at: Point::new(at.x, at.y * 0.5),
                    along: Point::new(1.0, 0.0),
                    value: side.rear.reach.mm(),
                });
            }
        }
        self.length_handle(canvas);
        for hand in Hand::ALL {
            let path = format!("{}.{}.tube.roll_deg", self.name.key(), self.handle_hand(hand).key());
            if let Some(handle) = roll_handle(self.pair.stay(hand), hand, path, self.view) {
                canvas.handle(handle);
            }
        }
    }

    /// Pulling the axle along the fixture changes the chainstay length.
    fn length_handle(&self, canvas: &mut Canvas) {
        let length = self.plan.job.frame.chainstay_length;
        // A moves along x by L / A.x for each mm of L.
        let rate = length.mm() / self.plan.axle.x.max(1.0) * self.pair.right.clamp.u.x;
        if rate.abs() > 0.2 {
            canvas.handle(Handle {
                path: "frame.chainstay_length_mm".into(),
                name: "chainstay length".into(),
                at: Self::at(self.slide(), 0.0),
                along: Point::new(-rate, 0.0),
                value: length.mm(),
            });
        }
    }

    /// The line from shell to axle from the side, below the plan, with the drop.
    fn draw_elevation(&self, canvas: &mut Canvas, plan_bottom: f64) {
        let frame = &self.plan.job.frame;
        let h = canvas.letter;
        let (x, drop) = (self.plan.axle.x, frame.bb_drop.mm());
        let shell = Point::new(0.0, plan_bottom + 3.6 * h + drop.max(0.0));
        let axle = Point::new(-x, shell.y - drop);
        canvas.circle(Pen::Thin, "frame.shell_od_mm", shell, 4.0);
        canvas.circle(Pen::Thin, "", axle, 4.0);
        canvas.line(Pen::Axis, "frame.chainstay_length_mm", shell, axle);
        let foot = Point::new(-x, shell.y);
        canvas.line(Pen::Thin, "frame.bb_drop_mm", shell, foot);
        let text = canvas.figure(frame.bb_drop);
        canvas.dimension("frame.bb_drop_mm", &text, axle, foot, Point::new(2.0 * h, 0.0));
        let middle = shell.towards(axle, 0.42).plus(0.0, 1.2 * h + 0.42 * drop.max(0.0));
        let words = format!("drop {text}, from the side");
        canvas.note("frame.bb_drop_mm", &words, &[(middle, Anchor::Middle)]);
        canvas.handle(Handle {
            path: "frame.bb_drop_mm".into(),
            name: "bottom bracket drop".into(),
            at: axle,
            along: Point::new(0.0, -1.0),
            value: drop,
        });
    }

    fn sentence(&self, canvas: &Canvas) -> String {
        let said = |length: Length| canvas.said(length);
        let posts = self.pair.posts.iter().filter_map(|post| {
            let (right, left) = (post.right?, post.left?);
            Some(format!(
                " Post at {}: right {}, left {} from the centre line.",
                said(post.u),
                said(right),
                said(left)
            ))
        });
        let side = self.side(Hand::Right);
        format!(
            "The {} in their clamp plane from above, front to the right, drive side below. Front half spacing {}, rear half \
             spacing {}, slide {}.{}",
            self.name.name(),
            said(side.front.half_spacing),
            said(side.rear.half_spacing),
            said(self.pair.slide),
            posts.collect::<String>()
        )
    }
}

/// What the rear end is cut to: a boss from above, or the slot's two faces and its root.
fn draw_rear(canvas: &mut Canvas, stay: &Stay, drawn: &Drawn<'_>, hand: Hand) {
    match &stay.rear {
        Cut::Boss(cut) => {
            let middle = View::clamp_plane(&stay.clamp).point(&cut.axis_point);
            let at = drawn.on_axis(stay.length.mm());
            let (radius, reach) = (0.5 * cut.member.mm(), 14.0);
            for x in [-radius, radius] {
                let line = [-reach, reach].map(|y| Point::new(middle.x + x, at.y + y));
                let [a, b] = line;
                canvas.line(Pen::Hidden, "", a, b);
            }
        }
        Cut::Slot(cut) => {
            let (root, mouth) = (drawn.on_axis(cut.root.mm()).x, drawn.on_axis(cut.mouth.mm()).x);
            let half = 0.5 * cut.plate.mm();
            let at = |x: f64, off: f64| Point::new(x, hand.sign() * (cut.from_centre.mm() + off));
            let points = vec![at(mouth, -half), at(root, -half), at(root, half), at(mouth, half)];
            canvas.path(Pen::Cutter, "", points, false);
        }
        _ => {}
    }
}
