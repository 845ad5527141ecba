//! What is kept, kind by kind, and how each was laid out in version 0.

use super::Kept;
use super::fixed::Fixed;
use crate::session::Limits;
use crate::session::forms::Waiting;
use crate::session::records::{Record, Records};
use serde::{Deserialize, Serialize};
use staywright::ask::{Bench, Learned};

/// Reads version 0 alone.
fn version0<T>(version: u8, body: &[u8], read: impl FnOnce(&mut Fixed<'_>) -> Option<T>) -> Option<T> {
    if version == 0 { Fixed::whole(body, read) } else { None }
}

impl Kept for Limits {
    fn earlier(version: u8, body: &[u8]) -> Option<Self> {
        version0(version, body, |it| Some(Self { length_mm: it.number()?, angle_deg: it.number()? }))
    }
}

impl Kept for Bench {
    fn earlier(version: u8, body: &[u8]) -> Option<Self> {
        let figures = |it: &mut Fixed<'_>| it.list(|it| Some((it.text()?, it.number()?)));
        let learned = |it: &mut Fixed<'_>| {
            Some(Learned { id: it.text()?, name: it.text()?, is_angle: it.yes()?, off: it.number()? })
        };
        version0(version, body, |it| {
            Some(Self { spreads: figures(it)?, limits: figures(it)?, learned: it.list(learned)? })
        })
    }
}

impl Kept for Records {
    fn earlier(version: u8, body: &[u8]) -> Option<Self> {
        let record =
            |it: &mut Fixed<'_>| Some((it.text()?, Record { ticks: it.texts()?, measured: it.pairs()? }));
        version0(version, body, |it| it.list(record)).map(Self::of_jobs)
    }
}

/// The bytes of equipment, which have a form of their own.
impl Kept for Vec<u8> {
    fn earlier(version: u8, body: &[u8]) -> Option<Self> {
        version0(version, body, |it| it.bytes())
    }
}

/// Saws that the builder has picked: cuts by their keys, and the keys of saws.
impl Kept for Vec<(String, String)> {
    fn earlier(version: u8, body: &[u8]) -> Option<Self> {
        version0(version, body, |it| it.pairs())
    }
}

/// Texts in the job's fields that are no figures yet, with the mark of the job.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Typed {
    /// The mark of the job.
    pub mark: String,
    /// Paths with texts.
    pub texts: Vec<(String, String)>,
}

impl Kept for Typed {
    fn earlier(version: u8, body: &[u8]) -> Option<Self> {
        version0(version, body, |it| Some(Self { mark: it.text()?, texts: it.pairs()? }))
    }
}

impl Kept for Waiting {
    fn earlier(version: u8, body: &[u8]) -> Option<Self> {
        version0(version, body, |it| Some((it.bytes()?, it.pairs()?, it.texts()?)))
    }
}
