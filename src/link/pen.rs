//! One walk for both ways: a pen writes down what it is shown, or gives back what was written.
//!
//! Format 3 and the equipment are written so: nothing here may change what is written.

use super::packed::{joined, parted, push_count, push_number, take_count, take_number};
use serde::{Deserialize, Serialize};
use std::vec::IntoIter;

/// What a walk wrote, by kind, each kind in the order of the walk.
#[derive(Serialize, Deserialize)]
pub(super) struct Sheet {
    counts: Vec<u8>,
    numbers: Vec<u64>,
    texts: Vec<String>,
}

/// Writes or reads. Each call is shown the value as it stands and gives the value as it is to be: the same one where it
/// writes, what was written where it reads, `None` where nothing fitting was.
pub(super) trait Pen {
    /// A small whole number.
    fn count(&mut self, value: u32) -> Option<u32>;
    /// A figure.
    fn number(&mut self, value: f64) -> Option<f64>;
    /// A text.
    fn text(&mut self, value: &str) -> Option<String>;
}

#[derive(Default)]
struct Writer {
    nibbles: Vec<u8>,
    numbers: Vec<u64>,
    texts: Vec<String>,
}

impl Pen for Writer {
    fn count(&mut self, value: u32) -> Option<u32> {
        push_count(&mut self.nibbles, value);
        Some(value)
    }

    fn number(&mut self, value: f64) -> Option<f64> {
        push_number(&mut self.numbers, value);
        Some(value)
    }

    fn text(&mut self, value: &str) -> Option<String> {
        self.texts.push(value.to_owned());
        Some(value.to_owned())
    }
}

struct Reader {
    nibbles: IntoIter<u8>,
    numbers: IntoIter<u64>,
    texts: IntoIter<String>,
}

impl Pen for Reader {
    fn count(&mut self, _: u32) -> Option<u32> {
        take_count(&mut self.nibbles)
    }

    fn number(&mut self, _: f64) -> Option<f64> {
        take_number(&mut self.numbers)
    }

    fn text(&mut self, _: &str) -> Option<String> {
        self.texts.next()
    }
}

impl Reader {
    /// Whether all has been read.
    fn is_done(&mut self) -> bool {
        let pad = self.nibbles.len() <= 1 && self.nibbles.all(|nibble| nibble == 0);
        pad && self.numbers.len() == 0 && self.texts.len() == 0
    }
}

/// What a walk writes.
pub(super) fn written<T>(walk: impl FnOnce(&mut dyn Pen) -> Option<T>) -> Sheet {
    let mut writer = Writer::default();
    // A pen that writes refuses nothing.
    let _ = walk(&mut writer);
    Sheet { counts: joined(&writer.nibbles), numbers: writer.numbers, texts: writer.texts }
}

/// What a walk reads; `None` where the sheet holds too little, too much or something else.
pub(super) fn read<T>(sheet: Sheet, walk: impl FnOnce(&mut dyn Pen) -> Option<T>) -> Option<T> {
    let mut reader = Reader {
        nibbles: parted(&sheet.counts).into_iter(),
        numbers: sheet.numbers.into_iter(),
        texts: sheet.texts.into_iter(),
    };
    let value = walk(&mut reader)?;
    reader.is_done().then_some(value)
}
