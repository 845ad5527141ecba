//! What the readings say, as JSON.

use crate::tolerance::{
    Finished, Found, Habit, Judged, Known, Mend, Outcome, Reading, Refusal, Verdict, What,
};
use serde_json::{Value, json};

/// `null` without readings, and where no stays fit them.
pub(super) fn found(finished: &Finished, readings: &[(String, f64)]) -> Value {
    if readings.is_empty() {
        return Value::Null;
    }
    let readings = finished.readings(readings);
    finished.found(&readings).map_or(Value::Null, |found| told(finished, &readings, &found))
}

fn told(finished: &Finished, readings: &[Reading], found: &Found) -> Value {
    let mend = finished.mend(found);
    let stay = |(unknown, known): (&crate::tolerance::Unknown, &Known)| {
        let (id, unit) = (unknown.id(), unknown.unit());
        json!({ "id": id, "unit": unit, "value": known.value, "standard": known.standard })
    };
    let outcomes = finished.rear.outcomes.iter();
    let results = outcomes.zip(&found.results).zip(&mend.after).enumerate().map(
        |(place, ((outcome, judged), after))| {
            result(outcome, judged, *after, &finished.asks(found, readings, place))
        },
    );
    let refused = found.refused.iter().map(|(id, why)| json!({ "id": id, "why": refusal(*why) }));
    json!({
        "stays": finished.unknowns.iter().zip(&found.stays).map(stay).collect::<Vec<_>>(),
        "results": results.collect::<Vec<_>>(),
        "agreement": agreement(found),
        "trims": mend.trims.iter().map(trim).collect::<Vec<_>>(),
        "moved": moved(&mend),
        "habits": finished.habits(found).iter().map(habit).collect::<Vec<_>>(),
        "refused": refused.collect::<Vec<_>>(),
    })
}

fn known(known: &Known) -> Value {
    json!({ "value": known.value, "standard": known.standard })
}

fn result(outcome: &Outcome, judged: &Judged, after: Option<f64>, asks: &[String]) -> Value {
    let (verdict, probability) = match judged.verdict {
        Verdict::Within(p) => ("within", Some(p)),
        Verdict::Marginal(p) => ("marginal", Some(p)),
        Verdict::Out(p) => ("out", Some(p)),
        Verdict::Open => ("open", None),
        Verdict::None => ("none", None),
    };
    json!({
        "id": outcome.id,
        "value": judged.known.map(|known| known.value),
        "standard": judged.known.and_then(|known| known.standard),
        "verdict": verdict,
        "probability": probability,
        "after": after,
        "asks": asks,
    })
}

fn agreement(found: &Found) -> Value {
    let agreement = &found.agreement;
    let worst = agreement.worst.as_ref().map(|(id, strays)| json!({ "figure": id, "strays": strays }));
    json!({
        "contradicts": agreement.contradicts(),
        "probability": agreement.probability,
        "freedom": agreement.freedom,
        "worst": worst,
    })
}

const fn mends(what: What) -> &'static str {
    match what {
        What::Square => "square",
        What::Lean => "lean",
        _ => "off-centre",
    }
}

fn trim(trim: &crate::tolerance::Trim) -> Value {
    json!({
        "pair": trim.at.pair.key(),
        "hand": trim.at.hand.key(),
        "end": trim.at.end(),
        "amount": known(&trim.amount),
        "mends": mends(trim.mends),
        "needed": trim.needed,
    })
}

fn moved(mend: &Mend) -> Value {
    mend.moved.map_or(Value::Null, |moved| {
        json!({ "pair": moved.pair.key(), "to_right": known(&moved.to_right), "needed": moved.needed })
    })
}

fn habit(habit: &Habit) -> Value {
    json!({
        "id": habit.place.id(),
        "name": habit.place.name(),
        "unit": habit.place.kind.unit(),
        "off": known(&habit.off),
        "clear": habit.is_clear(),
    })
}

const fn refusal(why: Refusal) -> &'static str {
    match why {
        Refusal::NoSuchFigure => "this job has no such figure",
        Refusal::NoNumber => "not a number",
        Refusal::NoUncertainty => "its uncertainty is not a number above 0",
    }
}
