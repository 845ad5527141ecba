//! Format 6: a job with dropouts, or with its axle off the middle. Nothing in this file may change: links made with it are in people's
//! messages.
//!
//! The body is the postcard form of [`Body`]: the job in format 1, 3 or 5 for all that these know, then the axle's offset, the
//! dropouts, and which figures of the stays are entered beside them. A figure that is left out stands at its start in its table, or
//! in a left dropout of the right one's kind at the right one's value.

use super::pass::{Table, choice, flag, group, number_if_there, numbered, start};
use super::pen::{Pen, Sheet, read as read_sheet, written};
use super::{format1, format3, format5};
use crate::model::{
    Dropout, DropoutBody, DropoutKind, Dropouts, Entered, Hand, Job, PairName, Socket, Tabbed,
};
use crate::units::{Angle, Length};
use serde::{Deserialize, Serialize};

pub(super) const FORMAT: u8 = 6;

const BODY: &Table = &[("thickness_mm", 5.0), ("recess_mm", 0.0), ("turn_deg", 0.0)];

const PLATE_TAB: &Table = &[
    ("distance_mm", 32.0),
    ("off_axle_mm", 0.0),
    ("stay_offset_mm", 0.0),
    ("depth_mm", 16.0),
    ("overhang_mm", 4.0),
    ("clearance_mm", 0.1),
    ("plate_splay_deg", 0.0),
];

const PLUG: &Table =
    &[("distance_mm", 32.0), ("off_axle_mm", 0.0), ("plug_od_mm", 14.0), ("stay_offset_mm", 0.0)];

const ROUND: &Table = &[
    ("od_mm", 24.0),
    ("width_mm", 20.0),
    ("recess_mm", 0.0),
    ("distance_mm", 0.0),
    ("turn_deg", 0.0),
    ("stay_offset_mm", 0.0),
];

numbered! { DropoutKind { Plate = 0, Round = 1, Socket = 2 } }

/// The four stays, in the order in which they are written.
const STAYS: [(PairName, Hand); 4] = [
    (PairName::Chainstays, Hand::Right),
    (PairName::Chainstays, Hand::Left),
    (PairName::Seatstays, Hand::Right),
    (PairName::Seatstays, Hand::Left),
];

/// What is written.
#[derive(Serialize, Deserialize)]
struct Body {
    /// Format of the plain job.
    format: u8,
    plain: Vec<u8>,
    more: Sheet,
}

/// Whether `job` holds anything that formats 1, 3 and 5 do not. Every figure but a plain 0 comes back to the last bit.
pub(super) const fn is_needed(job: &Job) -> bool {
    job.dropouts.is_some() || job.frame.axle_offset.mm().to_bits() != 0
}

/// The body of `job`.
pub(super) fn write(job: &Job) -> Vec<u8> {
    let (format, plain) = if format5::is_needed(job) {
        (format5::FORMAT, format5::write(job))
    } else if format3::is_needed(job) {
        (format3::FORMAT, format3::write(job))
    } else {
        (format1::FORMAT, format1::write(job))
    };
    let mut walked = job.clone();
    let body = Body { format, plain, more: written(|pen| more(pen, &mut walked)) };
    // Writing to memory cannot fail; an empty body would be refused on the way back.
    postcard::to_allocvec(&body).unwrap_or_default()
}

/// The job that a body stands for; `None` where it stands for none.
pub(super) fn read(body: &[u8]) -> Option<Job> {
    let (body, rest) = postcard::take_from_bytes::<Body>(body).ok()?;
    let mut job = match body.format {
        format1::FORMAT => format1::read(&body.plain)?,
        format3::FORMAT => format3::read(&body.plain)?,
        format5::FORMAT => format5::read(&body.plain)?,
        _ => return None,
    };
    read_sheet(body.more, |pen| more(pen, &mut job))?;
    rest.is_empty().then_some(job)
}

/// All that the older formats leave out, in the order in which it is written.
fn more(pen: &mut dyn Pen, job: &mut Job) -> Option<()> {
    job.frame.axle_offset = Length::from_mm(pen.number(job.frame.axle_offset.mm())?);
    let there = flag(pen, job.dropouts.is_some())?;
    job.dropouts = if there { Some(dropouts(pen, job.dropouts)?) } else { None };
    Some(())
}

fn dropouts(pen: &mut dyn Pen, value: Option<Dropouts>) -> Option<Dropouts> {
    let right = dropout(pen, value.map(|value| value.right), None)?;
    let has_left = flag(pen, value.is_some_and(|value| value.left.is_some()))?;
    let left =
        if has_left { Some(dropout(pen, value.and_then(|value| value.left), Some(right))?) } else { None };
    let mut passed = Dropouts::new(right, left);
    for (pair, hand) in STAYS {
        let entered = value.map_or_else(Entered::default, |value| value.entered(pair, hand));
        let bits = pen.count(u32::from(entered.bits()))?;
        passed.set_entered(pair, hand, Entered::of_bits(u16::try_from(bits).ok()?)?);
    }
    Some(passed)
}

/// A part that starts as the other one of its kind does, or from its tables.
fn dropout(pen: &mut dyn Pen, value: Option<Dropout>, other: Option<Dropout>) -> Option<Dropout> {
    let kind = choice(pen, value.map_or(DropoutKind::Plate, |value| value.kind()))?;
    let of_kind = |part: &Dropout| part.kind() == kind;
    let base = other.filter(of_kind).unwrap_or_else(|| fresh(kind));
    let value = value.filter(of_kind).unwrap_or(base);
    Some(match (value, base) {
        (Dropout::Plate(value), Dropout::Plate(base)) => {
            Dropout::Plate(tabbed(pen, &value, &base, &mut |pen, value, base| {
                group(pen, value, base, PLATE_TAB)
            })?)
        }
        (Dropout::Socket(value), Dropout::Socket(base)) => {
            Dropout::Socket(tabbed(pen, &value, &base, &mut socket)?)
        }
        (Dropout::Round(value), Dropout::Round(base)) => Dropout::Round(group(pen, &value, &base, ROUND)?),
        _ => return None,
    })
}

fn socket(pen: &mut dyn Pen, value: &Socket, base: &Socket) -> Option<Socket> {
    let figures = group(pen, &value.figures, &base.figures, PLUG)?;
    let splay = number_if_there(pen, value.splay.map(Angle::degrees))?;
    Some(Socket { figures, splay: splay.map(Angle::from_degrees) })
}

/// How a tab of some kind passes a pen: the tab, then the one it starts from.
type PassTab<'a, S> = &'a mut dyn FnMut(&mut dyn Pen, &S, &S) -> Option<S>;

fn tabbed<S: Copy>(
    pen: &mut dyn Pen,
    value: &Tabbed<DropoutBody, Angle, S>,
    base: &Tabbed<DropoutBody, Angle, S>,
    tab: PassTab<'_, S>,
) -> Option<Tabbed<DropoutBody, Angle, S>> {
    let body = group(pen, &value.body, &base.body, BODY)?;
    let tabs = number_if_there(pen, value.tabs.map(Angle::degrees))?.map(Angle::from_degrees);
    let chainstay = tab(pen, &value.chainstay, &base.chainstay)?;
    let seatstay = tab(pen, &value.seatstay, &base.seatstay)?;
    Some(Tabbed { body, tabs, chainstay, seatstay })
}

/// A part of that kind with every figure at its start in this format.
fn fresh(kind: DropoutKind) -> Dropout {
    let (body, tabs) = (start(BODY), None);
    match kind {
        DropoutKind::Plate => {
            let tab = start(PLATE_TAB);
            Dropout::Plate(Tabbed { body, tabs, chainstay: tab, seatstay: tab })
        }
        DropoutKind::Round => Dropout::Round(start(ROUND)),
        DropoutKind::Socket => {
            let plug = Socket { figures: start(PLUG), splay: None };
            Dropout::Socket(Tabbed { body, tabs, chainstay: plug, seatstay: plug })
        }
    }
}
