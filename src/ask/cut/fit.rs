//! How a cut will seat, how the machine stands for it, and a flat on the same stay.

use super::Here;
use super::round::length;
use super::running;
use super::told::Told;
use crate::machining::{
    Candidate, Cutter, PadFace, Placed, Tool, compound as stand, cutter_axis, facing_mill, pad_face,
};
use crate::model::BrakeMountFlat;
use crate::model::shop::ToothMaterial;
use crate::plan::{CutAt, EndUp, RoundCut};
use crate::procedure::{Reading, Turn};
use crate::text;
use crate::units::{Angle, Length, show};

/// Gap, push, and how far the cutter's axis moves so that the stay's length comes out right.
pub(super) fn fit(here: Here<'_>, cut: &RoundCut, used: Option<&Candidate>, paired: bool) -> Told {
    let mut told = Told::new("Fit with this saw");
    told.fact("Planned cutter", show::diameter(cut.cutter, here.unit));
    told.fact("Round member", show::diameter(cut.member, here.unit));
    if let Some(process) = here.shop.process() {
        let gap = &process.gap;
        let range = format!("{} to {}", length(here, gap.least), length(here, gap.most));
        told.fact(format!("Gap allowed, {}", process.name), range);
        told.say_from(
            format!("The gap to aim at for {} is {}.", process.name, length(here, gap.best)),
            &process.origin,
        );
    }
    let Some(used) = used else { return told };
    told.fact("Largest gap when pushed home", used.gap.map_or("—".to_owned(), |gap| length(here, gap)));
    if let Some(push) = used.push {
        let (name, by) =
            if push.mm() < 0.0 { ("Stay stands off by", -push) } else { ("Stay goes in by", push) };
        told.fact(name, length(here, by));
    }
    if let Some((along, across)) = used.shift.and_then(|shift| shift.in_pass(paired)) {
        let signed = |by: Length| show::signed_length(by.mm(), here.unit);
        told.fact("Move the cutter's axis along by", signed(along));
        if !paired {
            told.fact("and across by", signed(across));
        }
        told.say("Moved by this, the stay comes out as long as planned once it is pushed home. Where the steps name this saw, their \
                  readouts are moved.");
    }
    told
}

/// Both angles of a compound setting, in the order they are set; nothing where the cut is square to the pair.
pub(super) fn compound(here: Here<'_>, cut: &RoundCut) -> Option<Told> {
    if cut.setting.swivel.degrees().abs() < 1e-9 {
        return None;
    }
    let axis = cutter_axis(here.plan, here.at, cut, here.shop.mill.side_to_spindle);
    let stands = stand(&axis.direction);
    let mut told = Told::new("Compound setting");
    let turn = if stands.turn.degrees() > 0.0 { Turn::CounterClockwise } else { Turn::Clockwise };
    let size = Angle::from_degrees(stands.turn.degrees().abs());
    told.fact(format!("Swivel, {}", text::procedure::turn(turn)), show::angle(size));
    let end = match stands.end_up {
        EndUp::Rear => "rear end up",
        EndUp::Front => "front end up",
        EndUp::Level | EndUp::Either => "level",
    };
    told.fact(format!("Tilt by the gauge, {end}"), show::angle(stands.tilt.complement()));
    told.say(
        "The swivel is about the fixture's own normal, so either may be set first. Swivelled, the datum edge runs along neither \
         table direction: touch a corner.",
    );
    Some(told)
}

/// The flat for a brake mount on this stay.
pub(super) fn pad(here: Here<'_>, pad: &BrakeMountFlat) -> Told {
    let mut told = Told::new("Flat for a brake mount");
    let at = CutAt { at_front: false, ..here.at };
    let Some(face) = pad_face(here.plan, at, pad) else {
        let stay = Placed::new(here.plan, at);
        let middle = at.stay(here.plan).slide.mm() - pad.ahead.mm();
        let radius = stay.outline.radius((middle - stay.axis.point.x) / stay.axis.direction.x);
        let radius = length(here, Length::from_mm(radius));
        told.say_bad(format!(
            "The flat leaves this stay, or passes it by: the tube's radius at the flat's middle is {radius}, and the flat must lie \
             lower."
        ));
        return told;
    };
    measures(here, &face, &mut told);
    if face.left.mm() <= 0.0 {
        told.say_bad("The flat opens the bore: it needs a pad brazed or welded on, not a flat.");
    }
    if face.hole_to_edge.mm() <= 0.0 {
        told.say_bad("The holes stand outside the flat.");
    }
    told.say("The fixture lies level, the flat's side to the spindle.");
    milled(here, &face, &mut told);
    told
}

fn measures(here: Here<'_>, face: &PadFace, told: &mut Told) {
    let facts = [
        ("Front end, from the front datum line", face.front),
        ("Rear end", face.rear),
        ("Down from the top of the tube, at the middle", face.at_middle),
        ("Deepest", face.deepest),
        ("Flat's width, least", face.width.0),
        ("Flat's width, most", face.width.1),
        ("Wall left over the bore", face.left),
        ("Hole to the flat's edge", face.hole_to_edge),
    ];
    for (name, figure) in facts {
        told.fact(name, length(here, figure));
    }
}

/// The end mill on hand that faces the flat in one pass, and how fast it runs.
fn milled(here: Here<'_>, face: &PadFace, told: &mut Told) {
    match facing_mill(face, &here.shop.end_mills).and_then(|i| here.shop.end_mills.get(i)) {
        Some(mill) => {
            let cutter = Cutter {
                tool: Tool::EndMill,
                diameter: mill.diameter,
                teeth: mill.teeth.number(),
                tooth: ToothMaterial::HighSpeedSteel,
            };
            told.fact("End mill", Reading::Diameter(mill.diameter).text(here.unit));
            let run = running::run(here, cutter, None);
            told.facts.extend(run.facts);
            told.words.extend(run.words);
        }
        None => told.say_bad("No end mill on hand is as wide as the flat: it takes more than one pass."),
    }
}
