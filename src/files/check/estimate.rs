//! What the readings say, as JSON.

use crate::text::{self, Style};
use crate::tolerance::{
    Estimate, Finished, Judged, Known, Measurand, Mend, Outcome, Reading, Refusal, SystematicError, Trim,
    Unknown, Verdict, What,
};
use crate::units::LengthUnit;
use serde_json::{Value, json};

/// `null` without readings, and where no stays fit them.
pub(super) fn estimate(finished: &Finished, named: &[(String, f64)]) -> Value {
    if named.is_empty() {
        return Value::Null;
    }
    let known = |(id, value): &(String, f64)| Some((Measurand::from_id(id)?, *value));
    let readings = finished.readings(&named.iter().filter_map(known).collect::<Vec<_>>());
    let unknown = named.iter().filter(|(id, _)| Measurand::from_id(id).is_none());
    let refused = unknown.map(|(id, _)| refused(id, Refusal::NoSuchFigure)).collect();
    let found = finished.estimate(&readings);
    found.map_or(Value::Null, |estimate| answer(finished, &readings, &estimate, refused))
}

fn answer(finished: &Finished, readings: &[Reading], estimate: &Estimate, mut unread: Vec<Value>) -> Value {
    let mend = finished.mend(estimate);
    let stay = |(unknown, known): (&Unknown, &Known)| {
        let (id, unit) = (unknown.id(), unknown.quantity().unit(LengthUnit::Millimetre).sign());
        json!({ "id": id, "unit": unit, "value": known.value, "standard": known.standard })
    };
    let outcomes = finished.rear.outcomes.iter();
    let results = outcomes.zip(&estimate.results).zip(&mend.after).enumerate().map(
        |(place, ((outcome, judged), after))| {
            result(outcome, judged, *after, &finished.further_readings(estimate, readings, place))
        },
    );
    unread.extend(estimate.refused.iter().map(|(measurand, why)| refused(&measurand.id(), *why)));
    json!({
        "stays": finished.unknowns.iter().zip(&estimate.stays).map(stay).collect::<Vec<_>>(),
        "results": results.collect::<Vec<_>>(),
        "agreement": agreement(estimate),
        "trims": mend.trims.iter().map(trim).collect::<Vec<_>>(),
        "moved": moved(&mend),
        "habits": finished.systematic_errors(estimate).iter().map(systematic_error).collect::<Vec<_>>(),
        "refused": unread,
    })
}

fn refused(id: &str, why: Refusal) -> Value {
    json!({ "id": id, "why": text::measure::refusal(why) })
}

fn known(known: &Known) -> Value {
    json!({ "value": known.value, "standard": known.standard })
}

fn result(outcome: &Outcome, judged: &Judged, after: Option<f64>, further: &[Measurand]) -> Value {
    let (verdict, probability) = match judged.verdict {
        Verdict::Within(p) => ("within", Some(p)),
        Verdict::Marginal(p) => ("marginal", Some(p)),
        Verdict::Out(p) => ("out", Some(p)),
        Verdict::Open => ("open", None),
        Verdict::None => ("none", None),
    };
    json!({
        "id": outcome.id(),
        "value": judged.known.map(|known| known.value),
        "standard": judged.known.and_then(|known| known.standard),
        "verdict": verdict,
        "probability": probability,
        "after": after,
        "asks": further.iter().map(|one| one.id()).collect::<Vec<_>>(),
    })
}

fn agreement(estimate: &Estimate) -> Value {
    let agreement = &estimate.agreement;
    let worst = agreement
        .worst
        .as_ref()
        .map(|(measurand, strays)| json!({ "figure": measurand.id(), "strays": strays }));
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

fn trim(trim: &Trim) -> Value {
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

fn systematic_error(error: &SystematicError) -> Value {
    json!({
        "id": error.place.id(),
        "name": text::bench::setting(&error.place, Style::FILE),
        "unit": error.place.kind.quantity().unit(LengthUnit::Millimetre).sign(),
        "off": known(&error.off),
        "clear": error.is_clear(),
    })
}
