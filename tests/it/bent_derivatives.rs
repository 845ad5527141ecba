//! Dual numbers run through bent stays and their rooms: the derivatives are those of small steps.

use num_dual::Dual64;
use staywright::clearance::clearances;
use staywright::model::{Bend, Bends, Butt, Columns, Group, Hand, Job, PairName, Press, Surroundings};
use staywright::placement::solve;
use staywright::plan::Plan;
use staywright::units::{Angle, Length, Real};

fn job() -> Job {
    let bend = |before: f64, rotation: f64, angle: f64, radius: f64| Bend {
        before: Length::from_mm(before),
        rotation: Angle::from_degrees(rotation),
        angle: Angle::from_degrees(angle),
        radius: Length::from_mm(radius),
    };
    let mut surroundings = Surroundings::starting();
    surroundings.measured_width = Some(Length::from_mm(36.0));
    surroundings.posts = Some(Columns::default());
    let mut job = Job { surroundings: Some(surroundings), ..Job::default() };
    job.fixture.posts = [50.0, 240.0].map(Length::from_mm).to_vec();
    let tube = &mut job.chainstays.right.tube;
    tube.bends = Bends::of([bend(90.0, 12.0, 8.0, 180.0), bend(60.0, 150.0, 11.0, 200.0)]);
    tube.bends.roll = Some(Angle::from_degrees(170.0));
    (tube.taper_start, tube.length) = (Length::from_mm(230.0), Length::from_mm(470.0));
    let butt = |(at, wall)| Butt { at: Length::from_mm(at), wall: Length::from_mm(wall) };
    tube.butts.list = [(60.0, 1.1), (90.0, 0.7), (330.0, 0.7), (350.0, 0.9)].map(butt).into_iter().collect();
    job
}

fn figures<T: Real>(plan: &Plan<T>) -> Vec<(String, T)> {
    let pair = plan.pair(PairName::Chainstays);
    let mut found = vec![("room".to_owned(), pair.room_between.mm())];
    let mut add = |name: String, value: T| found.push((name, value));
    for hand in Hand::ALL {
        let (key, stay) = (hand.key(), pair.stay(hand));
        let bent = stay.bent.as_ref().unwrap();
        add(format!("{key}.length"), stay.length.mm());
        for (end, way) in [("front", bent.front_direction), ("rear", bent.rear_direction)] {
            way.iter().zip("xyz".chars()).for_each(|(part, axis)| add(format!("{key}.{end}.{axis}"), *part));
        }
        for (i, place) in bent.bends.iter().enumerate() {
            let all = [place.from, place.apex, place.along, place.from_plane, place.from_centre];
            all.iter().enumerate().for_each(|(j, figure)| add(format!("{key}.bend{i}.{j}"), figure.mm()));
        }
        let cut = stay.front.round().unwrap();
        for (i, figure) in
            [cut.offset, cut.long_point.unwrap(), cut.short_point.unwrap(), cut.saw_depth.unwrap()]
                .iter()
                .enumerate()
        {
            add(format!("{key}.cut.{i}"), figure.mm());
        }
        add(format!("{key}.angle"), cut.angle.degrees());
        let raw = stay.raw.as_ref().unwrap();
        add(format!("{key}.butt"), raw.front_butt.unwrap().mm());
        add(format!("{key}.rear_butt"), raw.rear_butt.unwrap().mm());
    }
    for (i, post) in pair.posts.iter().enumerate() {
        let [before, behind] = post.right_straight.unwrap();
        for (j, figure) in [post.right.unwrap(), post.outside.unwrap(), before, behind].iter().enumerate() {
            add(format!("post{i}.{j}"), figure.mm());
        }
    }
    for room in clearances(plan) {
        for gap in &room.clearances {
            add(format!("{}.{}.{}", room.pair.key(), room.hand.key(), gap.to.key()), gap.distance.mm());
        }
    }
    found
}

/// The same, oval at its front end and on its way past the tyre.
fn oval_job() -> Job {
    let press = |from: f64, to: f64, (width, height): (f64, f64), roll: f64| Press {
        from: Length::from_mm(from),
        to: Length::from_mm(to),
        blend: Length::from_mm(25.0),
        width: Length::from_mm(width),
        height: Length::from_mm(height),
        roll: Angle::from_degrees(roll),
    };
    let mut job = job();
    let list = [press(-60.0, 55.0, (20.0, 26.0), 170.0), press(110.0, 160.0, (17.0, 26.0), 165.0)];
    job.chainstays.right.tube.ovals.list = list.into_iter().collect();
    job
}

#[test]
fn derivatives_of_bent_stays_and_rooms_are_those_of_small_steps() {
    [job(), oval_job()].iter().for_each(compare);
}

fn compare(job: &Job) {
    assert_eq!(job.faults(), []);
    let plain = figures(&solve(job));
    let paths: Vec<String> = job.figures().into_iter().map(|(path, ..)| path).collect();
    let mut moved = 0;
    for path in paths.iter().filter(|path| !path.starts_with("seatstays.left")) {
        let carried = job.map("", &mut |at, _, value| Dual64::new(value, f64::from(u8::from(at == path))));
        let carried = figures(&solve(&carried));
        let h = 1e-4;
        let start = job.figure(path).unwrap();
        let near = [-h, h].map(|step| figures(&solve(&job.with_figure(path, start + step))));
        assert_eq!(plain.len(), carried.len());
        for (i, (name, plain)) in plain.iter().enumerate() {
            let (dual, low, high) = (carried[i].1, near[0][i].1, near[1][i].1);
            assert!((dual.re - plain).abs() < 1e-6, "{name}: {} {plain}", dual.re);
            let (below, above) = ((plain - low) / h, (high - plain) / h);
            // At a kink, where another place becomes the nearest, either side's will do.
            let small = 0.5 * (below + above);
            let close = |slope: f64| (dual.eps - slope).abs() < 3e-3 * slope.abs().max(1.0);
            assert!(close(small) || close(below) || close(above), "{name} by {path}: {} {small}", dual.eps);
            moved += usize::from(small.abs() > 1e-3);
        }
    }
    assert!(moved > 800, "{moved}");
}
