//! What the builder knows of the bench better than the starting values: how far settings can be off, how far results may
//! go, and by how much a setting is known to be off.

use serde_json::{Map, Value};

/// Names with their numbers.
type Told = Vec<(String, f64)>;

/// Everything told, by the names that the checker gives.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bench {
    /// Largest error of a setting.
    pub spreads: Told,
    /// Limit of a result.
    pub limits: Told,
    /// By how much a setting is off, true figure less told.
    pub learned: Told,
}

/// Puts a number in place, or takes it away.
pub fn tell(told: &mut Told, name: &str, number: Option<f64>) {
    told.retain(|(known, _)| known != name);
    told.extend(number.map(|number| (name.to_owned(), number)));
}

impl Bench {
    /// As it is kept and asked.
    pub fn value(&self) -> Value {
        let of = |told: &Told| {
            told.iter().map(|(name, number)| (name.clone(), Value::from(*number))).collect::<Map<_, _>>()
        };
        serde_json::json!({ "spreads": of(&self.spreads), "limits": of(&self.limits), "learned": of(&self.learned) })
    }

    /// What [`Bench::value`] wrote; what cannot be read is left out.
    pub fn from_text(text: &str) -> Self {
        let value: Value = serde_json::from_str(text).unwrap_or_default();
        let of = |key: &str, least: f64| {
            let list = value.get(key).and_then(Value::as_object).into_iter().flatten();
            let sound = |number: &f64| number.is_finite() && *number >= least && *number <= MOST;
            list.filter_map(|(name, number)| Some((name.clone(), number.as_f64().filter(sound)?))).collect()
        };
        Self { spreads: of("spreads", 0.0), limits: of("limits", 0.0), learned: of("learned", -MOST) }
    }
}

/// Nothing on a bench is off by more, mm or degrees.
pub const MOST: f64 = 100.0;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_told_is_read_back_and_rubbish_is_left_out() {
        let mut bench = Bench::default();
        tell(&mut bench.spreads, "slide", Some(0.2));
        tell(&mut bench.spreads, "slide", Some(0.1));
        tell(&mut bench.learned, "tilt", Some(-0.5));
        assert_eq!(Bench::from_text(&bench.value().to_string()), bench);
        tell(&mut bench.learned, "tilt", None);
        assert!(bench.learned.is_empty());
        let odd = r#"{"spreads":{"a":-1,"b":"x","c":1e9,"d":1},"limits":[1],"learned":null}"#;
        assert_eq!(Bench::from_text(odd), Bench { spreads: vec![("d".into(), 1.0)], ..Bench::default() });
        assert_eq!(Bench::from_text("nonsense"), Bench::default());
    }
}
