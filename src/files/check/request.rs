//! A question as it is asked.

use crate::model::{Fault, Job, Wanted, Wrong, json_number, no_json, repeated_keys};
use crate::placement::plan;
use crate::plan::Plan;
use crate::tolerance::{KnownErrors, Place, What};
use serde_json::{Map, Value};

/// Most draws that are made for one answer.
const MOST_RUNS: f64 = 100_000.0;
/// Draws where the question does not say.
const RUNS: f64 = 2000.0;

/// One question.
#[derive(Debug)]
pub(super) struct Request {
    pub(super) plan: Plan,
    pub(super) known: KnownErrors,
    /// Figures that were read, by name.
    pub(super) readings: Vec<(String, f64)>,
    pub(super) runs: usize,
    pub(super) seed: u64,
    /// A figure of the job that is touched.
    pub(super) touched: Option<String>,
}

const KEYS: [&str; 8] = ["job", "spreads", "limits", "learned", "readings", "runs", "seed", "touched"];

impl Request {
    /// Reads a question's text.
    ///
    /// # Errors
    /// All faults of the job, or the first of what is asked about it.
    pub(super) fn read(text: &str) -> Result<Self, Vec<Fault>> {
        let value: Value = serde_json::from_str(text).map_err(|error| vec![no_json(text, &error)])?;
        let repeated = repeated_keys(text);
        if !repeated.is_empty() {
            return Err(repeated);
        }
        let Value::Object(keys) = value else {
            return Err(vec![Fault::new("", value, Wrong::Wanted(Wanted::Object))]);
        };
        if let Some(key) = keys.keys().find(|key| !KEYS.contains(&key.as_str())) {
            return Err(vec![Fault::new(key, Value::Null, Wrong::UnknownKey { known: KEYS.to_vec() })]);
        }
        let job = Job::from_json(&keys.get("job").unwrap_or(&Value::Null).to_string())?;
        let plan = plan(&job)?;
        Self::about(plan, &keys).map_err(|fault| vec![fault])
    }

    fn about(plan: Plan, keys: &Map<String, Value>) -> Result<Self, Fault> {
        Ok(Self {
            plan,
            known: KnownErrors {
                spreads: typed(named(keys, "spreads", 0.0)?, Place::from_id),
                limits: typed(named(keys, "limits", 0.0)?, What::from_id),
                offsets: typed(named(keys, "learned", f64::MIN)?, Place::from_id),
            },
            readings: named(keys, "readings", f64::MIN)?,
            runs: number(keys, "runs", RUNS, MOST_RUNS)? as usize,
            seed: number(keys, "seed", 1.0, f64::from(u32::MAX))? as u64,
            touched: keys.get("touched").and_then(Value::as_str).map(str::to_owned),
        })
    }
}

fn number(keys: &Map<String, Value>, key: &str, start: f64, most: f64) -> Result<f64, Fault> {
    let Some(value) = keys.get(key) else { return Ok(start) };
    let known = json_number(value).filter(|number| (0.0..=most).contains(number));
    known.ok_or_else(|| Fault::new(key, value.clone(), Wrong::Wanted(Wanted::WholeNumber { most })))
}

/// The figures whose names are known; the others are of no job and passed over.
fn typed<T>(named: Vec<(String, f64)>, from_id: impl Fn(&str) -> Option<T>) -> Vec<(T, f64)> {
    named.into_iter().filter_map(|(id, number)| Some((from_id(&id)?, number))).collect()
}

/// An object of numbers, each at least `least`.
fn named(keys: &Map<String, Value>, key: &str, least: f64) -> Result<Vec<(String, f64)>, Fault> {
    let Some(value) = keys.get(key) else { return Ok(Vec::new()) };
    let Value::Object(list) = value else {
        return Err(Fault::new(key, value.clone(), Wrong::Wanted(Wanted::Numbers)));
    };
    let one = |(name, value): (&String, &Value)| {
        let number = json_number(value).filter(|number| number.is_finite() && *number >= least);
        let field = [key, name].join(".");
        number
            .map(|number| (name.clone(), number))
            .ok_or_else(|| Fault::new(field, value.clone(), Wrong::Wanted(Wanted::Number)))
    };
    list.iter().map(one).collect()
}
