//! The dropouts of a job, and which figures of its stays are entered beside them.

use super::dropout::{Dropout, DropoutBody, DropoutKind, TABS, Tabbed};
use super::dropout_tabs::{PLUG_SPLAY, PlateTab, Socket};
use super::dropouts::{Derived, Dropouts, Entered};
use super::end::Member;
use super::fault::Wrong;
use super::group::{Spec, below};
use super::pair_name::PairName;
use super::reader::{Object, Reader};
use super::side::{Hand, Side};
use crate::units::Angle;
use serde_json::{Map, Value};

/// Keys without a default: a part is measured.
const BODY_NEEDS: &[&str] = &["thickness_mm"];
const PLATE_TAB_NEEDS: &[&str] = &["distance_mm", "depth_mm", "overhang_mm"];
const SOCKET_NEEDS: &[&str] = &["distance_mm", "plug_od_mm"];
const ROUND_NEEDS: &[&str] = &["od_mm", "width_mm"];

impl Reader {
    pub(super) fn dropouts(&mut self, parent: &mut Object<'_>) -> Option<Dropouts> {
        let value = parent.get("dropouts").filter(|value| !value.is_null())?;
        let mut object = self.object("dropouts".to_owned(), Some(value));
        let right = self.dropout(&mut object, "right", None);
        let has_left = object.map.and_then(|map| map.get("left")).is_some_and(|left| !left.is_null());
        let left = if has_left {
            Some(self.dropout(&mut object, "left", Some(right)))
        } else {
            object.get("left").and(None)
        };
        self.close(&object);
        Some(Dropouts::new(right, left))
    }

    /// A part; keys left out of a left one of the right one's kind take the right one's figures.
    fn dropout(&mut self, parent: &mut Object<'_>, key: &'static str, base: Option<Dropout>) -> Dropout {
        let mut object = self.object(below(&parent.at, key), parent.get(key));
        let kinds = DropoutKind::ALL.map(|kind| (kind.key(), kind));
        if base.is_none() {
            self.needs(&object, &["kind"]);
        }
        let start = base.map_or(DropoutKind::Plate, |base| base.kind());
        let kind = self.word(&mut object, "kind", &kinds, start);
        let same = base.filter(|base| base.kind() == kind);
        let fresh = same.is_none();
        let dropout = match same.unwrap_or_else(|| kind.plain()) {
            Dropout::Plate(part) => Dropout::Plate(self.tabbed(&mut object, &part, fresh, Self::plate_tab)),
            Dropout::Socket(part) => Dropout::Socket(self.tabbed(&mut object, &part, fresh, Self::socket)),
            Dropout::Round(part) => {
                if fresh {
                    self.needs(&object, ROUND_NEEDS);
                }
                Dropout::Round(self.group(&mut object, &part))
            }
        };
        self.close(&object);
        dropout
    }

    fn tabbed<S: Copy>(
        &mut self,
        object: &mut Object<'_>,
        base: &Tabbed<DropoutBody, Angle, S>,
        fresh: bool,
        tab: impl Fn(&mut Self, &mut Object<'_>, &S, bool) -> S,
    ) -> Tabbed<DropoutBody, Angle, S> {
        if fresh {
            self.needs(object, BODY_NEEDS);
        }
        let mut read = |reader: &mut Self, key: &'static str, base: &S| {
            let mut inner = reader.object(below(&object.at, key), object.get(key));
            let read = tab(reader, &mut inner, base, fresh);
            reader.close(&inner);
            read
        };
        let chainstay = read(self, "chainstay", &base.chainstay);
        let seatstay = read(self, "seatstay", &base.seatstay);
        let body = self.group(object, &base.body);
        Tabbed { body, tabs: self.angle_if_there(object, &TABS, base.tabs), chainstay, seatstay }
    }

    fn plate_tab(&mut self, object: &mut Object<'_>, base: &PlateTab, fresh: bool) -> PlateTab {
        if fresh {
            self.needs(object, PLATE_TAB_NEEDS);
        }
        self.group(object, base)
    }

    fn socket(&mut self, object: &mut Object<'_>, base: &Socket, fresh: bool) -> Socket {
        if fresh {
            self.needs(object, SOCKET_NEEDS);
        }
        let figures = self.group(object, &base.figures);
        Socket { figures, splay: self.angle_if_there(object, &PLUG_SPLAY, base.splay) }
    }

    /// An angle that need not be there; `null` takes it away.
    fn angle_if_there(
        &mut self,
        object: &mut Object<'_>,
        spec: &'static Spec,
        base: Option<Angle>,
    ) -> Option<Angle> {
        match object.get(spec.key) {
            None => base,
            Some(Value::Null) => None,
            Some(value) => self.number(&below(&object.at, spec.key), value).map(Angle::from_degrees),
        }
    }

    /// A fault for each of these keys that is not there.
    fn needs(&mut self, object: &Object<'_>, keys: &[&str]) {
        for key in keys {
            if object.map.and_then(|map| map.get(*key)).is_none() {
                self.fault(&below(&object.at, key), &Value::Null, Wrong::Missing);
            }
        }
    }
}

impl Dropouts {
    /// Marks what the stays of a job file say beside its dropouts.
    pub(super) fn mark_entered(&mut self, file: Option<&Map<String, Value>>) {
        for name in PairName::ALL {
            for hand in Hand::ALL {
                let stay = file.and_then(|file| file.get(name.key())).and_then(|pair| pair.get(hand.key()));
                self.set_entered(name, hand, entered(stay));
            }
        }
    }

    /// The side with a rear end of the kind that its dropout needs.
    pub(super) fn fitted(&self, hand: Hand, side: Side) -> Side {
        let needed = self.side(hand).kind().end_kind();
        let fits = side.rear_end.kind() == needed;
        Side { rear_end: if fits { side.rear_end } else { needed.plain(Member::Shell) }, ..side }
    }
}

/// The derived figures that a stay of the file says itself.
fn entered(stay: Option<&Value>) -> Entered {
    let has = |figure| has_value(stay, figure);
    Derived::ALL.into_iter().fold(Entered::default(), |all, figure| all.with(figure, has(figure)))
}

fn has_value(stay: Option<&Value>, figure: Derived) -> bool {
    let found = stay.and_then(|stay| figure.key().split('.').try_fold(stay, |value, key| value.get(key)));
    found.is_some()
}
