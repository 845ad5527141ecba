//! What comes out of the spindle before the next thing goes in.

use super::caution::Caution;
use super::key::{StepKey, StepKind};
use super::step::Step;
use super::task::Task;

/// What a step has to do with the spindle.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Spindle {
    /// It must be empty: a cutter is mounted, or an edge is found.
    Empty,
    /// The cutter in it is used.
    Used,
    /// Nothing.
    Aside,
}

const fn of(task: Task) -> Spindle {
    match task {
        Task::TouchCorner { .. }
        | Task::PointAtEdge
        | Task::TouchFace(_)
        | Task::MountHoleSaw { .. }
        | Task::MountSlittingSaw { .. } => Spindle::Empty,
        Task::Cut { .. } | Task::Slot { .. } | Task::TouchTop(_) => Spindle::Used,
        Task::MarkHands
        | Task::SetSlide
        | Task::SetAxleHeight(_)
        | Task::SetAxle(_)
        | Task::SetPosts { .. }
        | Task::Clamp { .. }
        | Task::TakeAxleOut
        | Task::StandOnSide { .. }
        | Task::Tilt { .. }
        | Task::Swivel { .. }
        | Task::Move { .. }
        | Task::MoveAlong { .. }
        | Task::MoveAcross { .. }
        | Task::StopAtRoot { .. }
        | Task::SawSquare
        | Task::ClearSlug { .. }
        | Task::TakeSawOut
        | Task::Deburr => Spindle::Aside,
    }
}

/// The steps with each saw taken out as soon as it is not needed: a hole saw with its slug, a slitting saw in a step of its own.
pub(super) fn cleared(steps: Vec<Step>) -> Vec<Step> {
    let uses: Vec<Spindle> = steps.iter().map(|step| of(step.task)).collect();
    let mut cleared = Vec::with_capacity(steps.len());
    for (i, mut step) in steps.into_iter().enumerate() {
        let next = uses.iter().skip(i + 1).copied().find(|next| *next != Spindle::Aside);
        if let Task::ClearSlug { takes_saw_out } = &mut step.task {
            *takes_saw_out = next != Some(Spindle::Used);
        }
        let is_last_pass = matches!(step.task, Task::Slot { .. }) && next == Some(Spindle::Empty);
        let key = StepKey { kind: StepKind::SawOut, ..step.key };
        cleared.push(step);
        cleared.extend(is_last_pass.then(|| Step::new(key, Task::TakeSawOut).caution(Caution::CutterChange)));
    }
    cleared
}
