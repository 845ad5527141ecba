//! The answer: what can be off, what that does, what can be read, and what the readings say.

use super::estimate::estimate;
use super::request::Request;
use crate::text::{self, Style};
use crate::tolerance::{
    Budget, Carried, Finished, Limit, Measurement, Outcome, RearEnd, Sample, Sensitivity, Setting, Share,
    ToleranceAllocation, sensitivities,
};
use crate::units::LengthUnit;
use serde_json::{Value, json};

/// The part of drawn results that the interval holds.
const DRAWN_PART: f64 = 0.95;

pub(super) fn answer(request: &Request) -> Value {
    let mut finished = Finished::new(&request.plan);
    finished.rear.apply(&request.known);
    let rear = &finished.rear;
    let (carried, samples) = (rear.carried(), rear.sampled(request.runs, request.seed));
    let results: Vec<Value> = rear
        .outcomes
        .iter()
        .zip(carried.iter().zip(&samples))
        .map(|(outcome, (carried, sample))| result(rear, outcome, carried, sample))
        .collect();
    let touched = request.touched.as_deref();
    json!({
        "settings": rear.settings.iter().map(setting).collect::<Vec<_>>(),
        "results": results,
        "figures": finished.measurements.iter().map(measurement).collect::<Vec<_>>(),
        "found": estimate(&finished, &request.readings),
        "moves": touched.map_or_else(Vec::new, |path| moved(request, path)),
        "runs": request.runs,
        "seed": request.seed,
    })
}

fn setting(setting: &Setting) -> Value {
    json!({
        "id": setting.id(),
        "name": text::bench::setting(&setting.place, Style::FILE),
        "unit": setting.place.kind.quantity().unit(LengthUnit::Millimetre).sign(),
        "off": setting.off,
        "half_width": setting.spread.worst(),
        "source": text::bench::starting_spread(setting.place.kind, Style::FILE),
    })
}

fn measurement(one: &Measurement) -> Value {
    json!({
        "id": one.measurand.id(),
        "name": text::measure::measurand(one, Style::FILE),
        "nominal": one.nominal,
        "unit": one.measurand.quantity().unit(LengthUnit::Millimetre).sign(),
        "standard": one.standard,
        "with": text::measure::method(one.method, Style::FILE),
    })
}

fn result(rear: &RearEnd, outcome: &Outcome, carried: &Carried, sample: &Sample) -> Value {
    let (kind, limit) = match outcome.limit {
        Limit::Within(limit) => ("within", limit),
        Limit::AtMost(limit) => ("at_most", limit),
        Limit::AtLeast(limit) => ("at_least", limit),
    };
    let interval = sample.interval(DRAWN_PART);
    json!({
        "id": outcome.id(),
        "name": text::tolerance::outcome(outcome.what, Style::FILE),
        "limit_kind": kind,
        "limit": limit,
        "source": text::tolerance::starting_limit(outcome.what, Style::FILE),
        "value": carried.budget.as_ref().map(|budget| budget.value),
        "standard": carried.budget.as_ref().map(|budget| budget.standard),
        "worst": carried.budget.as_ref().map(|budget| budget.worst),
        "shares": carried.budget.as_ref().map_or_else(Vec::new, |budget| shares(rear, budget, &carried.allocations)),
        "drawn": interval.map(|(low, high)| json!({ "low": low, "high": high, "kept": sample.part(|x| outcome.limit.keeps(x)) })),
    })
}

/// The settings that move a result, the largest share first, each with what it must be held to.
fn shares(rear: &RearEnd, budget: &Budget, allocations: &[ToleranceAllocation]) -> Vec<Value> {
    let share = |share: &Share| {
        let setting = rear.settings.get(share.input).filter(|_| share.slope != 0.0)?;
        let hold = allocations.iter().find(|hold| hold.input == share.input);
        Some(json!({
            "setting": setting.id(),
            "per_unit": share.slope,
            "standard": share.standard,
            "worst": share.worst,
            "part": share.part,
            "hold": hold.map(|hold| json!({ "by_squares": hold.by_squares, "by_worst": hold.by_worst, "alone": hold.alone })),
        }))
    };
    budget.shares.iter().filter_map(share).collect()
}

fn moved(request: &Request, path: &str) -> Vec<Value> {
    let one =
        |one: &Sensitivity| json!({ "id": one.figure.id(), "value": one.value, "per_unit": one.per_unit });
    sensitivities(&request.plan.job, path).iter().map(one).collect()
}
