//! Format 2: a job with what was measured on its finished stays. Nothing in this file may change: links made with it are in
//! people's messages.

use super::{LinkError, Linked, job_of};
use serde::{Deserialize, Serialize};

pub(super) const FORMAT: u8 = 2;

/// What is written: the job in a format of its own, then the readings as they were typed, by the name of their figure.
#[derive(Serialize, Deserialize)]
struct Body {
    format: u8,
    job: Vec<u8>,
    readings: Vec<(String, String)>,
}

pub(super) fn write((format, job): (u8, Vec<u8>), readings: &[(String, String)]) -> Vec<u8> {
    let body = Body { format, job, readings: readings.to_vec() };
    // Writing to memory cannot fail; an empty body would be refused on the way back.
    postcard::to_allocvec(&body).unwrap_or_default()
}

pub(super) fn read(body: &[u8]) -> Result<Linked, LinkError> {
    let (body, rest) = postcard::take_from_bytes::<Body>(body).map_err(|_| LinkError::Damaged)?;
    if !rest.is_empty() {
        return Err(LinkError::Damaged);
    }
    let job = job_of(body.format, &body.job)?;
    Ok(Linked { job, readings: body.readings, equipment: None })
}
