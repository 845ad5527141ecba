//! What a saw goes through on its way: from where to where along its axis, and whether it gets there.

use super::placed::{Placed, cutter_axis, stub_extent};
use crate::geometry::{Cylinder, Edge, Generators, Keep, Line};
use crate::model::shop::{HoleSaw, Shop};
use crate::plan::{CutAt, Plan};
use crate::units::Length;

/// The stroke of one pass, in stations along the cutter's axis, which point out of the work.
#[derive(Clone, Debug)]
pub struct Stroke {
    /// The cutter's axis in fixture components.
    pub axis: Line,
    /// Radius of the cut.
    pub radius: f64,
    /// The stays that the pass cuts.
    pub cuts: Vec<CutAt>,
    /// Where the last of the cut is done.
    pub low: f64,
    /// Where the first of it begins.
    pub high: f64,
    /// Where the teeth stand at the end.
    pub teeth_at_end: f64,
    /// Where they stand at the start.
    pub teeth_at_start: f64,
    /// The longest stub that goes into the saw, of all stays.
    stub: f64,
}

/// Whether a saw gets through, each with the figure by which it does: negative where it fails, by that much.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reach {
    /// Saw and arbor together, less the way through all stays of the pass and the run-out: what is left until the
    /// holder meets the first of them.
    pub through: Length,
    /// Depth of the saw less the longest stub that goes into it: negative where the stub meets the saw's bottom first.
    pub bottom: Length,
    /// Depth of the saw less the way through all stays: negative where the first stub must be shaken out before the saw
    /// goes on to the next stay.
    pub all_stubs: Length,
    /// Travel of the spindle, or of the table along it, less the stroke.
    pub travel: Length,
}

impl Stroke {
    /// The stroke of a saw of `diameter` through the ends that are cut together; `None` where none of them is round or
    /// none is met.
    pub fn new(plan: &Plan, shop: &Shop, cuts: &[CutAt], diameter: Length) -> Option<Self> {
        let radius = diameter.mm() / 2.0;
        let first = cuts.first()?;
        let axis = cutter_axis(plan, *first, first.cut(plan).round()?, shop.mill.side_to_spindle);
        let stays: Vec<(CutAt, Placed)> = cuts.iter().map(|at| (*at, Placed::new(plan, *at))).collect();
        let spans = stays.iter().filter_map(|(at, stay)| span(stay, &axis, radius, at.at_front));
        let (low, high) = spans.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))?;
        let stubs = stays.iter().filter_map(|(_, stay)| stub_extent(stay, &axis, radius));
        let body = &shop.mill.body;
        Some(Self {
            axis,
            radius,
            cuts: cuts.to_vec(),
            low,
            high,
            teeth_at_end: low - body.run_out.mm(),
            teeth_at_start: high + body.run_in.mm(),
            stub: stubs.map(Length::mm).fold(0.0, f64::max),
        })
    }

    /// How far the saw goes.
    pub fn length(&self) -> Length {
        Length::from_mm(self.teeth_at_start - self.teeth_at_end)
    }

    /// Whether a saw gets through.
    pub fn reach(&self, shop: &Shop, saw: &HoleSaw) -> Reach {
        let through = self.high - self.teeth_at_end;
        let (depth, arbor) = (saw.size.depth.mm(), saw.arbor.reach.mm());
        let [.., z] = shop.mill.axes;
        Reach {
            through: Length::from_mm(depth + arbor - through),
            bottom: Length::from_mm(depth - self.stub),
            all_stubs: Length::from_mm(depth - through.max(self.stub)),
            travel: z.travel - self.length(),
        }
    }
}

/// Smallest and largest station, along the cutter's axis, of one stay's cut.
fn span(stay: &Placed, axis: &Line, radius: f64, at_front: bool) -> Option<(f64, f64)> {
    let second = stay.axis.direction.cross(&stay.first);
    let body = Generators { axis: stay.axis, first: stay.first, second, outline: &stay.outline };
    let keep = if at_front { Keep::Largest } else { Keep::Smallest };
    Edge::new(body, &Cylinder { axis: *axis, radius }, keep).extent(axis)
}

/// How far the table goes for a set of cuts in one stand of the fixture, against the travels there are; negative where
/// the figure is missing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TableRoom {
    /// From the furthest forward to the furthest back place of the spindle, the touch among them.
    pub along: Length,
    /// The same across.
    pub across: Length,
    /// What the travel along leaves.
    pub along_left: Length,
    /// What the travel across leaves.
    pub across_left: Length,
}

/// The room that the table needs for the round cuts at `cuts`, which must share one stand of the fixture, from its
/// touches to each of them.
pub fn table_room(plan: &Plan, shop: &Shop, cuts: &[CutAt]) -> TableRoom {
    let settings = cuts.iter().filter_map(|at| at.cut(plan).round()).map(|cut| cut.setting);
    let places: Vec<(f64, f64)> =
        settings.map(|setting| (setting.along_spindle.mm(), setting.across_spindle.mm())).collect();
    let extent = |of: fn(&(f64, f64)) -> f64| {
        let low = places.iter().map(of).fold(0.0, f64::min);
        let high = places.iter().map(of).fold(0.0, f64::max);
        Length::from_mm(high - low)
    };
    let (along, across) = (extent(|place| place.0), extent(|place| place.1));
    let travel = |axis| shop.mill.readout(axis).0.travel;
    TableRoom {
        along,
        across,
        along_left: travel(shop.mill.lies_along) - along,
        across_left: travel(shop.mill.lies_across()) - across,
    }
}
