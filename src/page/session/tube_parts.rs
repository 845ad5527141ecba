//! What a tube has more than a plain one: bends, butts and ovals, added one by one with figures to start from.

use staywright::model::{Bend, Bends, Butt, Press, Tube};
use staywright::units::{Angle, Length};

/// A list of a tube.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TubeParts {
    /// Its bends.
    Bends,
    /// The stations of its wall.
    Butts,
    /// Its oval stretches.
    Ovals,
}

impl TubeParts {
    /// All lists, in the order they are offered.
    pub const ALL: [Self; 3] = [Self::Bends, Self::Butts, Self::Ovals];

    /// The key in a path of the job.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Bends => "bends",
            Self::Butts => "butts",
            Self::Ovals => "ovals",
        }
    }

    /// What one of them is called.
    pub const fn one(self) -> &'static str {
        match self {
            Self::Bends => "bend",
            Self::Butts => "butt station",
            Self::Ovals => "oval",
        }
    }

    /// How many a tube has.
    pub fn count(self, tube: &Tube) -> usize {
        match self {
            Self::Bends => tube.bends.list.len(),
            Self::Butts => tube.butts.list.len(),
            Self::Ovals => tube.ovals.list.len(),
        }
    }

    /// Whether a tube may have no more.
    pub fn is_full(self, tube: &Tube) -> bool {
        match self {
            Self::Bends => tube.bends.list.is_full(),
            Self::Butts => tube.butts.list.is_full(),
            Self::Ovals => tube.ovals.list.is_full(),
        }
    }

    /// Puts one more behind the others.
    pub fn add(self, tube: &mut Tube) {
        // A full list stays as it is.
        let _ = match self {
            Self::Bends => {
                let bend = next_bend(tube);
                tube.bends.roll = tube.bends.roll.or(Some(Angle::from_degrees(0.0)));
                tube.bends.list.push(bend).is_ok()
            }
            Self::Butts => tube.butts.list.push(next_butt(tube)).is_ok(),
            Self::Ovals => tube.ovals.list.push(next_oval(tube)).is_ok(),
        };
    }

    /// Takes one out. A tube without bends is straight: it has no roll, and nothing to find.
    pub fn remove(self, tube: &mut Tube, index: usize) {
        match self {
            Self::Bends => {
                tube.bends.list.remove(index);
                if tube.bends.list.is_empty() {
                    tube.bends = Bends::default();
                }
            }
            Self::Butts => tube.butts.list.remove(index),
            Self::Ovals => tube.ovals.list.remove(index),
        }
    }
}

/// A bend back from the one before, where there still is tube for it: the second makes an S.
fn next_bend(tube: &Tube) -> Bend {
    let taken = |bend: &Bend| bend.before.mm() + bend.radius.mm() * bend.angle.radians();
    let free = tube.length.mm() - tube.bends.list.iter().map(taken).sum::<f64>();
    let start = Bend::default();
    let turn = if tube.bends.list.is_empty() { 0.0 } else { 180.0 };
    Bend {
        before: Length::from_mm(start.before.mm().min((0.4 * free).max(0.0).round())),
        rotation: Angle::from_degrees(turn),
        ..start
    }
}

/// The wall goes on as it is.
fn next_butt(tube: &Tube) -> Butt {
    let last = tube.butts.list.iter().next_back();
    last.map_or(Butt { wall: tube.wall, ..Butt::default() }, |last| Butt {
        at: Length::from_mm(last.at.mm() + 40.0),
        wall: last.wall,
    })
}

fn next_oval(tube: &Tube) -> Press {
    let start = Press::default();
    let Some(last) = tube.ovals.list.iter().next_back() else { return start };
    let from = last.to.mm() + last.blend.mm() + start.blend.mm();
    let long = start.to.mm() - start.from.mm();
    Press { from: Length::from_mm(from), to: Length::from_mm(from + long), ..start }
}

#[cfg(test)]
mod tests {
    use super::*;
    use staywright::model::{Job, SolveFor};

    fn faults(tube: Tube) -> usize {
        let mut job = Job::default();
        job.chainstays.right.tube = tube;
        staywright::plan::faults(&job).len()
    }

    #[test]
    fn whatever_is_added_makes_no_fault() {
        for parts in TubeParts::ALL {
            let mut tube = Tube::default();
            for count in 1..=3 {
                parts.add(&mut tube);
                assert_eq!((parts.count(&tube), faults(tube)), (count, 0), "{parts:?}");
            }
        }
    }

    #[test]
    fn two_bends_make_an_s_and_the_last_one_taken_out_leaves_a_straight_tube() {
        let mut tube = Tube::default();
        TubeParts::Bends.add(&mut tube);
        TubeParts::Bends.add(&mut tube);
        tube.bends.find = SolveFor::Both;
        let turns: Vec<f64> = tube.bends.list.iter().map(|bend| bend.rotation.degrees()).collect();
        assert_eq!(turns, [0.0, 180.0]);
        TubeParts::Bends.remove(&mut tube, 0);
        TubeParts::Bends.remove(&mut tube, 0);
        assert_eq!(tube, Tube::default());
    }

    #[test]
    fn a_full_list_takes_no_more() {
        let mut tube = Tube::default();
        for _ in 0..20 {
            TubeParts::Butts.add(&mut tube);
        }
        assert!(TubeParts::Butts.is_full(&tube));
        assert_eq!(TubeParts::Butts.count(&tube), 8);
    }
}
