//! The machine's pose at each step, against the simulated machine after the same steps.

use super::jobs::{jobs, shops};
use super::mill::Simulated;
use nalgebra::{Matrix3, Vector3};
use staywright::machining::{MachinePose, MovingPart, SpindleTool};
use staywright::model::PairName;
use staywright::model::shop::{Axis, SpindleWay, demo_shop};
use staywright::placement::plan;
use staywright::procedure::{Motion, Step, Task, Tools, choose, pair_steps, poses};
use staywright::units::{Angle, Length};

fn close(a: Vector3<f64>, b: Vector3<f64>) -> bool {
    (a - b).norm() < 1e-9
}

/// How a pose and the machine differ after a step: as far as that step and those before it have set them.
fn check(step: &Step, pose: &MachinePose, machine: &Simulated<'_>) -> usize {
    let [u, v, w] = pose.ways;
    let out = machine.spindle_way();
    assert!(close(pose.out, out), "{:?}", step.key);
    let apart = pose.tool_at.coords - machine.spindle_from_datum();
    match step.task {
        Task::Cut { .. } => {
            assert!((Matrix3::from_columns(&[u, v, w]) - machine.stands()).norm() < 1e-9, "{:?}", step.key);
            let aside = apart - out * apart.dot(&out);
            assert!(aside.norm() < 1e-9, "{:?}: {aside}", step.key);
            1
        }
        Task::Slot { .. } => {
            assert!((Matrix3::from_columns(&[u, v, w]) - machine.stands()).norm() < 1e-9, "{:?}", step.key);
            assert!(apart.dot(&out).abs() < 1e-9, "{:?}: {apart}", step.key);
            1
        }
        _ => 0,
    }
}

/// Each spindle, table direction, way round, side up, tilt and swivel of the jobs and shops, as set by rounded readings too.
#[test]
fn a_pose_is_where_the_simulated_machine_stands() {
    let mut seen = 0;
    for job in jobs() {
        let plan = plan(&job).unwrap();
        for (number, mut shop) in shops().into_iter().enumerate() {
            if number % 2 == 1 {
                shop.mill.axes.iter_mut().for_each(|axis| axis.division = Length::from_mm(0.1));
                shop.fixture.tilt.figures.division = Angle::from_degrees(0.5);
            }
            for name in PairName::ALL {
                let steps = pair_steps(&plan, &shop, &Tools::default(), name);
                let poses = poses(&plan, &shop, &Tools::default(), &steps);
                let mut machine = Simulated::new(&job, &shop);
                for (step, pose) in steps.iter().zip(&poses) {
                    machine.follow(step);
                    seen += check(step, pose, &machine);
                    assert_eq!((pose.pair, pose.tool_at.iter().all(|x| x.is_finite())), (name, true));
                }
            }
        }
    }
    assert!(seen > 5_000, "{seen}");
}

/// A table that goes to the left brings the cutter to the right over the work.
#[test]
fn the_table_moves_against_the_cutter() {
    let (job, shop) = (&jobs()[0], demo_shop());
    let plan = plan(job).unwrap();
    let steps = pair_steps(&plan, &shop, &Tools::default(), PairName::Seatstays);
    let poses = poses(&plan, &shop, &Tools::default(), &steps);
    assert_eq!((shop.mill.spindle, shop.mill.lies_along), (SpindleWay::Vertical, Axis::X));
    let mut seen = 0;
    for (step, pose) in steps.iter().zip(&poses) {
        let (Task::MoveAlong { motion, .. } | Task::Move { along: motion, .. }) = step.task else { continue };
        let way = if motion == Motion::Right { -Vector3::x() } else { Vector3::x() };
        assert_eq!((pose.moving, pose.moves.first()), (Some(MovingPart::Table), Some(&way)));
        seen += 1;
    }
    assert!(seen > 0);
}

/// What is in the spindle is what the steps have put there, and ends are cut once they have been.
#[test]
fn the_tool_and_the_ends_follow_the_steps() {
    let (job, shop) = (&jobs()[0], demo_shop());
    let plan = plan(job).unwrap();
    let tools = choose(&plan, &shop);
    let steps = pair_steps(&plan, &shop, &tools, PairName::Seatstays);
    let poses = poses(&plan, &shop, &tools, &steps);
    let mut cut = false;
    for (step, pose) in steps.iter().zip(&poses) {
        match step.task {
            Task::TouchCorner { .. } => assert!(matches!(pose.tool, SpindleTool::EdgeFinder(_))),
            Task::MountHoleSaw { .. } => assert!(matches!(pose.tool, SpindleTool::HoleSaw(_))),
            Task::MountSlittingSaw { .. } => assert!(matches!(pose.tool, SpindleTool::SlittingSaw(_))),
            Task::Clamp { .. } => assert!(pose.has_stays && pose.is_cut == [false; 2]),
            _ => {}
        }
        assert_eq!(pose.is_cut[0], cut, "{:?}", step.key);
        cut |= matches!(step.task, Task::Cut { .. }) && step.key.setting.at_front() == Some(true);
    }
    assert!(cut);
}
