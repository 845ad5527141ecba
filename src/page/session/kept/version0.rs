//! What is kept, kind by kind, and how each was laid out in version 0.

use super::Kept;
use super::fixed::Fixed;
use crate::session::Limits;
use crate::session::forms::Waiting;
use crate::session::records::{Measured, Record, Records, Tick};
use serde::{Deserialize, Serialize};
use staywright::ask::{Learned, ShopErrors};

/// Reads version 0 alone.
fn version0<T>(version: u8, body: &[u8], read: impl FnOnce(&mut Fixed<'_>) -> Option<T>) -> Option<T> {
    if version == 0 { Fixed::whole(body, read) } else { None }
}

impl Kept for Limits {
    fn earlier(version: u8, body: &[u8]) -> Option<Self> {
        version0(version, body, |it| Some(Self { length_mm: it.number()?, angle_deg: it.number()? }))
    }
}

impl Kept for ShopErrors {
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

/// A job's record in versions 0 and 1: steps by their names, and readings by the names of their figures. Nobody noted then what
/// figures they were of.
type Record1 = (Vec<String>, Vec<(String, String)>);

fn record((ticks, measured): Record1) -> Record {
    let tick = |step| Tick { step, made_for: None };
    let read = |(check, text)| Measured { check, text, nominal: None };
    Record {
        ticks: ticks.into_iter().map(tick).collect(),
        measured: measured.into_iter().map(read).collect(),
        is_own: true,
    }
}

impl Kept for Records {
    const VERSION: u8 = 2;

    fn earlier(version: u8, body: &[u8]) -> Option<Self> {
        let of_job = |it: &mut Fixed<'_>| Some((it.text()?, (it.texts()?, it.pairs()?)));
        let records: Vec<(String, Record1)> = match version {
            0 => Fixed::whole(body, |it| it.list(of_job))?,
            1 => super::whole(body)?,
            _ => return None,
        };
        Some(Self::of_jobs(records.into_iter().map(|(mark, old)| (mark, record(old))).collect()))
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
