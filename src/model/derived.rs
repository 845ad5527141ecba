//! Which figures of a job's stays follow from its dropouts, and a job with dropouts put in.

use super::dropout::Dropout;
use super::dropouts::{Derived, Dropouts};
use super::end::Member;
use super::job::Job;
use super::pair_name::PairName;
use super::side::Hand;
use crate::units::{Length, Real};

impl<T: Real> Job<T> {
    /// How far a stay's axis lies outboard of its dropout's middle: nothing where no dropout says so.
    pub fn stay_offset(&self, pair: PairName, hand: Hand) -> Length<T> {
        let of = |dropouts: &Dropouts<T>| dropouts.side(hand).tab(pair).stay_offset;
        self.dropouts.as_ref().map_or_else(|| Length::from_mm(T::zero()), of)
    }
}

impl<T> Job<T> {
    /// Whether the figure at `path` follows from a dropout, whatever number stands there.
    pub fn is_derived(&self, path: &str) -> bool {
        let Some(dropouts) = &self.dropouts else { return false };
        Derived::of_path(path).is_some_and(|(pair, hand, figure)| !dropouts.entered(pair, hand).has(figure))
    }

    /// Says whether the figure at `path` is entered, or follows from its dropout. Nothing happens in a job without dropouts, and
    /// at a path of another figure.
    pub fn set_entered(&mut self, path: &str, is_entered: bool) {
        let Some(dropouts) = &mut self.dropouts else { return };
        if let Some((pair, hand, figure)) = Derived::of_path(path) {
            let entered = dropouts.entered(pair, hand).with(figure, is_entered);
            dropouts.set_entered(pair, hand, entered);
        }
    }
}

impl Job {
    /// The job with these dropouts: the stays' rear ends become of the kind that they need, and all figures that follow from
    /// dropouts do so.
    #[must_use]
    pub fn with_dropouts(mut self, right: Dropout, left: Option<Dropout>) -> Self {
        for name in PairName::ALL {
            let pair = self.pair_mut(name);
            let other = left.unwrap_or(right);
            if pair.left.is_none() && other.kind() != right.kind() {
                pair.left = Some(pair.right);
            }
            let stays = [(Some(&mut pair.right), right), (pair.left.as_mut(), other)];
            for (side, dropout) in stays {
                let kind = dropout.kind().end_kind();
                if let Some(side) = side.filter(|side| side.rear_end.kind() != kind) {
                    side.rear_end = kind.plain(Member::Shell);
                }
            }
        }
        self.dropouts = Some(Dropouts::new(right, left));
        self
    }
}
