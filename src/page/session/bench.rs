//! What the builder knows of the bench better than the starting values: how far settings can be off, how far results may
//! go, and by how much a setting is known to be off.

use serde_json::{Map, Value, json};
use staywright::trade::json_number;

/// Names with their numbers.
type Told = Vec<(String, f64)>;

/// A setting that is known to be off: a correction of the builder's own.
#[derive(Clone, Debug, PartialEq)]
pub struct Learned {
    /// Its name for the checker.
    pub id: String,
    /// What the trade calls it.
    pub name: String,
    /// `mm` or `°`.
    pub unit: String,
    /// By how much it is off, true figure less told.
    pub off: f64,
}

/// Everything told, by the names that the checker gives.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bench {
    /// Largest error of a setting.
    pub spreads: Told,
    /// Limit of a result.
    pub limits: Told,
    /// Corrections.
    pub learned: Vec<Learned>,
}

/// Puts a number in place.
pub fn tell(told: &mut Told, name: &str, number: f64) {
    told.retain(|(known, _)| known != name);
    told.push((name.to_owned(), number));
}

fn numbers<'a>(told: impl Iterator<Item = (&'a String, f64)>) -> Value {
    let mut keys = Map::new();
    for (name, number) in told {
        keys.insert(name.clone(), Value::from(number));
    }
    Value::Object(keys)
}

impl Bench {
    /// Keeps a correction, in place of an earlier one of the same setting.
    pub fn learn(&mut self, learned: Learned) {
        self.forget(&learned.id);
        self.learned.push(learned);
    }

    /// Drops a correction.
    pub fn forget(&mut self, id: &str) {
        self.learned.retain(|known| known.id != id);
    }

    /// As it is asked.
    pub fn asked(&self) -> Map<String, Value> {
        let told = |told: &Told| numbers(told.iter().map(|(name, number)| (name, *number)));
        let mut keys = Map::new();
        keys.insert("spreads".into(), told(&self.spreads));
        keys.insert("limits".into(), told(&self.limits));
        keys.insert("learned".into(), numbers(self.learned.iter().map(|known| (&known.id, known.off))));
        keys
    }

    /// As it is kept.
    pub fn to_text(&self) -> String {
        let mut keys = self.asked();
        let learned = self.learned.iter().map(|known| json!([known.id, known.name, known.unit, known.off]));
        keys.insert("learned".into(), learned.collect());
        Value::Object(keys).to_string()
    }

    /// What [`Bench::to_text`] wrote; what cannot be read is left out.
    pub fn from_text(text: &str) -> Self {
        let value: Value = serde_json::from_str(text).unwrap_or_default();
        let told = |key: &str| {
            let list = value.get(key).and_then(Value::as_object).into_iter().flatten();
            list.filter_map(|(name, number)| Some((name.clone(), sound(number).filter(|x| *x >= 0.0)?)))
                .collect()
        };
        let learned = value.get("learned").and_then(Value::as_array).into_iter().flatten();
        Self {
            spreads: told("spreads"),
            limits: told("limits"),
            learned: learned.filter_map(learned_from).collect(),
        }
    }
}

fn learned_from(value: &Value) -> Option<Learned> {
    let text = |at: usize| value.get(at)?.as_str().map(str::to_owned);
    Some(Learned { id: text(0)?, name: text(1)?, unit: text(2)?, off: sound(value.get(3)?)? })
}

fn sound(value: &Value) -> Option<f64> {
    json_number(value).filter(|number| number.abs() <= MOST)
}

/// Nothing on a bench is off by more, mm or degrees.
pub const MOST: f64 = 100.0;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_told_is_read_back_and_rubbish_is_left_out() {
        let mut bench = Bench::default();
        tell(&mut bench.spreads, "slide", 0.2);
        tell(&mut bench.spreads, "slide", 0.1);
        let tilt = |off| Learned { id: "tilt".into(), name: "tilt".into(), unit: "°".into(), off };
        bench.learn(tilt(0.25));
        bench.learn(tilt(-0.5));
        assert_eq!(Bench::from_text(&bench.to_text()), bench);
        assert_eq!(bench.asked().get("learned"), Some(&json!({ "tilt": -0.5 })));
        bench.forget("tilt");
        assert!(bench.learned.is_empty());
        let odd = r#"{"spreads":{"a":-1,"b":"x","c":1e9,"d":1},"limits":[1],"learned":[1,["a"]]}"#;
        assert_eq!(Bench::from_text(odd), Bench { spreads: vec![("d".into(), 1.0)], ..Bench::default() });
        assert_eq!(Bench::from_text("nonsense"), Bench::default());
    }
}
