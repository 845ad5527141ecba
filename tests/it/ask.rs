//! Questions that are answered beside the page.

use staywright::ask::{
    Answer, Checked, PlanId, Question, Responder, Response, RoomLine, StepLine, ToCheck, ToStep, Ways,
};
use staywright::clearance::{Obstacle, clearances};
use staywright::link;
use staywright::model::{Bend, Bends, Hand, Job, PairName, SolveFor, Surroundings, starters};
use staywright::placement::plan;
use staywright::plan::plan_placed;
use staywright::procedure::{self, Tools};
use staywright::units::{Length, LengthUnit, show};

fn response(responder: &mut Responder, question: &Question) -> Response {
    Response::from_bytes(&responder.respond(&question.to_bytes())).unwrap()
}

fn asked(question: &Question) -> Answer {
    response(&mut Responder::default(), question).answer
}

fn checked(readings: Vec<(String, f64)>) -> Checked {
    checked_of(&Job::default(), readings)
}

fn checked_of(job: &Job, readings: Vec<(String, f64)>) -> Checked {
    let job = link::encode(job);
    let question = ToCheck { job, readings, result: "off-centre".into(), ..ToCheck::default() };
    match asked(&Question::Check(Box::new(question))) {
        Answer::Check(checked) => *checked,
        other => panic!("{other:?}"),
    }
}

fn steps(job: &Job, unit: LengthUnit) -> Vec<StepLine> {
    match asked(&Question::Steps(ToStep { job: link::encode(job), unit, ..ToStep::default() })) {
        Answer::Steps(order) => order.steps,
        other => panic!("{other:?}"),
    }
}

#[test]
fn without_readings_nothing_is_found_but_errors_carry() {
    let checked = checked(Vec::new());
    assert_eq!((checked.found, checked.differs), (None, None));
    let carried = checked.carried.unwrap();
    assert_eq!(carried.totals.len(), 4);
    assert!(carried.shares.len() > 4 && carried.shares.iter().all(|share| share.gives.contains("gives ±")));
    assert!(checked.settings.len() > 10 && checked.results.len() > 6 && checked.measures.len() > 12);
}

/// What the page says that a bent stay should measure is what the readings are compared with: its length is the chord, which a rule
/// can reach, and not the way round the bend.
#[test]
fn nominal_readings_of_bent_stays_find_nothing_off() {
    let mut job = Job::default();
    let tube = &mut job.chainstays.right.tube;
    let mm = staywright::units::Length::from_mm;
    tube.bends = Bends::of([Bend { before: mm(120.0), ..Bend::default() }]);
    tube.length = mm(460.0);
    let readings = checked_of(&job, Vec::new()).measures.into_iter().map(|one| (one.id, one.nominal));
    let checked = checked_of(&job, readings.collect());
    let found = checked.found.unwrap();
    assert!(!found.contradicts && found.mends.is_empty(), "{found:?}");
    for differs in checked.differs.unwrap().into_iter().flatten() {
        assert!(differs.length.abs() < 1e-6 && differs.dropout.abs() < 1e-6, "{differs:?}");
    }
}

#[test]
fn a_long_stay_is_told_to_be_trimmed_and_drawn_longer() {
    let long =
        |id: &str| id.starts_with("chainstays.right.") && !id.contains("angle") && !id.contains("dropout");
    let plain = checked(Vec::new()).measures;
    let readings =
        plain.iter().map(|one| (one.id.clone(), one.nominal + if long(&one.id) { 3.0 } else { 0.0 }));
    let checked = checked(readings.collect());
    let found = checked.found.unwrap();
    assert!(
        found.mends.iter().any(|mend| mend.contains("off the right chainstay, front end")),
        "{:?}",
        found.mends
    );
    assert!(found.results.iter().any(|one| one.verdict == "out"));
    let [[right, left], _] = checked.differs.unwrap();
    assert!((right.length - left.length - 3.0).abs() < 0.5, "{right:?} {left:?}");
}

#[test]
fn steps_are_those_of_the_order_of_work_in_the_unit_of_the_page() {
    for starter in starters() {
        let plan = plan(&starter.job).unwrap();
        let wanted = procedure::steps(&plan, &Default::default(), &Tools::default());
        let lines = steps(&starter.job, LengthUnit::Inch);
        let ids = |lines: &[StepLine]| lines.iter().map(|line| line.id.clone()).collect::<Vec<_>>();
        assert_eq!(ids(&lines), wanted.iter().map(|step| step.key.written()).collect::<Vec<_>>());
        assert!(lines.iter().all(|line| line.figure.1 != "mm"), "{lines:?}");
        assert!(lines.iter().any(|line| line.figure.1 == "in"));
        assert!(lines.iter().all(|line| PairName::ALL.iter().any(|pair| pair.key() == line.pair)));
    }
}

#[test]
fn a_tick_is_of_its_setting_and_of_what_that_rests_on() {
    let before = steps(&Job::default(), LengthUnit::Millimetre);
    let changed = |job: &Job| -> Vec<String> {
        let after = steps(job, LengthUnit::Inch);
        assert_eq!(after.len(), before.len());
        let pairs = before.iter().zip(&after).filter(|(one, other)| !one.made_for.is(&other.made_for));
        pairs.map(|(one, _)| one.id.clone()).collect()
    };
    assert_eq!(changed(&Job::default()), Vec::<String>::new(), "the unit is no figure");
    let mut wall = Job::default();
    wall.seatstays.right.tube.wall = Length::from_mm(0.9);
    assert_eq!(changed(&wall), Vec::<String>::new());
    let mut spacing = Job::default();
    spacing.chainstays.right.front.half_spacing = Length::from_mm(20.5);
    let ids = changed(&spacing);
    assert!(!ids.is_empty() && ids.iter().all(|id| id.starts_with("chainstays.")), "{ids:?}");
    // The clamping has changed, so whatever was cut in it is no longer done, though the cut itself has no figure.
    for end in ["chainstays.both.clamp", "front.cut", "rear.saw-out"] {
        assert!(ids.iter().any(|id| id.ends_with(end)), "{end}: {ids:?}");
    }
}

#[test]
fn a_reading_on_a_stay_that_should_have_measured_otherwise_counts_no_more() {
    let found = |nominal: Option<f64>| {
        let plain = checked(Vec::new()).measures;
        let length = plain.iter().find(|one| one.id == "chainstays.right.tip-to-tip").unwrap();
        let question = ToCheck {
            job: link::encode(&Job::default()),
            readings: vec![(length.id.clone(), length.nominal + 1.0)],
            read_for: nominal.map(|off| (length.id.clone(), length.nominal + off)).into_iter().collect(),
            ..ToCheck::default()
        };
        match asked(&Question::Check(Box::new(question))) {
            Answer::Check(checked) => checked.found.is_some(),
            other => panic!("{other:?}"),
        }
    };
    assert_eq!([None, Some(0.0), Some(1.0)].map(found), [true, true, false]);
}

#[test]
fn a_place_searched_apart_gives_the_same_plan() {
    let mut job = Job::default();
    let tube = &mut job.chainstays.right.tube;
    let mm = staywright::units::Length::from_mm;
    tube.bends = Bends::of([Bend { before: mm(180.0), ..Bend::default() }]);
    tube.bends.find = SolveFor::Roll;
    let placed = staywright::placement::search(&job);
    let json = |plan: &staywright::plan::Plan| staywright::files::plan_text(plan).unwrap();
    assert_eq!(json(&plan(&job).unwrap()), json(&plan_placed(&job, &placed).unwrap()));
    // Once the tube lies as entered again, what was found for it counts no more.
    job.chainstays.right.tube.bends.find = SolveFor::Nothing;
    assert_eq!(json(&plan(&job).unwrap()), json(&plan_placed(&job, &placed).unwrap()));
}

#[test]
fn files_are_opened_and_saved() {
    let job = starters()[1].job.clone();
    let Answer::Saved(text) = asked(&Question::Save(link::encode(&job))) else { panic!() };
    assert_eq!(Job::from_json(&text).unwrap(), job);
    let Answer::Opened(opened) = asked(&Question::Open(text)) else { panic!() };
    assert_eq!(link::decode(&opened).unwrap(), job);
    let Answer::Refused(why) = asked(&Question::Open(r#"{"format":1,"a":1,"b":2}"#.into())) else { panic!() };
    assert_eq!(why.lines().filter(|line| line.contains("unknown key")).count(), 2, "{why}");
}

#[test]
fn what_cannot_be_answered_is_not() {
    for job in ["", "no link", "!!!!"] {
        assert_eq!(asked(&Question::Steps(ToStep { job: job.into(), ..ToStep::default() })), Answer::None);
        assert_eq!(asked(&Question::Save(job.into())), Answer::None);
        assert_eq!(asked(&Question::Place(job.into())), Answer::None);
    }
    let mut faulty = Job::default();
    faulty.frame.chainstay_length = staywright::units::Length::from_mm(-1.0);
    let job = link::encode(&faulty);
    assert_eq!(asked(&Question::Check(Box::new(ToCheck { job, ..ToCheck::default() }))), Answer::None);
    for bytes in [&[][..], &[255; 40], &[0; 7]] {
        let response = Response::from_bytes(&Responder::default().respond(bytes)).unwrap();
        assert_eq!((response.plan, response.answer), (None, Answer::None));
    }
}

#[test]
fn a_response_names_its_request_and_its_plan() {
    let mut responder = Responder::default();
    let (one, mut other) = (Job::default(), Job::default());
    other.frame.bb_drop = Length::from_mm(71.0);
    let rooms = |job: &Job, unit| Question::Rooms { job: link::encode(job), unit };
    let questions = [
        rooms(&one, LengthUnit::Millimetre),
        rooms(&one, LengthUnit::Inch),
        rooms(&other, LengthUnit::Millimetre),
        Question::Steps(ToStep { job: link::encode(&one), ..ToStep::default() }),
        Question::Steps(ToStep { job: link::encode(&one), shop: vec![1], ..ToStep::default() }),
    ];
    let responses: Vec<Response> = questions.iter().map(|one| response(&mut responder, one)).collect();
    for (question, response) in questions.iter().zip(&responses) {
        assert_eq!(response.request, question.id());
        assert_eq!(response.plan, question.job().map(PlanId::of));
        let others = questions.iter().filter(|other| *other != question);
        assert!(others.clone().count() == 4 && others.clone().all(|other| other.id() != question.id()));
    }
    let plans: Vec<_> = responses.iter().map(|response| response.plan).collect();
    assert!(plans[0].is_some() && plans[0] == plans[1] && plans[0] == plans[3] && plans[0] != plans[2]);
    let worked = response(&mut responder, &Question::Worked);
    assert_eq!((worked.request, worked.plan), (Question::Worked.id(), None));
}

#[test]
fn a_job_is_planned_once_however_much_is_asked_about_it() {
    let mut responder = Responder::default();
    let mut ask = |drop: f64| {
        let mut job = Job::default();
        job.frame.bb_drop = Length::from_mm(drop);
        let job = link::encode(&job);
        let unit = LengthUnit::Millimetre;
        let questions = [
            Question::Rooms { job: job.clone(), unit },
            Question::Steps(ToStep { job: job.clone(), ..ToStep::default() }),
            Question::Check(Box::new(ToCheck { job, ..ToCheck::default() })),
        ];
        let answers: Vec<Answer> = questions.iter().map(|one| response(&mut responder, one).answer).collect();
        (responder.planned(), answers)
    };
    let (planned, first) = ask(70.0);
    assert_eq!(planned, 1);
    assert_eq!([71.0, 72.0, 73.0].map(|drop| ask(drop).0), [2, 3, 4]);
    // It is still known, and says the same.
    assert_eq!(ask(70.0), (4, first));
    // The fifth job takes the place of the one asked about longest ago.
    assert_eq!([74.0, 71.0].map(|drop| ask(drop).0), [5, 6]);
}

fn with_all_about() -> Job {
    Job { surroundings: Some(Surroundings::starting()), ..Job::default() }
}

fn room_lines(job: &Job) -> Vec<RoomLine> {
    match asked(&Question::Rooms { job: link::encode(job), unit: LengthUnit::Millimetre }) {
        Answer::Rooms(lines) => lines,
        other => panic!("{other:?}"),
    }
}

fn ways(job: &Job) -> Ways {
    let stay = (PairName::Chainstays, Hand::Right);
    match asked(&Question::Ways { job: link::encode(job), stay, unit: LengthUnit::Millimetre }) {
        Answer::Ways(ways) => *ways,
        other => panic!("{other:?}"),
    }
}

#[test]
fn rooms_come_tightest_first_each_with_its_place_and_the_source_of_its_limit() {
    let job = with_all_about();
    let lines = room_lines(&job);
    let plan = plan(&job).unwrap();
    let spares: Vec<f64> = clearances(&plan)
        .iter()
        .flat_map(|room| room.clearances.iter().map(|gap| gap.margin().mm()))
        .collect();
    let least = spares.iter().copied().fold(f64::INFINITY, f64::min);
    let first = &lines[0];
    assert!(first.words.contains("short of") == (least < 0.0), "{first:?}");
    assert!(lines.iter().all(|line| line.place.ends_with("behind the front point")));
    let tyre = lines.iter().find(|line| line.to == "Tyre").unwrap();
    assert!(tyre.source.contains("ISO 4210-2") && tyre.source.contains("from memory"), "{}", tyre.source);
    // Both stays are as far from the tyre: said once.
    assert_eq!(tyre.stay, "both chainstays");
    assert_eq!(lines.iter().filter(|line| line.to == "Tyre" && line.pair == PairName::Chainstays).count(), 1);
}

#[test]
fn a_way_that_is_put_in_leaves_just_what_is_wanted() {
    let mut job = with_all_about();
    job.wheel.tyre_width = Length::from_mm(28.0);
    job.chainstays.right.tube.bends = Bends::of([Bend::default()]);
    // What lies outboard leaves no way out.
    let all = job.surroundings.as_mut().unwrap();
    (all.crank, all.sprocket, all.rotor) = (None, None, None);
    all.rings = Default::default();
    let ways = ways(&job);
    assert!(!ways.dimples.is_empty() && ways.caution.contains("last resort"));
    let tyre_room = |job: &Job| {
        let rooms = clearances(&plan(job).unwrap());
        let gap = rooms[0].clearances.iter().find(|gap| gap.to == Obstacle::Tyre).unwrap();
        gap.margin().mm()
    };
    assert!(tyre_room(&job) < 0.0);
    let for_tyre = &ways.ways.iter().find(|(to, _)| to == "tyre").unwrap().1;
    assert!(!for_tyre.is_empty());
    for way in for_tyre {
        let (path, value) = &way.figures[0];
        let spare = tyre_room(&job.with_figure(path, *value));
        assert!((0.0..0.02).contains(&spare), "{} leaves {spare}", way.words);
        assert!(way.words.contains("It also changes right: "), "{}", way.words);
    }
    let widest = ways.tyre.unwrap();
    let fits = widest.figures.iter().fold(job, |job, (path, value)| job.with_figure(path, *value));
    assert!(tyre_room(&fits) >= 0.0 && tyre_room(&fits) < 0.2, "{}", tyre_room(&fits));
}

#[test]
fn sources_and_starting_tubes_come_in_words() {
    let Answer::Starting(starting) = asked(&Question::Starting(LengthUnit::Millimetre)) else { panic!() };
    let tyre = starting.sources.iter().find(|source| source.words.contains("16 CFR 1512.11")).unwrap();
    assert_eq!(tyre.name, "room to the tyre");
    assert!(tyre.words.ends_with("(read in the source)"), "{}", tyre.words);
    for tube in starting.tubes {
        assert_eq!(link::decode(&tube.tube).unwrap().name, tube.name);
    }
}

#[test]
fn the_order_of_work_ends_with_what_to_measure() {
    let job = Job::default();
    let plan = plan(&job).unwrap();
    let Answer::Steps(order) =
        asked(&Question::Steps(ToStep { job: link::encode(&job), ..ToStep::default() }))
    else {
        panic!()
    };
    // Both stays of a mirrored pair measure the same.
    let [name, tips, length, front, rear] = &order.finished[1][..] else { panic!("{:?}", order.finished) };
    let stay = &plan.pairs.seatstays.right;
    assert_eq!(name, "Seat stays");
    let mm = LengthUnit::Millimetre;
    assert_eq!((tips, length), (&show::length(stay.tip_to_tip.unwrap(), mm), &show::length(stay.length, mm)));
    assert_eq!(front, &show::angle(stay.front.round().unwrap().angle));
    assert!(rear.ends_with('°') && order.finished.len() == 2);
}
