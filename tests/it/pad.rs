//! A flat for a brake mount, worked by hand.

use staywright::machining::{facing_mill, pad_face};
use staywright::model::shop::EndMill;
use staywright::model::{BrakeMountFlat, Hand, Job, PairName};
use staywright::placement::plan;
use staywright::plan::CutAt;
use staywright::units::Length;

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

const LEFT: CutAt = CutAt { pair: PairName::Chainstays, hand: Hand::Left, at_front: false };

/// A plain 20 × 1 mm tube straight along the fixture, its axle 430 mm behind the front datum line.
fn plain() -> Job {
    let mut job = Job::default();
    let side = &mut job.chainstays.right;
    side.rear.half_spacing = side.front.half_spacing;
    (side.tube.od_front, side.tube.od_rear, side.tube.wall) = (mm(20.0), mm(20.0), mm(1.0));
    job
}

fn pad(above: f64) -> BrakeMountFlat {
    BrakeMountFlat { ahead: mm(100.0), holes: mm(30.0), length: mm(50.0), above: mm(above) }
}

#[test]
fn a_plain_tube_by_hand() {
    let plan = plan(&plain()).unwrap();
    let near = |a: Length, b: f64| assert!((a.mm() - b).abs() < 1e-9, "{} {b}", a.mm());
    for above in [8.0, -8.0] {
        let face = pad_face(&plan, LEFT, &pad(above)).unwrap();
        // Axle at 430: from 305 to 355. A chord 8 mm off the middle of a 10 mm circle is 2 · 6 mm; the bore ends at 9 mm.
        near(face.front, 305.0);
        near(face.rear, 355.0);
        near(face.deepest, 2.0);
        near(face.at_middle, 2.0);
        near(face.width.0, 12.0);
        near(face.width.1, 12.0);
        near(face.left, -1.0);
        near(face.hole_to_edge, 6.0);
    }
    near(pad_face(&plan, LEFT, &pad(9.4)).unwrap().left, 0.4);
}

/// A taper from 22 to 18 mm over the pad's 50 mm: deepest, widest and thinnest at its front end.
#[test]
fn a_taper_counts_at_its_thick_end() {
    let mut job = plain();
    let tube = &mut job.chainstays.right.tube;
    (tube.od_front, tube.od_rear) = (mm(22.0), mm(18.0));
    (tube.taper_start, tube.taper_end) = (tube.front_trim + mm(305.0), tube.front_trim + mm(355.0));
    let face = pad_face(&plan(&job).unwrap(), LEFT, &pad(8.5)).unwrap();
    let near = |a: Length, b: f64| assert!((a.mm() - b).abs() < 1e-9, "{} {b}", a.mm());
    near(face.deepest, 2.5);
    near(face.at_middle, 1.5);
    near(face.width.1, 2.0 * (121.0_f64 - 72.25).sqrt());
    near(face.width.0, 2.0 * (81.0_f64 - 72.25).sqrt());
    near(face.left, -1.5);
    // The rear hole stands 40 mm down the taper, where the radius is 9.4 mm.
    near(face.hole_to_edge, (88.36_f64 - 72.25).sqrt());
}

#[test]
fn a_pad_off_the_tube_or_over_it_is_none() {
    let plan = plan(&plain()).unwrap();
    assert_eq!(pad_face(&plan, LEFT, &pad(10.5)), None);
    assert_eq!(pad_face(&plan, LEFT, &BrakeMountFlat { ahead: mm(0.0), ..pad(8.0) }), None);
}

#[test]
fn the_slimmest_end_mill_that_covers_it() {
    let plan = plan(&plain()).unwrap();
    let face = pad_face(&plan, LEFT, &pad(8.0)).unwrap();
    let mills: Vec<EndMill> =
        [10.0, 20.0, 12.5, 16.0].map(|size| EndMill { diameter: mm(size), ..EndMill::default() }).to_vec();
    assert_eq!(facing_mill(&face, &mills), Some(2));
    assert_eq!(facing_mill(&face, &mills[..1]), None);
}
