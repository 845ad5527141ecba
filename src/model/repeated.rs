//! Keys that stand twice in one object of a JSON text: a reader of values would keep the last and drop the others in silence.

use super::fault::{Fault, Wrong};
use super::group::below;
use serde::de::{DeserializeSeed, Deserializer, MapAccess, SeqAccess, Visitor};
use std::collections::BTreeSet;
use std::fmt;

/// A fault for each key that stands more than once in its object; none for a text that is no JSON.
pub(crate) fn repeated_keys(text: &str) -> Vec<Fault> {
    let mut faults = Vec::new();
    let mut json = serde_json::Deserializer::from_str(text);
    // What is wrong with the text itself is said by whoever reads its values.
    let _ = Walk { at: String::new(), faults: &mut faults }.deserialize(&mut json);
    faults
}

/// One value of the text, and where it stands.
struct Walk<'a> {
    at: String,
    faults: &'a mut Vec<Fault>,
}

impl Walk<'_> {
    fn inside(&mut self, at: String) -> Walk<'_> {
        Walk { at, faults: self.faults }
    }
}

impl<'de> DeserializeSeed<'de> for Walk<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, json: D) -> Result<(), D::Error> {
        json.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Walk<'_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("any JSON value")
    }

    fn visit_map<A: MapAccess<'de>>(mut self, mut map: A) -> Result<(), A::Error> {
        let mut seen = BTreeSet::new();
        while let Some(key) = map.next_key::<String>()? {
            let shown: String = key.chars().take(60).collect();
            let at = below(&self.at, &shown);
            map.next_value_seed(self.inside(at.clone()))?;
            if !seen.insert(key) {
                self.faults.push(Fault::new(at, (), Wrong::KeyTwice));
            }
        }
        Ok(())
    }

    fn visit_seq<A: SeqAccess<'de>>(mut self, mut list: A) -> Result<(), A::Error> {
        let mut place = 0;
        while list.next_element_seed(self.inside(format!("{}[{place}]", self.at)))?.is_some() {
            place += 1;
        }
        Ok(())
    }

    fn visit_bool<E>(self, _: bool) -> Result<(), E> {
        Ok(())
    }

    fn visit_i64<E>(self, _: i64) -> Result<(), E> {
        Ok(())
    }

    fn visit_u64<E>(self, _: u64) -> Result<(), E> {
        Ok(())
    }

    fn visit_f64<E>(self, _: f64) -> Result<(), E> {
        Ok(())
    }

    fn visit_str<E>(self, _: &str) -> Result<(), E> {
        Ok(())
    }

    fn visit_unit<E>(self) -> Result<(), E> {
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fields(text: &str) -> Vec<String> {
        repeated_keys(text).into_iter().map(|fault| fault.field).collect()
    }

    #[test]
    fn a_key_is_named_with_its_place_as_often_as_it_stands_again() {
        assert_eq!(
            fields(r#"{"a":1,"b":{"a":2,"a":[{"c":1.5,"c":"x","c":null}]},"a":true}"#),
            ["b.a[0].c", "b.a[0].c", "b.a", "a"]
        );
        assert_eq!(fields(r#"{"a":{"a":1},"b":{"a":1},"c":[{"a":-1},{"a":1e3}]}"#), [""; 0]);
    }

    #[test]
    fn a_text_that_is_no_json_has_none() {
        for text in ["", "{", r#"{"a":1,"#, "[1,", "nonsense"] {
            assert_eq!(fields(text), [""; 0], "{text}");
        }
    }
}
