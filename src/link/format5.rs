//! Format 5: a job whose slots are wider than their plates. Nothing in this file may change: links made with it are in people's
//! messages.
//!
//! The body is the postcard form of [`Body`]: the job in format 1 or 3 for all that these know, then the clearance of each
//! slot. A left stay that mirrors the right one has none of its own.

use super::pen::{Pen, Sheet, read as read_sheet, written};
use super::{format1, format3};
use crate::model::{End, Job, Side};
use crate::units::Length;
use serde::{Deserialize, Serialize};

pub(super) const FORMAT: u8 = 5;

/// What is written.
#[derive(Serialize, Deserialize)]
struct Body {
    /// Format of the plain job.
    format: u8,
    plain: Vec<u8>,
    clearances: Sheet,
}

/// Whether `job` holds anything that formats 1 and 3 do not. Every figure but a plain 0 comes back to the last bit.
pub(super) fn is_needed(job: &Job) -> bool {
    let mut job = job.clone();
    let mut slots = slots(&mut job);
    slots.any(|clearance| clearance.mm().to_bits() != 0)
}

/// The clearance of every slot, right before left, front before rear.
fn slots(job: &mut Job) -> impl Iterator<Item = &mut Length> {
    let pairs = [&mut job.chainstays, &mut job.seatstays];
    let sides = pairs.into_iter().flat_map(|pair| [Some(&mut pair.right), pair.left.as_mut()]);
    sides.flatten().flat_map(ends).filter_map(|end| match end {
        End::Slot(slot) => Some(&mut slot.clearance),
        _ => None,
    })
}

const fn ends(side: &mut Side) -> [&mut End; 2] {
    [&mut side.front_end, &mut side.rear_end]
}

/// The body of `job`.
pub(super) fn write(job: &Job) -> Vec<u8> {
    let (format, plain) = if format3::is_needed(job) {
        (format3::FORMAT, format3::write(job))
    } else {
        (format1::FORMAT, format1::write(job))
    };
    let mut walked = job.clone();
    let body = Body { format, plain, clearances: written(|pen| clearances(pen, &mut walked)) };
    // Writing to memory cannot fail; an empty body would be refused on the way back.
    postcard::to_allocvec(&body).unwrap_or_default()
}

/// The job that a body stands for; `None` where it stands for none.
pub(super) fn read(body: &[u8]) -> Option<Job> {
    let (body, rest) = postcard::take_from_bytes::<Body>(body).ok()?;
    let mut job = match body.format {
        format1::FORMAT => format1::read(&body.plain)?,
        format3::FORMAT => format3::read(&body.plain)?,
        _ => return None,
    };
    read_sheet(body.clearances, |pen| clearances(pen, &mut job))?;
    rest.is_empty().then_some(job)
}

fn clearances(pen: &mut dyn Pen, job: &mut Job) -> Option<()> {
    slots(job).try_for_each(|clearance| {
        *clearance = Length::from_mm(pen.number(clearance.mm())?);
        Some(())
    })
}
