//! Jobs and shops to play.

use staywright::model::shop::{
    AngleScale, AngleScaleFigures, Axis, LengthScale, LengthScaleFigures, Mill, Sense, Shop, SpindleWay,
    Toward,
};
use staywright::model::{Cope, End, Hand, Job, Member, PairName, TouchSide, starters};
use staywright::units::{Angle, Length};

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

fn onto(member: Member) -> End {
    End::Cope(Cope { onto: member, cutter: None })
}

/// Chainstays coped onto the seat tube: the rear end goes up.
fn rear_up() -> Job {
    let mut job = Job::default();
    job.chainstays.right.front_end = onto(Member::SeatTube);
    job.frame.seat_tube_setback = mm(12.0);
    job.fixture.touch_from = TouchSide::Rear;
    job.fixture.bench.touch_u = mm(300.0);
    job.fixture.bench.touch_w = mm(-25.0);
    job
}

/// Sides with clamp planes of their own.
fn sides_apart() -> Job {
    let mut job = Job::default();
    for name in PairName::ALL {
        let pair = job.pair_mut(name);
        let mut left = pair.right;
        left.front.rise = mm(6.0);
        left.rear.rise = mm(-4.0);
        left.rear.reach = mm(28.0);
        left.front.half_spacing = mm(24.0);
        pair.left = Some(left);
    }
    job.fixture.bench.touch_w = mm(13.0);
    job
}

/// Both sides in one plane, cut unlike: the plate is thicker on the left, spaced otherwise, the fronts meet other members.
fn unlike() -> Job {
    let mut job = Job::default();
    for name in PairName::ALL {
        let pair = job.pair_mut(name);
        let mut left = pair.right;
        left.front.half_spacing = mm(26.0);
        left.rear.half_spacing = mm(70.0);
        if let End::Slot(slot) = &mut left.rear_end {
            slot.plate = mm(6.35);
            slot.clearance = mm(0.15);
            slot.depth = mm(20.0);
        }
        pair.left = Some(left);
    }
    if let Some(left) = &mut job.seatstays.left {
        left.front_end = onto(Member::Shell);
    }
    job.fixture.touch_from = TouchSide::Rear;
    job
}

/// Seat stays square to the seat tube: the fixture lies level.
fn level() -> Job {
    let mut job = Job::default();
    let (l, d) = (job.frame.chainstay_length.mm(), job.frame.bb_drop.mm());
    let alpha = job.frame.seat_angle.degrees().to_radians();
    let station = (l * l - d * d).sqrt() * alpha.cos() + d * alpha.sin();
    job.seatstay_node.front_station = mm(station);
    job
}

/// Chainstays along the seat tube's own direction, coped onto it: nothing to cut, but the fixture stands upright.
fn upright() -> Job {
    let mut job = rear_up();
    job.frame.chainstay_length = mm(250.0);
    job.frame.bb_drop = mm(200.0);
    job.frame.seat_angle = Angle::from_radians(0.8_f64.asin());
    job.frame.seat_tube_setback = mm(0.0);
    job
}

/// Plates that splay, the chainstays' outwards and the seat stays' inwards to the rear.
fn splayed() -> Job {
    let mut job = Job::default();
    for (name, splay) in [(PairName::Chainstays, 4.0), (PairName::Seatstays, -3.0)] {
        if let End::Slot(slot) = &mut job.pair_mut(name).right.rear_end {
            slot.plate_splay = Angle::from_degrees(splay);
        }
    }
    job
}

/// All jobs.
pub fn jobs() -> Vec<Job> {
    let mut jobs: Vec<Job> = starters().into_iter().map(|starter| starter.job).collect();
    jobs.extend([Job::default(), rear_up(), sides_apart(), unlike(), level(), upright(), splayed()]);
    jobs
}

/// A scale of the fixture that counts the other way, from an odd zero.
fn falling(zero: f64) -> LengthScale {
    LengthScale { figures: LengthScaleFigures { zero: mm(zero), division: mm(0.0) }, sense: Sense::Falls }
}

fn gauge(zero: f64, sense: Sense) -> AngleScale {
    let figures = AngleScaleFigures { zero: Angle::from_degrees(zero), division: Angle::from_degrees(0.0) };
    AngleScale { figures, sense }
}

/// Shops that differ in everything that has a sign.
pub fn shops() -> Vec<Shop> {
    let mut shops = Vec::new();
    for spindle in SpindleWay::ALL {
        for lies_along in [Axis::X, Axis::Y] {
            for rear_toward in Toward::ALL {
                for side_to_spindle in Hand::ALL {
                    for bits in 0..8_u8 {
                        let sense = |bit: u8| if bits & bit == 0 { Sense::Rises } else { Sense::Falls };
                        let mill = Mill {
                            spindle,
                            lies_along,
                            rear_toward,
                            side_to_spindle,
                            block_side: if bits & 4 == 0 { Hand::Left } else { Hand::Right },
                            senses: [sense(1), sense(2), sense(4)],
                            ..Mill::default()
                        };
                        let mut shop = Shop { mill, ..Shop::default() };
                        if bits & 1 == 1 {
                            shop.fixture.slide = falling(700.0);
                            shop.fixture.axle_height = falling(33.0);
                            shop.fixture.half_spacing = falling(150.0);
                            shop.fixture.tilt = gauge(90.0, Sense::Falls);
                        } else {
                            shop.fixture.tilt = gauge(-5.0, Sense::Rises);
                        }
                        if bits & 2 == 2 {
                            shop.slitting_saws.retain(|saw| saw.width.mm() < 2.1);
                        }
                        shops.push(shop);
                    }
                }
            }
        }
    }
    shops
}
