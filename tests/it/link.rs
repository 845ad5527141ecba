//! Links: there and back, for ever, short, and unhurt by anything that is pasted.

use crate::support;

use proptest::prelude::*;
use staywright::link::{
    LinkError, Linked, decode, encode, encode_equipped, encode_measured, open, read_shop, write_shop,
};
use staywright::model::shop::{HoleSaw, Origin, Process, Shop, Sure, demo_shop};
use staywright::model::{
    Bend, Bends, Butt, Butts, Columns, End, Group, Job, Ovals, PairName, Press, Ring, SolveFor, Surroundings,
    starters,
};
use staywright::units::{Angle, Length};

/// A link made of bytes by somebody who knows the checksum.
fn sealed(format: u8, body: &[u8]) -> String {
    let mut bytes = [&[format], body].concat();
    let check = crc::Crc::<u32>::new(&crc::CRC_32_ISO_HDLC).checksum(&bytes);
    bytes.extend(check.to_le_bytes());
    data_encoding::BASE64URL_NOPAD.encode(&bytes)
}

/// The format of a link and its body.
fn unsealed(link: &str) -> (u8, Vec<u8>) {
    let bytes = data_encoding::BASE64URL_NOPAD.decode(link.as_bytes()).unwrap();
    (bytes[0], bytes[1..bytes.len() - 4].to_vec())
}

proptest! {
    #[test]
    fn every_job_comes_back_to_the_last_bit(job in support::any_job()) {
        let link = encode(&job);
        prop_assert!(link.bytes().all(|b| b.is_ascii_alphanumeric() || b == b'-' || b == b'_'));
        prop_assert_eq!(decode(&link), Ok(job));
    }

    #[test]
    fn every_job_with_all_it_can_hold_comes_back_to_the_last_bit(job in support::full::any_full_job()) {
        let link = encode(&job);
        prop_assert_eq!(decode(&link), Ok(job.clone()));
        let bits = |job: &Job| -> Vec<_> { job.figures().iter().map(|(path, _, value)| (path.clone(), value.to_bits())).collect() };
        prop_assert_eq!(bits(&decode(&link).unwrap()), bits(&job));
        let tubes = PairName::ALL.map(|name| job.pair(name)).map(|pair| [Some(pair.right), pair.left]);
        let is_more = |side: &staywright::model::Side| {
            let (tube, ends) = (&side.tube, [side.front_end, side.rear_end]);
            let lists = tube.bends != Bends::default() || tube.butts != Butts::default() || tube.ovals != Ovals::default();
            lists || ends.iter().any(|end| matches!(end, End::Slot(slot) if slot.plate_splay.degrees().to_bits() != 0))
        };
        let more = job.surroundings.is_some() || tubes.iter().flatten().flatten().any(is_more);
        let clear = |side: &staywright::model::Side| {
            [side.front_end, side.rear_end].iter().any(|end| matches!(end, End::Slot(slot) if slot.clearance.mm().to_bits() != 0))
        };
        let clear = tubes.iter().flatten().flatten().any(clear);
        let off = job.frame.axle_offset.mm().to_bits() != 0;
        prop_assert_eq!(unsealed(&link).0, if off { 6 } else if clear { 5 } else if more { 3 } else { 1 });
    }

    #[test]
    fn every_shop_comes_back(shop in support::full::any_shop()) {
        prop_assert_eq!(read_shop(&write_shop(&shop)), Ok(shop));
    }

    #[test]
    fn equipment_comes_back_with_the_job(
        job in support::full::any_full_job(), readings: Vec<(String, String)>, equipment: Vec<u8>
    ) {
        let link = encode_equipped(&job, &readings, &equipment).unwrap();
        prop_assert_eq!(open(&link), Ok(Linked { job, readings, equipment: Some(equipment) }));
    }

    #[test]
    fn any_bytes_are_a_shop_or_an_error(form in 0u8..4, bytes in proptest::collection::vec(any::<u8>(), 0..300)) {
        if let Ok(shop) = read_shop(&[vec![form], bytes].concat()) {
            let _ = shop.faults();
        }
    }

    /// One byte of a good shop is another one: it stays a shop or is refused, and what it is can be written again.
    #[test]
    fn a_spoilt_shop_is_a_shop_or_an_error(
        shop in support::full::any_shop(), place in any::<prop::sample::Index>(), to: u8
    ) {
        let mut bytes = write_shop(&shop);
        let at = place.index(bytes.len());
        bytes[at] = to;
        if let Ok(shop) = read_shop(&bytes) {
            prop_assert_eq!(read_shop(&write_shop(&shop)), Ok(shop));
        }
    }

    #[test]
    fn a_shop_cut_short_is_refused(shop in support::full::any_shop(), place in any::<prop::sample::Index>()) {
        let bytes = write_shop(&shop);
        prop_assert!(read_shop(&bytes[..place.index(bytes.len())]).is_err());
        prop_assert!(read_shop(&[bytes, vec![0]].concat()).is_err());
    }

    /// The same of a job, sealed again.
    #[test]
    fn a_spoilt_job_is_a_job_or_an_error(
        job in support::full::any_full_job(), place in any::<prop::sample::Index>(), to: u8
    ) {
        let (format, mut body) = unsealed(&encode(&job));
        let at = place.index(body.len());
        body[at] = to;
        if let Ok(job) = decode(&sealed(format, &body)) {
            prop_assert_eq!(decode(&encode(&job)), Ok(job.clone()));
            let _ = staywright::plan::faults(&job);
        }
    }

    #[test]
    fn readings_come_back_with_the_job(job in support::any_job(), id in ".{0,40}", typed in ".{0,12}", count in 0usize..8) {
        let readings: Vec<(String, String)> = (0..count).map(|i| (format!("{id}{i}"), typed.clone())).collect();
        let linked = open(&encode_measured(&job, &readings));
        prop_assert_eq!(linked.map(|linked| (linked.job, linked.readings)), Ok((job, readings)));
    }

    #[test]
    fn names_and_notes_are_carried_as_they_are(name in ".{0,120}", notes in "(?s).{0,300}") {
        let job = Job { name, notes, ..Job::default() };
        prop_assert_eq!(decode(&encode(&job)), Ok(job));
    }

    #[test]
    fn any_text_is_a_job_or_an_error(text in "(?s).{0,400}") {
        let _ = decode(&text);
    }

    /// Bytes that pass the checksum but were made by nobody.
    #[test]
    fn any_sealed_bytes_are_a_job_or_an_error(format in 1u8..7, bytes in proptest::collection::vec(any::<u8>(), 0..200)) {
        if let Ok(job) = decode(&sealed(format, &bytes)) {
            let _ = staywright::placement::plan(&job);
        }
    }

    #[test]
    fn a_changed_letter_is_noticed(job in support::full::any_full_job(), place in any::<prop::sample::Index>(), to in "[A-Za-z0-9_-]") {
        let link = encode(&job);
        let at = place.index(link.len());
        let mut changed = link.clone();
        changed.replace_range(at..=at, &to);
        if changed != link {
            // The last letter can carry idle bits, which are refused too.
            prop_assert!(decode(&changed).is_err());
        }
    }

    #[test]
    fn a_link_cut_short_is_noticed(job in support::full::any_full_job(), place in any::<prop::sample::Index>()) {
        let link = encode(&job);
        prop_assert!(decode(&link[..place.index(link.len())]).is_err());
    }
}

/// A slot as wide as its plate is what it always was, in its link too; a wider one keeps its clearance on every side.
#[test]
fn a_wider_slot_is_carried_and_a_plain_one_has_the_link_it_had() {
    let with = |clearance: &str| {
        let slot = format!(r#"{{"rear":{{"end":{{"kind":"slot"{clearance}}}}}}}"#);
        let file = format!(
            r#"{{"format":1,"chainstays":{{"right":{slot},"left":{{}}}},"seatstays":{{"right":{slot}}}}}"#
        );
        Job::from_json(&file).unwrap()
    };
    assert_eq!(encode(&with("")), encode(&with(r#","clearance_mm":0"#)));
    assert_eq!(unsealed(&encode(&with(""))).0, 1);
    let wide = with(r#","clearance_mm":0.15"#);
    let link = encode(&wide);
    assert_eq!((unsealed(&link).0, decode(&link)), (5, Ok(wide)));
}

#[test]
fn the_starting_jobs_make_short_links() {
    for starter in starters() {
        let link = encode(&starter.job);
        assert!(link.len() < 300, "{}: {}", starter.key, link.len());
    }
}

/// Each line: a link as it was once given out and the job file that it must open as; where it carries more, then its
/// readings and its shop file. Tabs between. Lines are only added.
#[test]
fn golden_links_open_as_ever() {
    let golden = include_str!("../golden/links.tsv");
    let mut formats = [0; 7];
    for line in golden.lines() {
        let mut columns = line.split('\t');
        let link = columns.next().unwrap();
        let job = Job::from_json(columns.next().unwrap()).unwrap();
        assert_eq!(decode(link), Ok(job.clone()), "{link}");
        let format = usize::from(unsealed(link).0);
        if !matches!(format, 2 | 4) {
            assert_eq!(encode(&job), link, "a job keeps the link it had");
        }
        let opened = open(link).unwrap();
        if let Some(readings) = columns.next() {
            let known: Vec<(String, String)> = serde_json::from_str(readings).unwrap();
            assert_eq!(opened.readings, known, "{link}");
        }
        let shop = columns.next().map(|file| Shop::from_json(file).unwrap());
        assert_eq!(opened.equipment.map(|bytes| read_shop(&bytes).unwrap()), shop, "{link}");
        formats[format] += 1;
    }
    assert!(formats.iter().skip(1).all(|count| *count > 0) && formats[1] >= 12, "{formats:?}");
}

#[test]
fn what_is_no_link_says_so() {
    let why = |text: &str| decode(text).map(|_| ()).unwrap_err();
    assert_eq!(why(""), LinkError::Empty);
    assert_eq!(why("  #  "), LinkError::Empty);
    assert_eq!(why("not a link"), LinkError::Damaged);
    assert_eq!(why(&"A".repeat(50_000)), LinkError::TooLong);
    assert_eq!(why(&sealed(9, &[0])), LinkError::Later(9));
    // Envelopes round a job of a later format, and round another envelope.
    assert_eq!(why(&sealed(2, &[9, 0, 0])), LinkError::Later(9));
    assert_eq!(why(&sealed(4, &[9, 0, 0, 0])), LinkError::Later(9));
    // A job of format 5 stands on a plain one of format 1 or 3, never on another of its kind.
    let wide = unsealed(&encode(&starters()[0].job)).1;
    assert_eq!(
        why(&sealed(5, &[vec![5, wide.len() as u8], wide, vec![0, 0, 0]].concat())),
        LinkError::Damaged
    );
    for (format, end) in [(2, vec![0]), (4, vec![0, 0])] {
        let inner = unsealed(&encode_equipped(&Job::default(), &[], &[]).unwrap()).1;
        let body = [vec![4, inner.len() as u8], inner, end].concat();
        assert_eq!(why(&sealed(format, &body)), LinkError::Damaged, "format {format}");
    }
    assert_eq!(read_shop(&[]), Err(LinkError::Damaged));
    assert_eq!(read_shop(&[7, 1]), Err(LinkError::Later(7)));
}

fn bent(bends: &[[f64; 4]]) -> Bends {
    let degrees = Angle::from_degrees;
    let bend = |[before, rotation, angle, radius]: &[f64; 4]| Bend {
        before: Length::from_mm(*before),
        rotation: degrees(*rotation),
        angle: degrees(*angle),
        radius: Length::from_mm(*radius),
    };
    Bends::of(bends.iter().map(bend))
}

/// S-bent, butted and pressed oval beside the tyre, laid by the solver, with all that turns beside it.
fn bent_job() -> Job {
    let [_, starter, _] = starters();
    let mut job = starter.job;
    let [right, left] = [[95.5, 0.0, 14.5, 180.0], [97.0, 0.0, 13.0, 180.0]];
    let back = [62.5, 180.0, 11.25, 220.0];
    for (stay, first) in [(Some(&mut job.chainstays.right), right), (job.chainstays.left.as_mut(), left)] {
        let tube = &mut stay.unwrap().tube;
        tube.bends = Bends { find: SolveFor::Both, ..bent(&[first, back]) };
        let butts = [(120.0, 0.8), (170.0, 0.5), (320.0, 0.5), (370.0, 0.8)];
        let butt = |(at, wall)| Butt { at: Length::from_mm(at), wall: Length::from_mm(wall) };
        tube.butts = Butts { list: butts.map(butt).into_iter().collect() };
        let press = Press { from: Length::from_mm(70.0), to: Length::from_mm(110.0), ..Press::default() };
        tube.ovals = Ovals { list: [press].into_iter().collect() };
    }
    let ring = Ring { chainline: Length::from_mm(43.5), ..Ring::default() };
    let rings = [ring, ring].into_iter().collect();
    let measured_width = Some(Length::from_mm(44.2));
    job.surroundings = Some(Surroundings {
        rings,
        measured_width,
        posts: Some(Columns::default()),
        ..Surroundings::starting()
    });
    job
}

#[test]
fn an_s_bent_pair_with_surroundings_makes_a_short_link() {
    let link = encode(&bent_job());
    println!("{} characters: {link}", link.len());
    assert!(link.len() < 400, "{}", link.len());
}

#[test]
fn the_shops_to_start_from_are_short() {
    let lengths = [Shop::default(), demo_shop()].map(|shop| write_shop(&shop).len());
    println!("{lengths:?} bytes");
    assert!(lengths[0] < 50 && lengths[1] < 180, "{lengths:?}");
}

/// Sixty saws that differ in every figure, and twenty ways of joining with the longest account of what they rest on.
#[test]
fn a_large_shop_fits() {
    let mut shop = demo_shop();
    let mut step = 0.0;
    let saw = shop.hole_saws[0];
    let mut unlike = || {
        step += 0.01;
        HoleSaw {
            size: saw.size.map("", &mut |_, _, value| value + step),
            cutting: Some(Length::from_mm(25.4 + step)),
            arbor: saw.arbor.map("", &mut |_, _, value| value + step),
            ..saw
        }
    };
    shop.hole_saws = (0..60).map(|_| unlike()).collect();
    let process = |i: usize| Process {
        name: format!("way of joining {i}"),
        gap: shop.processes[2].gap,
        origin: Origin::new(Sure::Own, &"x".repeat(400)),
    };
    shop.processes = (0..20).map(process).collect();
    assert_eq!(shop.faults(), []);
    let equipment = write_shop(&shop);
    println!("{} bytes", equipment.len());
    assert!(equipment.len() < 12_000, "{}", equipment.len());
    let opened = open(&encode_equipped(&longest_job(), &[], &equipment).unwrap()).unwrap();
    assert_eq!(read_shop(&opened.equipment.unwrap()), Ok(shop));
}

/// Every list full, every figure with all its digits, notes of the longest characters.
fn longest_job() -> Job {
    let mut job = Job { name: "\u{10348}".repeat(120), notes: "\u{10348}".repeat(2000), ..Job::default() };
    job.fixture.posts = vec![Length::from_mm(0.0); 8];
    job.surroundings = Some(Surroundings {
        measured_width: Some(Length::from_mm(0.0)),
        rings: [Ring::default(); 3].into_iter().collect(),
        posts: Some(Columns::default()),
        ..Surroundings::starting()
    });
    for name in PairName::ALL {
        let pair = job.pair_mut(name);
        let tube = &mut pair.right.tube;
        tube.bends = Bends::of([Bend::default(); 8]);
        tube.butts = Butts { list: [Butt::default(); 8].into_iter().collect() };
        tube.ovals = Ovals { list: [Press::default(); 4].into_iter().collect() };
        pair.left = Some(pair.right);
    }
    let mut third = 1.0 / 3.0;
    job.map("", &mut |_, _, _| {
        third += 1.0;
        third
    })
}

#[test]
fn the_longest_job_fits_with_readings_and_the_most_equipment() {
    let job = longest_job();
    let job_length = unsealed(&encode(&job)).1.len();
    println!("{job_length} bytes");
    assert!(job_length < 14_000, "{job_length}");
    let readings = vec![("chainstays.right.front.rotation".to_owned(), "123.456 mm".to_owned()); 100];
    let most = vec![255; 16_384];
    let link = encode_equipped(&job, &readings, &most).unwrap();
    assert_eq!(open(&link), Ok(Linked { job, readings, equipment: Some(most) }));
    assert_eq!(encode_equipped(&Job::default(), &[], &[0; 16_385]), None);
}
