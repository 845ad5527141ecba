//! A job from its JSON text: every fault found in one pass, nothing guessed.

use super::bends::{Bend, Bends, ROLL, SolveFor};
use super::butts::{Butt, Butts};
use super::end::{CUTTER, Cope, End, EndKind, Member};
use super::fault::{Fault, FileKind, LongList, Wanted, Wrong};
use super::fixture::{Fixture, POST, TouchSide};
use super::group::{Group, below};
use super::inline_vec::InlineVec;
use super::job::{Job, PairOfStays};
use super::ovals::{Ovals, Press};
use super::pair_name::PairName;
use super::reader::{Object, Reader, read_all};
use super::side::{Hand, Side};
use super::surroundings::{Limits, MEASURED, Ring, Surroundings};
use super::tube::Tube;
use crate::units::{Angle, Length};
use serde_json::Value;

/// The job format that this version writes. It reads this and every older one.
pub const FORMAT: u64 = 1;

/// The key of what is left to the solver.
const FIND: &str = "find";

impl Job {
    /// Reads a job file. Keys left out take their defaults; a left side left out mirrors the right, and a key left
    /// out of a left side takes the right side's value.
    ///
    /// # Errors
    /// All faults found, in the order of the file: wrong types, unknown keys, and every rule of [`Job::faults`].
    pub fn from_json(text: &str) -> Result<Self, Vec<Fault>> {
        read_all(text, Reader::job, Self::faults)
    }
}

impl Reader {
    fn job(&mut self, value: &Value) -> Job {
        let base = Job::default();
        let mut object = self.object(String::new(), Some(value));
        self.format(&mut object, FileKind::Job, FORMAT);
        let job = Job {
            name: self.text(&mut object, "name"),
            notes: self.text(&mut object, "notes"),
            frame: self.whole_group(&mut object, "frame", &base.frame),
            wheel: self.whole_group(&mut object, "wheel", &base.wheel),
            chainstays: base.chainstays,
            seatstay_node: base.seatstay_node,
            seatstays: base.seatstays,
            fixture: self.fixture(&mut object),
            touch: self.group(&mut object, &base.touch),
            surroundings: self.surroundings(&mut object),
            dropouts: self.dropouts(&mut object),
        };
        let job = self.pairs(&mut object, job);
        self.close(&object);
        job
    }

    fn pairs(&mut self, parent: &mut Object<'_>, mut job: Job) -> Job {
        for name in PairName::ALL {
            let mut object = self.object(name.key().to_owned(), parent.get(name.key()));
            if name == PairName::Seatstays {
                job.seatstay_node = self.group(&mut object, &job.seatstay_node);
            }
            let dropouts = job.dropouts;
            let fitted = |hand, side: Side| dropouts.map_or(side, |dropouts| dropouts.fitted(hand, side));
            let right = self.side(&mut object, "right", &fitted(Hand::Right, name.starting_side()));
            let left_base = fitted(Hand::Left, right);
            let left = object.map.and_then(|map| map.get("left")).is_some()
                || left_base.rear_end.kind() != right.rear_end.kind();
            let left_side = self.side(&mut object, "left", &left_base);
            *job.pair_mut(name) = PairOfStays { right, left: left.then_some(left_side) };
            self.close(&object);
        }
        if let Some(dropouts) = &mut job.dropouts {
            dropouts.mark_entered(parent.map);
        }
        job
    }

    fn side(&mut self, parent: &mut Object<'_>, key: &'static str, base: &Side) -> Side {
        let mut object = self.object(below(&parent.at, key), parent.get(key));
        let mut front = self.object(below(&object.at, "front"), object.get("front"));
        let mut rear = self.object(below(&object.at, "rear"), object.get("rear"));
        let side = Side {
            front: self.group(&mut front, &base.front),
            front_end: self.end(&mut front, base.front_end),
            rear: self.group(&mut rear, &base.rear),
            rear_end: self.end(&mut rear, base.rear_end),
            tube: self.tube(&mut object, base),
        };
        self.close(&front);
        self.close(&rear);
        self.close(&object);
        side
    }

    fn tube(&mut self, parent: &mut Object<'_>, base: &Side) -> Tube {
        let mut object = self.object(below(&parent.at, "tube"), parent.get("tube"));
        let plain =
            Tube { bends: Bends::default(), butts: Butts::default(), ovals: Ovals::default(), ..base.tube };
        let figures = self.group(&mut object, &plain);
        let bends = self.bends(&mut object, &base.tube.bends);
        let butts = self.few(&mut object, "butts", &Butt::default());
        let ovals = self.few(&mut object, "ovals", &Press::default());
        let tube = Tube {
            bends,
            butts: butts.map_or(base.tube.butts, |list| Butts { list }),
            ovals: ovals.map_or(base.tube.ovals, |list| Ovals { list }),
            ..figures
        };
        self.close(&object);
        tube
    }

    fn bends(&mut self, object: &mut Object<'_>, base: &Bends) -> Bends {
        let list = self.few(object, "bends", &Bend::default());
        let start = list.map_or(*base, |list| Bends { list, ..*base });
        let roll = object.get(ROLL.key);
        let finds = SolveFor::ALL.map(|find| (find.key(), find));
        let find = self.word(object, FIND, &finds, start.find);
        if start.list.is_empty() {
            self.straight(object, roll, find);
            return Bends::default();
        }
        let given = roll.and_then(|value| self.number(&below(&object.at, ROLL.key), value));
        let roll = given.map(Angle::from_degrees).or(start.roll);
        Bends { list: start.list, roll: roll.or(Some(Angle::from_degrees(0.0))), find }
    }

    /// A straight tube lies one way only: nothing is to be turned or found.
    fn straight(&mut self, object: &mut Object<'_>, roll: Option<&Value>, find: SolveFor) {
        if let Some(roll) = roll {
            self.fault(&below(&object.at, ROLL.key), roll, Wrong::StraightWithRoll);
        }
        let asked = object.get(FIND).filter(|_| find != SolveFor::Nothing);
        if let Some(asked) = asked {
            self.fault(&below(&object.at, FIND), asked, Wrong::StraightWithFind);
        }
    }

    fn surroundings(&mut self, parent: &mut Object<'_>) -> Option<Surroundings> {
        let value = parent.get("surroundings").filter(|value| !value.is_null());
        let mut object = self.object("surroundings".to_owned(), value);
        let limits = self.whole_group(&mut object, "limits", &Limits::default());
        let measured = object.get(MEASURED.key).filter(|value| !value.is_null());
        let measured = measured.and_then(|value| self.number(&below(&object.at, MEASURED.key), value));
        let surroundings = Surroundings {
            limits,
            measured_width: measured.map(Length::from_mm),
            rings: self.few(&mut object, "chainrings", &Ring::default()).unwrap_or_default(),
            crank: self.group_if_there(&mut object, "crank"),
            sprocket: self.group_if_there(&mut object, "sprocket"),
            rotor: self.group_if_there(&mut object, "rotor"),
            posts: self.group_if_there(&mut object, "posts"),
        };
        self.close(&object);
        value.map(|_| surroundings)
    }

    /// A group that need not be there.
    fn group_if_there<G: Group<f64, Over<f64> = G> + Default>(
        &mut self,
        parent: &mut Object<'_>,
        key: &'static str,
    ) -> Option<G> {
        let there = parent.map.and_then(|map| map.get(key)).is_some_and(|value| !value.is_null());
        if there { Some(self.whole_group(parent, key, &G::default())) } else { parent.get(key).and(None) }
    }

    fn end(&mut self, parent: &mut Object<'_>, base: End) -> End {
        let mut object = self.object(below(&parent.at, "end"), parent.get("end"));
        let kinds = EndKind::ALL.map(|kind| (kind.key(), kind));
        let kind = self.word(&mut object, "kind", &kinds, base.kind());
        // Figures of another kind of end than the one it replaces start from their own defaults.
        let start = if kind == base.kind() { base } else { kind.plain(Member::Shell) };
        let end = match start {
            End::Cope(cope) => End::Cope(self.cope(&mut object, cope)),
            End::Boss(boss) => End::Boss(self.group(&mut object, &boss)),
            End::Slot(slot) => End::Slot(self.group(&mut object, &slot)),
            End::Square => End::Square,
        };
        self.close(&object);
        end
    }

    fn cope(&mut self, object: &mut Object<'_>, base: Cope) -> Cope {
        let members = Member::ALL.map(|member| (member.key(), member));
        let onto = self.word(object, "onto", &members, base.onto);
        let at = below(&object.at, CUTTER.key);
        let cutter = match object.get(CUTTER.key) {
            None => base.cutter,
            Some(Value::Null) => None,
            Some(value) => self.number(&at, value).map(Length::from_mm),
        };
        Cope { onto, cutter }
    }

    fn fixture(&mut self, parent: &mut Object<'_>) -> Fixture {
        let mut object = self.object("fixture".to_owned(), parent.get("fixture"));
        let fixture = self.fixture_keys(&mut object, Fixture::default());
        self.close(&object);
        fixture
    }

    /// The keys of a fixture, which a job and a shop have in common.
    pub(super) fn fixture_keys(&mut self, object: &mut Object<'_>, base: Fixture) -> Fixture {
        let bench = self.group(object, &base.bench);
        let posts = self.posts(object).unwrap_or(base.posts);
        let sides = [TouchSide::Front, TouchSide::Rear].map(|side| (side.key(), side));
        let touch_from = self.word(object, "touch_from", &sides, base.touch_from);
        Fixture { bench, posts, touch_from }
    }

    fn posts(&mut self, object: &mut Object<'_>) -> Option<Vec<Length>> {
        let at = below(&object.at, POST.key);
        match object.get(POST.key)? {
            Value::Array(items) => {
                let numbers: Vec<Option<f64>> = (0..)
                    .zip(items)
                    .map(|(i, item): (usize, _)| self.number(&format!("{at}[{i}]"), item))
                    .collect();
                self.posts_apart(&at, items, &numbers);
                Some(numbers.into_iter().map(|number| Length::from_mm(number.unwrap_or_default())).collect())
            }
            other => {
                self.wanted(&at, other, Wanted::ListOfNumbers);
                None
            }
        }
    }

    /// Two posts cannot stand in one place.
    fn posts_apart(&mut self, at: &str, items: &[Value], numbers: &[Option<f64>]) {
        for (i, (item, number)) in items.iter().zip(numbers).enumerate() {
            if number.is_some() && numbers.iter().take(i).any(|before| before == number) {
                self.fault(&format!("{at}[{i}]"), item, Wrong::PostTwice);
            }
        }
    }

    /// A list of objects, each from its keys or from `base`; `None` where the key is not there.
    fn few<G: Group<f64, Over<f64> = G>, const N: usize>(
        &mut self,
        parent: &mut Object<'_>,
        key: &'static str,
        base: &G,
    ) -> Option<InlineVec<G, N>> {
        let at = below(&parent.at, key);
        let value = parent.get(key)?;
        let Value::Array(items) = value else {
            self.wanted(&at, value, Wanted::ListOfObjects);
            return None;
        };
        if items.len() > N {
            self.fault(&at, value, Wrong::TooMany { list: LongList::Other, count: items.len(), most: N });
        }
        let read = items.iter().enumerate().map(|(i, item)| {
            let mut object = self.object(format!("{at}[{i}]"), Some(item));
            let group = self.group(&mut object, base);
            self.close(&object);
            group
        });
        Some(read.collect())
    }
}
