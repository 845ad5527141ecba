//! A fixture on a mill in a room, which does what a step says and knows nothing else.

use super::truth::Axis;
use nalgebra::{Matrix3, Rotation3, Unit, Vector3};
use staywright::model::shop::{self, LengthScale, Sense, Shop, SpindleWay, Toward};
use staywright::model::{Hand, Job, Stays, TouchSide};
use staywright::plan::EndUp;
use staywright::procedure::{
    CutPart, Face, HeightFrom, Quantity, Reading, Scale, SetPoint, SettingKey, Step, StepKey, Task, Turn,
};

type V = Vector3<f64>;

/// One pass of a slitting saw: the stay, the direction across the plate and outboard, and where its two faces lie along that.
#[derive(Clone, Copy, Debug)]
pub struct Kerf {
    pub hand: Hand,
    pub across: V,
    pub low: f64,
    pub high: f64,
}

/// What a step has left behind, in the fixture's own coordinates.
pub enum Done {
    /// A round cut: the cutter's axis.
    Round { key: StepKey, axis: Axis },
    /// Slots: each pass; the saw's front edge and the way to the rear as the table reads it.
    Slots { setting: SettingKey, kerfs: Vec<Kerf>, front_edge: V, rearwards: V },
    /// The dummy axle's place.
    Axle { setting: SettingKey, along: f64, above: f64 },
    /// One clamp of a post.
    Post { key: StepKey, hand: Hand, station: f64, spacing: f64 },
}

/// What is in the spindle.
#[derive(Clone, Copy, Debug, PartialEq)]
enum InSpindle {
    Nothing,
    HoleSaw,
    SlittingSaw,
}

/// The machine and what has been set so far.
pub struct Simulated<'a> {
    job: &'a Job,
    shop: &'a Shop,
    /// Where the fixture's front datum lies in the room: nobody knows, it is found by touching.
    place: V,
    /// The fixture's u, v, w in the room.
    pose: Matrix3<f64>,
    /// Where the spindle's axis stands, in the room; along itself the saw's middle counts.
    spindle: V,
    /// Where each readout was set to zero, measured along its axis.
    zero: [f64; 3],
    /// Where the stop along the fixture stands, for a saw that is fed to it.
    stop: Option<f64>,
    slide: f64,
    saw_width: f64,
    saw_diameter: f64,
    in_spindle: InSpindle,
    has_slug: bool,
    is_marked: bool,
    is_axle_in: bool,
    /// How often an edge or a face was touched.
    pub touches: usize,
    pub done: Vec<Done>,
}

fn sign(sense: Sense) -> f64 {
    if sense == Sense::Rises { 1.0 } else { -1.0 }
}

impl<'a> Simulated<'a> {
    pub fn new(job: &'a Job, shop: &'a Shop) -> Self {
        Self {
            job,
            shop,
            place: V::new(123.4, -56.7, 89.1),
            pose: Matrix3::identity(),
            spindle: V::new(-4321.0, 9876.0, 555.0),
            zero: [f64::NAN; 3],
            stop: None,
            slide: f64::NAN,
            saw_width: f64::NAN,
            saw_diameter: f64::NAN,
            in_spindle: InSpindle::Nothing,
            has_slug: false,
            is_marked: false,
            is_axle_in: false,
            touches: 0,
            done: Vec::new(),
        }
    }

    // The room: x to the right of the person at the mill, y away from them, z up.

    /// Out of the work, along the spindle: up, or away into the column where the nose points to the person.
    fn out(&self) -> V {
        match self.shop.mill.spindle {
            SpindleWay::Vertical => V::z(),
            SpindleWay::Horizontal => V::y(),
        }
    }

    /// Where the cutter goes on the plus way of an axis.
    fn axis(&self, axis: shop::Axis) -> V {
        match (axis, self.shop.mill.spindle) {
            (shop::Axis::X, _) => V::x(),
            (shop::Axis::Y, SpindleWay::Vertical) => V::y(),
            (shop::Axis::Y, SpindleWay::Horizontal) => V::z(),
            (shop::Axis::Z, _) => self.out(),
        }
    }

    /// Where the fixture's rear end points when it lies flat.
    fn rear(&self) -> V {
        let way = if self.shop.mill.rear_toward == Toward::Plus { 1.0 } else { -1.0 };
        self.axis(self.shop.mill.lies_along) * way
    }

    /// The fixture's u, v and w in the room, as columns.
    pub const fn stands(&self) -> Matrix3<f64> {
        self.pose
    }

    /// From the fixture's front datum to the spindle's place, in the room.
    pub fn spindle_from_datum(&self) -> V {
        self.spindle - self.place
    }

    /// Out of the work, in the room.
    pub fn spindle_way(&self) -> V {
        self.out()
    }

    fn room(&self, local: V) -> V {
        self.place + self.pose * local
    }

    fn local(&self, point: &V) -> V {
        self.pose.transpose() * (point - self.place)
    }

    /// The fixture is laid another way, or its stays are changed: whatever was found is found no more.
    fn stand(&mut self, u: V, v: V) {
        self.pose = Matrix3::from_columns(&[u, v, u.cross(&v)]);
        self.loses_place();
    }

    fn loses_place(&mut self) {
        self.zero = [f64::NAN; 3];
        self.stop = None;
        // It never comes to lie where it lay before.
        self.place += V::new(17.0, -31.0, 8.5);
    }

    /// The readout that a step names must be the one that the motion moves.
    fn dro(&self, step: &Step, line: &V) -> shop::Axis {
        let of_readout = |point: SetPoint| match point.scale {
            Some(Scale::Dro(axis)) => Some(axis),
            _ => None,
        };
        let axis = step.set_points().find_map(of_readout).expect("a readout");
        self.runs(axis, line, step);
        axis
    }

    fn runs(&self, axis: shop::Axis, line: &V, step: &Step) {
        assert!(self.axis(axis).cross(line).norm() < 1e-9, "{:?}: {axis:?} does not run there", step.key);
    }

    fn touched(&mut self, step: &Step, axis: shop::Axis, spindle_at: f64) {
        let way = self.axis(axis);
        // Place the spindle's axis at the coordinate found, the other coordinates as they were.
        self.spindle += way * (spindle_at - self.spindle.dot(&way));
        self.zero[axis as usize] = spindle_at;
        let zero = match step.task {
            Task::TouchCorner { .. } => step.reading,
            _ => step.set_point(Scale::Dro(axis)).map(|point| point.reading),
        };
        assert_eq!(zero.and_then(Reading::number), Some(0.0), "{:?}", step.key);
    }

    fn target(&self, step: &Step, point: SetPoint) -> (V, f64) {
        let Some(Scale::Dro(axis)) = point.scale else { panic!("{:?}: a readout", step.key) };
        let reading = point.reading.number().unwrap();
        let sense = sign(self.shop.mill.senses[axis as usize]);
        let target = self.zero[axis as usize] + sense * reading;
        assert!(target.is_finite(), "{:?}: never set to zero", step.key);
        (self.axis(axis), target)
    }

    fn moved(&mut self, step: &Step, point: SetPoint) {
        let (way, target) = self.target(step, point);
        self.spindle += way * (target - self.spindle.dot(&way));
    }

    fn needs_empty(&self, step: &Step) {
        assert_eq!(self.in_spindle, InSpindle::Nothing, "{:?}: something is in the spindle", step.key);
    }

    fn needs(&self, step: &Step, cutter: InSpindle) {
        assert_eq!(self.in_spindle, cutter, "{:?}", step.key);
        assert!(!self.has_slug, "{:?}: the slug is still in the saw", step.key);
    }

    /// Does what a step says.
    pub fn follow(&mut self, step: &Step) {
        match step.task {
            Task::MarkHands => self.is_marked = true,
            Task::SetSlide => self.slide(step),
            Task::SetAxleHeight(_) => self.axle_height(step),
            Task::SetAxle(_) => {
                self.slide(step);
                self.axle_height(step);
            }
            Task::SetPosts { count, .. } => (1..=count).for_each(|post| self.post(step, post)),
            Task::Clamp { .. } => {
                self.needs_empty(step);
                self.loses_place();
            }
            Task::TakeAxleOut => assert!(std::mem::replace(&mut self.is_axle_in, false), "taken out twice"),
            Task::StandOnSide { side, .. } => {
                let v = if side == Hand::Right { self.out() } else { -self.out() };
                self.stand(self.rear(), v);
            }
            Task::Tilt { end_up, .. } => self.tilt(step, end_up),
            Task::Swivel { turn, .. } => self.swivel(step, turn),
            Task::TouchCorner { from, along, face, across } => self.corner(step, from, along, face, across),
            Task::PointAtEdge => self.point(step),
            Task::TouchFace(face) => {
                let Some(Scale::Dro(axis)) = step.scale else { panic!("a readout") };
                self.face(step, face, axis);
            }
            Task::TouchTop(side) => self.touch_top(step, side),
            Task::MountHoleSaw { .. } => {
                self.needs_empty(step);
                self.in_spindle = InSpindle::HoleSaw;
            }
            Task::MountSlittingSaw { passes, touches } => {
                self.mount_saw(step, passes);
                if let Some(side) = touches {
                    self.touch_top(step, side);
                }
            }
            Task::Move { .. } | Task::MoveAlong { .. } | Task::MoveAcross { .. } => {
                step.set_points().for_each(|point| self.moved(step, point));
            }
            Task::StopAtRoot { .. } => {
                let mut points = step.set_points();
                self.stop = Some(self.target(step, points.next().unwrap()).1);
                points.for_each(|point| self.moved(step, point));
            }
            Task::Slot { hand, from, .. } => self.slot(step, hand, from),
            Task::Cut { part } => self.cut(step, part),
            Task::SawSquare => {}
            Task::ClearSlug { takes_saw_out } => {
                assert!(std::mem::replace(&mut self.has_slug, false), "{:?}: there is none", step.key);
                if takes_saw_out {
                    self.in_spindle = InSpindle::Nothing;
                }
            }
            Task::TakeSawOut => {
                self.needs(step, InSpindle::SlittingSaw);
                self.in_spindle = InSpindle::Nothing;
            }
            Task::Deburr => assert!(!self.has_slug),
        }
    }

    fn tilt(&mut self, step: &Step, end_up: EndUp) {
        assert_eq!(step.scale, Some(Scale::Tilt));
        let scale = &self.shop.fixture.tilt;
        let reading = step.reading.and_then(Reading::number).unwrap();
        let turn = ((reading - scale.figures.zero.degrees()) * sign(scale.sense)).to_radians();
        let raised = match end_up {
            EndUp::Level | EndUp::Rear => turn,
            EndUp::Front | EndUp::Either => -turn,
        };
        let (flat, out) = (self.rear(), self.out());
        // Flat: base face away from the spindle, w towards it, and v = w × u.
        let v = out.cross(&flat);
        self.stand(flat * raised.cos() + out * raised.sin(), v);
    }

    /// About the fixture's own normal, as it stands, seen from above the stays.
    fn swivel(&mut self, step: &Step, turn: Turn) {
        assert_eq!(step.scale, Some(Scale::Swivel));
        let scale = &self.shop.fixture.swivel;
        let reading = step.reading.and_then(Reading::number).unwrap();
        let size = ((reading - scale.figures.zero.degrees()) * sign(scale.sense)).to_radians().abs();
        let counter = if turn == Turn::CounterClockwise { size } else { -size };
        let normal = self.pose * V::z();
        let turned = Rotation3::from_axis_angle(&Unit::new_normalize(normal), counter);
        self.pose = turned.matrix() * self.pose;
        self.loses_place();
    }

    fn corner(&mut self, step: &Step, from: TouchSide, along: shop::Axis, face: Face, across: shop::Axis) {
        self.needs_empty(step);
        assert_eq!(along, self.dro(step, &self.rear()));
        let bench = &self.job.fixture.bench;
        let edge = self.room(V::new(bench.touch_u.mm(), 0.0, bench.touch_w.mm()));
        let tip = self.job.touch.edge_finder.mm() / 2.0;
        let from = if from == TouchSide::Front { -tip } else { tip };
        let at = (edge + self.rear() * from).dot(&self.axis(along));
        self.touched(step, along, at);
        self.touches += 1;
        self.face(step, face, across);
    }

    /// A pointed tip stands over the datum edge where the centre line crosses it.
    fn point(&mut self, step: &Step) {
        self.needs_empty(step);
        let axis = self.dro(step, &self.rear());
        let bench = &self.job.fixture.bench;
        let at = self.room(V::new(bench.touch_u.mm(), 0.0, bench.touch_w.mm())).dot(&self.axis(axis));
        self.touched(step, axis, at);
        self.touches += 1;
    }

    fn face(&mut self, step: &Step, face: Face, axis: shop::Axis) {
        self.needs_empty(step);
        let bench = &self.job.fixture.bench;
        let half = bench.block_width.mm() / 2.0;
        let (face, outwards) = match face {
            Face::Base => (V::new(0.0, 0.0, -bench.clamp_height.mm()), -V::z()),
            Face::Block(Hand::Left) => (V::new(0.0, -half, 0.0), -V::y()),
            Face::Block(Hand::Right) => (V::new(0.0, half, 0.0), V::y()),
        };
        let outwards = self.pose * outwards;
        self.runs(axis, &outwards, step);
        let at = self.room(face) + outwards * (self.job.touch.edge_finder.mm() / 2.0);
        self.touched(step, axis, at.dot(&self.axis(axis)));
        self.touches += 1;
    }

    /// The saw comes down on the block: its lower face on the block's face. For that the table goes somewhere else.
    fn touch_top(&mut self, step: &Step, side: Hand) {
        self.needs(step, InSpindle::SlittingSaw);
        let sign = if side == Hand::Right { 1.0 } else { -1.0 };
        let half = self.job.fixture.bench.block_width.mm() / 2.0;
        let outwards = self.pose * (V::y() * sign);
        assert!((outwards - self.out()).norm() < 1e-9, "{:?}: that side is turned away", step.key);
        let face = self.room(V::new(0.0, sign * half, 0.0));
        let line = self.out();
        self.spindle += V::new(77.0, 77.0, 77.0);
        self.touched(step, self.dro(step, &line), face.dot(&line) + self.saw_width / 2.0);
    }

    /// A saw of the planned width and of any diameter, where none on hand will do.
    fn mount_saw(&mut self, step: &Step, passes: Option<u8>) {
        self.needs_empty(step);
        self.in_spindle = InSpindle::SlittingSaw;
        self.saw_width = step.reading.and_then(Reading::number).unwrap();
        self.saw_diameter = match passes {
            Some(_) => step.beside_of(Quantity::SawDiameter).and_then(Reading::number).unwrap(),
            None => 0.0,
        };
    }

    fn slot(&mut self, step: &Step, hand: Hand, from: HeightFrom) {
        self.needs(step, InSpindle::SlittingSaw);
        let out = self.out();
        let outboard = if (self.pose.transpose() * out).y * side(hand) > 0.0 { out } else { -out };
        for point in step.set_points() {
            match from {
                HeightFrom::Touch(_) => self.moved(step, point),
                HeightFrom::Datum | HeightFrom::CentrePlane => {
                    let bench = &self.job.fixture.bench;
                    let datum = self.room(V::new(bench.touch_u.mm(), 0.0, bench.touch_w.mm()));
                    let height = datum.dot(&outboard) + point.reading.number().unwrap();
                    self.spindle += outboard * (height - self.spindle.dot(&outboard));
                }
            }
            let along = self.axis(self.shop.mill.lies_along);
            self.spindle += along * (self.stop.unwrap() - self.spindle.dot(&along));
            self.kerf(step.key.setting, hand, outboard);
            // It is fed back out.
            self.spindle += self.rear() * 55.0;
        }
    }

    fn kerf(&mut self, setting: SettingKey, hand: Hand, outboard: V) {
        let across = self.pose.transpose() * outboard;
        let middle = self.local(&self.spindle).dot(&across);
        let (low, high) = (middle - self.saw_width / 2.0, middle + self.saw_width / 2.0);
        let kerf = Kerf { hand, across, low, high };
        let rearwards = self.pose.transpose() * self.rear();
        let front_edge = self.local(&(self.spindle - self.rear() * (self.saw_diameter / 2.0)));
        match self.done.last_mut() {
            Some(Done::Slots { setting: known, kerfs, .. }) if *known == setting => kerfs.push(kerf),
            _ => self.done.push(Done::Slots { setting, kerfs: vec![kerf], front_edge, rearwards }),
        }
    }

    fn cut(&mut self, step: &Step, part: CutPart) {
        self.needs(step, InSpindle::HoleSaw);
        self.has_slug = true;
        let axis = Axis { point: self.local(&self.spindle), along: self.pose.transpose() * self.out() };
        assert_eq!(part == CutPart::One, step.key.setting.stays != Stays::Both);
        self.done.push(Done::Round { key: step.key, axis });
    }

    /// What a length scale of the fixture that reads so stands at.
    fn stands_at(step: &Step, which: Scale, scale: &LengthScale) -> f64 {
        let reading = step.set_point(which).and_then(|point| point.reading.number()).unwrap();
        (reading - scale.figures.zero.mm()) * sign(scale.sense)
    }

    fn slide(&mut self, step: &Step) {
        self.slide = Self::stands_at(step, Scale::Slide, &self.shop.fixture.slide);
        self.is_axle_in = true;
    }

    fn axle_height(&mut self, step: &Step) {
        let above = Self::stands_at(step, Scale::AxleHeight, &self.shop.fixture.axle_height);
        self.done.push(Done::Axle { setting: step.key.setting, along: self.slide, above });
    }

    fn post(&mut self, step: &Step, post: u8) {
        let station = step.beside_of(Quantity::PostStation(post)).and_then(Reading::number).unwrap();
        let scale = &self.shop.fixture.half_spacing;
        let true_figure = |reading: f64| (reading - scale.figures.zero.mm()) * sign(scale.sense);
        let key = step.key;
        let mut set = |hand, reading| {
            let spacing = true_figure(reading);
            self.done.push(Done::Post { key, hand, station, spacing });
        };
        for hand in Hand::ALL {
            let shared = step.set_point(Scale::HalfSpacing(post)).and_then(|point| point.reading.number());
            let shared = shared.filter(|_| key.setting.serves(hand));
            let own = step.beside_of(Quantity::OnScale(post, hand)).and_then(Reading::number);
            if let Some(reading) = shared.or(own) {
                set(hand, reading);
            }
        }
    }
}

/// +1 on the right, −1 on the left.
fn side(hand: Hand) -> f64 {
    if hand == Hand::Right { 1.0 } else { -1.0 }
}
