//! Format 4: a job, what was measured on its finished stays, and the builder's equipment. Nothing in this file may change:
//! links made with it are in people's messages.

use super::{LinkError, Linked, job_of};
use serde::{Deserialize, Serialize};

pub(super) const FORMAT: u8 = 4;

/// Longest equipment carried, in bytes.
pub(super) const MOST_EQUIPMENT: usize = 16_384;

/// What is written: the job in a format of its own, then the readings as they were typed, by the name of their figure, then
/// the equipment in a form of its own.
#[derive(Serialize, Deserialize)]
struct Body {
    format: u8,
    job: Vec<u8>,
    readings: Vec<(String, String)>,
    equipment: Vec<u8>,
}

/// The body; `None` where the equipment is too long.
pub(super) fn write(
    (format, job): (u8, Vec<u8>),
    readings: &[(String, String)],
    equipment: &[u8],
) -> Option<Vec<u8>> {
    if equipment.len() > MOST_EQUIPMENT {
        return None;
    }
    let body = Body { format, job, readings: readings.to_vec(), equipment: equipment.to_vec() };
    // Writing to memory cannot fail; an empty body would be refused on the way back.
    Some(postcard::to_allocvec(&body).unwrap_or_default())
}

pub(super) fn read(body: &[u8]) -> Result<Linked, LinkError> {
    let (body, rest) = postcard::take_from_bytes::<Body>(body).map_err(|_| LinkError::Damaged)?;
    if !rest.is_empty() || body.equipment.len() > MOST_EQUIPMENT {
        return Err(LinkError::Damaged);
    }
    let job = job_of(body.format, &body.job)?;
    Ok(Linked { job, readings: body.readings, equipment: Some(body.equipment) })
}
