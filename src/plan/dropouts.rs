//! What follows from dropouts, and what stays that do not follow them do to these.

use super::axes::Axes;
use super::dropouts_plan::{DropoutPlan, DropoutsPlan, TabPlan};
use super::held::{held_face, hub_face};
use super::hub::FITS;
use super::notices::{Notices, length};
use super::problem::{Mate, Problem, Warning};
use super::resolved::{middle, pair_frame, tab_direction};
use super::result::{Cut, Pairs, Stay};
use super::stay_geometry::StayGeometry;
use super::which::Which;
use crate::model::{Dropout, Hand, Job, PairName, SocketDropout};
use crate::units::{Angle, Length, Real};
use nalgebra::Vector3;

/// The four stays as they are laid: chainstays, seat stays, each right, left.
pub(super) type Laid<T> = [[StayGeometry<T>; 2]; 2];

/// What follows from the dropouts of a resolved job; `None` where it has none.
pub(super) fn dropouts<T: Real>(
    axes: &Axes<T>,
    job: &Job<T>,
    laid: &Laid<T>,
    pairs: &Pairs<T>,
    warnings: &mut Vec<Warning>,
) -> Option<DropoutsPlan<T>> {
    let parts = job.dropouts.as_ref()?;
    let [right, left] = Hand::ALL.map(|hand| {
        let side = OneSide { axes, job, pairs, part: parts.side(hand), hand };
        let plan = side.plan(laid);
        side.warn(&plan, warnings);
        plan
    });
    let [spacer_right, spacer_left] = Hand::ALL
        .map(|hand| held_face(job, PairName::Chainstays, hand).unwrap_or(hub_face(&job.frame, hand)));
    let spacing_over_hub = spacer_right + spacer_left - job.frame.axle_spacing;
    Some(DropoutsPlan { right, left, spacing_over_hub, spacer_right, spacer_left })
}

/// One side of the rear end.
struct OneSide<'a, T: Real> {
    axes: &'a Axes<T>,
    job: &'a Job<T>,
    pairs: &'a Pairs<T>,
    part: &'a Dropout<T>,
    hand: Hand,
}

impl<T: Real> OneSide<'_, T> {
    fn plan(&self, [chainstays, seatstays]: &Laid<T>) -> DropoutPlan<T> {
        let of = |pair: &[StayGeometry<T>; 2]| pair.iter().find(|laid| laid.hand == self.hand).cloned();
        let tab = |name, laid: &[StayGeometry<T>; 2]| self.tab(name, of(laid).as_ref());
        let stays = self.between(|name| -self.stay(name).clamp.u);
        DropoutPlan {
            hub_face: hub_face(&self.job.frame, self.hand),
            inner_face: hub_face(&self.job.frame, self.hand) - self.part.recess(),
            middle: middle(&self.job.frame, self.part, self.hand),
            chainstay: tab(PairName::Chainstays, chainstays),
            seatstay: tab(PairName::Seatstays, seatstays),
            stays,
            needed_at_axle: self.between(|name| -pair_frame(self.axes, self.job, name).u),
            tabs_difference: self.part.tabs().map(|tabs| difference(stays, tabs)),
            inside_by: self.inside_by(),
            round_apart: self.is_round().then(|| self.round_apart()),
        }
    }

    const fn is_round(&self) -> bool {
        matches!(self.part, Dropout::Round(_))
    }

    fn stay(&self, name: PairName) -> &Stay<T> {
        let pair = match name {
            PairName::Chainstays => &self.pairs.chainstays,
            PairName::Seatstays => &self.pairs.seatstays,
        };
        pair.stay(self.hand)
    }

    /// From the chainstays' direction up to the seat stays'.
    fn between(&self, direction: impl Fn(PairName) -> Vector3<T>) -> Angle<T> {
        upwards(&direction(PairName::Chainstays), &direction(PairName::Seatstays))
    }

    fn tab(&self, name: PairName, laid: Option<&StayGeometry<T>>) -> TabPlan<T> {
        let side = self.job.pair(name).side(self.hand);
        let stay = self.stay(name);
        let along = tab_direction(self.axes, self.job, self.part, name);
        let socket = if let Dropout::Socket(socket) = self.part { Some(socket) } else { None };
        TabPlan {
            half_spacing: side.rear.half_spacing,
            reach: side.rear.reach,
            rise: side.rear.rise,
            tab_off: (!self.is_round()).then(|| upwards(&-stay.clamp.u, &along)),
            plug_clearance: socket.zip(laid).map(|(socket, laid)| plug_clearance(socket, name, laid)),
            plug_off: socket.zip(laid).map(|(socket, laid)| plug_off(socket, name, laid, &along)),
        }
    }

    /// The least margin of the two cuts' outer edges to the ends of a round dropout.
    fn inside_by(&self) -> Option<Length<T>> {
        let Dropout::Round(round) = self.part else { return None };
        let margins = PairName::ALL.map(|name| self.margin(name, round.width));
        margins
            .into_iter()
            .flatten()
            .reduce(|one, other| if other.mm().value() < one.mm().value() { other } else { one })
    }

    /// That of one stay, whose dropout stands where this stay puts it.
    fn margin(&self, name: PairName, width: Length<T>) -> Option<Length<T>> {
        let Cut::Boss(cut) = &self.stay(name).rear else { return None };
        let [from, to] = cut.footprint?;
        let held = held_face(self.job, name, self.hand)? - self.part.recess();
        let (inner, outer) = if self.hand == Hand::Right { (from, to) } else { (-to, -from) };
        let (inside, outside) = (inner - held, held + width - outer);
        Some(if outside.mm().value() < inside.mm().value() { outside } else { inside })
    }

    fn round_apart(&self) -> Length<T> {
        let [one, other] = PairName::ALL.map(|name| self.stay(name).rear_point);
        let (x, z) = (one.x - other.x, one.z - other.z);
        let square = x * x + z * z;
        Length::from_mm(if square.value() == 0.0 { T::zero() } else { square.sqrt() })
    }

    fn warn(&self, plan: &DropoutPlan<T>, warnings: &mut Vec<Warning>) {
        let mut at = |name, problem| {
            Notices::new(warnings, name).at_stay(self.hand).at_end(Which::Rear).warn(problem);
        };
        let by = plan.tabs_difference.map(|by| Angle::from_degrees(by.degrees().value()));
        if let Some(by) = by.filter(|by| by.degrees().abs() > TABS_FIT) {
            at(PairName::Seatstays, Problem::TabsOffStays { by });
        }
        if let Some(by) = plan.round_apart.map(length).filter(|by| by.mm() > FITS) {
            at(PairName::Seatstays, Problem::RoundDropoutApart { by });
        }
        for (name, tab) in [(PairName::Chainstays, &plan.chainstay), (PairName::Seatstays, &plan.seatstay)] {
            if let Some(by) = tab.plug_clearance.map(length).filter(|by| by.mm() < -NOTHING) {
                at(name, Problem::PlugTooLarge { by: -by });
            }
            let past = plan.inside_by.and_then(|_| self.past_end(name)).filter(|by| by.mm() > NOTHING);
            if let Some(by) = past {
                at(name, Problem::PastMateEnd { mate: Mate::RoundDropout, by });
            }
        }
    }

    fn past_end(&self, name: PairName) -> Option<Length> {
        self.margin(name, self.part.width()).map(|margin| -length(margin))
    }
}

/// Tabs that point as their stays run to within this fit, degrees.
const TABS_FIT: f64 = 0.1;

/// Rounding of figures that are entered, mm.
const NOTHING: f64 = 1e-9;

/// In side view from one direction up to the other: the way from forwards to upwards counts as positive.
fn upwards<T: Real>(from: &Vector3<T>, to: &Vector3<T>) -> Angle<T> {
    Angle::from_radians(from.cross(to).y.atan2(from.dot(to)))
}

fn difference<T: Real>(one: Angle<T>, other: Angle<T>) -> Angle<T> {
    Angle::from_degrees(one.degrees() - other.degrees())
}

/// What is left between the bore at the shoulder and the plug, of their diameters.
fn plug_clearance<T: Real>(part: &SocketDropout<T>, name: PairName, laid: &StayGeometry<T>) -> Length<T> {
    let bore = laid.bore.radius(laid.length) * T::of(2.0);
    Length::from_mm(bore) - part.tab(name).figures.od
}

/// Between the axes of a plug and of the stay's end.
fn plug_off<T: Real>(
    part: &SocketDropout<T>,
    name: PairName,
    laid: &StayGeometry<T>,
    along: &Vector3<T>,
) -> Angle<T> {
    let axis = laid.straight_at(laid.length).axis.direction;
    let splay =
        part.tab(name).splay.map_or_else(|| axis.y * T::of(laid.hand.sign()), |splay| splay.radians().sin());
    let flat = (T::one() - splay * splay).sqrt();
    // From the shoulder forwards a splayed plug runs inboard.
    let plug = along * flat - Vector3::y() * (splay * T::of(laid.hand.sign()));
    let cross = plug.cross(&-axis);
    let sine = cross.norm_squared();
    let sine = if sine.value() == 0.0 { T::zero() } else { sine.sqrt() };
    Angle::from_radians(sine.atan2(plug.dot(&-axis)))
}
