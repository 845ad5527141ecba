//! A job as a short text that fits behind the `#` of an address, and back.
//!
//! Every format that was ever given out is read for ever: each has a file of its own whose numbers never change. Formats 1,
//! 3, 5 and 6 are jobs; 2 and 4 are envelopes for one, with readings and with equipment. A link carries its format, the figures
//! that differ from that format's starting job, and a checksum.

mod bytes;
mod equipment;
mod error;
mod format1;
mod format2;
mod format3;
mod format4;
mod format5;
mod format6;
mod number;
mod packed;
mod pass;
mod pen;

use crate::model::Job;
use base64ct::{Base64UrlUnpadded, Encoding};

pub use bytes::{digest, seal, unseal};
pub use equipment::{read_shop, write_shop};
pub use error::LinkError;

/// Longest text looked at. It holds 36,864 bytes: equipment takes up to 16,384; a job whose every list is full, whose every
/// figure has all the digits of a float, and whose notes are full of the longest characters, takes less than 14,000; the rest
/// is for readings. A shop of 60 unlike saws and 20 ways of joining with what they rest on takes less than 12,000.
const LONGEST: usize = 49_152;

/// The job as a link text: letters, digits, `-` and `_` only.
pub fn encode(job: &Job) -> String {
    let (format, body) = job_bytes(job);
    text_of(format, &body)
}

/// The job with what was measured on its finished stays, as a link text. Readings are texts by the name of their figure.
pub fn encode_measured(job: &Job, readings: &[(String, String)]) -> String {
    if readings.is_empty() {
        return encode(job);
    }
    text_of(format2::FORMAT, &format2::write(job_bytes(job), readings))
}

/// The same with the builder's equipment, as [`write_shop`] makes it; `None` where that is longer than any link carries.
pub fn encode_equipped(job: &Job, readings: &[(String, String)], equipment: &[u8]) -> Option<String> {
    let body = format4::write(job_bytes(job), readings, equipment)?;
    Some(text_of(format4::FORMAT, &body))
}

fn text_of(format: u8, body: &[u8]) -> String {
    Base64UrlUnpadded::encode_string(&seal(format, body))
}

/// What a link holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Linked {
    /// The job. Its figures are finite but may lie outside their ranges.
    pub job: Job,
    /// What was measured on its finished stays: texts, by the name of their figure.
    pub readings: Vec<(String, String)>,
    /// The builder's equipment, where the link carries it; [`read_shop`] reads it.
    pub equipment: Option<Vec<u8>>,
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
        format2::FORMAT => format2::read(body),
        format4::FORMAT => format4::read(body),
        _ => job_of(format, body).map(|job| Linked { job, readings: Vec::new(), equipment: None }),
    }
}

/// The format that a job is written in, and its bytes: the oldest that holds all of it.
fn job_bytes(job: &Job) -> (u8, Vec<u8>) {
    if format6::is_needed(job) {
        (format6::FORMAT, format6::write(job))
    } else if format5::is_needed(job) {
        (format5::FORMAT, format5::write(job))
    } else if format3::is_needed(job) {
        (format3::FORMAT, format3::write(job))
    } else {
        (format1::FORMAT, format1::write(job))
    }
}

/// The job that bytes of that format stand for. No envelope is opened here, so that none can stand in another.
fn job_of(format: u8, body: &[u8]) -> Result<Job, LinkError> {
    match format {
        format1::FORMAT => format1::read(body).ok_or(LinkError::Damaged),
        format2::FORMAT | format4::FORMAT => Err(LinkError::Damaged),
        format3::FORMAT => format3::read(body).ok_or(LinkError::Damaged),
        format5::FORMAT => format5::read(body).ok_or(LinkError::Damaged),
        format6::FORMAT => format6::read(body).ok_or(LinkError::Damaged),
        later => Err(LinkError::Later(later)),
    }
}
