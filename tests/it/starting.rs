//! What a person starts with can be built: every starting job and every starting tube, by everything that there is to find.

use crate::findings::list;
use staywright::machining::{Cutter, Tool, running};
use staywright::model::shop::{Metal, Shop, ToothMaterial, demo_shop};
use staywright::model::{Job, PairName, starters, starting_job, starting_tubes};
use staywright::placement::plan;
use staywright::procedure::choose;
use staywright::units::Length;

/// The plain job, the starters, and each starter with each tube that fits its pairs.
fn jobs() -> Vec<(String, Job)> {
    let mut jobs: Vec<(String, Job)> =
        starters().into_iter().map(|starter| (starter.key.to_owned(), starter.job)).collect();
    jobs.push(("plain".to_owned(), starting_job()));
    for (name, tube) in starting_tubes() {
        let pair = if name.starts_with("Seat") { PairName::Seatstays } else { PairName::Chainstays };
        let mut job = starting_job();
        job.pair_mut(pair).right.tube = tube;
        jobs.push((name.to_owned(), job));
    }
    jobs
}

/// All that is a stop or a check for `job` in `shop`.
fn found(job: &Job, shop: &Shop) -> Vec<String> {
    let plan = plan(job).unwrap();
    let all = list(&plan, shop, &choose(&plan, shop));
    all.iter().filter(|one| one.is_warning()).map(|one| format!("{one:?}")).collect()
}

#[test]
fn what_a_person_starts_with_has_no_stop_and_no_check_in_the_example_shop() {
    let shop = demo_shop();
    let mut bad = Vec::new();
    for (name, job) in jobs() {
        for (whose, job) in [("its own fixture", job.clone()), ("the shop's fixture", shop.starting(job))] {
            let all = found(&job, &shop);
            bad.extend(all.into_iter().map(|found| format!("{name}, {whose}: {found}")));
        }
    }
    assert!(bad.is_empty(), "\n{}", bad.join("\n"));
}

/// Every saw of the example shop in every metal.
#[test]
fn the_example_mill_turns_slowly_enough_for_its_own_saws() {
    let shop = demo_shop();
    let round = shop.hole_saws.iter().map(|saw| Cutter {
        tool: Tool::HoleSaw,
        diameter: saw.diameter(),
        teeth: saw.size.teeth.number(),
        tooth: saw.tooth,
    });
    let flat = shop.slitting_saws.iter().map(|saw| Cutter {
        tool: Tool::SlittingSaw,
        diameter: saw.diameter,
        teeth: saw.teeth.number(),
        tooth: ToothMaterial::HighSpeedSteel,
    });
    let cutters: Vec<Cutter> = round.chain(flat).collect();
    for metal in Metal::ALL {
        for cutter in &cutters {
            let run = running(&shop, metal, *cutter);
            assert!(run.set.is_some() && run.too_fast.is_none(), "{metal:?} {cutter:?}: {:?}", run.wanted);
        }
    }
}

/// A job file without figures stands for what it always did: its hub is 1 mm narrower than its dropouts, and its slots have no
/// clearance. The page starts with better ones.
#[test]
fn a_plain_job_to_start_with_is_not_the_empty_file() {
    let codes = |job: &Job| plan(job).unwrap().warnings.iter().map(|warning| warning.code()).next();
    assert_eq!(Job::from_json(r#"{"format":1}"#), Ok(Job::default()));
    assert_eq!(codes(&starting_job()), None);
    assert!(codes(&Job::default()).is_some());
}

/// A shop that was kept with nothing but a fixture, when the starting bed had other figures, is still nobody's shop.
#[test]
fn a_fixture_kept_alone_before_stays_alone() {
    let mut job = Job::default();
    job.fixture.bench.slide_max = Length::from_mm(500.0);
    let mut shop = Shop::default();
    shop.keep_fixture(&job);
    assert!(shop.is_fixture_alone());
    shop.fixture.bed.front = Length::from_mm(-40.0);
    shop.fixture.bed.width = Length::from_mm(60.0);
    assert!(shop.is_fixture_alone());
    shop.fixture.bed.width = Length::from_mm(61.0);
    assert!(!shop.is_fixture_alone());
}
