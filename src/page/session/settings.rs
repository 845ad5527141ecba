//! What is kept of how the page is used: not of the job, which the link holds.

use super::kept::{self, Kept};
use super::place::Place;
use super::shelf::Shelf;
use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use staywright::ask::ShopErrors;
use staywright::plan::CutAt;
use staywright::text::{English, Style};
use staywright::units::LengthUnit;

/// Light or dark.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Theme {
    /// As the device prefers.
    #[default]
    Device,
    /// Ink on white.
    Light,
    /// Pale lines on a deep blue ground.
    Dark,
}

impl Theme {
    /// All themes, in the order they are offered.
    pub const ALL: [Self; 3] = [Self::Device, Self::Light, Self::Dark];

    /// The word it is kept under.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Device => "device",
            Self::Light => "light",
            Self::Dark => "dark",
        }
    }

    /// The word on the page.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Device => "Auto",
            Self::Light => "Light",
            Self::Dark => "Dark",
        }
    }
}

/// How far a measured figure may be off before the page says so: the builder's own choice.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Limits {
    /// For lengths, in mm.
    pub length_mm: f64,
    /// For angles, in degrees.
    pub angle_deg: f64,
}

impl Default for Limits {
    fn default() -> Self {
        Self { length_mm: 0.5, angle_deg: 0.5 }
    }
}

impl Limits {
    fn are_sound(&self) -> bool {
        [self.length_mm, self.angle_deg].iter().all(|limit| (0.0..=100.0).contains(limit))
    }
}

/// The settings, each a signal of its own.
#[derive(Clone, Copy)]
pub struct Settings {
    /// The unit of lengths.
    pub unit: RwSignal<LengthUnit>,
    /// Which English.
    pub english: RwSignal<English>,
    /// The theme.
    pub theme: RwSignal<Theme>,
    /// The place of the page.
    pub place: RwSignal<Place>,
    /// The cut looked at.
    pub pick: RwSignal<CutAt>,
    /// The step shown at the mill; `None` when the at-the-mill view is closed.
    pub mill: RwSignal<Option<String>>,
    /// The builder's limits.
    pub limits: RwSignal<Limits>,
    /// What the builder knows of the bench.
    pub bench: RwSignal<ShopErrors>,
    /// The builder's own equipment, in bytes that the page does not look into.
    pub shop: RwSignal<Vec<u8>>,
    /// The flat for a brake mount, likewise.
    pub pad: RwSignal<Vec<u8>>,
    /// The saws that the builder has picked: cuts by their keys, and the keys of saws.
    pub picked: RwSignal<Vec<(String, String)>>,
    /// The builder's own tubes.
    pub shelf: RwSignal<Shelf>,
}

impl Settings {
    /// The settings of a first visit.
    pub fn new() -> Self {
        Self {
            unit: RwSignal::new(LengthUnit::default()),
            english: RwSignal::new(English::default()),
            theme: RwSignal::new(Theme::default()),
            place: RwSignal::new(Place::default()),
            pick: RwSignal::new(CutAt::FIRST),
            mill: RwSignal::new(None),
            limits: RwSignal::new(Limits::default()),
            bench: RwSignal::new(ShopErrors::default()),
            shop: RwSignal::new(Vec::new()),
            pad: RwSignal::new(Vec::new()),
            picked: RwSignal::new(Vec::new()),
            shelf: RwSignal::new(Shelf::default()),
        }
    }

    /// How sentences are written on the page.
    pub fn style(self) -> Style {
        Style { unit: self.unit.get(), english: self.english.get() }
    }

    /// Everything as it is kept, by key.
    pub fn written(self) -> [(&'static str, Option<String>); 12] {
        let unit = match self.unit.get() {
            LengthUnit::Millimetre => "mm",
            LengthUnit::Inch => "in",
        };
        [
            ("unit", Some(unit.to_owned())),
            ("english", Some(self.english.get().tag().to_owned())),
            ("theme", Some(self.theme.get().key().to_owned())),
            ("place", Some(self.place.get().key().to_owned())),
            ("pick", Some(self.pick.get().key())),
            ("mill", self.mill.get()),
            ("limits", Some(kept::to_text(&self.limits.get()))),
            ("bench", Some(self.bench.with(kept::to_text))),
            ("shop", Some(self.shop.with(kept::to_text))),
            ("pad", Some(self.pad.with(kept::to_text))),
            ("picked", Some(self.picked.with(kept::to_text))),
            ("shelf", Some(self.shelf.with(Shelf::to_text))),
        ]
    }

    /// Takes over what was kept; what cannot be read is left as it is. The keys of what was worked for and cannot be read.
    pub fn read(self, found: impl Fn(&str) -> Option<String>) -> Vec<&'static str> {
        match found("unit").as_deref() {
            Some("in") => self.unit.set(LengthUnit::Inch),
            Some("mm") => self.unit.set(LengthUnit::Millimetre),
            _ => {}
        }
        take(self.english, found("english").and_then(|tag| English::from_tag(&tag)));
        let theme = found("theme").and_then(|key| Theme::ALL.into_iter().find(|theme| theme.key() == key));
        take(self.theme, theme);
        take(self.place, found("place").and_then(|key| Place::from_key(&key)));
        take(self.pick, found("pick").and_then(|key| CutAt::from_key(&key)));
        take(self.mill, found("mill").map(Some));
        let mut unread = Vec::new();
        let mut keep = |key: &'static str, read: &dyn Fn(&str) -> bool| {
            if found(key).filter(|text| !text.is_empty()).is_some_and(|text| !read(&text)) {
                unread.push(key);
            }
        };
        keep("limits", &|text| taken(self.limits, kept::from_text(text).filter(Limits::are_sound)));
        keep("bench", &|text| taken(self.bench, kept::from_text(text).map(ShopErrors::sound)));
        keep("shop", &|text| taken(self.shop, kept::from_text(text)));
        keep("pad", &|text| taken(self.pad, kept::from_text(text)));
        keep("picked", &|text| taken(self.picked, kept::from_text(text)));
        keep("shelf", &|text| {
            let shelf = Shelf::from_text(text);
            let whole = shelf.to_text() == text.split_whitespace().collect::<Vec<_>>().join(" ");
            self.shelf.set(shelf);
            whole
        });
        unread
    }
}

/// Takes what was read; whether anything was.
fn taken<T: Kept + Send + Sync + 'static>(signal: RwSignal<T>, kept: Option<T>) -> bool {
    let is_read = kept.is_some();
    take(signal, kept);
    is_read
}

fn take<T: Send + Sync + 'static>(signal: RwSignal<T>, kept: Option<T>) {
    if let Some(value) = kept {
        signal.set(value);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_written_is_read_back() {
        let owner = Owner::new();
        owner.set();
        let one = Settings::new();
        one.unit.set(LengthUnit::Inch);
        one.english.set(English::American);
        one.place.set(Place::Check);
        one.limits.set(Limits { length_mm: 0.25, angle_deg: 1.0 });
        one.mill.set(Some("chainstays.both.slide".into()));
        let kept = one.written();
        let other = Settings::new();
        let read =
            other.read(|key| kept.iter().find(|(known, _)| *known == key).and_then(|(_, text)| text.clone()));
        assert_eq!((other.written(), read.len()), (kept, 0));
        let unread = other.read(|_| Some("nonsense".into()));
        assert_eq!(unread, ["limits", "bench", "shop", "pad", "picked", "shelf"]);
        assert_eq!(other.unit.get(), LengthUnit::Inch);
        assert_eq!(other.limits.get(), Limits { length_mm: 0.25, angle_deg: 1.0 });
    }
}
