//! Format 3: a job with bends, butts, ovals, plates that splay or surroundings. Nothing in this file may change: links made with it are in
//! people's messages.
//!
//! The body is the postcard form of [`Body`]: format 1's for all that it knows, then a walk over the rest. A figure is named
//! by its place in its table; one that is left out stands at its start there, or in a left stay at the right stay's value.

use super::format1;
use super::pass::{Table, choice, few, flag, group, group_if_there, number_if_there, numbered, start};
use super::pen::{Pen, Sheet, read as read_sheet, written};
use crate::model::{Bends, Butts, End, Hand, Job, Ovals, PairName, Side, SolveFor, Surroundings, Tube};
use crate::units::{Angle, Length};
use serde::{Deserialize, Serialize};

pub(super) const FORMAT: u8 = 3;

const BEND: &Table = &[("before_mm", 120.0), ("rotation_deg", 0.0), ("angle_deg", 8.0), ("radius_mm", 150.0)];

const BUTT: &Table = &[("at_mm", 80.0), ("wall_mm", 0.8)];

const OVAL: &Table = &[
    ("from_mm", 0.0),
    ("to_mm", 60.0),
    ("blend_mm", 40.0),
    ("width_mm", 16.0),
    ("height_mm", 27.0),
    ("roll_deg", 0.0),
];

const LIMITS: &Table = &[
    ("tyre_mm", 6.0),
    ("chainring_mm", 3.0),
    ("crank_mm", 3.0),
    ("heel_mm", 5.0),
    ("chain_mm", 2.0),
    ("rotor_mm", 2.0),
    ("caliper_mm", 0.0),
    ("other_mm", 0.0),
    ("post_mm", 0.0),
    ("run_out_mm", 0.8),
];

const RING: &Table = &[("teeth", 34.0), ("chainline_mm", 45.0), ("thickness_mm", 4.0)];

const CRANK: &Table = &[
    ("arm_mm", 170.0),
    ("over_mm", 14.0),
    ("inside_mm", 60.0),
    ("heel_inside_mm", 80.0),
    ("heel_back_mm", 180.0),
    ("heel_up_mm", 10.0),
];

const SPROCKET: &Table =
    &[("teeth", 11.0), ("from_dropout_mm", 7.0), ("chain_width_mm", 6.2), ("chain_height_mm", 8.5)];

const ROTOR: &Table = &[
    ("rotor_mm", 160.0),
    ("thickness_mm", 1.8),
    ("from_dropout_mm", 15.0),
    ("caliper_deg", 25.0),
    ("caliper_out_mm", 78.0),
    ("caliper_length_mm", 50.0),
    ("caliper_height_mm", 34.0),
    ("caliper_width_mm", 30.0),
];

const POSTS: &Table = &[("column_mm", 25.0)];

numbered! { SolveFor { Nothing = 0, Trim = 1, Roll = 2, Both = 3 } }

/// What is written.
#[derive(Serialize, Deserialize)]
struct Body {
    /// Format 1's body.
    plain: Vec<u8>,
    more: Sheet,
}

/// Whether `job` holds anything that format 1 does not.
pub(super) fn is_needed(job: &Job) -> bool {
    let plain = lists(&Tube::default());
    let has_more = |name: PairName| {
        let mut sides = Hand::ALL.iter().map(|hand| job.pair(name).side(*hand));
        sides.any(|side| lists(&side.tube) != plain || splays(side).any(is_told))
    };
    job.surroundings.is_some() || PairName::ALL.into_iter().any(has_more)
}

/// Every figure but a plain 0 comes back to the last bit.
const fn is_told(splay: f64) -> bool {
    splay.to_bits() != 0
}

/// How far the plates of a stay's slots splay, front to rear.
fn splays(side: &Side) -> impl Iterator<Item = f64> {
    [side.front_end, side.rear_end].into_iter().filter_map(|end| match end {
        End::Slot(slot) => Some(slot.plate_splay.degrees()),
        _ => None,
    })
}

/// The body of `job`.
pub(super) fn write(job: &Job) -> Vec<u8> {
    let mut walked = job.clone();
    let body = Body { plain: format1::write(job), more: written(|pen| more(pen, &mut walked)) };
    // Writing to memory cannot fail; an empty body would be refused on the way back.
    postcard::to_allocvec(&body).unwrap_or_default()
}

/// The job that a body stands for; `None` where it stands for none.
pub(super) fn read(body: &[u8]) -> Option<Job> {
    let (body, rest) = postcard::take_from_bytes::<Body>(body).ok()?;
    let mut job = format1::read(&body.plain)?;
    read_sheet(body.more, |pen| more(pen, &mut job))?;
    rest.is_empty().then_some(job)
}

/// All that format 1 leaves out, in the order in which it is written.
fn more(pen: &mut dyn Pen, job: &mut Job) -> Option<()> {
    for name in [PairName::Chainstays, PairName::Seatstays] {
        let pair = job.pair_mut(name);
        side(pen, &mut pair.right, &Tube::default())?;
        if let Some(left) = &mut pair.left {
            side(pen, left, &pair.right.tube)?;
        }
    }
    job.surroundings = surroundings(pen, job.surroundings)?;
    Some(())
}

const fn lists(tube: &Tube) -> (Bends, Butts, Ovals) {
    (tube.bends, tube.butts, tube.ovals)
}

/// Bit 0: the tube differs from `base`; bit 1: plates splay.
fn side(pen: &mut dyn Pen, side: &mut Side, base: &Tube) -> Option<()> {
    let has_splay = splays(side).any(is_told);
    let differs = lists(&side.tube) != lists(base);
    let marks = pen.count(u32::from(differs) | u32::from(has_splay) << 1)?;
    if marks > 3 {
        return None;
    }
    tube(pen, &mut side.tube, base, marks & 1 == 1)?;
    for end in [&mut side.front_end, &mut side.rear_end] {
        if let End::Slot(slot) = end {
            let splay = if marks & 2 == 2 { pen.number(slot.plate_splay.degrees())? } else { 0.0 };
            slot.plate_splay = Angle::from_degrees(splay);
        }
    }
    Some(())
}

fn tube(pen: &mut dyn Pen, tube: &mut Tube, base: &Tube, differs: bool) -> Option<()> {
    let (bends, butts, ovals) = lists(tube);
    if differs {
        tube.bends = Bends {
            list: few(pen, &bends.list, &base.bends.list, BEND)?,
            roll: number_if_there(pen, bends.roll.map(Angle::degrees))?.map(Angle::from_degrees),
            find: choice(pen, bends.find)?,
        };
        tube.butts = Butts { list: few(pen, &butts.list, &base.butts.list, BUTT)? };
        tube.ovals = Ovals { list: few(pen, &ovals.list, &base.ovals.list, OVAL)? };
    } else {
        (tube.bends, tube.butts, tube.ovals) = lists(base);
    }
    Some(())
}

fn surroundings(pen: &mut dyn Pen, value: Option<Surroundings>) -> Option<Option<Surroundings>> {
    if !flag(pen, value.is_some())? {
        return Some(None);
    }
    let none = Surroundings::default();
    let value = value.unwrap_or(none);
    Some(Some(Surroundings {
        limits: group(pen, &value.limits, &start(LIMITS), LIMITS)?,
        measured_width: number_if_there(pen, value.measured_width.map(Length::mm))?.map(Length::from_mm),
        rings: few(pen, &value.rings, &none.rings, RING)?,
        crank: group_if_there(pen, value.crank.as_ref(), CRANK)?,
        sprocket: group_if_there(pen, value.sprocket.as_ref(), SPROCKET)?,
        rotor: group_if_there(pen, value.rotor.as_ref(), ROTOR)?,
        posts: group_if_there(pen, value.posts.as_ref(), POSTS)?,
    }))
}
