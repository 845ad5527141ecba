//! A new frame, asked figure by figure.

use super::Session;
use super::selection::Panel;
use leptos::prelude::*;
use staywright::model::{Boss, End, Job, PairName, Slot, Tube, starting_job};
use staywright::units::Length;

/// One thing that is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ask {
    /// The figure at a path.
    Figure(&'static str),
    /// The tubes of a pair, from a list.
    Tube(PairName),
    /// The dropouts, from a list.
    Dropouts,
}

/// All that is asked of a new frame, in order.
pub const ASKS: [Ask; 11] = [
    Ask::Figure("frame.chainstay_length_mm"),
    Ask::Figure("frame.bb_drop_mm"),
    Ask::Figure("frame.seat_angle_deg"),
    Ask::Figure("frame.axle_spacing_mm"),
    Ask::Figure("wheel.bead_seat_mm"),
    Ask::Figure("wheel.tyre_width_mm"),
    Ask::Figure("frame.shell_od_mm"),
    Ask::Figure("frame.seat_tube_od_mm"),
    Ask::Tube(PairName::Chainstays),
    Ask::Tube(PairName::Seatstays),
    Ask::Dropouts,
];

/// Dropouts to choose from: common sizes, to be measured. Common practice, no source.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Dropouts {
    /// Plates of that thickness, mm.
    Plate(f64),
    /// Round ones of that diameter and width, mm.
    Round(f64, f64),
}

/// The dropouts that are offered.
pub const DROPOUTS: [Dropouts; 5] = [
    Dropouts::Plate(4.0),
    Dropouts::Plate(5.0),
    Dropouts::Plate(6.0),
    Dropouts::Round(22.2, 16.0),
    Dropouts::Round(25.4, 18.0),
];

impl Dropouts {
    /// Puts them into all rear ends, their inner faces as far apart as the hub is wide.
    fn put(self, job: &mut Job) {
        let hub = 0.5 * job.frame.axle_spacing.mm();
        let (end, half_width, reach) = match self {
            Self::Plate(thickness) => {
                let slot = Slot { plate: Length::from_mm(thickness), ..Slot::start() };
                (End::Slot(slot), 0.5 * thickness, None)
            }
            Self::Round(diameter, width) => {
                (End::Boss(Boss { diameter: Length::from_mm(diameter) }), 0.5 * width, Some(22.0))
            }
        };
        for name in PairName::ALL {
            let side = &mut job.pair_mut(name).right;
            side.rear_end = end;
            side.rear.half_spacing = Length::from_mm(hub + half_width);
            if let Some(reach) = reach {
                side.rear.reach = Length::from_mm(reach);
            }
        }
    }
}

impl Session {
    /// Begins a new frame in place of the job that is open; it can be undone.
    pub fn begin_frame(self) {
        self.open(starting_job());
        self.panel.set(Some(Panel::NewFrame(0)));
    }

    /// Goes on to the next thing that is asked; behind the last one the frame is there.
    pub fn go_on(self, from: usize) {
        self.settle();
        let next = from + 1;
        self.panel.set((next < ASKS.len()).then_some(Panel::NewFrame(next)));
    }

    /// Takes a tube for the stays of a pair.
    pub fn take_tube(self, pair: PairName, tube: Tube) {
        self.change("tube", |job| job.pair_mut(pair).right.tube = tube);
    }

    /// Takes dropouts.
    pub fn take_dropouts(self, dropouts: Dropouts) {
        self.change("dropouts", |job| dropouts.put(job));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whatever_is_asked_is_a_figure_of_the_job() {
        let job = starting_job();
        for ask in ASKS {
            if let Ask::Figure(path) = ask {
                assert!(job.figure(path).is_some(), "{path}");
            }
        }
    }

    #[test]
    fn dropouts_stand_at_the_hub() {
        for dropouts in DROPOUTS {
            let mut job = starting_job();
            dropouts.put(&mut job);
            assert!(staywright::plan::faults(&job).is_empty(), "{dropouts:?}");
            let width = match dropouts {
                Dropouts::Plate(thickness) => thickness,
                Dropouts::Round(_, width) => width,
            };
            // Inner face to inner face is the hub's width, 142 mm.
            let inner = 2.0 * job.chainstays.right.rear.half_spacing.mm() - width;
            assert!((inner - 142.0).abs() < 1e-9, "{dropouts:?}");
        }
    }
}
