//! Each setting in a line: what it is set to, with which saw, how fast.

use super::beside::Quantity;
use super::key::{Phase, SettingKey};
use super::reading::Reading;
use super::step::{Scale, Step};
use super::task::Task;
use crate::model::Hand;
use crate::plan::EndUp;

/// What is in the spindle for a setting.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Saw {
    /// A hole saw of that diameter.
    Hole(Option<Reading>),
    /// A slitting saw of that diameter.
    Slitting(Option<Reading>),
}

/// How the fixture stands for a setting.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Posture {
    /// On its side, that side to the spindle.
    OnSide(Hand),
    /// Tilted, that end up; what the gauge shows.
    Tilted(EndUp, Option<Reading>),
}

/// A setting with all that is set for it.
#[derive(Clone, Debug, PartialEq)]
pub struct SettingSummary {
    /// The setting.
    pub key: SettingKey,
    /// The saw, which may have been mounted for an earlier setting.
    pub saw: Option<Saw>,
    /// How the fixture stands, likewise.
    pub posture: Option<Posture>,
    /// What is set on scales and readouts, in the order of the work.
    pub readings: Vec<(Scale, Reading)>,
    /// The spindle's speed.
    pub speed: Option<Reading>,
    /// How many steps it takes.
    pub steps: usize,
}

/// The settings of an order of work: each clamping and each cutting, in order.
pub fn settings(steps: &[Step]) -> Vec<SettingSummary> {
    let (mut saw, mut posture) = (None, None);
    let is_setting = |group: &&[Step]| {
        group.first().is_some_and(|step| !matches!(step.key.setting.phase, Phase::Before | Phase::After))
    };
    steps
        .chunk_by(|a, b| a.key.setting == b.key.setting)
        .filter(is_setting)
        .filter_map(|group| {
            let key = group.first()?.key.setting;
            if key.phase == Phase::Clamping {
                (saw, posture) = (None, None);
            }
            for step in group {
                saw = mounted(step).or(saw);
                posture = stands(step).or(posture);
            }
            Some(SettingSummary {
                key,
                saw,
                posture,
                readings: group.iter().flat_map(set).collect(),
                speed: group.iter().find_map(|step| step.beside_of(Quantity::Spindle)),
                steps: group.len(),
            })
        })
        .collect()
}

const fn mounted(step: &Step) -> Option<Saw> {
    match step.task {
        Task::MountHoleSaw { .. } => Some(Saw::Hole(step.reading)),
        Task::MountSlittingSaw { .. } => Some(Saw::Slitting(step.reading)),
        _ => None,
    }
}

const fn stands(step: &Step) -> Option<Posture> {
    match step.task {
        Task::StandOnSide { side, .. } => Some(Posture::OnSide(side)),
        Task::Tilt { end_up, .. } => Some(Posture::Tilted(end_up, step.reading)),
        _ => None,
    }
}

/// What the step sets on scales; the tilt is the posture's, and a touch sets readouts to zero.
fn set(step: &Step) -> impl Iterator<Item = (Scale, Reading)> {
    let is_set = !matches!(
        step.task,
        Task::Tilt { .. }
            | Task::TouchCorner { .. }
            | Task::TouchFace(_)
            | Task::TouchTop(_)
            | Task::PointAtEdge
    );
    step.set_points().filter(move |_| is_set).filter_map(|point| Some((point.scale?, point.reading)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::shop::Shop;
    use crate::model::{PairName, Stays, starting_job};
    use crate::plan::{Placements, plan_placed};
    use crate::procedure::{Tools, steps};

    /// The starting job has two mirrored pairs: each is clamped once, then cut at its front and at its rear.
    #[test]
    fn a_mirrored_rear_end_has_six_settings() -> Result<(), Vec<crate::model::Fault>> {
        let plan = plan_placed(&starting_job(), &Placements::default())?;
        let steps = steps(&plan, &Shop::default(), &Tools::default());
        let settings = settings(&steps);
        let phases = [Phase::Clamping, Phase::Front, Phase::Rear];
        let wanted = PairName::ALL.into_iter().flat_map(|pair| phases.map(|phase| (pair, phase)));
        assert!(settings.iter().map(|one| (one.key.pair, one.key.phase)).eq(wanted));
        assert!(settings.iter().all(|one| one.key.stays == Stays::Both));
        // The slide is set once a pair, and every end is reached by a move along the fixture.
        let count = |wanted: Scale| {
            settings.iter().flat_map(|one| &one.readings).filter(|(scale, _)| *scale == wanted).count()
        };
        assert_eq!((count(Scale::Slide), count(Scale::Tilt)), (2, 0));
        for one in settings.iter().filter(|one| one.key.phase != Phase::Clamping) {
            assert!(one.saw.is_some() && one.posture.is_some(), "{one:?}");
            // How fast a slitting saw runs depends on its diameter, which nobody has entered.
            assert_eq!(one.speed.is_some(), matches!(one.saw, Some(Saw::Hole(_))), "{one:?}");
        }
        Ok(())
    }
}
