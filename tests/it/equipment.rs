//! The builder's equipment beside the page: its form, and what is told of a cut with it.

use staywright::ask::{
    Answer, Change, CutTold, Edit, FormField, FormSection, Formed, Order, Question, Responder, Response,
    Subject, ToCut, ToForm, ToStep,
};
use staywright::link;
use staywright::machining::{candidates, nearest_not_above, spindle_speed};
use staywright::model::shop::{Shop, demo_shop, inch_hole_saws};
use staywright::model::{Job, starters};
use staywright::placement::plan;
use staywright::plan::CutAt;
use staywright::units::{CuttingSpeed, Length, LengthUnit};

fn asked(question: &Question) -> Answer {
    Response::from_bytes(&Responder::default().respond(&question.to_bytes())).unwrap().answer
}

fn form_in(bytes: &[u8], changes: &[Change], open: &[&str], unit: LengthUnit) -> Formed {
    let edits = (1..).zip(changes).map(|(serial, change)| Edit { serial, change: change.clone() }).collect();
    let open = open.iter().map(|key| (*key).to_owned()).collect();
    let to = ToForm { subject: Subject::Shop, bytes: bytes.to_vec(), edits, open, unit };
    match asked(&Question::Form(Box::new(to))) {
        Answer::Form(formed) => *formed,
        other => panic!("{other:?}"),
    }
}

fn form(bytes: &[u8], changes: &[Change]) -> Formed {
    form_in(bytes, changes, &["shop"], LengthUnit::Millimetre)
}

fn shop(bytes: &[u8]) -> Shop {
    match asked(&Question::SaveShop(bytes.to_vec())) {
        Answer::Saved(text) => Shop::from_json(&text).unwrap(),
        other => panic!("{other:?}"),
    }
}

fn typed(path: &str, text: &str) -> Change {
    Change::Type(path.to_owned(), text.to_owned())
}

fn act(key: &str) -> Change {
    Change::Act(key.to_owned())
}

fn example() -> Vec<u8> {
    form(&[], &[act("all example")]).bytes
}

/// Every section of a form, those inside others too, all of them open.
fn all_open(bytes: &[u8], unit: LengthUnit) -> Vec<FormSection> {
    fn walk(sections: &[FormSection], found: &mut Vec<FormSection>) {
        for section in sections {
            found.push(section.clone());
            walk(&section.sections, found);
        }
    }
    let mut open: Vec<String> = vec!["shop".into()];
    loop {
        let keys: Vec<&str> = open.iter().map(String::as_str).collect();
        let mut found = Vec::new();
        walk(&form_in(bytes, &[], &keys, unit).sections, &mut found);
        let now: Vec<String> = found.iter().map(|section| section.key.clone()).collect();
        if now == open {
            return found;
        }
        open = now;
    }
}

fn fields(bytes: &[u8], unit: LengthUnit) -> Vec<FormField> {
    all_open(bytes, unit).into_iter().flat_map(|section| section.fields).collect()
}

fn told(job: &Job, bytes: &[u8], picked: &[(String, String)], cut: &str) -> CutTold {
    let to = ToCut {
        job: link::encode(job),
        shop: bytes.to_vec(),
        picked: picked.to_vec(),
        cut: cut.into(),
        ..ToCut::default()
    };
    match asked(&Question::Cut(Box::new(to))) {
        Answer::Cut(told) => *told,
        other => panic!("{other:?}"),
    }
}

fn order(job: &Job, bytes: &[u8], picked: &[(String, String)]) -> Order {
    let to = ToStep {
        job: link::encode(job),
        shop: bytes.to_vec(),
        picked: picked.to_vec(),
        unit: LengthUnit::Millimetre,
    };
    match asked(&Question::Steps(to)) {
        Answer::Steps(order) => *order,
        other => panic!("{other:?}"),
    }
}

fn fact<'a>(told: &'a CutTold, title: &str, name: &str) -> &'a str {
    let found = told
        .told
        .iter()
        .find(|one| one.title == title)
        .and_then(|one| one.facts.iter().find(|(known, _)| known == name));
    found.map_or_else(|| panic!("{title}, {name} in {told:#?}"), |(_, figure)| figure)
}

#[test]
fn what_is_typed_is_read_as_people_write_it() {
    let saw = "hole_saws[0]";
    let changes = [
        typed(&format!("{saw}.cutting_mm"), "1 1/8 in"),
        typed(&format!("{saw}.kerf_mm"), "1,9"),
        typed("metal", "titanium"),
        typed("joined_by", "silver brazing"),
        typed("name", "Weir Lane"),
    ];
    let formed = form(&[], &changes);
    assert_eq!((formed.refused.clone(), formed.done), (Vec::new(), 5));
    let shop = shop(&formed.bytes);
    assert!((shop.hole_saws[0].cutting.unwrap().mm() - 28.575).abs() < 1e-9);
    assert!((shop.hole_saws[0].size.kerf.mm() - 1.9).abs() < 1e-9);
    assert_eq!((shop.metal.key(), shop.name.as_str()), ("titanium", "Weir Lane"));
    assert_eq!(shop.process().unwrap().name, "silver brazing");
    let (path, note) = &formed.notes[0];
    assert_eq!((path.as_str(), note.as_str()), ("hole_saws[0].cutting_mm", "1 1/8 in = 28.575 mm"));
    // Emptied, it is not measured any more.
    let emptied = form(&formed.bytes, &[typed(&format!("{saw}.cutting_mm"), " ")]);
    assert_eq!(self::shop(&emptied.bytes).hole_saws[0].cutting, None);
}

#[test]
fn rubbish_stays_in_its_field_and_the_last_good_shop_counts() {
    let before = example();
    for (text, words) in
        [("abc", "“abc” is not a figure"), ("0", "outside"), ("", "A figure is needed"), ("1e999", "")]
    {
        let formed = form(&before, &[typed("hole_saws[1].kerf_mm", text), typed("mill.x.travel_mm", "512")]);
        assert_eq!(formed.refused.len(), 1, "{text}");
        let refused = &formed.refused[0];
        assert_eq!(
            (refused.serial, refused.text.as_str(), refused.path.as_str()),
            (1, text, "hole_saws[1].kerf_mm")
        );
        assert!(refused.fault.contains(words), "{}", refused.fault);
        let shop = shop(&formed.bytes);
        assert_eq!(shop.hole_saws[1], demo_shop().hole_saws[1]);
        assert_eq!(shop.mill.axes[0].travel.mm(), 512.0);
    }
    for path in
        ["", "no", "hole_saws", "hole_saws[99].kerf_mm", "mill.x", "hole_saws[0]", "[", "format", "a[b].c"]
    {
        assert_eq!(form(&before, &[typed(path, "1")]).refused.len(), 1, "{path}");
    }
}

#[test]
fn what_waits_is_taken_once_something_else_lets_it() {
    // A neck may not be longer than its arbor: the neck comes first, the arbor later.
    let neck = typed("hole_saws[0].neck_length_mm", "200");
    let arbor = typed("hole_saws[0].reach_mm", "250");
    let before = example();
    assert_eq!(form(&before, std::slice::from_ref(&neck)).refused.len(), 1);
    let formed = form(&before, &[neck, arbor]);
    assert!(formed.refused.is_empty(), "{:?}", formed.refused);
    assert_eq!(shop(&formed.bytes).hole_saws[0].arbor.neck_length.mm(), 200.0);
}

#[test]
fn every_field_takes_its_own_figure_back() {
    for unit in [LengthUnit::Millimetre, LengthUnit::Inch] {
        let bytes = example();
        let all = fields(&bytes, unit);
        assert!(all.len() > 120, "{}", all.len());
        for field in &all {
            let formed = form_in(&bytes, &[typed(&field.path, &field.value)], &[], unit);
            assert!(formed.refused.is_empty(), "{} {:?}: {:?}", field.path, field.value, formed.refused);
        }
        let mut paths: Vec<&String> = all.iter().map(|field| &field.path).collect();
        paths.sort();
        paths.dedup();
        assert_eq!(paths.len(), all.len(), "two fields have one path");
        for field in all.iter().filter(|field| !field.range.is_empty()) {
            let formed = form_in(&bytes, &[typed(&field.path, "-1e7")], &[], unit);
            assert!(formed.refused.len() == 1, "{}", field.path);
            assert!(formed.refused[0].fault.contains(&field.range), "{:?} {:?}", formed.refused, field.range);
        }
    }
}

#[test]
fn a_closed_section_comes_without_what_is_in_it() {
    let formed = form_in(&[], &[], &["shop", "hole_saws"], LengthUnit::Millimetre);
    let find = |key: &str| formed.sections[0].sections.iter().find(|one| one.key == key).unwrap();
    assert_eq!(find("hole_saws").sections.len(), 29);
    assert!(find("hole_saws").sections.iter().all(|saw| saw.fields.is_empty()));
    assert!(find("mill").fields.is_empty() && find("mill").title == "Mill");
}

#[test]
fn buttons_add_remove_and_take_lists() {
    let example = example();
    assert_eq!(shop(&example), demo_shop());
    let inch = shop(&form(&example, &[act("list hole_saws inch")]).bytes);
    assert_eq!(inch.hole_saws, inch_hole_saws());
    let more = shop(
        &form(&example, &[act("add hole_saws"), act("add processes"), act("add mill.speeds_rpm")]).bytes,
    );
    assert_eq!((more.hole_saws.len(), more.processes.len()), (8, 6));
    let less = shop(&form(&example, &[act("remove hole_saws[0]"), act("remove hole_saws[99]")]).bytes);
    assert_eq!(less.hole_saws, demo_shop().hole_saws[1..]);
    let arbor = form(&example, &[typed("hole_saws[2].reach_mm", "120"), act("arbor hole_saws[2]")]);
    assert!(shop(&arbor.bytes).hole_saws.iter().all(|saw| saw.arbor.reach.mm() == 120.0));
    // What waits in a list that gets other fields goes; elsewhere it stays.
    let waits =
        [typed("hole_saws[3].kerf_mm", "x"), typed("mill.x.travel_mm", "y"), act("remove hole_saws[3]")];
    let formed = form(&example, &waits);
    assert_eq!(formed.refused.iter().map(|one| one.serial).collect::<Vec<_>>(), [2]);
    assert!(form(&example, &[act("no such button")]).refused.is_empty());
    // Removing the way of joining that is used leaves another one in use, and no fault.
    let mut bytes = example.clone();
    for _ in 0..6 {
        bytes = form(&bytes, &[act("remove processes[0]")]).bytes;
        assert_eq!(shop(&bytes).faults(), []);
    }
    assert!(shop(&bytes).processes.is_empty());
}

#[test]
fn files_and_other_shops_are_taken_whole_or_not_at_all() {
    let example = example();
    let text = demo_shop().to_json().to_string();
    let formed = form(&[], &[Change::File(text)]);
    assert_eq!(
        (shop(&formed.bytes), formed.said.unwrap().words.as_str()),
        (demo_shop(), "The shop file is opened.")
    );
    for change in [
        Change::File("{\"format\":1,\"hole_saws\":7}".into()),
        Change::Replace(vec![1, 2, 3]),
        Change::Replace(vec![0]),
    ] {
        let formed = form(&example, &[change]);
        let said = formed.said.unwrap();
        assert!(said.bad && said.words.contains("Nothing was changed"), "{said:?}");
        assert_eq!(formed.bytes, example);
    }
    let back = form(&[], &[Change::Replace(example.clone())]);
    assert_eq!(back.bytes, example);
    // Back to where nothing was entered.
    assert_eq!(form(&example, &[Change::Replace(Vec::new())]).bytes, Vec::<u8>::new());
    // What cannot be read is a shop to start from.
    assert_eq!(shop(&[9, 9, 9]), Shop::default());
}

#[test]
fn saws_are_ranked_as_machining_ranks_them_and_a_pick_holds_for_the_whole_pass() {
    let job = starters()[0].job.clone();
    let plan = plan(&job).unwrap();
    let bytes = example();
    let at = CutAt::all().next().unwrap();
    let answer = told(&job, &bytes, &[], &at.key());
    let ranked = candidates(&plan, &demo_shop(), at);
    assert_eq!(answer.saws.len(), ranked.len());
    assert_eq!(answer.together.len(), 2);
    assert_eq!(answer.cut, at.key());
    assert!(!answer.is_own && answer.saws.iter().filter(|saw| saw.used).count() <= 1);
    // The last of them, picked for both.
    let last = answer.saws.last().unwrap();
    let picked: Vec<_> = answer.together.iter().map(|cut| (cut.clone(), last.key.clone())).collect();
    for cut in &answer.together {
        let own = told(&job, &bytes, &picked, cut);
        assert!(own.is_own && own.saws.last().unwrap().used, "{own:?}");
    }
    let steps = order(&job, &bytes, &picked).steps;
    let mount = steps.iter().find(|step| step.id.ends_with("front.cutter")).unwrap();
    assert!(last.name.contains(&mount.figure.0), "{mount:?} {last:?}");
    // On another member it is no pick any more.
    let mut other = job.clone();
    other.frame.shell_od = Length::from_mm(job.frame.shell_od.mm() + 2.0);
    assert!(!told(&other, &bytes, &picked, &at.key()).is_own);
}

#[test]
fn speed_reach_and_stiffness_are_told_with_where_they_come_from() {
    let job = starters()[0].job.clone();
    let bytes = form(&example(), &[typed("metal", "mild_steel")]).bytes;
    let answer = told(&job, &bytes, &[], "chainstays.right.front");
    let used = answer.saws.iter().find(|saw| saw.used).unwrap();
    let diameter: f64 =
        used.name.split('\u{202f}').nth(1).unwrap().split(' ').next().unwrap().parse().unwrap();
    // 90 surface feet per minute: the hole-saw maker's table for mild steel.
    let wanted = spindle_speed(CuttingSpeed::from_feet_per_min(90.0), Length::from_mm(diameter));
    let set = nearest_not_above(&demo_shop().mill.speeds, wanted).unwrap();
    assert_eq!(fact(&answer, "Speed and feed", "Spindle"), format!("{} rpm", set.rpm()));
    assert!(fact(&answer, "Stiffness", "Choked up by 20 mm").contains("times as stiff"));
    assert!(fact(&answer, "Stiffness", "Teeth give way").contains(" to "));
    assert!(fact(&answer, "Way in", "Reach left when through").ends_with("mm"));
    let speed = answer.told.iter().find(|one| one.title == "Speed and feed").unwrap();
    assert!(speed.words.iter().all(|one| one.bad || one.source.contains('(')), "{speed:?}");
    let short = form(&bytes, &[typed("hole_saws[0].reach_mm", "15"), act("arbor hole_saws[0]")]).bytes;
    let way = told(&job, &short, &[], "chainstays.right.front");
    let way = way.told.iter().find(|one| one.title == "Way in").unwrap();
    assert!(way.words.iter().any(|one| one.bad && one.words.contains("Arbor missing")), "{way:?}");
    assert!(order(&job, &short, &[]).beyond.iter().any(|words| words.contains("arbor is too short")));
}

#[test]
fn slots_and_pads_are_told() {
    let job = starters()
        .into_iter()
        .map(|one| one.job)
        .find(|job| plan(job).unwrap().pairs.chainstays.right.rear.round().is_none())
        .unwrap();
    let answer = told(&job, &example(), &[], "chainstays.right.rear");
    assert!(answer.saws.is_empty());
    assert!(fact(&answer, "Passes", "Saw").contains("wide"));
    // The plane of the starting figures passes the tube by; a lower one does not.
    let pad = answer.pad.unwrap();
    assert!(pad.words.iter().any(|one| one.bad && one.words.contains("radius")), "{pad:?}");
    let low = Edit { serial: 1, change: typed("above_axis_mm", "6") };
    let to = ToForm {
        subject: Subject::Pad,
        bytes: Vec::new(),
        edits: vec![low],
        open: Vec::new(),
        unit: LengthUnit::Millimetre,
    };
    let Answer::Form(formed) = asked(&Question::Form(Box::new(to))) else { panic!() };
    let to = ToCut {
        job: link::encode(&job),
        pad: formed.bytes,
        cut: "chainstays.left.rear".into(),
        ..ToCut::default()
    };
    let Answer::Cut(answer) = asked(&Question::Cut(Box::new(to))) else { panic!() };
    let pad = answer.pad.unwrap();
    assert!(pad.facts.iter().any(|(name, _)| name == "Wall left over the bore"), "{pad:?}");
    let seat = told(&Job::default(), &[], &[], "seatstays.left.front");
    assert!(seat.pad.is_none());
}

#[test]
fn until_a_shop_is_entered_the_steps_name_the_planned_cutter_and_its_speed() {
    let job = Job::default();
    let order = order(&job, &[], &[]);
    let mount = order.steps.iter().find(|step| step.id.ends_with("front.cutter")).unwrap();
    let planned = plan(&job).unwrap().pairs.chainstays.right.front.round().unwrap().cutter;
    assert!(mount.figure.0.contains(&format!("{}", planned.mm())), "{mount:?}");
    // Of a mill that nobody has entered nothing can be too slow, of an arbor nothing too short.
    assert!(order.beyond.is_empty(), "{:?}", order.beyond);
    assert!(order.cutters.iter().all(|row| row[1].contains("saw") && row[2].ends_with("rpm")));
    assert!(!order.cautions.is_empty() && order.cautions.iter().all(|(_, source)| !source.is_empty()));
}

#[test]
fn the_pad_keeps_its_figures_and_refuses_rubbish() {
    let ask = |bytes: Vec<u8>, text: &str| {
        let edits = vec![Edit { serial: 4, change: typed("length_mm", text) }];
        let to = ToForm { subject: Subject::Pad, bytes, edits, open: Vec::new(), unit: LengthUnit::Inch };
        match asked(&Question::Form(Box::new(to))) {
            Answer::Form(formed) => *formed,
            other => panic!("{other:?}"),
        }
    };
    let formed = ask(Vec::new(), "2");
    let value = |formed: &Formed| formed.sections[0].fields[2].value.clone();
    assert_eq!(value(&formed), "2");
    let refused = ask(formed.bytes, "wide");
    assert_eq!((refused.refused.len(), value(&refused)), (1, "2".to_owned()));
    assert_eq!(value(&ask(vec![255; 9], "3")), "3");
}

/// A fixture that is kept is the shop's: other jobs start with it and with its edge finder, and nothing else of a shop counts as
/// entered.
#[test]
fn a_kept_fixture_is_the_shops_and_new_jobs_start_with_it() {
    let mut job = starters()[0].job.clone();
    job.fixture.bench.block_width = Length::from_mm(63.5);
    job.fixture.posts.push(Length::from_mm(400.0));
    job.touch.edge_finder = Length::from_mm(6.0);
    let formed = form(&[], &[Change::Keep(link::encode(&job))]);
    assert!(!formed.said.unwrap().bad);
    let kept = shop(&formed.bytes);
    assert_eq!((&kept.fixture.figures, kept.touch), (&job.fixture, job.touch));
    let started = |job: &Job, bytes: &[u8]| {
        let question = Question::InShop { job: link::encode(job), shop: bytes.to_vec() };
        let Answer::Opened(started) = asked(&question) else { panic!() };
        link::decode(&started).unwrap()
    };
    let other = starters()[1].job.clone();
    let wanted = Job { fixture: job.fixture.clone(), touch: job.touch, ..other.clone() };
    assert_eq!(started(&other, &formed.bytes), wanted);
    // A shop without a fixture of its own leaves a job its own.
    assert_eq!(started(&other, &form(&[], &[act("all lists")]).bytes), other);
    let steps = |bytes: &[u8]| {
        let to = ToStep { job: link::encode(&other), shop: bytes.to_vec(), ..ToStep::default() };
        let Answer::Steps(order) = asked(&Question::Steps(to)) else { panic!() };
        order.steps
    };
    assert_eq!(steps(&formed.bytes), steps(&[]));
    // In a shop that was entered the rest stays as it was.
    let again = shop(&form(&example(), &[Change::Keep(link::encode(&job))]).bytes);
    assert_eq!(again.hole_saws, demo_shop().hole_saws);
    assert_eq!(again.fixture.figures, job.fixture);
    let rubbish = form(&example(), &[Change::Keep("rubbish".into())]);
    assert_eq!((rubbish.bytes, rubbish.said), (example(), None));
}
