//! A shop from its JSON text: every fault found in one pass, nothing guessed.

use super::cutter::{Arbor, EndMill, HoleSaw, HoleSawSize, SlittingSaw, ToothMaterial};
use super::fixture::MeasuredFixture;
use super::mill::{Axis, DroAxis, Mill, Mounting, Speeds, SpindleWay, Toward};
use super::origin::{Origin, Sure};
use super::process::{JointGap, Process};
use super::scale::{AngleScale, LengthScale, Sense};
use super::walk::CUTTING;
use super::{Metal, Shop};
use crate::model::group::below;
use crate::model::reader::{Object, Reader, read_all};
use crate::model::{Fault, FileKind, Hand, Wrong};
use crate::units::{CuttingSpeed, Length, SpindleSpeed};
use serde_json::Value;

/// The shop format that this version writes. It reads this and every older one.
pub(super) const FORMAT: u64 = 1;

impl Shop {
    /// Reads a shop file. Keys left out take their defaults; a list that is given replaces the starting one.
    ///
    /// # Errors
    /// All faults found: wrong types, unknown keys, and every rule of [`Shop::faults`].
    pub fn from_json(text: &str) -> Result<Self, Vec<Fault>> {
        read_all(text, Reader::shop, Self::faults)
    }
}

impl Reader {
    fn shop(&mut self, value: &Value) -> Shop {
        let base = Shop::default();
        let mut object = self.object(String::new(), Some(value));
        self.format(&mut object, FileKind::Shop, FORMAT);
        let mut shop = Shop {
            name: self.text(&mut object, "name"),
            hole_saws: self.list(&mut object, "hole_saws", Self::hole_saw).unwrap_or(base.hole_saws),
            slitting_saws: self
                .list(&mut object, "slitting_saws", |reader, at, value| {
                    reader.one(at, value, &SlittingSaw::default())
                })
                .unwrap_or(base.slitting_saws),
            end_mills: self
                .list(&mut object, "end_mills", |reader, at, value| {
                    reader.one(at, value, &EndMill::default())
                })
                .unwrap_or(base.end_mills),
            fixture: self.measured_fixture(&mut object),
            touch: self.group(&mut object, &base.touch),
            mill: self.mill(&mut object),
            metal: self.word(&mut object, "metal", &Metal::ALL.map(|metal| (metal.key(), metal)), base.metal),
            processes: self.list(&mut object, "processes", Self::process).unwrap_or(base.processes),
            joined_by: 0,
            own_speeds: self.own_speeds(&mut object),
        };
        shop.joined_by = self.joined_by(&mut object, &shop.processes);
        self.close(&object);
        shop
    }

    fn hole_saw(&mut self, at: String, value: &Value) -> HoleSaw {
        let mut object = self.object(at, Some(value));
        let saw = HoleSaw {
            size: self.group(&mut object, &HoleSawSize::default()),
            cutting: self.maybe(&mut object, CUTTING.key).map(Length::from_mm),
            tooth: self.word(
                &mut object,
                "tooth",
                &ToothMaterial::ALL.map(|tooth| (tooth.key(), tooth)),
                ToothMaterial::default(),
            ),
            arbor: self.group(&mut object, &Arbor::default()),
        };
        self.close(&object);
        saw
    }

    /// A figure that may be missing or `null`.
    fn maybe(&mut self, object: &mut Object<'_>, key: &'static str) -> Option<f64> {
        let at = below(&object.at, key);
        match object.get(key)? {
            Value::Null => None,
            value => self.number(&at, value),
        }
    }

    fn process(&mut self, at: String, value: &Value) -> Process {
        let mut object = self.object(at, Some(value));
        let words = Sure::ALL.map(|sure| (sure.key(), sure));
        let process = Process {
            name: self.text(&mut object, "name"),
            gap: self.group(&mut object, &JointGap::default()),
            origin: Origin {
                sure: self.word(&mut object, "sure", &words, Sure::Own),
                source: self.text(&mut object, "source"),
            },
        };
        self.close(&object);
        process
    }

    /// The place of the process that is named; the first where none is.
    fn joined_by(&mut self, object: &mut Object<'_>, processes: &[Process]) -> usize {
        let Some(value) = object.get("joined_by") else { return 0 };
        let place = value.as_str().and_then(|name| processes.iter().position(|known| known.name == name));
        if place.is_none() {
            let known = processes.iter().map(|known| known.name.clone()).collect();
            self.fault("joined_by", value, Wrong::NoSuchProcess { known });
        }
        place.unwrap_or(0)
    }

    fn own_speeds(&mut self, parent: &mut Object<'_>) -> Vec<(Metal, CuttingSpeed)> {
        let key = super::walk::OWN_SPEED.key;
        let mut object = self.object(key.to_owned(), parent.get(key));
        let mut speeds = Vec::new();
        for metal in Metal::ALL {
            let speed = self.maybe(&mut object, metal.key()).map(CuttingSpeed::from_m_per_min);
            speeds.extend(speed.map(|speed| (metal, speed)));
        }
        self.close(&object);
        speeds
    }

    fn measured_fixture(&mut self, parent: &mut Object<'_>) -> MeasuredFixture {
        let base = MeasuredFixture::default();
        let mut object = self.object("fixture".to_owned(), parent.get("fixture"));
        let figures = self.fixture_keys(&mut object, base.figures.clone());
        let mut scales = self.object("fixture.scales".to_owned(), object.get("scales"));
        let fixture = MeasuredFixture {
            figures,
            bed: self.whole_group(&mut object, "bed", &base.bed),
            block: self.whole_group(&mut object, "block", &base.block),
            post: self.whole_group(&mut object, "post", &base.post),
            axle: self.whole_group(&mut object, "axle", &base.axle),
            limits: self.whole_group(&mut object, "limits", &base.limits),
            slide: self.length_scale(&mut scales, "slide"),
            axle_height: self.length_scale(&mut scales, "axle_height"),
            half_spacing: self.length_scale(&mut scales, "half_spacing"),
            tilt: self.angle_scale(&mut scales, "tilt"),
            swivel: self.angle_scale(&mut scales, "swivel"),
        };
        self.close(&scales);
        self.close(&object);
        fixture
    }

    fn length_scale(&mut self, parent: &mut Object<'_>, key: &'static str) -> LengthScale {
        let mut object = self.object(below(&parent.at, key), parent.get(key));
        let base = LengthScale::default();
        let figures = self.group(&mut object, &base.figures);
        let scale = LengthScale { figures, sense: self.sense(&mut object) };
        self.close(&object);
        scale
    }

    fn angle_scale(&mut self, parent: &mut Object<'_>, key: &'static str) -> AngleScale {
        let mut object = self.object(below(&parent.at, key), parent.get(key));
        let base = AngleScale::default();
        let figures = self.group(&mut object, &base.figures);
        let scale = AngleScale { figures, sense: self.sense(&mut object) };
        self.close(&object);
        scale
    }

    fn sense(&mut self, object: &mut Object<'_>) -> Sense {
        self.word(object, "sense", &Sense::ALL.map(|sense| (sense.key(), sense)), Sense::Rises)
    }

    fn mill(&mut self, parent: &mut Object<'_>) -> Mill {
        let base = Mill::default();
        let mut object = self.object("mill".to_owned(), parent.get("mill"));
        let mut mill = base.clone();
        mill.spindle =
            self.word(&mut object, "spindle", &SpindleWay::ALL.map(|way| (way.key(), way)), base.spindle);
        let along = [(Axis::X.key(), Axis::X), (Axis::Y.key(), Axis::Y)];
        mill.lies_along = self.word(&mut object, "fixture_along", &along, base.lies_along);
        mill.rear_toward =
            self.word(&mut object, "rear_toward", &Toward::ALL.map(|way| (way.key(), way)), base.rear_toward);
        mill.side_to_spindle = self.word(
            &mut object,
            "side_to_spindle",
            &Hand::ALL.map(|hand| (hand.key(), hand)),
            base.side_to_spindle,
        );
        mill.block_side =
            self.word(&mut object, "block_side", &Hand::ALL.map(|hand| (hand.key(), hand)), base.block_side);
        mill.mounting =
            self.word(&mut object, "mounting", &Mounting::ALL.map(|way| (way.key(), way)), base.mounting);
        let axes = [("x", 0_usize), ("y", 1), ("z", 2)];
        for ((key, _), (axis, sense)) in
            axes.into_iter().zip(mill.axes.iter_mut().zip(mill.senses.iter_mut()))
        {
            (*axis, *sense) = self.dro_axis(&mut object, key);
        }
        mill.body = self.group(&mut object, &base.body);
        mill.speeds = self.speeds(&mut object, base.speeds);
        self.close(&object);
        mill
    }

    fn dro_axis(&mut self, parent: &mut Object<'_>, key: &'static str) -> (DroAxis, Sense) {
        let mut object = self.object(below(&parent.at, key), parent.get(key));
        let axis = self.group(&mut object, &DroAxis::default());
        let sense = self.sense(&mut object);
        self.close(&object);
        (axis, sense)
    }

    fn speeds(&mut self, object: &mut Object<'_>, base: Speeds) -> Speeds {
        let slowest = self.maybe(object, "slowest_rpm");
        let fastest = self.maybe(object, "fastest_rpm");
        let key = super::walk::SPEED.key;
        let steps = self.list(object, key, |reader, at, value| {
            SpindleSpeed::from_rpm(reader.number(&at, value).unwrap_or(1.0))
        });
        match (steps, base) {
            (Some(steps), _) => {
                for (at, value) in [("mill.slowest_rpm", slowest), ("mill.fastest_rpm", fastest)] {
                    if let Some(value) = value {
                        self.fault(at, &Value::from(value), Wrong::SpeedsTwice);
                    }
                }
                Speeds::Steps(steps)
            }
            (None, Speeds::Range(low, high)) => Speeds::Range(
                slowest.map_or(low, SpindleSpeed::from_rpm),
                fastest.map_or(high, SpindleSpeed::from_rpm),
            ),
            (None, steps @ Speeds::Steps(_)) => steps,
        }
    }
}
