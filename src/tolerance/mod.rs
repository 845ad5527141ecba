//! How far an error carries, and what the finished stays say.
//!
//! Three things stand here. An engine that carries errors through any [`Model`]: exact [`slopes`], a [`budget`] (worst
//! case and root of squares), a drawn [`sample`], [`allocations`] of a limit to the inputs, and [`least_squares`] the other way
//! round. A [`RearEnd`]: the settings of the bench as inputs, where the axle stands as results. And the [`Finished`] stays:
//! what can be read on them, what the readings say, and what mends it.
//!
//! # What is assumed of the bench
//!
//! Each stay lies in its clamp frame from the first cut to the last: along the fixture, outboard, above the stay plane.
//!
//! - Two posts hold the tube, the first and the last that it reaches, or its two reference points where it reaches fewer
//!   than two. Their spacing is set by calipers over the tubes, so a tube stouter by `δ` lies `δ/2` nearer to the centre.
//! - A cope is a cylinder about the cutter's axis. The table moves from the touched edge, square to the spindle; the axis
//!   lies where edge, tip, move, block, base and tilt really put it. A fixture turned to the spindle (`turn`) or whose
//!   centre plane is not square to it (`tilt`, on its side) is turned at the centre line, or when tilted, where the
//!   spindle meets the stay plane.
//! - One pass cuts both stays where they share clamp frame, member and saw: then one error is off for both alike.
//! - A slot or a socket leaves its dropout room, so the dummy axle places it: slide, axle height, spacer. A round dropout
//!   goes home in its cope, so the saw places it where its axis passes the stay, across the fixture the spacer.
//! - A saw of another size lets the stay go home until it first touches; see `fit`.
//! - Tubes are cylinders where they are coped.
//! - A bent tube is held where its middle line crosses the first and the last post, as high there as planned; its mark stands on
//!   the front datum line; and it is rolled until its marked side points as planned about the line between the two posts. Where
//!   it reaches fewer than two its reference points hold it. Each bend may be off by an angle of its own, in its own plane.
//!
//! # Where the axle then stands
//!
//! Every stay is pushed home on the true frame and put at its planned place, across the shell or along the seat tube. On
//! a member across the frame (shell; a square front end counts as one) it can still turn about that member and slide
//! along it; on the seat tube it can swing about the seat tube. With `P` the foot on the member, `a` the direction of the
//! cut axis and `w` the way from the foot to the dropout's middle, all as cut:
//!
//! - across the frame the cope holds the way's part `w·a`, so the dropout wants to stand `P + w·a` outboard. The axle keeps
//!   both dropouts at their planned spacing, and both chainstays give way alike: with `d` how far each wants to stand
//!   outboard of its place, the axle is off centre by `(d_right − d_left)/2`, and `d_right + d_left` is what it draws in.
//!   Seat stays are slim and follow.
//! - Seen from the side every stay reaches `ρ = √(|w|² − y²)`, `y` how far outboard of its foot the dropout stands. Each
//!   end of the axle lies at `ρ` from both its hinges: where two circles cross. Their mean gives length and drop; right
//!   less left, over the axle's length, turns the wheel along the chainstays (`square`) and square to them (`lean`), shown
//!   at the rim's diameter.
//! - A stay held off the way it was cut rocks in its cope by `asin(y/|w|) − asin(w·a/|w|)` and opens it by that times the
//!   tube's diameter, beside what the saw's size leaves.
//! - The tyre's widest place lies half of its height above the bead seat; its gap is taken in the stay plane.
//!
//! Not looked at: springing tubes, heat, what a dropout's own faces are off, the rotations between bends, ovals, and how a
//! builder shares a misfit otherwise than alike.
//!
//! # Numbers
//!
//! Errors are true figure less nominal figure, mm and degrees; results are found less planned, gaps whole. Slopes come from
//! dual numbers and are exact. A gap that is closed, and a saw of true size, have a corner there: the slope is that of
//! opening, so root of squares and mean are those of a figure that could also go below 0; the drawn sample shows it as it
//! is. Draws follow from the seed alone.

mod allocation;
mod as_cut;
mod assembly;
mod carry;
mod chance;
mod distribution;
mod errors;
mod estimate;
mod finished;
mod fit;
mod further;
mod known_errors;
mod least_squares;
mod measurand;
mod measurement;
mod mend;
mod outcome;
mod place;
mod pose;
mod rear_end;
mod sample;
mod sensitivity;
mod set_up;
mod setting;
mod systematic;
mod tip;
mod worked;

pub use allocation::{COVERAGE, ToleranceAllocation, allocations};
pub use carry::{Budget, Input, Linear, Model, Share, budget, slopes, values};
pub use chance::{chi_square_above, normal_below, normal_between};
pub use distribution::{Distribution, WORST_OF_NORMAL};
pub use estimate::{
    Agreement, BROKEN_FROM, CONTRADICTS_BELOW, Estimate, Judged, KEPT_FROM, Known, Reading, Refusal, Verdict,
};
pub use finished::{Finished, Part, Unknown};
pub use known_errors::KnownErrors;
pub use least_squares::{Observed, Solution, Uncertainty, least_squares};
pub use measurand::{AtPost, Measurand, Method};
pub use measurement::Measurement;
pub use mend::{Mend, Move, Trim};
pub use outcome::{Limit, Outcome, What};
pub use place::{Place, SettingKind};
pub use rear_end::{Carried, RearEnd};
pub use sample::{Sample, sample};
pub use sensitivity::{CutFigure, PairFigure, PlanFigure, Sensitivity, StayFigure, sensitivities};
pub use setting::Setting;
pub use systematic::SystematicError;
pub use worked::{Worked, WorkedFigure, worked_examples};
