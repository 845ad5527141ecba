//! Parts that come and go with signals.

use super::follow::Live;
use super::{Part, follower};
use leptos::prelude::{Owner, document, untrack};
use web_sys::Node;

/// Makes the parts that belong to a key.
type ByKey = Box<dyn Fn(&str) -> Vec<Part>>;

/// Where parts come and go: they stand before a text without words.
struct Stand {
    end: Node,
    parts: Vec<Part>,
}

impl Stand {
    fn new(parent: &Node) -> Self {
        let end: Node = document().create_text_node("").into();
        let _ = parent.append_child(&end);
        Self { end, parts: Vec::new() }
    }

    fn clear(&mut self) {
        self.parts.drain(..).for_each(Part::remove);
    }

    fn fill(&mut self, parts: Vec<Part>) {
        if let Some(parent) = self.end.parent_node() {
            for part in &parts {
                let _ = parent.insert_before(&part.0.node, Some(&self.end));
            }
        }
        self.parts = parts;
    }
}

impl Part {
    /// Parts that are made anew whenever a signal that `make` reads has changed.
    pub fn live(self, make: impl Fn() -> Vec<Self> + 'static) -> Self {
        self.live_boxed(Box::new(make))
    }

    fn live_boxed(self, make: Live<Vec<Self>>) -> Self {
        let mut stand = Stand::new(&self.0.node);
        self.keep(follower(Box::new(move || {
            stand.clear();
            stand.fill(make());
        })))
    }

    /// Parts that are made anew only when what `key` says has changed; `make` gets the key.
    pub fn by(self, key: impl Fn() -> String + 'static, make: impl Fn(&str) -> Vec<Self> + 'static) -> Self {
        self.by_boxed(Box::new(key), Box::new(make))
    }

    fn by_boxed(self, key: Live<String>, make: ByKey) -> Self {
        let mut stand = Stand::new(&self.0.node);
        let parent = Owner::current();
        // What was made lives until the next key, however often this runs in between.
        let mut made: Option<(String, Owner)> = None;
        self.keep(follower(Box::new(move || {
            let now = key();
            if made.as_ref().is_some_and(|(last, _)| *last == now) {
                return;
            }
            stand.clear();
            made = None;
            let owner = parent.as_ref().map_or_else(Owner::new, Owner::child);
            stand.fill(owner.with(|| untrack(|| make(&now))));
            made = Some((now, owner));
        })))
    }

    /// A part that is there while `on` holds.
    pub fn when(self, on: impl Fn() -> bool + 'static, make: impl Fn() -> Self + 'static) -> Self {
        self.by_boxed(
            Box::new(move || if on() { "on".to_owned() } else { String::new() }),
            Box::new(move |key| if key.is_empty() { Vec::new() } else { vec![make()] }),
        )
    }
}
