//! One pair of stays as it lies in its fixture, seen from above.

use super::area::Area;
use super::canvas::{Canvas, Margins};
use super::frame_part::FramePart;
use super::gaps::{GapLine, draw_figures, draw_lines, gaps_said};
use super::material::Material;
use super::neighbours::{Beside, beside, draw_names};
use super::sheet::{Pen, Point, Sheet, Viewport};
use super::solid::Look;
use super::tube::Drawn;
use super::view::View;
use crate::clearance::Obstacle;
use crate::model::{End, Hand, Member, PairName, Side};
use crate::plan::{Cut, Pair, Plan, Post, Stay};
use crate::units::Length;
use std::f64::consts::TAU;

/// The tyre is drawn from its foremost point to this far behind the axle, mm.
const BEHIND_AXLE: f64 = 18.0;

/// Half the length of the line that stands for the dummy axle beyond the dropouts, mm.
const AXLE_OVER: f64 = 10.0;

/// What the whole drawing goes by.
pub(super) struct Scene<'a> {
    pub(super) plan: &'a Plan,
    pub(super) name: PairName,
    pub(super) pair: &'a Pair,
    pub(super) view: View,
    /// Right, then left.
    pub(super) stays: [Drawn<'a>; 2],
    /// The lowest of what is to scale.
    pub(super) low: f64,
}

/// One pair in its clamp plane: stays with their cuts, member, posts, tyre, dummy axle, and the figures to set. Where the
/// sides do not share a plane, it is the right side's, and the left stay is seen from there.
pub fn clamp_plane(plan: &Plan, name: PairName, viewport: Viewport) -> Sheet {
    clamp_plane_with_gaps(plan, name, &[], viewport)
}

/// The same with the room to what turns beside the pair, where that is known.
pub fn clamp_plane_with_gaps(plan: &Plan, name: PairName, gaps: &[GapLine], viewport: Viewport) -> Sheet {
    let scene = Scene::new(plan, name);
    let mut canvas = scene.canvas(viewport);
    let mut within = canvas.area();
    within.max.y = scene.low + (1.2 + scene.bend_rows()) * canvas.letter;
    let beside =
        beside(plan, name, &scene.view, within, |to| matches!(to, Obstacle::Tyre | Obstacle::Post(_)));
    scene.draw_things(&mut canvas, &beside);
    draw_lines(&mut canvas, &scene.view, gaps);
    scene.put_handles(&mut canvas);
    if name == PairName::Chainstays {
        scene.draw_elevation(&mut canvas);
    }
    scene.draw_figures(&mut canvas);
    draw_figures(&mut canvas, &scene.view, gaps, true);
    scene.bend_figures(&mut canvas);
    draw_figures(&mut canvas, &scene.view, gaps, false);
    draw_names(&mut canvas, &beside);
    let text = scene.sentence(&canvas, gaps);
    canvas.finish(text)
}

impl<'a> Scene<'a> {
    pub(super) fn new(plan: &'a Plan, name: PairName) -> Self {
        let pair = plan.pair(name);
        let view = View::clamp_plane(&pair.right.clamp);
        let stays =
            Hand::ALL.map(|hand| Drawn::new(pair.stay(hand), &plan.job.pair(name).side(hand).tube, view));
        let mut scene = Self { plan, name, pair, view, stays, low: 0.0 };
        scene.low = scene.corners().iter().map(|corner| corner.y).fold(0.0, f64::max);
        scene
    }

    /// The empty sheet. Along the fixture it is the same for all that is drawn to the scale of this pair.
    pub(super) fn canvas(&self, viewport: Viewport) -> Canvas {
        let mut corners = self.corners();
        let drop = self.drop_height();
        if drop > 0.0 {
            corners.push(Point::new(0.0, self.low + drop + 24.0));
        }
        let bottom = if drop > 0.0 { 5.0 } else { 3.5 };
        let margins = Margins { left: 1.6, right: 3.0, top: 4.3, bottom: bottom + self.bend_rows() };
        let title = format!("Clamp plane, {}", self.name.name());
        Canvas::new(title, Area::of(corners), margins, viewport)
    }

    /// Height of the strip below that shows the chainstays' line from the side, for its drop.
    fn drop_height(&self) -> f64 {
        let chainstays = self.name == PairName::Chainstays;
        if chainstays { self.plan.job.frame.bb_drop.mm().abs() } else { 0.0 }
    }

    /// Rows of lettering below the stays that the bends' figures need.
    pub(super) fn bend_rows(&self) -> f64 {
        if self.stays.iter().any(|stay| stay.bends().next().is_some()) { 3.6 } else { 0.0 }
    }

    pub(super) fn slide(&self) -> f64 {
        self.pair.slide.mm()
    }

    pub(super) fn at(u: f64, v: f64) -> Point {
        Point::new(-u, v)
    }

    pub(super) fn half_axle(&self) -> f64 {
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

    fn draw_things(&self, canvas: &mut Canvas, beside: &[Beside]) {
        let slide = self.slide();
        canvas.line(Pen::Axis, "", Self::at(-40.0, 0.0), Self::at(slide + BEHIND_AXLE, 0.0));
        if beside.is_empty() {
            self.draw_tyre(canvas);
        }
        for beside in beside {
            beside.draw(canvas);
        }
        for hand in Hand::ALL {
            let end = self.side(hand).front_end;
            if hand == Hand::Right || end != self.side(Hand::Right).front_end {
                self.draw_member(canvas, &end);
            }
        }
        for (hand, stay) in Hand::ALL.into_iter().zip(&self.stays) {
            stay.draw_waste(canvas);
            let part = FramePart::of_pair(self.name);
            stay.draw(canvas, part, &format!("{}.{}", self.name.key(), hand.key()));
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

    pub(super) fn side(&self, hand: Hand) -> &Side {
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
                canvas.solid(Look::new(FramePart::Shell, Material::Shell, "frame.shell_od_mm"), points);
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
        let look = Look::new(FramePart::SeatTube, Material::Tube, "frame.seat_tube_od_mm");
        canvas.solid(look, points.collect());
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

    fn sentence(&self, canvas: &Canvas, gaps: &[GapLine]) -> String {
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
             spacing {}, slide {}.{}{}{}",
            self.name.name(),
            said(side.front.half_spacing),
            said(side.rear.half_spacing),
            said(self.pair.slide),
            posts.collect::<String>(),
            self.bends_said(canvas),
            gaps_said(canvas, gaps),
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
            let half = 0.5 * cut.width.mm();
            let at = |x: f64, off: f64| Point::new(x, hand.sign() * (cut.from_centre.mm() + off));
            let points = vec![at(mouth, -half), at(root, -half), at(root, half), at(mouth, half)];
            canvas.path(Pen::Cutter, "", points, false);
        }
        _ => {}
    }
}
