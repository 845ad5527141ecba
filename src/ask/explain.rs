//! Where a figure comes from: the triangle it is read off, the formula, and the figures put into it.

use crate::model::Member;
use crate::plan::{Cut, CutAt, Plan, RoundCut, Stay};
use crate::units::{Angle, Length, LengthUnit, fixed, show};
use serde::{Deserialize, Serialize};

/// A right-angled triangle, its sides in mm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Triangle {
    /// The side along the page.
    pub along: f64,
    /// The side across it.
    pub across: f64,
    /// What the side along is called.
    pub along_name: String,
    /// What the side across is called.
    pub across_name: String,
    /// What the slanted side is called.
    pub slant_name: String,
    /// What the angle between the slanted side and the side along is called.
    pub angle_name: String,
}

/// One figure explained.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Explanation {
    /// The figure's name.
    pub title: String,
    /// The figure.
    pub result: String,
    /// What it is, in a sentence.
    pub words: String,
    /// How it follows, in letters.
    pub formula: String,
    /// The same with the figures put in.
    pub filled: String,
    /// What it is read off, where that is a triangle.
    pub triangle: Option<Triangle>,
}

/// The explanations that belong to one cut.
pub(super) fn explanations(plan: &Plan, pick: CutAt, unit: LengthUnit) -> Vec<Explanation> {
    let stay = pick.stay(plan);
    let mut list = vec![splay(stay, unit)];
    match pick.cut(plan) {
        Cut::Cope(round) | Cut::Boss(round) => {
            list.push(angle(plan, pick, stay, round));
            list.extend(tilt(plan, stay, round));
            list.extend(dro_along(plan, stay, round, unit));
        }
        Cut::Slot(slot) => list.push(Explanation {
            title: "Slot angle".to_owned(),
            result: show::angle(slot.angle),
            words: "The dropout plate stands in the direction of travel, so the slot crosses the stay at the splay."
                .to_owned(),
            formula: "slot angle = splay".to_owned(),
            filled: format!("slot angle = {}", show::angle(stay.splay)),
            triangle: None,
        }),
        Cut::Square(_) => {}
    }
    list
}

/// The stay, what it gains outwards and what it runs along the bench.
fn splay(stay: &Stay, unit: LengthUnit) -> Explanation {
    let sign = stay.hand.sign();
    let (front, rear) = (sign * stay.front_point.y, sign * stay.rear_point.y);
    let gain = rear - front;
    let length = stay.length.mm();
    let write = |mm: f64| show::bare_length(Length::from_mm(mm), unit);
    Explanation {
        title: "Splay".to_owned(),
        result: show::angle(stay.splay),
        words: "How far the stay's axis turns away from the centre plane. The stay is the slanted side; what its rear \
                stands further out than its front is the side across."
            .to_owned(),
        formula: "sin splay = (rear half spacing − front half spacing) ÷ length".to_owned(),
        filled: format!(
            "sin splay = ({} − {}) ÷ {} = {}, so splay = {}",
            write(rear),
            write(front),
            write(length),
            fixed(gain / length, 5),
            show::angle(stay.splay)
        ),
        triangle: Some(Triangle {
            along: (length * length - gain * gain).max(0.0).sqrt(),
            across: gain.abs(),
            along_name: "along the bench".to_owned(),
            across_name: "gain outwards".to_owned(),
            slant_name: "stay".to_owned(),
            angle_name: "splay".to_owned(),
        }),
    }
}

fn angle(plan: &Plan, pick: CutAt, stay: &Stay, cut: &RoundCut) -> Explanation {
    let onto = member(plan, pick);
    let splay = show::angle(stay.splay);
    let result = show::angle(cut.angle);
    if cut.setting.on_side {
        return Explanation {
            title: "Cut angle".to_owned(),
            words: format!(
                "Between the stay and the {onto}, which lies square to the centre plane: the splay's complement."
            ),
            formula: "angle = 90° − splay, splay taken without its sign".to_owned(),
            filled: format!(
                "angle = 90° − {} = {result}",
                show::angle(Angle::from_degrees(stay.splay.degrees().abs()))
            ),
            result,
            triangle: None,
        };
    }
    Explanation {
        title: "Cut angle".to_owned(),
        words: format!(
            "Between the stay and the {onto}. Seen from the side the two meet at the tilt; the splay turns the stay out of \
             that view, square to it, so the cosines multiply."
        ),
        formula: "cos angle = cos tilt × cos splay".to_owned(),
        filled: format!(
            "cos angle = cos {} × cos {splay} = {}, so angle = {result}",
            show::angle(cut.setting.tilt),
            fixed(cut.angle.radians().cos(), 5)
        ),
        result,
        triangle: None,
    }
}

/// Only a seat tube is met at a tilt.
fn tilt(plan: &Plan, stay: &Stay, cut: &RoundCut) -> Option<Explanation> {
    if cut.setting.on_side {
        return None;
    }
    let seat = plan.job.frame.seat_angle;
    let u = stay.clamp.u;
    let plane = Angle::from_radians(u.z.atan2(u.x));
    let between = (seat.degrees() - plane.degrees()).abs();
    let turned = between > 90.0;
    let result = show::angle(cut.setting.tilt);
    let difference = format!("{} − ({})", show::angle(seat), show::angle(plane));
    Some(Explanation {
        title: "Tilt".to_owned(),
        words: "Between the stay plane and the spindle, which stands where the seat tube will. Both angles are taken from \
                the horizontal, rearwards and up being positive; of the two angles at a crossing the smaller counts."
            .to_owned(),
        formula: if turned {
            "tilt = 180° − (seat angle − slope of the stay plane)".to_owned()
        } else {
            "tilt = seat angle − slope of the stay plane".to_owned()
        },
        filled: if turned {
            format!("tilt = 180° − ({difference}) = {result}")
        } else {
            format!("tilt = {difference} = {result}")
        },
        result,
        triangle: None,
    })
}

/// The table's way from the touched edge to the cutter's axis.
fn dro_along(plan: &Plan, stay: &Stay, cut: &RoundCut, unit: LengthUnit) -> Option<Explanation> {
    let bench = &plan.job.fixture.bench;
    let touched = (bench.touch_u.mm(), bench.touch_w.mm());
    if cut.setting.on_side {
        return Some(along_on_side(stay, cut, touched.0, unit));
    }
    along_tilted(stay, cut, touched, unit)
}

/// Where the table runs along the bench.
fn along_on_side(stay: &Stay, cut: &RoundCut, touch_u: f64, unit: LengthUnit) -> Explanation {
    let at = stay.clamp.local(&cut.axis_point);
    let write = |mm: f64| show::bare_length(Length::from_mm(mm), unit);
    let result = show::length(cut.setting.dro_along, unit);
    Explanation {
        title: "Along the table".to_owned(),
        words: "With the fixture on its side the table runs along the bench, so the way is what lies between the \
                touched edge and the cutter's axis."
            .to_owned(),
        formula: "along = axis from the datum line − touched edge from the datum line".to_owned(),
        filled: format!("along = {} − ({}) = {result}", write(at.x), write(touch_u)),
        result,
        triangle: None,
    }
}

/// Where the bench is tilted; `None` where that is no triangle in the upright plane.
fn along_tilted(stay: &Stay, cut: &RoundCut, touched: (f64, f64), unit: LengthUnit) -> Option<Explanation> {
    let at = stay.clamp.local(&cut.axis_point);
    let axis = stay.clamp.local_direction(&cut.axis_direction);
    if axis.z.abs() < 1e-6 || axis.y.abs() > 1e-6 {
        return None;
    }
    let run = at.x - at.z * axis.x / axis.z - touched.0;
    let lift = touched.1 * axis.x * axis.z.signum();
    let write = |mm: f64| show::bare_length(Length::from_mm(mm), unit);
    let (tilt, result) = (show::angle(cut.setting.tilt), show::length(cut.setting.dro_along, unit));
    let level = touched.1 == 0.0;
    let (formula, filled) = if level {
        ("", String::new())
    } else {
        (" + edge above the stay plane × cos tilt, signed", format!(" + ({})", write(lift)))
    };
    Some(Explanation {
        title: "Along the table".to_owned(),
        words: "Along the tilted bench it is this far from the touched edge to where the cutter's axis passes through the \
                stay plane; the table sees only the part of it square to the spindle."
            .to_owned(),
        formula: format!("along = way on the bench × sin tilt{formula}"),
        filled: format!("along = {} × sin {tilt}{filled} = {result}", write(run)),
        triangle: level.then(|| on_the_bench((run * axis.x).abs(), cut.setting.dro_along.mm().abs())),
        result,
    })
}

fn on_the_bench(along: f64, across: f64) -> Triangle {
    Triangle {
        along,
        across,
        along_name: "along the spindle".to_owned(),
        across_name: "along the table".to_owned(),
        slant_name: "way on the bench".to_owned(),
        angle_name: "tilt".to_owned(),
    }
}

fn member(plan: &Plan, pick: CutAt) -> &'static str {
    let side = plan.job.pair(pick.pair).side(pick.hand);
    let end = if pick.at_front { side.front_end } else { side.rear_end };
    match end {
        crate::model::End::Cope(cope) => match cope.onto {
            Member::Shell => "shell",
            Member::SeatTube => "seat tube",
        },
        _ => "round dropout",
    }
}
