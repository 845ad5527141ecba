//! Three jobs to start from, out of a small shop of our own invention.

use super::end::{Boss, Cope, End, Member, Slot};
use super::job::Job;
use super::pair_name::PairName;
use crate::units::{Angle, Length};

/// A job to start from.
#[derive(Clone, Debug)]
pub struct Starter {
    /// A stable key.
    pub key: &'static str,
    /// One line on what it shows.
    pub about: &'static str,
    /// The job.
    pub job: Job,
}

/// The three starting jobs: road, all-road with asymmetric chainstays, fixed gear with round dropouts.
pub fn starters() -> [Starter; 3] {
    [
        Starter { key: "road", about: "Road, 28 mm tyre, plate dropouts", job: road() },
        Starter { key: "all-road", about: "All-road, 34 mm tyre, chainstays that differ", job: all_road() },
        Starter { key: "fixed", about: "Fixed gear, round dropouts", job: fixed_gear() },
    ]
}

/// The plain job that a person starts with: plates of 6 mm, whose inner faces stand as far apart as its hub is wide, a tyre that the stays clear, and a slide that
/// reaches both pairs. An empty job file stands for [`Job::default`], as it always did.
pub fn starting_job() -> Job {
    let mut job = Job::default();
    job.fixture.bench.slide_max = mm(560.0);
    job.wheel.tyre_width = mm(32.0);
    job.wheel.tyre_height = mm(32.0);
    put_plates(&mut job, 6.0);
    job
}

/// Slots for plates of that thickness at all rear ends.
fn put_plates(job: &mut Job, thickness: f64) {
    for name in PairName::ALL {
        job.pair_mut(name).right.rear_end = End::Slot(Slot { plate: mm(thickness), ..Slot::start() });
    }
}

const fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

fn road() -> Job {
    let mut job = Job { name: "Tern Lane road".into(), ..starting_job() };
    put_plates(&mut job, 4.0);
    job.frame.chainstay_length = mm(415.0);
    job.frame.seat_angle = Angle::from_degrees(73.5);
    job.frame.shell_od = mm(38.1);
    job.wheel.tyre_width = mm(28.0);
    job.wheel.tyre_height = mm(28.0);
    job.fixture.posts = vec![mm(60.0), mm(310.0)];
    let stay = &mut job.chainstays.right;
    stay.front.half_spacing = mm(20.5);
    stay.rear.half_spacing = mm(73.0);
    stay.tube.length = mm(420.0);
    stay.tube.taper_end = mm(360.0);
    let stay = &mut job.seatstays.right;
    stay.rear.half_spacing = mm(73.0);
    job
}

fn all_road() -> Job {
    let mut job = Job { name: "Heron Mill all-road".into(), ..starting_job() };
    job.frame.chainstay_length = mm(435.0);
    job.frame.bb_drop = mm(75.0);
    job.frame.shell_width = mm(83.0);
    job.wheel.tyre_width = mm(34.0);
    job.wheel.tyre_height = mm(34.0);
    job.fixture.posts = vec![mm(70.0), mm(330.0)];
    let stay = &mut job.chainstays.right;
    stay.front.half_spacing = mm(23.0);
    stay.tube.length = mm(440.0);
    let mut left = *stay;
    left.front.half_spacing = mm(25.5);
    left.tube.od_front = mm(24.0);
    job.chainstays.left = Some(left);
    job
}

fn fixed_gear() -> Job {
    let mut job = Job { name: "Quay Street fixed".into(), ..starting_job() };
    job.frame.chainstay_length = mm(405.0);
    job.frame.bb_drop = mm(55.0);
    job.frame.seat_angle = Angle::from_degrees(74.0);
    job.frame.shell_od = mm(38.1);
    job.frame.axle_spacing = mm(120.0);
    job.wheel.tyre_width = mm(25.0);
    job.wheel.tyre_height = mm(25.0);
    job.fixture.posts = vec![mm(60.0), mm(300.0)];
    for name in PairName::ALL {
        let stay = &mut job.pair_mut(name).right;
        stay.rear.half_spacing = mm(69.0);
        stay.rear.reach = mm(22.0);
        stay.rear_end = End::Boss(Boss { diameter: mm(25.4) });
    }
    let stay = &mut job.chainstays.right;
    stay.front.half_spacing = mm(22.0);
    stay.front_end = End::Cope(Cope { onto: Member::Shell, cutter: Some(mm(39.0)) });
    stay.tube.od_front = mm(22.2);
    stay.tube.od_rear = mm(14.0);
    stay.tube.taper_end = mm(370.0);
    stay.tube.length = mm(420.0);
    job
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_starter_is_without_fault() {
        for starter in starters() {
            assert_eq!(starter.job.faults(), [], "{}", starter.key);
        }
    }
}
