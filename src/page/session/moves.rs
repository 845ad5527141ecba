//! What waits to be undone or redone while the browser goes to another entry of its history.

/// Moves asked for, and the one that is under way.
#[derive(Debug, Default)]
pub struct Moves {
    waiting: Vec<bool>,
    /// How many have set out, and whether the last of them has yet to arrive.
    count: u32,
    under_way: bool,
    /// The number that the browser's oldest entry was written with: earlier states take turns in it.
    oldest: u32,
}

impl Moves {
    /// Asks for a move, on or back.
    pub fn ask(&mut self, on: bool) {
        self.waiting.push(on);
    }

    /// The move that may set out now.
    pub fn next(&mut self) -> Option<bool> {
        let may = !self.under_way && !self.waiting.is_empty();
        may.then(|| self.waiting.remove(0))
    }

    /// Whether one is under way.
    pub const fn is_under_way(&self) -> bool {
        self.under_way
    }

    /// Whether the browser is known to have no entry beside state `at`.
    pub const fn has_no_entry(&self, at: u32, on: bool) -> bool {
        at < self.oldest || (at == self.oldest && !on && at > 0)
    }

    /// One sets out; its number.
    pub const fn set_out(&mut self) -> u32 {
        self.under_way = true;
        self.count = self.count.wrapping_add(1);
        self.count
    }

    /// The browser has arrived at entry `number`.
    pub fn arrive(&mut self, number: u32) {
        self.under_way = false;
        self.oldest = self.oldest.min(number);
    }

    /// Gives up the move with that number from state `from`, where it has not arrived; whether it had not.
    pub const fn give_up(&mut self, number: u32, from: u32, on: bool) -> bool {
        let lost = self.under_way && self.count == number;
        if lost {
            self.under_way = false;
            if !on {
                self.oldest = from;
            }
        }
        lost
    }

    /// A new entry is written behind state `number`, which is the oldest entry's now if that is where it stood.
    pub fn go_on_from(&mut self, number: u32) {
        self.oldest = self.oldest.min(number);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_move_waits_until_the_one_before_has_arrived() {
        let mut moves = Moves::default();
        moves.ask(false);
        moves.ask(true);
        assert_eq!(moves.next(), Some(false));
        let undo = moves.set_out();
        assert_eq!(moves.next(), None);
        moves.arrive(2);
        assert_eq!(moves.next(), Some(true));
        let redo = moves.set_out();
        assert!(!moves.give_up(undo, 3, false), "it has arrived long ago");
        assert!(moves.is_under_way());
        assert!(moves.give_up(redo, 2, true));
        assert_eq!(moves.next(), None);
    }

    #[test]
    fn before_the_oldest_entry_states_come_from_memory_both_ways() {
        let mut moves = Moves::default();
        assert!(!moves.has_no_entry(0, false));
        let lost = moves.set_out();
        assert!(moves.give_up(lost, 70, false));
        assert!(moves.has_no_entry(70, false) && !moves.has_no_entry(70, true));
        assert!(moves.has_no_entry(69, true));
        moves.go_on_from(40);
        assert!(!moves.has_no_entry(41, false) && !moves.has_no_entry(40, true));
        moves.arrive(12);
        assert!(!moves.has_no_entry(40, false));
    }
}
