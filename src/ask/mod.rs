//! Questions that are answered beside the page, and their answers.
//!
//! Whatever no frame has to wait for is worked out apart from the page, by the package for JavaScript in a worker: the page neither
//! carries it nor stops for it. A [`Question`] goes there and a [`Response`] comes back, both as bytes. Jobs go as link texts. An
//! answer is in the words and the unit that the page shows; the page only sets it out.

mod check;
mod cut;
mod draw;
mod explain;
mod file;
mod findings;
mod form;
mod made_for;
mod message;
mod pad;
mod rooms;
mod setting_row;
mod shop;
mod shop_errors;
mod starting;
mod steps;
mod ways;
mod worked;

pub use check::{Carried, Checked, Found, HabitLine, Measure, ResultLine, SettingLine, ShareLine, ToCheck};
pub use cut::{CutTold, SawLine, Sentence, ToCut, Told};
pub use draw::Drawing;
pub use explain::{Explanation, Triangle};
pub use form::{Change, Edit, FormField, FormSection, Formed, Refused, Said, Subject, ToForm};
pub use made_for::MadeFor;
pub use message::{ContentId, PlanId, Responder, Response};
pub use rooms::{RoomLine, Verdict};
pub use setting_row::SettingRow;
pub use shop_errors::{Learned, ShopErrors};
pub use starting::{Source, Starting, TubeLine};
pub use steps::{Order, ReadingLine, StepLine, TiltLine, ToStep};
pub use ways::{Way, Ways};
pub use worked::{Example, ExampleFigure};

use crate::drawing::{Sheet, Viewport};
use crate::findings::Finding;
use crate::link;
use crate::model::{Hand, Job, PairName};
use crate::placement::search;
use crate::plan::{CutAt, Placements, Plan, faults};
use crate::units::LengthUnit;
use serde::{Deserialize, Serialize};
use std::rc::Rc;

/// What is asked.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Question {
    /// How errors carry, and what the finished stays say.
    Check(Box<ToCheck>),
    /// The published worked examples, done again.
    Worked,
    /// The order of work.
    Steps(ToStep),
    /// Everything that is wrong or to be looked at. The unit of lengths has no say in it.
    Findings(ToStep),
    /// One cut on the builder's own machine.
    Cut(Box<ToCut>),
    /// A form and what is done to it.
    Form(Box<ToForm>),
    /// The shop of kept bytes, to be saved.
    SaveShop(Vec<u8>),
    /// The job of a link text as it starts in a shop.
    InShop {
        /// The job, as a link text.
        job: String,
        /// The shop, as the page keeps it.
        shop: Vec<u8>,
    },
    /// A drawing.
    Draw {
        /// The job, as a link text.
        job: String,
        /// What is drawn.
        drawing: Drawing,
        /// The room it is laid out for.
        viewport: Viewport,
    },
    /// The way of a saw into its stays, drawn.
    WayIn(Box<ToCut>, Viewport),
    /// Where the figures of a cut come from.
    Explain {
        /// The job, as a link text.
        job: String,
        /// The cut.
        at: CutAt,
        /// The unit of lengths.
        unit: LengthUnit,
    },
    /// Where the tubes lie that the job of a link text leaves to the solver.
    Place(String),
    /// What clears what.
    Rooms {
        /// The job, as a link text.
        job: String,
        /// The unit of lengths.
        unit: LengthUnit,
    },
    /// What the stays of a job have room for, and what would give the room.
    Ways {
        /// The job, as a link text.
        job: String,
        /// The stay that wants room.
        stay: (PairName, Hand),
        /// The unit of lengths.
        unit: LengthUnit,
    },
    /// Tubes to start from, and where starting figures come from.
    Starting(LengthUnit),
    /// A job file's text, to be opened.
    Open(String),
    /// The job of a link text, to be saved.
    Save(String),
}

/// What comes back.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Answer {
    /// To [`Question::Check`].
    Check(Box<Checked>),
    /// To [`Question::Worked`].
    Worked(Vec<Example>),
    /// To [`Question::Steps`].
    Steps(Box<Order>),
    /// To [`Question::Findings`]: the gravest first.
    Findings(Vec<Finding>),
    /// To [`Question::Cut`].
    Cut(Box<CutTold>),
    /// To [`Question::Form`].
    Form(Box<Formed>),
    /// To [`Question::Draw`] and [`Question::WayIn`].
    Drawn(Box<Sheet>),
    /// To [`Question::Explain`].
    Explained(Vec<Explanation>),
    /// To [`Question::Place`].
    Placed(Placements),
    /// To [`Question::Rooms`]: the tightest first.
    Rooms(Vec<RoomLine>),
    /// To [`Question::Ways`].
    Ways(Box<Ways>),
    /// To [`Question::Starting`].
    Starting(Starting),
    /// To [`Question::Open`] and [`Question::InShop`]: the job as a link text.
    Opened(String),
    /// To [`Question::Open`]: what is wrong with the file.
    Refused(String),
    /// To [`Question::Save`] and [`Question::SaveShop`]: the file's text.
    Saved(String),
    /// To a question that has no answer: its job has faults.
    None,
}

fn answered(question: &Question, responder: &mut Responder) -> Answer {
    let planned = |job: &str| responder.plan(job);
    answer_about(question, planned).unwrap_or(Answer::None)
}

/// The answer; `None` where the question's job has faults.
fn answer_about(question: &Question, mut plan: impl FnMut(&str) -> Option<Rc<Plan>>) -> Option<Answer> {
    Some(match question {
        Question::Check(asked) => Answer::Check(Box::new(check::check(&*plan(&asked.job)?, asked))),
        Question::Worked => Answer::Worked(worked::examples()),
        Question::Steps(asked) => Answer::Steps(Box::new(steps::order(&*plan(&asked.job)?, asked))),
        Question::Findings(asked) => Answer::Findings(findings::findings(&*plan(&asked.job)?, asked)),
        Question::Cut(asked) => Answer::Cut(Box::new(cut::told(&*plan(&asked.job)?, asked)?)),
        Question::Form(asked) => Answer::Form(Box::new(form::formed(asked))),
        Question::SaveShop(bytes) => Answer::Saved(shop::file(bytes)),
        Question::InShop { job, shop } => Answer::Opened(shop::starting(job, shop)?),
        Question::Draw { job, drawing, viewport } => {
            Answer::Drawn(Box::new(draw::sheet(&*plan(job)?, *drawing, *viewport)))
        }
        Question::WayIn(asked, viewport) => {
            Answer::Drawn(Box::new(cut::way_in_sheet(&*plan(&asked.job)?, asked, *viewport)?))
        }
        Question::Explain { job, at, unit } => {
            Answer::Explained(explain::explanations(&*plan(job)?, *at, *unit))
        }
        Question::Place(job) => Answer::Placed(search(&faultless(job)?)),
        Question::Rooms { job, unit } => Answer::Rooms(rooms::lines(&*plan(job)?, *unit)),
        Question::Ways { job, stay, unit } => Answer::Ways(Box::new(ways::ways(&*plan(job)?, *stay, *unit)?)),
        Question::Starting(unit) => Answer::Starting(starting::starting(*unit)),
        Question::Open(text) => file::open(text).map_or_else(Answer::Refused, Answer::Opened),
        Question::Save(job) => Answer::Saved(file::text(&link::decode(job).ok()?)),
    })
}

/// The job of a link text, where it is without faults.
fn faultless(job: &str) -> Option<Job> {
    link::decode(job).ok().filter(|job| faults(job).is_empty())
}
