//! A job as its JSON text.

use super::dropout::{Dropout, DropoutKind};
use super::dropouts::Dropouts;
use super::end::End;
use super::fixture::TouchSide;
use super::group::Group;
use super::job::Job;
use super::pair_name::PairName;
use super::read::FORMAT;
use super::side::{Hand, Side};
use super::tube::Tube;
use serde_json::{Map, Value, json};

impl Job {
    /// The job file, every key written, which [`Job::from_json`] reads back to the same job.
    pub fn to_json(&self) -> Value {
        let mut root = json!({ "format": FORMAT, "name": self.name, "notes": self.notes });
        if self.surroundings.is_some() {
            put(&mut root, "surroundings", json!({}));
        }
        self.each("", &mut |path, _, value| {
            if !path.ends_with(']') && !self.is_derived(path) {
                put(&mut root, path, Value::from(value));
            }
        });
        let posts: Vec<f64> = self.fixture.posts.iter().map(|post| post.mm()).collect();
        put(&mut root, "fixture.posts_u_mm", Value::from(posts));
        if self.fixture.touch_from != TouchSide::default() {
            put(&mut root, "fixture.touch_from", Value::from(self.fixture.touch_from.key()));
        }
        for name in PairName::ALL {
            let pair = self.pair(name);
            put_side(&mut root, name, Hand::Right, &pair.right);
            if let Some(left) = &pair.left {
                put_side(&mut root, name, Hand::Left, left);
                put_empty_lists(&mut root, name, &pair.right.tube, &left.tube);
            }
        }
        if let Some(dropouts) = &self.dropouts {
            put_dropouts(&mut root, dropouts);
        }
        root
    }
}

/// What the walk over the figures leaves out: kinds, and optional angles that a left part would else take from the right one.
fn put_dropouts(root: &mut Value, dropouts: &Dropouts) {
    for (hand, part) in [(Hand::Right, Some(dropouts.right)), (Hand::Left, dropouts.left)] {
        let Some(part) = part else { continue };
        let at = format!("dropouts.{}", hand.key());
        put(root, &format!("{at}.kind"), Value::from(part.kind().key()));
        if part.tabs().is_none() && part.kind() != DropoutKind::Round {
            put(root, &format!("{at}.tabs_deg"), Value::Null);
        }
        if let Dropout::Socket(socket) = part {
            for pair in PairName::ALL {
                if socket.tab(pair).splay.is_none() {
                    let tab = if pair == PairName::Chainstays { "chainstay" } else { "seatstay" };
                    put(root, &format!("{at}.{tab}.splay_deg"), Value::Null);
                }
            }
        }
    }
}

fn put_side(root: &mut Value, name: PairName, hand: Hand, side: &Side) {
    let at = format!("{}.{}", name.key(), hand.key());
    if !side.tube.bends.list.is_empty() {
        put(root, &format!("{at}.tube.find"), Value::from(side.tube.bends.find.key()));
    }
    for (place, end) in [("front", side.front_end), ("rear", side.rear_end)] {
        put(root, &format!("{at}.{place}.end.kind"), Value::from(end.kind().key()));
        if let End::Cope(cope) = end {
            put(root, &format!("{at}.{place}.end.onto"), Value::from(cope.onto.key()));
            if cope.cutter.is_none() {
                // Written out, since a left side without the key would take the right side's cutter.
                put(root, &format!("{at}.{place}.end.cutter_mm"), Value::Null);
            }
        }
    }
}

/// An empty list is written out where a left side without the key would take the right side's.
fn put_empty_lists(root: &mut Value, name: PairName, right: &Tube, left: &Tube) {
    let lists = [
        ("bends", right.bends.list.is_empty(), left.bends.list.is_empty()),
        ("butts", right.butts.list.is_empty(), left.butts.list.is_empty()),
        ("ovals", right.ovals.list.is_empty(), left.ovals.list.is_empty()),
    ];
    for (key, right, left) in lists {
        if left && !right {
            put(root, &format!("{}.left.tube.{key}", name.key()), json!([]));
        }
    }
}

/// Puts `value` at a dotted path, making the objects and lists on the way.
fn put(root: &mut Value, path: &str, value: Value) {
    let mut here = root;
    for key in path.split('.') {
        let (key, place) = key.trim_end_matches(']').split_once('[').unwrap_or((key, ""));
        if !here.is_object() {
            *here = Value::Object(Map::new());
        }
        here = &mut here[key];
        if let Ok(place) = place.parse::<usize>() {
            here = item(here, place);
        }
    }
    *here = value;
}

/// The item of a list at `place`, put there where the list ends before.
fn item(list: &mut Value, place: usize) -> &mut Value {
    if !list.is_array() {
        *list = json!([]);
    }
    if let Value::Array(items) = list
        && items.len() <= place
    {
        items.resize(place + 1, Value::Null);
    }
    &mut list[place]
}
