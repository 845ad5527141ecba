//! Set-ups in, reach and gaps out: one JSON a line on standard input, one a line on standard output.
//!
//! In: `{"job": {…}, "shop": {…}, "saw": 0}`, the saw by its place in the shop's list. Out: `{"cuts": [{"at", "low_mm",
//! "high_mm", "through_mm", "bottom_mm", "gaps": [{"part", "body", "gap_mm", "goes_mm"}]}]}`, one entry a round end, with
//! the planned cutter's diameter, both stays in one pass where they are alike; or `{"errors": […]}`.

use serde_json::{Value, json};
use staywright::files::faults_text;
use staywright::machining::{Near, Stroke, nearest};
use staywright::model::shop::{HoleSaw, Shop};
use staywright::model::{Fault, Hand, Job, Wanted, Wrong};
use staywright::placement::plan;
use staywright::plan::{CutAt, Plan};
use staywright::text::machining::{standing_name, turning_name};
use std::io::{self, BufRead, Write};

fn main() -> io::Result<()> {
    let mut answers = io::BufWriter::new(io::stdout().lock());
    for line in io::stdin().lock().lines() {
        let answer = answer(&line?).map_or_else(|faults| faults_text(&faults), |answer| answer.to_string());
        writeln!(answers, "{answer}")?;
    }
    answers.flush()
}

fn answer(line: &str) -> Result<Value, Vec<Fault>> {
    let line: Value = serde_json::from_str(line).unwrap_or_default();
    let part = |key: &str| line.get(key).map(Value::to_string).unwrap_or_default();
    let plan = plan(&Job::from_json(&part("job"))?)?;
    let shop = Shop::from_json(&part("shop"))?;
    let index = line.get("saw").and_then(Value::as_u64).unwrap_or(0) as usize;
    let Some(saw) = shop.hole_saws.get(index) else {
        let most = shop.hole_saws.len().saturating_sub(1) as f64;
        let what = Wrong::Wanted(Wanted::WholeNumber { most });
        return Err(vec![Fault::new("saw", index, what)]);
    };
    let cuts: Vec<Value> = CutAt::all().filter_map(|at| cut(&plan, &shop, saw, at)).collect();
    Ok(json!({ "cuts": cuts }))
}

fn cut(plan: &Plan, shop: &Shop, saw: &HoleSaw, at: CutAt) -> Option<Value> {
    let round = at.cut(plan).round()?;
    let alike = plan.job.pair(at.pair).left.is_none();
    let cuts = if alike { Hand::ALL.map(|hand| CutAt { hand, ..at }).to_vec() } else { vec![at] };
    let stroke = Stroke::new(plan, shop, &cuts, round.cutter)?;
    let reach = stroke.reach(shop, saw);
    let gap = |near: &Near| {
        json!({
            "part": turning_name(near.part),
            "body": standing_name(near.body),
            "gap_mm": near.gap.mm(),
            "goes_mm": near.goes.map(|goes| goes.mm()),
        })
    };
    let gaps: Vec<Value> = nearest(plan, shop, &stroke, saw).iter().map(gap).collect();
    Some(json!({
        "at": at.key(),
        "low_mm": stroke.low,
        "high_mm": stroke.high,
        "through_mm": reach.through.mm(),
        "bottom_mm": reach.bottom.mm(),
        "gaps": gaps,
    }))
}
