//! What of a pair in its clamp plane can be pulled, and its line from the side.

use super::canvas::Canvas;
use super::clamp_plane::Scene;
use super::pull::Pull;
use super::roll_handle::roll_handle;
use super::sheet::{Anchor, Handle, Pen, Point};
use crate::model::Hand;

impl Scene<'_> {
    /// Whose figures a side's handles change: the right's where the left mirrors it.
    pub(super) fn handle_hand(&self, hand: Hand) -> Hand {
        if self.plan.job.pair(self.name).left.is_some() { hand } else { Hand::Right }
    }

    pub(super) fn put_handles(&self, canvas: &mut Canvas) {
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
                    from: self.view.point(&point),
                    pull: Pull(Point::new(0.0, sign)),
                    value: spacing.mm(),
                });
            }
            if hand == shown {
                let at = self.view.point(&stay.rear_point);
                canvas.handle(Handle {
                    path: format!("{}.{}.rear.reach_mm", self.name.key(), shown.key()),
                    name: format!("{} reach", hand.key()),
                    at: Point::new(at.x, at.y * 0.4),
                    from: Point::new(at.x, at.y * 0.4),
                    pull: Pull(Point::new(1.0, 0.0)),
                    value: side.rear.reach.mm(),
                });
            }
        }
        self.length_handle(canvas);
        for hand in Hand::ALL {
            let path = format!("{}.{}.tube.roll_deg", self.name.key(), self.handle_hand(hand).key());
            if let Some(handle) = roll_handle(self.pair.stay(hand), hand, path, (self.view, canvas.letter)) {
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
                from: Self::at(self.slide(), 0.0),
                pull: Pull(Point::new(-rate, 0.0)),
                value: length.mm(),
            });
        }
    }

    /// The line from shell to axle from the side, below the plan, with the drop.
    pub(super) fn draw_elevation(&self, canvas: &mut Canvas) {
        let frame = &self.plan.job.frame;
        let h = canvas.letter;
        let (x, drop) = (self.plan.axle.x, frame.bb_drop.mm());
        let shell = Point::new(0.0, self.low + (3.6 + self.bend_rows()) * h + drop.max(0.0));
        let axle = Point::new(-x, shell.y - drop);
        canvas.circle(Pen::Thin, "frame.shell_od_mm", shell, 4.0);
        canvas.circle(Pen::Thin, "", axle, 4.0);
        canvas.line(Pen::Axis, "frame.chainstay_length_mm", shell, axle);
        let foot = Point::new(-x, shell.y);
        canvas.line(Pen::Thin, "frame.bb_drop_mm", shell, foot);
        let text = canvas.figure(frame.bb_drop);
        // Clear of the handle on the axle, whichever side its figure stands on.
        canvas.dimension("frame.bb_drop_mm", &text, axle, foot, Point::new(3.8 * h, 0.0));
        let middle = shell.towards(axle, 0.42).plus(0.0, 1.2 * h + 0.42 * drop.max(0.0));
        let words = format!("drop {text}, from the side");
        canvas.note("frame.bb_drop_mm", &words, &[(middle, Anchor::Middle)]);
        canvas.handle(Handle {
            path: "frame.bb_drop_mm".into(),
            name: "bottom bracket drop".into(),
            at: axle,
            from: axle,
            pull: Pull(Point::new(0.0, -1.0)),
            value: drop,
        });
    }
}
