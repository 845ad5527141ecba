//! The builder's own tubes, by name, kept on this device.

use staywright::link;
use staywright::model::{Job, Tube};

/// Tubes kept; the page's store is shared with all else.
pub const MOST: usize = 60;

/// Longest name of a tube, in characters.
const LONGEST: usize = 60;

/// A tube as a link text of a job that is plain apart from its name and this tube in its right chainstay.
pub fn written(name: &str, tube: Tube) -> String {
    let mut job = Job { name: name.trim().chars().take(LONGEST).collect(), ..Job::default() };
    job.chainstays.right.tube = tube;
    link::encode(&job)
}

/// The tube of a text that [`written`] gave, with its name.
pub fn read(text: &str) -> Option<(String, Tube)> {
    let job = link::decode(text).ok()?;
    Some((job.name, job.chainstays.right.tube))
}

/// The shelf: link texts with a space between.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Shelf(Vec<String>);

impl Shelf {
    /// What [`Shelf::to_text`] wrote; whatever is no tube in it is left out.
    pub fn from_text(text: &str) -> Self {
        Self(
            text.split_whitespace()
                .filter(|text| read(text).is_some())
                .take(MOST)
                .map(str::to_owned)
                .collect(),
        )
    }

    /// As it is kept.
    pub fn to_text(&self) -> String {
        self.0.join(" ")
    }

    /// The names and tubes, in the order they were put there.
    pub fn tubes(&self) -> impl Iterator<Item = (String, Tube)> {
        self.0.iter().filter_map(|text| read(text))
    }

    /// Whether no more fit.
    pub fn is_full(&self) -> bool {
        self.0.len() >= MOST
    }

    /// Puts a tube on the shelf, in place of one of the same name.
    pub fn put(&mut self, name: &str, tube: Tube) {
        let text = written(name, tube);
        let named = |text: &str| read(text).map(|(name, _)| name);
        let known = self.0.iter().position(|known| named(known) == named(&text));
        match known {
            Some(known) => self.0.splice(known..=known, [text]).for_each(drop),
            None if !self.is_full() => self.0.push(text),
            None => {}
        }
    }

    /// Gives the tube at `index` another name.
    pub fn rename(&mut self, index: usize, name: &str) {
        if let Some(text) = self.0.get_mut(index)
            && let Some((_, tube)) = read(text)
        {
            *text = written(name, tube);
        }
    }

    /// Takes the tube at `index` off the shelf.
    pub fn remove(&mut self, index: usize) {
        if index < self.0.len() {
            self.0.remove(index);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::tube_parts::TubeParts;

    #[test]
    fn a_bent_tube_comes_back_under_its_name() {
        let mut tube = Tube::default();
        TubeParts::ALL.into_iter().for_each(|parts| parts.add(&mut tube));
        let mut shelf = Shelf::default();
        shelf.put(" S 22.2 ", tube);
        shelf.put("plain", Tube::default());
        shelf.put("plain", Tube::default());
        let back = Shelf::from_text(&shelf.to_text());
        assert_eq!(
            back.tubes().collect::<Vec<_>>(),
            [("S 22.2".to_owned(), tube), ("plain".to_owned(), Tube::default())]
        );
        shelf.rename(1, "other");
        shelf.remove(0);
        shelf.remove(9);
        assert_eq!(shelf.tubes().map(|(name, _)| name).collect::<Vec<_>>(), ["other"]);
    }

    #[test]
    fn rubbish_is_left_out_and_hurts_nothing() {
        let good = written("good", Tube::default());
        let shelf = Shelf::from_text(&format!("rubbish {good} \u{0} AAAA"));
        assert_eq!(shelf.tubes().count(), 1);
    }
}
