//! A fixture on a mill in a room, which does what a step says and knows nothing else.

use super::truth::Axis;
use nalgebra::{Matrix3, Vector3};
use staywright::model::Hand;
use staywright::model::Job;
use staywright::model::shop::{self, Sense, Shop, SpindleWay, Toward};
use staywright::procedure::{Reading, Scale, Step};

type V = Vector3<f64>;

/// What a step has left behind, in the fixture's own coordinates.
pub enum Done {
    /// A round cut: the cutter's axis.
    Round { id: String, axis: Axis },
    /// Slots: for each pass the stay, and the two faces of its cut across the fixture; the saw's front edge along it.
    Slots { id: String, kerfs: Vec<(Hand, f64, f64)>, front_edge: f64, above: f64 },
    /// The dummy axle's place.
    Axle { id: String, along: f64, above: f64 },
    /// One clamp of a post.
    Post { id: String, hand: Hand, station: f64, spacing: f64 },
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
    slide: f64,
    saw_width: f64,
    saw_diameter: f64,
    kerfs: Vec<(Hand, f64, f64)>,
    pub done: Vec<Done>,
}

fn sign(sense: Sense) -> f64 {
    if sense == Sense::Rises { 1.0 } else { -1.0 }
}

/// The word of a text that is one of a few.
fn which<'w>(text: &str, words: &[&'w str]) -> &'w str {
    let found: Vec<&&str> = words.iter().filter(|word| text.contains(**word)).collect();
    assert_eq!(found.len(), 1, "“{text}” must say one of {words:?}");
    found[0]
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
            slide: f64::NAN,
            saw_width: f64::NAN,
            saw_diameter: f64::NAN,
            kerfs: Vec::new(),
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

    fn room(&self, local: V) -> V {
        self.place + self.pose * local
    }

    fn local(&self, point: &V) -> V {
        self.pose.transpose() * (point - self.place)
    }

    fn stand(&mut self, u: V, v: V) {
        self.pose = Matrix3::from_columns(&[u, v, u.cross(&v)]);
        self.zero = [f64::NAN; 3];
        // It never comes to lie where it lay before.
        self.place += V::new(17.0, -31.0, 8.5);
    }

    /// The readout that a step names must be the one that the motion moves.
    fn dro(&self, step: &Step, line: &V) -> shop::Axis {
        let Some(Scale::Dro(axis)) = step.scale else { panic!("{}: a readout", step.id) };
        assert!(self.axis(axis).cross(line).norm() < 1e-9, "{}: {axis:?} does not run there", step.id);
        axis
    }

    fn touched(&mut self, step: &Step, line: &V, spindle_at: f64) {
        let axis = self.dro(step, line);
        let way = self.axis(axis);
        // Place the spindle's axis at the coordinate found, the other coordinates as they were.
        self.spindle += way * (spindle_at - self.spindle.dot(&way));
        self.zero[axis as usize] = spindle_at;
        assert_eq!(step.reading.and_then(Reading::number), Some(0.0), "{}", step.id);
    }

    fn moved(&mut self, step: &Step) {
        let Some(Scale::Dro(axis)) = step.scale else { panic!("{}: a readout", step.id) };
        let reading = step.reading.and_then(Reading::number).unwrap();
        let sense = sign(self.shop.mill.senses[axis as usize]);
        let target = self.zero[axis as usize] + sense * reading;
        assert!(target.is_finite(), "{}: never set to zero", step.id);
        let way = self.axis(axis);
        self.spindle += way * (target - self.spindle.dot(&way));
    }

    /// Does what a step says.
    pub fn follow(&mut self, step: &Step) {
        let key = step.id.rsplit('.').next().unwrap();
        let number = step.reading.and_then(Reading::number);
        match key {
            "slide" => {
                assert_eq!(step.scale, Some(Scale::Slide));
                let scale = &self.shop.fixture.slide;
                self.slide = (number.unwrap() - scale.figures.zero.mm()) * sign(scale.sense);
            }
            "axle-height" => {
                assert_eq!(step.scale, Some(Scale::AxleHeight));
                let scale = &self.shop.fixture.axle_height;
                let above = (number.unwrap() - scale.figures.zero.mm()) * sign(scale.sense);
                self.done.push(Done::Axle { id: step.id.clone(), along: self.slide, above });
            }
            "mark" | "clamp" | "swivel" | "cutter" => assert_ne!(key, "swivel", "no job here needs one"),
            "tilt" => self.tilt(step),
            "side" => self.on_side(step),
            "touch-edge" => self.touch_edge(step),
            "touch-side" => self.touch_side(step),
            "touch-top" => self.touch_top(step),
            "along" | "across" => self.moved(step),
            "saw" => self.mount_saw(step),
            "cut" => self.cut(step),
            _ if key.starts_with("height") => self.height(step),
            _ if key.starts_with("post-") => self.post(step),
            other => panic!("what is {other}?"),
        }
    }

    fn tilt(&mut self, step: &Step) {
        assert_eq!(step.scale, Some(Scale::Tilt));
        let scale = &self.shop.fixture.tilt;
        let reading = step.reading.and_then(Reading::number).unwrap();
        let turn = ((reading - scale.figures.zero.degrees()) * sign(scale.sense)).to_radians();
        let raised = match step.task.as_str() {
            "Lay the fixture level" => turn,
            "Stand the fixture upright, front end up" => -turn,
            task => match which(task, &["front end up", "rear end up"]) {
                "front end up" => -turn,
                _ => turn,
            },
        };
        let (flat, out) = (self.rear(), self.out());
        // Flat: base face away from the spindle, w towards it, and v = w × u.
        let v = out.cross(&flat);
        self.stand(flat * raised.cos() + out * raised.sin(), v);
    }

    fn on_side(&mut self, step: &Step) {
        let v = match which(&step.task, &["left side to the spindle", "right side to the spindle"]) {
            "right side to the spindle" => self.out(),
            _ => -self.out(),
        };
        self.stand(self.rear(), v);
    }

    fn touch_edge(&mut self, step: &Step) {
        let bench = &self.job.fixture.bench;
        let edge = self.room(V::new(bench.touch_u.mm(), 0.0, bench.touch_w.mm()));
        let tip = self.job.touch.edge_finder.mm() / 2.0;
        let from = match which(&step.task, &["from the front", "from the rear"]) {
            "from the front" => -tip,
            _ => tip,
        };
        let line = self.rear();
        let axis = self.axis(self.shop.mill.lies_along);
        self.touched(step, &line, (edge + line * from).dot(&axis));
    }

    fn touch_side(&mut self, step: &Step) {
        let bench = &self.job.fixture.bench;
        let half = bench.block_width.mm() / 2.0;
        let (face, outwards) = match which(&step.task, &["left side", "right side", "base face"]) {
            "base face" => (V::new(0.0, 0.0, -bench.clamp_height.mm()), -V::z()),
            "left side" => (V::new(0.0, -half, 0.0), -V::y()),
            _ => (V::new(0.0, half, 0.0), V::y()),
        };
        let outwards = self.pose * outwards;
        let at = self.room(face) + outwards * (self.job.touch.edge_finder.mm() / 2.0);
        let Some(Scale::Dro(axis)) = step.scale else { panic!("{}: a readout", step.id) };
        let way = self.axis(axis);
        self.touched(step, &outwards, at.dot(&way));
    }

    /// The saw comes down on the block: its lower face on the block's face.
    fn touch_top(&mut self, step: &Step) {
        let side =
            match which(&step.task, &["left side of the mounting block", "right side of the mounting block"])
            {
                "right side of the mounting block" => 1.0,
                _ => -1.0,
            };
        let half = self.job.fixture.bench.block_width.mm() / 2.0;
        let outwards = self.pose * (V::y() * side);
        assert!((outwards - self.out()).norm() < 1e-9, "{}: that side is turned away", step.id);
        let face = self.room(V::new(0.0, side * half, 0.0));
        let line = self.out();
        self.touched(step, &line, face.dot(&line) + self.saw_width / 2.0);
    }

    fn mount_saw(&mut self, step: &Step) {
        self.saw_width = step.reading.and_then(Reading::number).unwrap();
        let saw = step.also.iter().find(|named| named.name == "Saw").unwrap();
        self.saw_diameter = saw.reading.number().unwrap();
        self.kerfs.clear();
    }

    fn height(&mut self, step: &Step) {
        self.moved(step);
        let hand = match which(&step.task, &["right stay", "left stay"]) {
            "right stay" => Hand::Right,
            _ => Hand::Left,
        };
        let half = self.out() * (self.saw_width / 2.0);
        let faces = [self.spindle - half, self.spindle + half].map(|face| self.local(&face).y);
        self.kerfs.push((hand, faces[0].min(faces[1]), faces[0].max(faces[1])));
    }

    fn cut(&mut self, step: &Step) {
        let id = step.id.clone();
        if step.task.starts_with("Cut the") {
            let axis = Axis { point: self.local(&self.spindle), along: self.pose.transpose() * self.out() };
            self.done.push(Done::Round { id, axis });
        } else if step.task.starts_with("Slot") {
            let edge = self.spindle - self.rear() * (self.saw_diameter / 2.0);
            let (front_edge, above) = (self.local(&edge).x, self.local(&edge).z);
            self.done.push(Done::Slots { id, kerfs: std::mem::take(&mut self.kerfs), front_edge, above });
        } else {
            assert_eq!(step.task, "Saw square");
        }
    }

    fn post(&mut self, step: &Step) {
        let beside =
            |name: &str| step.also.iter().find(|named| named.name == name).and_then(|n| n.reading.number());
        let station = beside("Post stands at").unwrap();
        let scale = &self.shop.fixture.half_spacing;
        let true_figure = |reading: f64| (reading - scale.figures.zero.mm()) * sign(scale.sense);
        let mut set = |hand, reading| {
            let spacing = true_figure(reading);
            self.done.push(Done::Post { id: step.id.clone(), hand, station, spacing });
        };
        if let Some(reading) = step.reading.and_then(Reading::number) {
            assert_eq!(step.scale, Some(Scale::HalfSpacing));
            if !step.id.contains(".left.") {
                set(Hand::Right, reading);
            }
            if !step.id.contains(".right.") {
                set(Hand::Left, reading);
            }
        }
        for (hand, name) in [(Hand::Right, "Right on the scale"), (Hand::Left, "Left on the scale")] {
            if let Some(reading) = beside(name) {
                set(hand, reading);
            }
        }
    }
}
