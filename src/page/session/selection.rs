//! What is selected in the drawing, how it is looked at, and what stands open over the foot of the page.

use staywright::model::PairName;

/// A part of the rear end whose figures are entered together.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum DesignPart {
    /// The triangle of shell, axle and seat tube.
    #[default]
    Frame,
    /// Bottom-bracket shell and seat tube.
    Tubes,
    /// Hub, rim and tyre.
    Wheel,
    /// The chainstays.
    Chainstays,
    /// The seat stays.
    SeatStays,
    /// Rings, crank, chain, brake.
    Drive,
}

impl DesignPart {
    /// All parts, in the order in which a frame is entered.
    pub const ALL: [Self; 6] =
        [Self::Frame, Self::Wheel, Self::Tubes, Self::Chainstays, Self::SeatStays, Self::Drive];

    /// The word on the page.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Frame => "Frame",
            Self::Tubes => "Shell and seat tube",
            Self::Wheel => "Wheel and hub",
            Self::Chainstays => "Chainstays",
            Self::SeatStays => "Seat stays",
            Self::Drive => "Drive and brake",
        }
    }

    /// The pair of stays that it is.
    pub const fn pair(self) -> Option<PairName> {
        match self {
            Self::Chainstays => Some(PairName::Chainstays),
            Self::SeatStays => Some(PairName::Seatstays),
            _ => None,
        }
    }

    /// The part that is a pair of stays.
    pub const fn of_pair(pair: PairName) -> Self {
        match pair {
            PairName::Chainstays => Self::Chainstays,
            PairName::Seatstays => Self::SeatStays,
        }
    }

    /// The part that the figure at `path` belongs to; `None` for a figure of the shop.
    pub fn of_path(path: &str) -> Option<Self> {
        let below = |group: &str| path.starts_with(group);
        if FRAME.contains(&path) {
            Some(Self::Frame)
        } else if TUBES.contains(&path) {
            Some(Self::Tubes)
        } else if below("wheel.") || WHEEL.contains(&path) || below("dropouts.") {
            Some(Self::Wheel)
        } else if below("chainstays.") {
            Some(Self::Chainstays)
        } else if below("seatstays.") {
            Some(Self::SeatStays)
        } else {
            below("surroundings.").then_some(Self::Drive)
        }
    }

    /// The figures directly of it, apart from those of stays and of the drive, which have groups of their own.
    pub const fn paths(self) -> &'static [&'static str] {
        match self {
            Self::Frame => &FRAME,
            Self::Tubes => &TUBES,
            Self::Wheel => &WHEEL,
            Self::Chainstays | Self::SeatStays | Self::Drive => &[],
        }
    }
}

const FRAME: [&str; 3] = ["frame.chainstay_length_mm", "frame.bb_drop_mm", "frame.seat_angle_deg"];
const WHEEL: [&str; 5] = [
    "frame.axle_spacing_mm",
    "frame.axle_offset_mm",
    "wheel.bead_seat_mm",
    "wheel.tyre_width_mm",
    "wheel.tyre_height_mm",
];
const TUBES: [&str; 4] =
    ["frame.shell_od_mm", "frame.shell_width_mm", "frame.seat_tube_od_mm", "frame.seat_tube_setback_mm"];

/// How the parts are looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum View {
    /// From the drive side.
    #[default]
    Side,
    /// Square to the plane of a pair of stays.
    Top,
}

impl View {
    /// All views.
    pub const ALL: [Self; 2] = [Self::Side, Self::Top];

    /// The word on the page.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Side => "Side",
            Self::Top => "Top",
        }
    }
}

/// What stands open over the foot of the page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Panel {
    /// The field of the figure at a path.
    Figure(String),
    /// What is asked of a new frame, by its place in the list.
    NewFrame(usize),
    /// The menu.
    Menu,
    /// The job: its name, other jobs, passing it on.
    Job,
}

#[cfg(test)]
mod tests {
    use super::*;
    use staywright::model::Job;

    #[test]
    fn every_figure_of_the_frame_belongs_to_one_part() {
        let job = Job::default();
        for (path, ..) in job.figures() {
            let shop = path.starts_with("fixture.") || path == "edge_finder_mm";
            assert_eq!(DesignPart::of_path(&path).is_none(), shop, "{path}");
        }
        for part in DesignPart::ALL {
            for path in part.paths() {
                assert!(job.figure(path).is_some(), "{path}");
                assert_eq!(DesignPart::of_path(path), Some(part), "{path}");
            }
        }
    }
}
