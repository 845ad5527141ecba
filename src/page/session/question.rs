//! What is asked about the errors of the job and its finished stays.

use super::Session;
use super::bench::Bench;
use leptos::prelude::*;
use serde_json::{Map, Value, json};
use staywright::quantity::{LengthUnit, read_angle, read_length};

impl Session {
    /// The question as it stands: the last good job, what is known of the bench, all readings, the figure that is touched.
    pub fn question(self) -> String {
        let job = self.follow.plan.with(|plan| plan.job.to_json());
        let mut keys = self.settings.bench.with(Bench::asked);
        keys.insert("job".into(), job);
        keys.insert("readings".into(), Value::Object(self.readings()));
        let touched = self.lit.get().filter(|path| self.follow.figure(path).is_some());
        keys.insert("touched".into(), json!(touched));
        Value::Object(keys).to_string()
    }

    /// What was measured, as numbers; a text that is none is left out, and said so at its field.
    fn readings(self) -> Map<String, Value> {
        let (mark, unit) = (self.follow.mark.get(), self.settings.unit.get());
        self.records.with(|records| {
            let measured = records.of(&mark).map_or(&[][..], |record| &record.measured).iter();
            let mut numbers = Map::new();
            for (id, text) in measured {
                if let Some(number) = number(id, text, unit) {
                    numbers.insert(id.clone(), json!(number));
                }
            }
            numbers
        })
    }
}

/// Angles are those whose name says so.
fn number(id: &str, text: &str, unit: LengthUnit) -> Option<f64> {
    if id.ends_with("angle") {
        read_angle(text).ok().map(|figure| figure.value.degrees())
    } else {
        read_length(text, unit).ok().map(|figure| figure.value.mm())
    }
}
