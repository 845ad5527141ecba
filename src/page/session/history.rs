//! What was entered before, so that it can be undone.
//!
//! Every settled state has the number of the browser's history entry that it stands in, so undoing and going back are
//! the same thing, and a state met again after a reload is taken from its link.

/// Settled states by number.
#[derive(Clone, Debug)]
pub struct History<T> {
    states: Vec<(u32, T)>,
    at: u32,
    /// Nothing earlier than this can be brought back.
    first: u32,
}

impl<T: PartialEq + Clone> History<T> {
    /// A history that stands at number `at`.
    pub fn new(at: u32, state: T) -> Self {
        Self { states: vec![(at, state)], at, first: 0 }
    }

    /// The number it stands at.
    pub const fn at(&self) -> u32 {
        self.at
    }

    /// The state it stands at.
    pub fn present(&self) -> Option<&T> {
        self.state(self.at)
    }

    /// The state with that number, where it is remembered.
    pub fn state(&self, number: u32) -> Option<&T> {
        self.states.iter().find(|(known, _)| *known == number).map(|(_, state)| state)
    }

    /// Takes `state` as the next one and forgets what was undone; the new number, or `None` when nothing changed.
    pub fn settle(&mut self, state: &T) -> Option<u32> {
        if self.present() == Some(state) {
            return None;
        }
        let next = self.at.saturating_add(1);
        self.states.retain(|(number, _)| *number < next);
        self.states.push((next, state.clone()));
        self.at = next;
        Some(next)
    }

    /// Goes to number `at`; its state, where it is remembered.
    pub fn go(&mut self, at: u32) -> Option<&T> {
        self.at = at;
        self.state(at)
    }

    /// Puts `state` in the place it stands at.
    pub fn amend(&mut self, state: T) {
        self.states.retain(|(number, _)| *number != self.at);
        self.states.push((self.at, state));
    }

    /// Forgets the states behind number `last`.
    pub fn forget_after(&mut self, last: u32) {
        self.states.retain(|(number, _)| *number <= last);
    }

    /// The number of the remembered state next to this one, earlier or later.
    pub fn beside(&self, later: bool) -> Option<u32> {
        let numbers = self.states.iter().map(|(number, _)| *number);
        if later {
            numbers.filter(|number| *number > self.at).min()
        } else {
            numbers.filter(|number| *number < self.at).max()
        }
    }

    /// Notes that nothing earlier can be brought back.
    pub const fn end_here(&mut self) {
        self.first = self.at;
    }

    /// Whether there is an earlier state.
    pub const fn can_undo(&self) -> bool {
        self.at > self.first
    }

    /// Whether there is a later state.
    pub fn can_redo(&self) -> bool {
        self.states.iter().any(|(number, _)| *number > self.at)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn undoes_and_redoes_and_forgets_what_a_new_edit_replaces() {
        let mut history = History::new(0, 'a');
        assert!(!history.can_undo());
        assert_eq!(history.settle(&'a'), None);
        assert_eq!(history.settle(&'b'), Some(1));
        assert_eq!(history.settle(&'c'), Some(2));
        assert_eq!(history.go(0), Some(&'a'));
        assert!(history.can_redo() && !history.can_undo());
        assert_eq!(history.settle(&'d'), Some(1));
        assert!(!history.can_redo());
        assert_eq!(history.go(0), Some(&'a'));
    }

    #[test]
    fn after_a_reload_only_the_numbers_are_known() {
        let mut history = History::new(5, 'x');
        assert!(history.can_undo());
        assert_eq!(history.go(4), None);
        assert_eq!(history.beside(false), None);
        assert_eq!(history.beside(true), Some(5));
        history.amend('w');
        assert_eq!(history.present(), Some(&'w'));
        assert!(history.can_redo());
        history.forget_after(4);
        assert!(!history.can_redo());
    }
}
