//! What stood where something is wrong.

use crate::units::said;
use serde::{Serialize, Serializer};
use serde_json::Value;
use std::fmt;

/// A value as it was given, short enough to stand in a message.
///
/// Not a JSON value: writing numbers as texts takes tables that the page has no other use for.
#[derive(Clone, Debug, PartialEq)]
pub enum RejectedValue {
    /// Nothing, or a JSON `null`.
    Nothing,
    /// Yes or no.
    Flag(bool),
    /// A number.
    Number(f64),
    /// A text, cut short when long.
    Text(String),
    /// Anything else: what it is.
    Kind(String),
}

/// Longest text kept, in characters.
const LONGEST: usize = 80;

/// Numbers below it are written whole where they are whole.
const EXACT: f64 = 9.0e15;

/// As a sentence takes it: a text in quotes.
impl fmt::Display for RejectedValue {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Nothing => write!(f, "null"),
            Self::Flag(flag) => write!(f, "{flag}"),
            Self::Number(number) => write!(f, "{}", said(*number, 3)),
            Self::Text(text) => write!(f, "“{text}”"),
            Self::Kind(words) => write!(f, "{words}"),
        }
    }
}

impl Serialize for RejectedValue {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Nothing => to.serialize_unit(),
            Self::Flag(flag) => to.serialize_bool(*flag),
            Self::Number(number) if number.fract() == 0.0 && number.abs() < EXACT => {
                to.serialize_i64(*number as i64)
            }
            Self::Number(number) => to.serialize_f64(*number),
            Self::Text(text) | Self::Kind(text) => to.serialize_str(text),
        }
    }
}

impl From<()> for RejectedValue {
    fn from((): ()) -> Self {
        Self::Nothing
    }
}

impl From<f64> for RejectedValue {
    fn from(number: f64) -> Self {
        Self::Number(number)
    }
}

impl From<usize> for RejectedValue {
    fn from(count: usize) -> Self {
        Self::Number(count as f64)
    }
}

impl From<&str> for RejectedValue {
    fn from(text: &str) -> Self {
        Self::Text(text.chars().take(LONGEST).collect())
    }
}

impl From<Value> for RejectedValue {
    fn from(value: Value) -> Self {
        match value {
            Value::Null => Self::Nothing,
            Value::Bool(flag) => Self::Flag(flag),
            // A number beyond all others is told as it was written.
            Value::Number(number) => number
                .as_f64()
                .filter(|known| known.is_finite())
                .map_or_else(|| Self::from(number.to_string().as_str()), Self::Number),
            Value::String(text) => Self::from(text.as_str()),
            Value::Array(items) => Self::Kind(format!("a list of {}", items.len())),
            Value::Object(map) => Self::Kind(format!("an object of {} keys", map.len())),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn short_values_are_written_as_they_came() {
        for value in [json!(null), json!(true), json!(430), json!(-0.25), json!("28,6")] {
            assert_eq!(serde_json::to_value(RejectedValue::from(value.clone())).ok(), Some(value));
        }
        let odd = [(json!([1, 2]), "a list of 2"), (json!({ "a": 1 }), "an object of 1 keys")];
        for (value, words) in odd {
            assert_eq!(RejectedValue::from(value), RejectedValue::Kind(words.into()));
        }
        let huge = serde_json::from_str::<Value>("1e999").map(RejectedValue::from).ok();
        assert!(matches!(huge, Some(RejectedValue::Text(text)) if text.contains("999")));
        assert_eq!(RejectedValue::from("x".repeat(200).as_str()), RejectedValue::Text("x".repeat(80)));
        assert_eq!(serde_json::to_string(&RejectedValue::Number(f64::NAN)).ok().as_deref(), Some("null"));
    }
}
