//! Slots: which saw, in how many passes.

use crate::model::shop::SlittingSaw;
use crate::plan::SlotCut;
use crate::units::Length;

/// Two widths closer than this are one.
const SAME: f64 = 1e-6;

/// More passes than this are no way to cut a slot.
const MOST_PASSES: f64 = 40.0;

/// A slot cut with a given saw.
#[derive(Clone, Debug, PartialEq)]
pub struct SlotPasses {
    /// The saw's place in the shop's list.
    pub saw: usize,
    /// Width of the saw's cut.
    pub width: Length,
    /// Its diameter.
    pub diameter: Length,
    /// Middle of each pass from the slot's middle, evenly about it, rising.
    pub offsets: Vec<Length>,
    /// How much further the saw could go in before its collar meets the stay's end; negative where it falls short.
    pub room: Length,
}

/// The saw that cuts a slot in the fewest passes: the widest that is not wider than the slot, and of those as wide the
/// first whose collar stays clear. `None` where all are too wide, or so thin that they would need more than 40 passes.
pub fn slot_passes(cut: &SlotCut, saws: &[SlittingSaw]) -> Option<SlotPasses> {
    let width = cut.width.mm();
    let fits = saws
        .iter()
        .enumerate()
        .filter(|(_, saw)| saw.width.mm() <= width + SAME && width / saw.width.mm() <= MOST_PASSES);
    let room = |saw: &SlittingSaw| (saw.diameter.mm() - saw.collar.mm()) / 2.0 - depth(cut);
    let (index, saw) = fits.reduce(|best, other| {
        let (wide, wider) = (best.1.width.mm(), other.1.width.mm());
        let clearer = (wide - wider).abs() <= SAME && room(best.1) < 0.0 && room(other.1) >= 0.0;
        if wider > wide + SAME || clearer { other } else { best }
    })?;
    Some(SlotPasses {
        saw: index,
        width: saw.width,
        diameter: saw.diameter,
        offsets: offsets(width, saw.width.mm()),
        room: Length::from_mm(room(saw)),
    })
}

/// Depth of the slot along the stay.
fn depth(cut: &SlotCut) -> f64 {
    (cut.mouth.mm() - cut.root.mm()).abs()
}

/// The fewest passes whose cuts meet, evenly about the middle, the outermost flush with the slot's faces.
fn offsets(slot: f64, saw: f64) -> Vec<Length> {
    let count = (slot / saw - SAME).ceil().max(1.0);
    let reach = (slot - saw).max(0.0);
    let step = if count > 1.0 { reach / (count - 1.0) } else { 0.0 };
    let first = if count > 1.0 { -reach / 2.0 } else { 0.0 };
    (0..count as u32).map(|i| Length::from_mm(first + step * f64::from(i))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(slot: f64, widths: &[f64]) -> Option<(f64, Vec<f64>)> {
        let plan = crate::plan::Plan::default();
        let crate::plan::Cut::Slot(cut) = &plan.pairs.chainstays.right.rear else { panic!("a slot") };
        let cut = SlotCut { width: Length::from_mm(slot), ..cut.clone() };
        let saw = |width: &f64| SlittingSaw { width: Length::from_mm(*width), ..SlittingSaw::default() };
        let saws: Vec<_> = widths.iter().map(saw).collect();
        let passes = slot_passes(&cut, &saws)?;
        Some((passes.width.mm(), passes.offsets.iter().map(|offset| offset.mm()).collect()))
    }

    /// By hand.
    #[test]
    fn as_few_passes_as_cover_the_slot() {
        assert_eq!(found(5.0, &[1.6, 5.0, 6.0]), Some((5.0, vec![0.0])));
        assert_eq!(found(5.0, &[1.6, 3.0]), Some((3.0, vec![-1.0, 1.0])));
        assert_eq!(found(5.0, &[2.0]), Some((2.0, vec![-1.5, 0.0, 1.5])));
        assert_eq!(found(5.0, &[2.5]), Some((2.5, vec![-1.25, 1.25])));
        assert_eq!(found(5.25, &[1.6, 5.0, 6.0]), Some((5.0, vec![-0.125, 0.125])));
        assert_eq!(found(5.0, &[6.0]), None);
        assert_eq!(found(5.0, &[0.1]), None);
        assert_eq!(found(5.0, &[]), None);
    }
}
