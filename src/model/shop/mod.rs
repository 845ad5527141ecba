//! The builder's own equipment: what cutters there are, the fixture as measured, the mill, and how joints are made.
//!
//! A [`Shop`] is plain data like a job, but belongs to the builder and not to the bicycle. Its fixture carries the
//! figures of a job's `fixture` group for new jobs to start from, and so does its edge finder; once a job has them, the
//! job's own are the ones that count, and the shop adds only what a job does not say: bodies, scales and limits.

mod check;
mod cutter;
mod demo;
mod fixture;
mod lists;
mod metal;
mod mill;
mod origin;
mod process;
mod read;
mod scale;
mod walk;
mod write;

pub use cutter::{Arbor, EndMill, HoleSaw, HoleSawSize, SlittingSaw, ToothMaterial};
pub use demo::demo_shop;
pub use fixture::{AxleBody, Bed, Block, FixtureLimits, MeasuredFixture, PostBody};
pub use lists::{inch_hole_saws, metric_hole_saws, slitting_saws};
pub use metal::Metal;
pub use mill::{Axis, DroAxis, Mill, MillBody, Mounting, Speeds, SpindleWay, Toward};
pub use origin::{Origin, Sure};
pub use process::{JointGap, Process, published_processes};
pub use scale::{AngleScale, AngleScaleFigures, LengthScale, LengthScaleFigures, Sense, Shown};
pub use walk::{CUTTING, OWN_SPEED};

use crate::model::{Job, Touch};
use crate::units::{CuttingSpeed, Length};

/// A shop and what stands in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Shop {
    /// What the shop is called.
    pub name: String,
    /// The hole saws on hand.
    pub hole_saws: Vec<HoleSaw>,
    /// The slitting saws on hand.
    pub slitting_saws: Vec<SlittingSaw>,
    /// The end mills on hand.
    pub end_mills: Vec<EndMill>,
    /// The fixture.
    pub fixture: MeasuredFixture,
    /// The edge finder that a new job takes over.
    pub touch: Touch,
    /// The mill.
    pub mill: Mill,
    /// What the stays are made of.
    pub metal: Metal,
    /// The ways of joining that the builder knows, with the gaps they allow.
    pub processes: Vec<Process>,
    /// Which of them is used, by its place in the list.
    pub joined_by: usize,
    /// The builder's own cutting speeds, which win over published ones.
    pub own_speeds: Vec<(Metal, CuttingSpeed)>,
}

impl Default for Shop {
    /// A shop with the metric list of hole saws and a vertical mill, none of it measured.
    fn default() -> Self {
        Self {
            name: String::new(),
            hole_saws: metric_hole_saws(),
            slitting_saws: slitting_saws(),
            end_mills: vec![EndMill::default()],
            fixture: MeasuredFixture::default(),
            touch: Touch::default(),
            mill: Mill::default(),
            metal: Metal::ChromeMoly,
            processes: published_processes(),
            joined_by: 0,
            own_speeds: Vec::new(),
        }
    }
}

impl Shop {
    /// The way of joining that is used; `None` where the list is empty.
    pub fn process(&self) -> Option<&Process> {
        self.processes.get(self.joined_by)
    }

    /// The builder's own cutting speed for a metal.
    pub fn own_speed(&self, metal: Metal) -> Option<CuttingSpeed> {
        self.own_speeds.iter().find(|(known, _)| *known == metal).map(|(_, speed)| *speed)
    }

    /// The job as it starts in this shop: with the shop's own fixture and edge finder.
    #[must_use]
    pub fn starting(&self, job: Job) -> Job {
        Job { fixture: self.fixture.figures.clone(), touch: self.touch, ..job }
    }

    /// Takes over what other jobs are to start with.
    pub fn keep_fixture(&mut self, job: &Job) {
        (self.fixture.figures, self.touch) = (job.fixture.clone(), job.touch);
    }

    /// Whether new jobs start with another fixture or edge finder than they do without a shop.
    pub fn has_fixture(&self) -> bool {
        self.starting(Job::default()) != Job::default()
    }

    /// A plain shop as it was kept while a fixture's bed started with other figures.
    fn with_earlier_bed() -> Self {
        let mut shop = Self::default();
        (shop.fixture.bed.front, shop.fixture.bed.width) = (Length::from_mm(-40.0), Length::from_mm(60.0));
        shop
    }

    /// Whether there is nothing in it but what new jobs start with.
    pub fn is_fixture_alone(&self) -> bool {
        let is_plain = |mut plain: Self| {
            plain.keep_fixture(&self.starting(Job::default()));
            *self == plain
        };
        self.has_fixture() && [Self::default(), Self::with_earlier_bed()].into_iter().any(is_plain)
    }
}
