//! What was answered off the main thread, and whether it is the answer to what would be asked now.

use super::follow::Shared;
use leptos::prelude::*;

/// The last answer, under the key of what it was made for. Only an answer under the present key is ever shown.
pub struct Answered<K: Send + Sync + 'static, T: Send + Sync + 'static> {
    last: RwSignal<Option<(K, Shared<T>)>>,
    now: Memo<Option<Shared<T>>>,
}

impl<K: Send + Sync, T: Send + Sync> Clone for Answered<K, T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<K: Send + Sync, T: Send + Sync> Copy for Answered<K, T> {}

impl<K: PartialEq + Send + Sync, T: Send + Sync> Answered<K, T> {
    /// Nothing is answered yet. `present` is the key of what would be asked now, `None` while that is not known.
    pub fn new(present: impl Fn() -> Option<K> + Send + Sync + 'static) -> Self {
        let last: RwSignal<Option<(K, Shared<T>)>> = RwSignal::new(None);
        let now = Memo::new(move |_| {
            let present = present()?;
            last.with(|last| {
                last.as_ref().filter(|(key, _)| *key == present).map(|(_, answer)| answer.clone())
            })
        });
        Self { last, now }
    }

    /// Takes an answer to what was asked under `key`.
    pub fn take(self, key: K, answer: T) {
        self.last.set(Some((key, Shared::new(answer))));
    }

    /// The answer to what would be asked now; `None` while it is worked out.
    pub const fn now(self) -> Memo<Option<Shared<T>>> {
        self.now
    }

    /// The last answer, whatever it was made for: for what keeps its place on the page while it is hidden.
    pub fn last(self) -> Option<Shared<T>> {
        self.last.with(|last| last.as_ref().map(|(_, answer)| answer.clone()))
    }

    /// The answer to what would be asked now, with its key.
    pub fn now_with_key(self) -> Option<(K, Shared<T>)>
    where
        K: Clone,
    {
        self.now.with(Option::is_some).then(|| self.last.get()).flatten()
    }

    /// Whether there is no answer yet to what would be asked now.
    pub fn is_behind(self) -> bool {
        self.now.with(Option::is_none)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_answer_to_what_was_asked_before_is_never_shown() {
        let owner = Owner::new();
        owner.set();
        let asked = RwSignal::new(Some(1));
        let answered = Answered::new(move || asked.get());
        let shown = || answered.now().get().map(|answer: Shared<&str>| *answer);
        assert_eq!(shown(), None);
        answered.take(1, "one");
        assert_eq!(shown(), Some("one"));
        asked.set(Some(2));
        assert_eq!((shown(), answered.is_behind()), (None, true));
        // An answer that comes late is of no use, and one that comes back into view is.
        answered.take(1, "one");
        assert_eq!(shown(), None);
        answered.take(2, "two");
        assert_eq!((shown(), answered.is_behind()), (Some("two"), false));
        asked.set(None);
        assert_eq!((shown(), answered.last().map(|answer| *answer)), (None, Some("two")));
    }
}
