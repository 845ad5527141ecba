//! How the machine stands at each step: what the steps before it have set.

use super::beside::Quantity;
use super::key::{Phase, SettingKey};
use super::reading::Reading;
use super::room::Room;
use super::step::{Scale, SetPoint, Step};
use super::task::{AxleSide, CutPart, Face, HeightFrom, Task, Turn};
use super::tools::Tools;
use crate::machining::{MachinePose, MovingPart, SpindleTool, Stroke};
use crate::model::shop::{Axis, HoleSaw, Shop, SlittingSaw};
use crate::model::{Hand, PairName, TouchSide};
use crate::plan::{CutAt, EndUp, Plan};
use crate::units::{Angle, Length};
use nalgebra::{Rotation3, Unit, Vector3};

/// How far over the datum edge the spindle is shown before anything is touched, mm.
const CLEAR: f64 = 60.0;

/// The machine as it stands when each step is done. The readings of the steps alone say where: as they are rounded, so it stands.
pub fn poses(plan: &Plan, shop: &Shop, tools: &Tools, steps: &[Step]) -> Vec<MachinePose> {
    let mut state = State::new(plan, shop, tools);
    steps.iter().map(|step| state.after(step)).collect()
}

/// The machine while the steps are gone through.
struct State<'a> {
    plan: &'a Plan,
    shop: &'a Shop,
    tools: &'a Tools,
    room: Room<'a>,
    pose: MachinePose,
    /// Where each axis stood when its readout was set to zero.
    zero: [f64; 3],
    /// Where the stop for a slitting saw stands on the axis along the fixture.
    stop: f64,
}

impl<'a> State<'a> {
    fn new(plan: &'a Plan, shop: &'a Shop, tools: &'a Tools) -> Self {
        let room = Room { mill: &shop.mill };
        let pose = MachinePose {
            pair: PairName::Chainstays,
            hands: Hand::ALL.to_vec(),
            has_stays: false,
            is_cut: [false; 2],
            has_axle: false,
            ways: room.lying(),
            out: room.out(),
            tool_at: (room.out() * CLEAR).into(),
            tool: SpindleTool::Empty,
            moving: None,
            moves: Vec::new(),
        };
        Self { plan, shop, tools, room, pose, zero: [0.0; 3], stop: 0.0 }
    }

    /// The pose when a step is done.
    fn after(&mut self, step: &Step) -> MachinePose {
        self.begin(step.key.setting);
        (self.pose.moving, self.pose.moves) = self.follow(step);
        let pose = self.pose.clone();
        self.finish(step);
        pose
    }

    /// Other stays come in: the fixture lies on the bench for them.
    fn begin(&mut self, setting: SettingKey) {
        let hands: Vec<Hand> = Hand::ALL.into_iter().filter(|hand| setting.serves(*hand)).collect();
        if setting.phase == Phase::Clamping && (self.pose.pair, &self.pose.hands) != (setting.pair, &hands) {
            self.pose = MachinePose {
                has_stays: false,
                is_cut: [false; 2],
                ways: self.room.lying(),
                ..self.pose.clone()
            };
        }
        // Ends that are set apart are cut from stays that are clamped together.
        if setting.phase == Phase::Clamping || self.pose.pair != setting.pair {
            (self.pose.pair, self.pose.hands) = (setting.pair, hands);
        }
    }

    /// Does what a step says; gives what moves and which ways.
    fn follow(&mut self, step: &Step) -> (Option<MovingPart>, Vec<Vector3<f64>>) {
        let (moving, moves) = match step.task {
            Task::MarkHands | Task::SawSquare | Task::Deburr => return (None, Vec::new()),
            Task::SetSlide => self.set_axle(&[0], None),
            Task::SetAxleHeight(side) => self.set_axle(&[2], Some(side)),
            Task::SetAxle(side) => self.set_axle(&[0, 2], Some(side)),
            Task::SetPosts { .. } => (MovingPart::Posts, Vec::new()),
            Task::Clamp { .. } => {
                self.pose.has_stays = true;
                (MovingPart::Stays, Vec::new())
            }
            Task::TakeAxleOut => {
                self.pose.has_axle = false;
                (MovingPart::Axle, Vec::new())
            }
            Task::StandOnSide { side, .. } => self.stand(self.room.on_side(side)),
            Task::Tilt { end_up, .. } => self.stand(self.room.tilted(self.tilt(step, end_up))),
            Task::Swivel { turn, .. } => self.stand(self.swivelled(step, turn)),
            Task::TouchCorner { .. } | Task::PointAtEdge | Task::TouchFace(_) => {
                self.touch(step);
                (MovingPart::Table, Vec::new())
            }
            Task::Move { .. }
            | Task::MoveAlong { .. }
            | Task::MoveAcross { .. }
            | Task::StopAtRoot { .. } => (MovingPart::Table, self.move_table(step)),
            Task::Slot { hand, from, .. } => {
                self.slot(step, hand, from);
                // The saw is fed forwards, so the table goes to the rear.
                (MovingPart::Table, vec![self.room.rear()])
            }
            _ => (MovingPart::Spindle, self.at_spindle(step)),
        };
        (Some(moving), moves)
    }

    fn set_axle(&mut self, ways: &[usize], side: Option<AxleSide>) -> (MovingPart, Vec<Vector3<f64>>) {
        self.pose.has_axle = true;
        let sign = if side == Some(AxleSide::Below) { -1.0 } else { 1.0 };
        let [u, _, w] = self.pose.ways;
        let way = |place: &usize| if *place == 0 { u } else { w * sign };
        (MovingPart::Axle, ways.iter().map(way).collect())
    }

    fn touch(&mut self, step: &Step) {
        match step.task {
            Task::TouchCorner { from, along, face, across } => {
                self.touch_edge(along, Some(from));
                self.touch_face(face, across);
            }
            Task::TouchFace(face) => {
                if let Some(axis) = step.set_points().find_map(|point| axis_of(&point)) {
                    self.touch_face(face, axis);
                }
            }
            _ => self.touch_edge(self.shop.mill.lies_along, None),
        }
    }

    /// Goes where the readings say; gives the ways of the table, which goes against the cutter.
    fn move_table(&mut self, step: &Step) -> Vec<Vector3<f64>> {
        let motions = match step.task {
            Task::Move { along, across, .. } => [Some(along), Some(across)],
            Task::MoveAlong { motion, .. } | Task::MoveAcross { motion, .. } => [Some(motion), None],
            Task::StopAtRoot { motion, across } => [motion, across.map(|(_, motion)| motion)],
            _ => [None, None],
        };
        let is_stop = matches!(step.task, Task::StopAtRoot { .. });
        for (place, point) in step.set_points().enumerate() {
            let Some((axis, target)) = self.target(&point) else { continue };
            if is_stop && place == 0 {
                self.stop = target;
            } else {
                self.go(axis, target);
            }
        }
        self.rest_over(step);
        motions.into_iter().flatten().map(|motion| -self.room.motion(motion)).collect()
    }

    /// The steps at which the tool is changed or cuts along its axis.
    fn at_spindle(&mut self, step: &Step) -> Vec<Vector3<f64>> {
        match step.task {
            Task::MountHoleSaw { .. } => {
                self.pose.tool = SpindleTool::HoleSaw(self.hole_saw(step));
                self.rest_over(step);
            }
            Task::MountSlittingSaw { touches, .. } => {
                self.pose.tool = SpindleTool::SlittingSaw(slitting_saw(step, self.shop));
                if let Some(side) = touches {
                    self.touch_top(side);
                }
            }
            Task::TouchTop(side) => self.touch_top(side),
            Task::Cut { .. } => self.cut(step),
            _ => return Vec::new(),
        }
        let goes_in = matches!(step.task, Task::Cut { .. } | Task::TouchTop(_));
        if goes_in { vec![-self.pose.out] } else { Vec::new() }
    }

    /// What is otherwise once the step has been seen.
    fn finish(&mut self, step: &Step) {
        match step.task {
            Task::Cut { part } if part != CutPart::First => self.is_cut(step),
            Task::SawSquare | Task::Slot { .. } => self.is_cut(step),
            Task::TakeSawOut | Task::ClearSlug { takes_saw_out: true } => self.pose.tool = SpindleTool::Empty,
            _ => {}
        }
    }

    fn is_cut(&mut self, step: &Step) {
        let [front, rear] = &mut self.pose.is_cut;
        match step.key.setting.phase {
            Phase::Front => *front = true,
            Phase::Rear => *rear = true,
            _ => {}
        }
    }

    fn stand(&mut self, ways: [Vector3<f64>; 3]) -> (MovingPart, Vec<Vector3<f64>>) {
        self.pose.ways = ways;
        self.pose.tool_at = (self.datum() + self.pose.out * CLEAR).into();
        if !matches!(self.pose.tool, SpindleTool::HoleSaw(_) | SpindleTool::SlittingSaw(_)) {
            self.pose.tool = SpindleTool::Empty;
        }
        (MovingPart::Fixture, Vec::new())
    }

    /// Where the datum edge crosses the centre line, in the room.
    fn datum(&self) -> Vector3<f64> {
        let bench = &self.plan.job.fixture.bench;
        let [u, _, w] = self.pose.ways;
        u * bench.touch_u.mm() + w * bench.touch_w.mm()
    }

    /// How far the rear end is raised, radians.
    fn tilt(&self, step: &Step, end_up: EndUp) -> f64 {
        let scale = &self.shop.fixture.tilt;
        let reading = step.reading.and_then(Reading::number).unwrap_or_default();
        let turn = ((reading - scale.figures.zero.degrees()) * scale.sense.sign()).to_radians();
        match end_up {
            EndUp::Level | EndUp::Rear => turn,
            EndUp::Front | EndUp::Either => -turn,
        }
    }

    fn swivelled(&self, step: &Step, turn: Turn) -> [Vector3<f64>; 3] {
        let scale = &self.shop.fixture.swivel;
        let reading = step.reading.and_then(Reading::number).unwrap_or_default();
        let size = ((reading - scale.figures.zero.degrees()) * scale.sense.sign()).abs();
        let size = Angle::from_degrees(if turn == Turn::Clockwise { -size } else { size });
        let about = Unit::new_normalize(self.pose.ways[2]);
        self.pose.ways.map(|way| Rotation3::from_axis_angle(&about, size.radians()) * way)
    }
}

/// Moves and touches.
impl State<'_> {
    fn go(&mut self, axis: Axis, place: f64) {
        let way = self.room.axis(axis);
        self.pose.tool_at += way * (place - self.pose.tool_at.coords.dot(&way));
    }

    fn set_zero(&mut self, axis: Axis, place: f64) {
        self.go(axis, place);
        let [x, y, z] = &mut self.zero;
        match axis {
            Axis::X => *x = place,
            Axis::Y => *y = place,
            Axis::Z => *z = place,
        }
    }

    /// The axis of the readout that a figure is set on, and where it puts it.
    fn target(&self, point: &SetPoint) -> Option<(Axis, f64)> {
        let axis = axis_of(point)?;
        let [x, y, z] = self.zero;
        let zero = match axis {
            Axis::X => x,
            Axis::Y => y,
            Axis::Z => z,
        };
        let (_, sense) = self.shop.mill.readout(axis);
        Some((axis, zero + sense.sign() * point.reading.number()?))
    }

    fn tip(&self) -> Length {
        self.plan.job.touch.edge_finder
    }

    /// The edge finder's side on the datum edge, or a pointed tip over it.
    fn touch_edge(&mut self, along: Axis, from: Option<TouchSide>) {
        let tip = if from.is_some() { self.tip() } else { Length::default() };
        self.pose.tool = SpindleTool::EdgeFinder(tip);
        let aside = match from {
            None => 0.0,
            Some(TouchSide::Front) => -tip.mm() / 2.0,
            Some(TouchSide::Rear) => tip.mm() / 2.0,
        };
        let place = self.datum() + self.room.rear() * aside;
        self.pose.tool_at = place.into();
        self.set_zero(along, place.dot(&self.room.axis(along)));
    }

    fn touch_face(&mut self, face: Face, across: Axis) {
        self.pose.tool = SpindleTool::EdgeFinder(self.tip());
        let bench = &self.plan.job.fixture.bench;
        let [_, v, w] = self.pose.ways;
        let (out, off) = match face {
            Face::Base => (-w, bench.clamp_height.mm()),
            Face::Block(hand) => (v * hand.sign(), bench.block_width.mm() / 2.0),
        };
        let place = out * (off + self.tip().mm() / 2.0);
        self.set_zero(across, place.dot(&self.room.axis(across)));
    }

    /// The slitting saw's lower face on the block's upper side.
    fn touch_top(&mut self, side: Hand) {
        let half = self.plan.job.fixture.bench.block_width.mm() / 2.0;
        let face = self.pose.ways[1] * (side.sign() * half);
        let width = match self.pose.tool {
            SpindleTool::SlittingSaw(saw) => saw.width.mm(),
            _ => 0.0,
        };
        let block = &self.shop.fixture.block;
        let over = self.pose.ways[0] * ((block.front.mm() + block.rear.mm()) / 2.0);
        self.pose.tool_at = (face + over).into();
        self.set_zero(Axis::Z, face.dot(&self.pose.out) + width / 2.0);
    }

    fn slot(&mut self, step: &Step, hand: Hand, from: HeightFrom) {
        let out = self.pose.out;
        let outboard = if self.pose.ways[1].dot(&out) * hand.sign() > 0.0 { out } else { -out };
        for point in step.set_points() {
            let place = match from {
                HeightFrom::Touch(_) => self.target(&point).map(|(_, place)| place),
                HeightFrom::Datum | HeightFrom::CentrePlane => {
                    let height = point.reading.number();
                    height.map(|height| (self.datum().dot(&outboard) + height) * outboard.dot(&out))
                }
            };
            if let Some(place) = place {
                self.go(Axis::Z, place);
            }
        }
        self.go(self.shop.mill.lies_along, self.stop);
    }

    /// The saw's teeth stand where the stroke of a cut ends.
    fn cut(&mut self, step: &Step) {
        if let Some(stroke) = self.stroke(step) {
            self.go(Axis::Z, self.along_spindle(&stroke, stroke.teeth_at_end));
        }
    }

    /// The saw's teeth stand clear of the work.
    fn rest_over(&mut self, step: &Step) {
        if let Some(stroke) = self.stroke(step) {
            self.go(Axis::Z, self.along_spindle(&stroke, stroke.teeth_at_start));
        }
    }

    fn along_spindle(&self, stroke: &Stroke, station: f64) -> f64 {
        self.pose.in_room(&stroke.axis.at(station)).coords.dot(&self.pose.out)
    }

    fn stroke(&self, step: &Step) -> Option<Stroke> {
        let SpindleTool::HoleSaw(saw) = self.pose.tool else { return None };
        Stroke::new(self.plan, self.shop, &cuts(step.key.setting), saw.diameter())
    }

    /// The saw that was chosen for a setting; one of the planned diameter where none was.
    fn hole_saw(&self, step: &Step) -> HoleSaw {
        let chosen = || {
            let at = *cuts(step.key.setting).first()?;
            self.shop.hole_saws.get(self.tools.saw(at)?.saw).copied()
        };
        let cutting = step.reading.and_then(Reading::number).map(Length::from_mm);
        chosen().unwrap_or_else(|| HoleSaw { cutting, ..HoleSaw::default() })
    }
}

/// The saw that a step mounts: on its scale the width, its diameter beside it.
fn slitting_saw(step: &Step, shop: &Shop) -> SlittingSaw {
    let width = step.reading.and_then(Reading::number).map(Length::from_mm);
    let diameter = step.beside_of(Quantity::SawDiameter).and_then(Reading::number).map(Length::from_mm);
    let known =
        shop.slitting_saws.iter().find(|saw| Some(saw.width) == width && Some(saw.diameter) == diameter);
    let mut saw = known.copied().unwrap_or_default();
    saw.width = width.unwrap_or(saw.width);
    saw.diameter = diameter.unwrap_or(saw.diameter);
    saw
}

fn cuts(setting: SettingKey) -> Vec<CutAt> {
    let Some(at_front) = setting.at_front() else { return Vec::new() };
    let hands = Hand::ALL.into_iter().filter(|hand| setting.serves(*hand));
    hands.map(|hand| CutAt { pair: setting.pair, hand, at_front }).collect()
}

const fn axis_of(point: &SetPoint) -> Option<Axis> {
    match point.scale {
        Some(Scale::Dro(axis)) => Some(axis),
        _ => None,
    }
}
