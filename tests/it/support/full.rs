//! Random jobs and shops that hold all they can, with any figures whatever.

use super::any_job;
use proptest::prelude::*;
use staywright::model::shop::{
    AngleScale, Axis, HoleSaw, LengthScale, Metal, Mounting, Origin, Process, Sense, Shop, Speeds,
    SpindleWay, Sure, ToothMaterial, Toward, demo_shop, inch_hole_saws,
};
use staywright::model::{
    Bend, Bends, Butt, Butts, Columns, Group, Hand, Job, Ovals, PairName, Press, Ring, SolveFor,
    Surroundings, TouchSide, Tube,
};
use staywright::units::{Angle, CuttingSpeed, Length, SpindleSpeed};

/// Any finite figure, mostly one that a hand could have entered.
fn figure() -> impl Strategy<Value = f64> {
    let entered =
        (-9_000_000i32..9_000_000, 0..5).prop_map(|(units, places)| f64::from(units) / 10f64.powi(places));
    prop_oneof![4 => entered, 1 => any::<f64>().prop_filter("finite", |value| value.is_finite())]
}

/// Choices and figures, taken one after the other and again from the start.
#[derive(Clone, Debug)]
struct Picks {
    figures: Vec<f64>,
    bytes: Vec<u8>,
    taken: usize,
}

impl Picks {
    fn byte(&mut self) -> usize {
        self.taken += 1;
        usize::from(self.bytes[self.taken % self.bytes.len()])
    }

    fn flag(&mut self) -> bool {
        self.byte() & 1 == 0
    }

    fn one<I: Clone>(&mut self, of: &[I]) -> I {
        of[self.byte() % of.len()].clone()
    }

    fn any_figure(&mut self) -> f64 {
        self.taken += 1;
        self.figures[self.taken % self.figures.len()]
    }

    /// The figure as it was, or any other.
    fn figure(&mut self, value: f64) -> f64 {
        if self.flag() { self.any_figure() } else { value }
    }

    fn group<G: Group<f64, Over<f64> = G>>(&mut self, group: &G) -> G {
        group.map("", &mut |_, _, value| self.figure(value))
    }

    fn list<I>(&mut self, most: usize, mut item: impl FnMut(&mut Self) -> I) -> Vec<I> {
        (0..self.byte() % (most + 1)).map(|_| item(self)).collect()
    }

    fn length(&mut self) -> Option<Length> {
        self.flag().then(|| Length::from_mm(self.any_figure()))
    }
}

fn picks() -> impl Strategy<Value = Picks> {
    let figures = proptest::collection::vec(figure(), 40..200);
    let bytes = proptest::collection::vec(any::<u8>(), 40..200);
    (figures, bytes).prop_map(|(figures, bytes)| Picks { figures, bytes, taken: 0 })
}

fn fill_tube(tube: &mut Tube, picks: &mut Picks) {
    tube.bends = Bends {
        list: picks.list(8, |picks| picks.group(&Bend::default())).into_iter().collect(),
        roll: picks.flag().then(|| Angle::from_degrees(picks.any_figure())),
        find: picks.one(&SolveFor::ALL),
    };
    tube.butts = Butts { list: picks.list(8, |picks| picks.group(&Butt::default())).into_iter().collect() };
    tube.ovals = Ovals { list: picks.list(4, |picks| picks.group(&Press::default())).into_iter().collect() };
}

fn surroundings(picks: &mut Picks) -> Surroundings {
    let all = Surroundings::starting();
    let all = Surroundings {
        measured_width: picks.length(),
        rings: picks.list(3, |_| Ring::default()).into_iter().collect(),
        crank: all.crank.filter(|_| picks.flag()),
        sprocket: all.sprocket.filter(|_| picks.flag()),
        rotor: all.rotor.filter(|_| picks.flag()),
        posts: picks.flag().then(Columns::default),
        ..all
    };
    picks.group(&all)
}

fn full_job(mut job: Job, picks: &mut Picks) -> Job {
    for name in PairName::ALL {
        let pair = job.pair_mut(name);
        if picks.flag() {
            fill_tube(&mut pair.right.tube, picks);
        }
        let right = pair.right.tube;
        if let Some(left) = &mut pair.left {
            (left.tube.bends, left.tube.butts, left.tube.ovals) = (right.bends, right.butts, right.ovals);
            if picks.flag() {
                fill_tube(&mut left.tube, picks);
            }
        }
    }
    job.surroundings = picks.flag().then(|| surroundings(picks));
    job
}

/// Any job with any bends, butts, ovals and surroundings.
pub fn any_full_job() -> impl Strategy<Value = Job> {
    (any_job(), picks()).prop_map(|(job, mut picks)| full_job(job, &mut picks))
}

fn length_scale(picks: &mut Picks) -> LengthScale {
    LengthScale { figures: picks.group(&Default::default()), sense: picks.one(&Sense::ALL) }
}

fn angle_scale(picks: &mut Picks) -> AngleScale {
    AngleScale { figures: picks.group(&Default::default()), sense: picks.one(&Sense::ALL) }
}

fn saw(picks: &mut Picks) -> HoleSaw {
    HoleSaw {
        size: picks.group(&Default::default()),
        cutting: picks.length(),
        tooth: picks.one(&ToothMaterial::ALL),
        arbor: picks.group(&Default::default()),
    }
}

fn process(picks: &mut Picks) -> Process {
    let known = Shop::default().processes;
    let mut process = picks.one(&known);
    process.gap = picks.group(&process.gap);
    if picks.flag() {
        process.origin = Origin::new(picks.one(&Sure::ALL), "the shop's own trials, 2024");
    }
    if picks.flag() {
        process.name = format!("{} {}", process.name, picks.byte());
    }
    process
}

fn fill_cutters(shop: &mut Shop, picks: &mut Picks) {
    if picks.flag() {
        shop.hole_saws = if picks.flag() { inch_hole_saws() } else { picks.list(9, saw) };
    }
    if picks.flag() {
        shop.slitting_saws = picks.list(9, |picks| picks.group(&Default::default()));
    }
    if picks.flag() {
        shop.end_mills = picks.list(9, |picks| picks.group(&Default::default()));
    }
}

fn fill_fixture(shop: &mut Shop, picks: &mut Picks) {
    let fixture = &mut shop.fixture;
    fixture.figures = picks.group(&fixture.figures);
    if picks.flag() {
        fixture.figures.posts = picks.list(8, |picks| Length::from_mm(picks.any_figure()));
    }
    fixture.figures.touch_from = picks.one(&[TouchSide::Front, TouchSide::Rear]);
    fixture.bed = picks.group(&fixture.bed);
    fixture.block = picks.group(&fixture.block);
    fixture.post = picks.group(&fixture.post);
    fixture.axle = picks.group(&fixture.axle);
    fixture.limits = picks.group(&fixture.limits);
    fixture.slide = length_scale(picks);
    fixture.axle_height = length_scale(picks);
    fixture.half_spacing = length_scale(picks);
    fixture.tilt = angle_scale(picks);
    fixture.swivel = angle_scale(picks);
}

fn fill_mill(shop: &mut Shop, picks: &mut Picks) {
    let mill = &mut shop.mill;
    mill.spindle = picks.one(&SpindleWay::ALL);
    mill.lies_along = picks.one(&Axis::ALL);
    mill.rear_toward = picks.one(&Toward::ALL);
    mill.side_to_spindle = picks.one(&Hand::ALL);
    mill.block_side = picks.one(&Hand::ALL);
    mill.mounting = picks.one(&Mounting::ALL);
    mill.axes = mill.axes.map(|axis| picks.group(&axis));
    mill.senses = mill.senses.map(|_| picks.one(&Sense::ALL));
    mill.body = picks.group(&mill.body);
    let mut speed = || SpindleSpeed::from_rpm(picks.any_figure());
    let range = Speeds::Range(speed(), speed());
    mill.speeds = match picks.byte() % 3 {
        0 => range,
        1 => Speeds::Steps(picks.list(12, |picks| SpindleSpeed::from_rpm(picks.any_figure()))),
        _ => mill.speeds.clone(),
    };
}

fn full_shop(name: String, picks: &mut Picks) -> Shop {
    let start = if picks.flag() { demo_shop() } else { Shop::default() };
    let mut shop = Shop { name, metal: picks.one(&Metal::ALL), ..start };
    fill_cutters(&mut shop, picks);
    fill_fixture(&mut shop, picks);
    fill_mill(&mut shop, picks);
    if picks.flag() {
        shop.touch = picks.group(&shop.touch);
    }
    if picks.flag() {
        shop.processes = picks.list(7, process);
    }
    shop.joined_by = picks.byte();
    shop.own_speeds =
        picks.list(7, |picks| (picks.one(&Metal::ALL), CuttingSpeed::from_m_per_min(picks.any_figure())));
    shop
}

/// Any shop, with faults or without.
pub fn any_shop() -> impl Strategy<Value = Shop> {
    (".{0,30}", picks()).prop_map(|(name, mut picks)| full_shop(name, &mut picks))
}
