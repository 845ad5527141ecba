//! A short list that is copied as a whole.

use super::group::{Group, Spec};

/// Up to `N` items in order.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InlineVec<I, const N: usize> {
    /// The items come first, then nothing.
    items: [Option<I>; N],
}

impl<I, const N: usize> Default for InlineVec<I, N> {
    fn default() -> Self {
        Self { items: [const { None }; N] }
    }
}

impl<I, const N: usize> InlineVec<I, N> {
    /// As many items as fit.
    pub const MOST: usize = N;

    /// Puts an item at the end; gives it back where the list is full.
    pub fn push(&mut self, item: I) -> Result<(), I> {
        match self.items.iter_mut().find(|place| place.is_none()) {
            Some(place) => {
                *place = Some(item);
                Ok(())
            }
            None => Err(item),
        }
    }

    /// Takes the item at `index` out; those behind it move up.
    pub fn remove(&mut self, index: usize) {
        let items = std::mem::take(self);
        let kept = items.items.into_iter().flatten().enumerate().filter(|(i, _)| *i != index);
        *self = kept.map(|(_, item)| item).collect();
    }

    /// The items, in order.
    pub fn iter(&self) -> impl DoubleEndedIterator<Item = &I> + Clone {
        self.items.iter().flatten()
    }

    /// The items, in order, to be changed.
    pub fn iter_mut(&mut self) -> impl Iterator<Item = &mut I> {
        self.items.iter_mut().flatten()
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.iter().count()
    }

    /// Whether no more fit.
    pub fn is_full(&self) -> bool {
        self.items.iter().all(Option::is_some)
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.iter().next().is_none()
    }
}

/// Items beyond the `N`th are left out.
impl<I, const N: usize> FromIterator<I> for InlineVec<I, N> {
    fn from_iter<S: IntoIterator<Item = I>>(items: S) -> Self {
        let mut few = Self::default();
        for (place, item) in few.items.iter_mut().zip(items) {
            *place = Some(item);
        }
        few
    }
}

impl<T: Copy, I: Group<T>, const N: usize> Group<T> for InlineVec<I, N> {
    type Over<U: Copy> = InlineVec<I::Over<U>, N>;

    fn map<U: Copy>(
        &self,
        at: &str,
        f: &mut dyn FnMut(&str, &'static Spec, T) -> U,
    ) -> InlineVec<I::Over<U>, N> {
        self.iter().enumerate().map(|(i, item)| item.map(&format!("{at}[{i}]"), f)).collect()
    }
}
