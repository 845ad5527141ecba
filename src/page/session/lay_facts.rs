//! How a bent or butted stay lies: what it is levelled, clamped and trimmed by.

use staywright::model::{Hand, PairName, SolveFor};
use staywright::plan::{BentStay, ClampFrame, Pair, Plan, RawTube, Stay};
use staywright::procedure::{Named, Reading};
use staywright::units::show;
use staywright::units::{Angle, Bounds, Length, LengthUnit};

/// Whether there are any figures of the stay on that side.
pub fn has_lay_facts(plan: &Plan, name: PairName, hand: Hand) -> bool {
    let stay = plan.pair(name).stay(hand);
    stay.bent.is_some() || stay.raw.is_some()
}

/// The figures of the stay on that side; none for a straight tube with a plain wall.
pub fn lay_facts(plan: &Plan, name: PairName, hand: Hand, unit: LengthUnit) -> Vec<Named> {
    let (pair, tube) = (plan.pair(name), &plan.job.pair(name).side(hand).tube);
    let stay = pair.stay(hand);
    let mut facts = Vec::new();
    if let Some(bent) = &stay.bent {
        placing(bent, tube.bends.find, &mut facts);
        apexes(bent, &mut facts);
        posts(pair, hand, unit, &mut facts);
        directions(bent, &stay.clamp, hand, &mut facts);
    }
    if let Some(raw) = &stay.raw {
        trims(stay, raw, tube.length, &mut facts);
    }
    facts
}

/// Trim and roll, and what the search for the most room said of them.
fn placing(bent: &BentStay, find: SolveFor, facts: &mut Vec<Named>) {
    let how = |found: bool| if found && bent.spare.is_some() { "found" } else { "as entered" };
    let by_trim = how(matches!(find, SolveFor::Trim | SolveFor::Both));
    let by_roll = how(matches!(find, SolveFor::Roll | SolveFor::Both));
    facts.push(Named::new(format!("Front trim, {by_trim}"), Reading::Length(bent.trim)));
    facts.push(Named::new(format!("Roll, {by_roll}"), Reading::Angle(bent.roll)));
    if let (Some(spare), Some(within)) = (bent.spare, bent.spare_within) {
        facts.push(Named::new(
            "Left over the limits, tightest place",
            Reading::Length(Length::from_mm(spare)),
        ));
        let bound = if bent.search_complete == Some(false) {
            "The search was cut short: elsewhere more by up to"
        } else {
            "Nowhere more by more than"
        };
        facts.push(Named::new(bound, Reading::Length(Length::from_mm(within))));
    }
}

/// What is cut off the raw tube, and what is left of its butts.
fn trims(stay: &Stay, raw: &RawTube, length: Length, facts: &mut Vec<Named>) {
    let mut add = |name: &str, length| facts.push(Named::new(name, Reading::Length(length)));
    if let (Some(front), Some(rear)) = (stay.front.long_point(), stay.rear.long_point()) {
        add("Cut off at the front, up to the long point", raw.front_mark + front);
        add("Cut off at the rear, from the long point", length - raw.front_mark - rear);
    }
    let butts = [("Butt left at the front", raw.front_butt), ("Butt left at the rear", raw.rear_butt)];
    for (name, left) in butts.into_iter().filter_map(|(name, left)| Some((name, left?))) {
        add(name, left);
    }
    let enough = if raw.long_enough { "long enough" } else { "too short" };
    facts.push(Named::new("Raw tube", Reading::Word(enough)));
}

/// With these the two stays of a pair are levelled against each other on a flat.
fn apexes(bent: &BentStay, facts: &mut Vec<Named>) {
    for (number, bend) in (1..).zip(&bent.bends) {
        let mut add = |what: &str, length| {
            facts.push(Named::new(format!("Bend {number} apex {what}"), Reading::Length(length)));
        };
        add("along the fixture", bend.along);
        add("from the centre line", bend.from_centre);
        add("above the clamp plane", bend.from_plane);
    }
}

fn posts(pair: &Pair, hand: Hand, unit: LengthUnit, facts: &mut Vec<Named>) {
    for post in &pair.posts {
        let straight = if hand == Hand::Right { post.right_straight } else { post.left_straight };
        let Some([before, behind]) = straight else { continue };
        let at = show::length(post.u, unit);
        facts.push(Named::new(format!("Straight before the post at {at}"), Reading::Length(before)));
        facts.push(Named::new(format!("Straight behind the post at {at}"), Reading::Length(behind)));
    }
}

/// A sine, rounding or not.
const SINES: Bounds = Bounds::new(-1.0, 1.0);

/// The way each end runs, rearwards: away from the centre plane, and up from the clamp plane.
fn directions(bent: &BentStay, clamp: &ClampFrame, hand: Hand, facts: &mut Vec<Named>) {
    for (end, way) in [("Front", &bent.front_direction), ("Rear", &bent.rear_direction)] {
        let local = clamp.local_direction(way);
        let mut add = |what: &str, sine: f64| {
            let angle = Angle::from_radians(SINES.nearest(sine).asin());
            facts.push(Named::new(format!("{end} end runs {what}"), Reading::Angle(angle)));
        };
        add("outwards by", local.y * hand.sign());
        add("up from the clamp plane by", local.z);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use staywright::model::{Bend, Bends, Job};
    use staywright::placement::solve;

    fn facts(job: &Job) -> Vec<Named> {
        lay_facts(&solve(job), PairName::Chainstays, Hand::Right, LengthUnit::Millimetre)
    }

    #[test]
    fn a_straight_tube_says_nothing_and_a_flat_bend_stays_in_the_clamp_plane() {
        let mut job = Job::default();
        assert_eq!(facts(&job), []);
        job.chainstays.right.tube.bends = Bends::of([Bend::default()]);
        let facts = facts(&job);
        let number =
            |name: &str| facts.iter().find(|fact| fact.name == name).and_then(|fact| fact.reading.number());
        let near = |name, wanted: f64| number(name).is_some_and(|found| (found - wanted).abs() < 1e-9);
        assert!(near("Bend 1 apex above the clamp plane", 0.0));
        assert!(near("Front end runs up from the clamp plane by", 0.0));
        // One flat bend turns the tube by its own angle.
        let ends = ["Front", "Rear"].map(|end| number(&format!("{end} end runs outwards by")));
        assert!(matches!(ends, [Some(front), Some(rear)] if (rear - front - 8.0).abs() < 1e-9), "{ends:?}");
    }
}
