//! Values that wake nobody while they stay the same.

use super::part::Live;
use leptos::prelude::*;

/// What `value` says, followed until the caller's owner goes. Whoever reads it is woken only when it has changed; a memo wakes
/// all its readers to have them ask whether it has, which is most of the work where a hundred of them follow the job.
pub fn steady<T: Clone + Default + PartialEq + Send + Sync + 'static>(
    value: impl Fn() -> T + 'static,
) -> ReadSignal<T> {
    steady_boxed(Box::new(value))
}

fn steady_boxed<T: Clone + Default + PartialEq + Send + Sync + 'static>(value: Live<T>) -> ReadSignal<T> {
    let said = RwSignal::new(T::default());
    let follower = RenderEffect::new(move |_| {
        let now = value();
        if said.try_with_untracked(|last| *last != now) == Some(true) {
            said.set(now);
        }
    });
    StoredValue::new_local(follower);
    said.read_only()
}
