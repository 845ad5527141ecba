//! Reading JSON with nothing guessed: every fault is gathered, every unknown key named.

use super::fault::{Fault, FileKind, Wanted, Wrong};
use super::group::{Group, below};
use super::repeated::repeated_keys;
use serde_json::{Map, Value};

/// Reads a whole file: `read` takes what it can, `rules` says what is wrong with what it took.
///
/// # Errors
/// All faults found, those of the text first.
pub(crate) fn read_all<F>(
    text: &str,
    read: impl FnOnce(&mut Reader, &Value) -> F,
    rules: impl FnOnce(&F) -> Vec<Fault>,
) -> Result<F, Vec<Fault>> {
    let value: Value = serde_json::from_str(text).map_err(|error| vec![no_json(text, &error)])?;
    let mut reader = Reader { faults: repeated_keys(text) };
    let file = read(&mut reader, &value);
    let mut faults = reader.faults;
    // What could not be read stands at its default, about which there is nothing to say.
    let unread: Vec<String> = faults.iter().map(|fault| fault.field.clone()).collect();
    faults.extend(rules(&file).into_iter().filter(|fault| !unread.contains(&fault.field)));
    if faults.is_empty() { Ok(file) } else { Err(faults) }
}

/// The fault of a text that is no JSON.
pub(crate) fn no_json(text: &str, error: &serde_json::Error) -> Fault {
    if text.trim().is_empty() {
        return Fault::new("", Value::Null, Wrong::Empty);
    }
    Fault::new("", text, Wrong::NoJson { line: error.line(), character: error.column() })
}

#[derive(Default)]
pub(crate) struct Reader {
    pub(crate) faults: Vec<Fault>,
}

/// One object of the file while it is being read: which of its keys have been asked for.
pub(crate) struct Object<'a> {
    pub(crate) at: String,
    pub(crate) map: Option<&'a Map<String, Value>>,
    known: Vec<&'static str>,
}

impl<'a> Object<'a> {
    pub(crate) fn get(&mut self, key: &'static str) -> Option<&'a Value> {
        self.known.push(key);
        self.map.and_then(|map| map.get(key))
    }
}

impl Reader {
    pub(crate) fn fault(&mut self, field: &str, value: &Value, what: Wrong) {
        self.faults.push(Fault::new(field, value.clone(), what));
    }

    /// Something else belongs there than what stands there.
    pub(crate) fn wanted(&mut self, field: &str, value: &Value, what: Wanted) {
        self.fault(field, value, Wrong::Wanted(what));
    }

    pub(crate) fn object<'a>(&mut self, at: String, value: Option<&'a Value>) -> Object<'a> {
        let map = match value {
            None => None,
            Some(Value::Object(map)) => Some(map),
            Some(other) => {
                self.wanted(&at, other, Wanted::Object);
                None
            }
        };
        Object { at, map, known: Vec::new() }
    }

    /// Names every key that nobody asked for.
    pub(crate) fn close(&mut self, object: &Object<'_>) {
        for (key, value) in object.map.into_iter().flatten() {
            if !object.known.contains(&key.as_str()) {
                let shown: String = key.chars().take(60).collect();
                let known = object.known.clone();
                self.fault(&below(&object.at, &shown), value, Wrong::UnknownKey { known });
            }
        }
    }

    pub(crate) fn number(&mut self, at: &str, value: &Value) -> Option<f64> {
        let number = json_number(value);
        if number.is_none() {
            self.wanted(at, value, Wanted::Number);
        }
        number
    }

    pub(crate) fn text(&mut self, object: &mut Object<'_>, key: &'static str) -> String {
        match object.get(key) {
            None => String::new(),
            Some(Value::String(text)) => text.clone(),
            Some(other) => {
                self.wanted(&below(&object.at, key), other, Wanted::Text);
                String::new()
            }
        }
    }

    /// One of a few words.
    pub(crate) fn word<W: Copy>(
        &mut self,
        object: &mut Object<'_>,
        key: &'static str,
        words: &[(&'static str, W)],
        default: W,
    ) -> W {
        let Some(value) = object.get(key) else { return default };
        let found = value.as_str().and_then(|text| words.iter().find(|(word, _)| *word == text));
        if let Some((_, word)) = found {
            return *word;
        }
        let allowed = words.iter().map(|(word, _)| *word).collect();
        self.fault(&below(&object.at, key), value, Wrong::NoneOf { allowed });
        default
    }

    /// The figures of a group, each from its key or from `base`.
    pub(crate) fn group<G: Group<f64, Over<f64> = G>>(&mut self, object: &mut Object<'_>, base: &G) -> G {
        let at = object.at.clone();
        base.map(&at, &mut |path, spec, default| match object.get(spec.key) {
            None => default,
            Some(value) => json_number(value).unwrap_or_else(|| {
                self.wanted(path, value, Wanted::NumberWithin(spec.bounds, spec.unit()));
                default
            }),
        })
    }

    pub(crate) fn whole_group<G: Group<f64, Over<f64> = G>>(
        &mut self,
        parent: &mut Object<'_>,
        key: &'static str,
        base: &G,
    ) -> G {
        let mut object = self.object(below(&parent.at, key), parent.get(key));
        let group = self.group(&mut object, base);
        self.close(&object);
        group
    }

    /// One group of figures that stands by itself, in a list.
    pub(crate) fn one<G: Group<f64, Over<f64> = G>>(&mut self, at: String, value: &Value, base: &G) -> G {
        let mut object = self.object(at, Some(value));
        let group = self.group(&mut object, base);
        self.close(&object);
        group
    }

    /// A list of things; `None` where the key is missing or no list.
    pub(crate) fn list<I>(
        &mut self,
        parent: &mut Object<'_>,
        key: &'static str,
        mut item: impl FnMut(&mut Self, String, &Value) -> I,
    ) -> Option<Vec<I>> {
        let at = below(&parent.at, key);
        match parent.get(key)? {
            Value::Array(items) => Some(
                items.iter().enumerate().map(|(i, value)| item(self, format!("{at}[{i}]"), value)).collect(),
            ),
            other => {
                self.wanted(&at, other, Wanted::List);
                None
            }
        }
    }

    /// The version of the file's keys.
    pub(crate) fn format(&mut self, object: &mut Object<'_>, file: FileKind, version: u64) {
        match object.get("format") {
            // JSON knows numbers alone: 1.0 is 1.
            Some(value) if json_number(value) == Some(version as f64) => {}
            Some(value) => self.fault("format", value, Wrong::OtherFormat { file, version }),
            None if object.map.is_some() => self.fault("format", &Value::Null, Wrong::NoFormat { version }),
            None => {}
        }
    }
}

/// The finite number that a JSON value is. Unlike the value's own way to it, this needs no tables of the standard library.
pub fn json_number(value: &Value) -> Option<f64> {
    let number: f64 = value.as_number()?.as_str().parse().ok()?;
    number.is_finite().then_some(number)
}
