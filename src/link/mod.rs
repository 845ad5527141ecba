//! A job as a short text that fits behind the `#` of an address, and back.
//!
//! Every format that was ever given out is read for ever: each has a file of its own whose numbers never change. A link
//! carries its format, the figures that differ from that format's starting job, and a checksum.

mod bytes;
mod error;
mod format1;
mod format2;
mod number;

use crate::trade::Job;
use base64ct::{Base64UrlUnpadded, Encoding};
use bytes::{seal, unseal};

pub use error::LinkError;

/// Longest text looked at. The longest job there can be, with its notes full of the longest characters, stays below.
const LONGEST: usize = 16_384;

/// The job as a link text: letters, digits, `-` and `_` only.
pub fn encode(job: &Job) -> String {
    let (format, body) = job_bytes(job);
    Base64UrlUnpadded::encode_string(&seal(format, &body))
}

/// The job with what was measured on its finished stays, as a link text. Readings are texts by the name of their figure.
pub fn encode_measured(job: &Job, readings: &[(String, String)]) -> String {
    if readings.is_empty() {
        return encode(job);
    }
    Base64UrlUnpadded::encode_string(&seal(format2::FORMAT, &format2::write(job_bytes(job), readings)))
}

/// What a link holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Linked {
    /// The job. Its figures are finite but may lie outside their ranges.
    pub job: Job,
    /// What was measured on its finished stays: texts, by the name of their figure.
    pub readings: Vec<(String, String)>,
}

/// The job that a link text holds. Its figures are finite but may lie outside their ranges.
///
/// # Errors
/// Says whether the text is no link at all, was damaged on its way, or comes from a later Staywright.
pub fn decode(text: &str) -> Result<Job, LinkError> {
    open(text).map(|linked| linked.job)
}

/// All that a link text holds.
///
/// # Errors
/// As [`decode`].
pub fn open(text: &str) -> Result<Linked, LinkError> {
    let text = text.trim().trim_start_matches('#');
    if text.is_empty() {
        return Err(LinkError::Empty);
    }
    if text.len() > LONGEST {
        return Err(LinkError::TooLong);
    }
    let bytes = Base64UrlUnpadded::decode_vec(text).map_err(|_| LinkError::Damaged)?;
    let (format, body) = unseal(&bytes)?;
    match format {
        format2::FORMAT => {
            let (job, readings) = format2::read(body).ok_or(LinkError::Damaged)?;
            Ok(Linked { job, readings })
        }
        _ => job_of(format, body).map(|job| Linked { job, readings: Vec::new() }),
    }
}

/// Whether a link carries all of the job. Bends, butts, ovals and surroundings it does not carry yet.
pub fn carries(job: &Job) -> bool {
    decode(&encode(job)).as_ref() == Ok(job)
}

/// The format that a job is written in, and its bytes.
fn job_bytes(job: &Job) -> (u8, Vec<u8>) {
    (format1::FORMAT, format1::write(job))
}

/// The job that bytes of that format stand for.
fn job_of(format: u8, body: &[u8]) -> Result<Job, LinkError> {
    match format {
        format1::FORMAT => format1::read(body).ok_or(LinkError::Damaged),
        later => Err(LinkError::Later(later)),
    }
}
