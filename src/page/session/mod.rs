//! The one session of the page: what was entered as signals, everything that follows from it as memos.
//!
//! Nothing here knows the browser.

mod answered;
pub mod checks;
pub mod cut_facts;
mod equipment;
pub mod figure_entry;
mod findings;
pub mod follow;
pub mod forms;
pub mod guide;
mod history;
pub mod job_file;
pub mod kept;
pub mod lay_facts;
mod moves;
mod notebook;
pub mod pair_facts;
pub mod place;
pub mod qr;
mod question;
mod records;
mod room_answers;
pub mod selection;
mod settings;
pub mod shelf;
pub mod tube_parts;

pub use answered::Answered;
pub use equipment::Equipment;
pub use follow::Follow;
pub use history::History;
pub use moves::Moves;
pub use question::{Answers, Card, LastOrder};
pub use records::{Records, Tick};
pub use room_answers::RoomAnswers;
pub use settings::{Limits, Settings, Theme};

pub use findings::Findings;
use follow::{Searched, Shared};
use leptos::prelude::*;
use notebook::Lineage;
use selection::{DesignPart, Panel, View};
use staywright::ask::{Checked, Order};
use staywright::model::Job;
use staywright::text::entry::{Understood, understand};
use staywright::units::LengthUnit;

/// The text of a field that could not be taken over, and why.
#[derive(Clone, Debug, PartialEq)]
pub struct Faulty {
    /// The figure's path.
    pub path: String,
    /// As it was typed.
    pub text: String,
    /// A sentence for the person who typed it.
    pub message: String,
    /// What the figure is called.
    pub name: String,
}

/// What the page says once at its top.
#[derive(Clone, Debug, PartialEq)]
pub struct Notice {
    /// The sentence.
    pub text: String,
    /// Whether something went wrong.
    pub bad: bool,
}

/// All of the page's state. Copied freely: its parts are handles.
#[derive(Clone, Copy)]
pub struct Session {
    job: RwSignal<Job>,
    history: RwSignal<History<Job>>,
    last_edit: StoredValue<String>,
    /// What is kept of how the page is used.
    pub settings: Settings,
    /// Ticks and measured figures.
    pub records: RwSignal<Records>,
    /// Texts that could not be taken over.
    pub faulty: RwSignal<Vec<Faulty>>,
    /// The part that is selected.
    pub part: RwSignal<DesignPart>,
    /// How the parts are looked at.
    pub view: RwSignal<View>,
    /// Whether nothing was ever entered here: the page then says what it is for.
    pub is_first_visit: RwSignal<bool>,
    /// What stands open over the foot of the page.
    pub panel: RwSignal<Option<Panel>>,
    /// The figure that is touched: it lights up in the list and in the drawing.
    pub lit: RwSignal<Option<String>>,
    /// What is answered on errors and finished stays of the plan in view; `None` while it is worked out.
    pub checked: Memo<Option<Shared<Checked>>>,
    /// The order of work of the plan in view; `None` while it is worked out.
    pub order: Memo<Option<Shared<Order>>>,
    /// What is wrong, or to be looked at.
    pub findings: Findings,
    /// The answers that these are of.
    pub answers: Answers,
    /// The result of which it tells how errors carry to it.
    pub result: RwSignal<String>,
    /// Whether the set-up card is wanted.
    pub card: RwSignal<Card>,
    /// What got no answer, though it was asked twice.
    pub silent: RwSignal<Vec<&'static str>>,
    /// How often all that got no answer was asked again.
    pub asked_again: RwSignal<u32>,
    /// Ticks that were cleared last, until they are brought back or others are made.
    pub cleared: RwSignal<Vec<Tick>>,
    lineage: StoredValue<Lineage>,
    /// What is kept on this device and cannot be read, by the name of its key.
    pub unread: RwSignal<Vec<String>>,
    /// Where tubes lie that leave it to the solver, as last answered, and the job that this is of.
    pub placed: RwSignal<Searched>,
    /// What is known of room, tubes and sources.
    pub room: RoomAnswers,
    /// What is said at the top.
    pub notice: RwSignal<Option<Notice>>,
    /// Why the link pasted last was not opened, told at its field.
    pub refused_link: RwSignal<Option<String>>,
    /// The builder's own equipment.
    pub equipment: Equipment,
    /// Everything that follows from the job.
    pub follow: Follow,
}

impl Session {
    /// A session that starts with `job`, in the browser's history at number `at`.
    pub fn new(job: Job, at: u32) -> Self {
        let history = RwSignal::new(History::new(at, job.clone()));
        let job = RwSignal::new(job);
        let placed = RwSignal::new(Searched::default());
        let records = RwSignal::new(Records::default());
        let settings = Settings::new();
        let follow = Follow::new(job, placed);
        let answers = Answers::new(follow, settings);
        Self {
            job,
            history,
            last_edit: StoredValue::new(String::new()),
            settings,
            equipment: Equipment::new(follow, settings),
            records,
            faulty: RwSignal::new(Vec::new()),
            part: RwSignal::new(DesignPart::default()),
            view: RwSignal::new(View::default()),
            is_first_visit: RwSignal::new(false),
            panel: RwSignal::new(None),
            lit: RwSignal::new(None),
            checked: answers.checked.now(),
            order: answers.order.now(),
            findings: Findings::new(follow, settings),
            answers,
            result: RwSignal::new("off-centre".to_owned()),
            card: RwSignal::new(Card::Away),
            silent: RwSignal::new(Vec::new()),
            asked_again: RwSignal::new(0),
            cleared: RwSignal::new(Vec::new()),
            lineage: StoredValue::new(Lineage::default()),
            unread: RwSignal::new(Vec::new()),
            notice: RwSignal::new(None),
            refused_link: RwSignal::new(None),
            placed,
            room: RoomAnswers::new(follow, settings),
            follow,
        }
    }

    /// The session of this page.
    pub fn here() -> Self {
        expect_context()
    }

    /// The job as it was entered, faults and all.
    pub fn job(self) -> ReadSignal<Job> {
        self.job.read_only()
    }

    /// The history, to follow where it stands.
    pub fn history(self) -> ReadSignal<History<Job>> {
        self.history.read_only()
    }

    /// The number that the history stands at.
    pub fn at(self) -> u32 {
        self.history.with_untracked(History::at)
    }

    /// Forgets what settled behind number `last`, of which no entry was written.
    pub fn forget_after(self, last: u32) {
        if self.at() > last {
            self.history.update(|history| history.forget_after(last));
        }
    }

    /// Changes the job. Edits under the same `key`, one after another, are undone as one.
    pub fn edit(self, key: &str, change: impl FnOnce(&mut Job)) {
        if self.last_edit.with_value(|last| last != key) {
            self.settle();
            self.last_edit.set_value(key.to_owned());
        }
        self.job.update(change);
    }

    /// The job as it is entered.
    pub fn entered(self) -> Job {
        self.job.get_untracked()
    }

    /// Changes the job at one stroke: one state of the history.
    pub fn change(self, key: &str, change: impl FnOnce(&mut Job)) {
        self.edit(key, change);
        self.settle();
    }

    /// The job's name, or what stands for one; the last good one while what is typed cannot be taken.
    pub fn title(self) -> String {
        let title =
            |job: &Job| if job.name.is_empty() { "Untitled job".to_owned() } else { job.name.clone() };
        if self.follow.fault_at("name").is_some() {
            return self.follow.plan.with(|plan| title(&plan.job));
        }
        self.job.with(title)
    }

    /// What is wrong with the figure or text at `path`, in the words and the unit of the page.
    pub fn fault_words(self, path: &str) -> Option<String> {
        let fault = self.follow.fault_at(path)?;
        Some(staywright::text::fault_message(&fault, self.settings.style()))
    }

    /// The names of the fields that the last good plan does not follow.
    pub fn not_followed(self) -> Vec<String> {
        let mut names: Vec<String> =
            self.faulty.with(|list| list.iter().map(|faulty| faulty.name.clone()).collect());
        self.follow.faults.with(|faults| {
            for fault in faults {
                let known = self.follow.figure(&fault.field).map(|(spec, _)| spec.name.to_owned());
                let name = known.unwrap_or_else(|| staywright::model::place_name(&fault.field));
                if !names.contains(&name) {
                    names.push(name);
                }
            }
        });
        names
    }

    /// Sets one figure.
    pub fn set_figure(self, path: &str, value: f64) {
        self.forgive(path);
        if path.ends_with(".roll_deg") {
            self.take_place(path);
        }
        if untrack(|| self.follow.figure(path)).is_some_and(|(_, old)| old != value) {
            self.edit(path, |job| *job = job.with_figure(path, value));
        }
    }

    /// Selects a part; a pair of stays is then the one that is looked at.
    pub fn select(self, part: DesignPart) {
        if let Some(pair) = part.pair() {
            self.settings.pick.update(|pick| pick.pair = pair);
        }
        self.part.set(part);
    }

    /// Opens the field of the figure at `path`, with the part that it belongs to.
    pub fn open_figure(self, path: &str) {
        if untrack(|| self.follow.figure(path)).is_none() {
            return;
        }
        if let Some(part) = DesignPart::of_path(path) {
            self.select(part);
        }
        self.lit.set(Some(path.to_owned()));
        self.panel.set(Some(Panel::Figure(path.to_owned())));
    }

    /// Closes what stands open over the foot of the page.
    pub fn close_panel(self) {
        self.settle();
        self.panel.set(None);
    }

    /// Closes the field of a figure that has gone with what it belonged to.
    pub fn close_what_is_gone(self) {
        let is_gone = |panel: &Option<Panel>| match panel {
            Some(Panel::Figure(path)) => self.follow.figure(path).is_none(),
            _ => false,
        };
        if self.panel.with(is_gone) {
            self.panel.set(None);
        }
    }

    /// Notes that the text of a figure's field cannot be taken over; the job keeps its last good figure.
    pub fn refuse(self, faulty: Faulty) {
        self.faulty.update(|list| {
            list.retain(|known| known.path != faulty.path);
            list.push(faulty);
        });
    }

    /// The text of a figure's field that could not be taken over.
    pub fn refused(self, path: &str) -> Option<Faulty> {
        self.faulty.with(|list| list.iter().find(|known| known.path == path).cloned())
    }

    /// Changes the unit of lengths. A text that could not be taken over is read anew: it may be a figure in this unit.
    pub fn set_unit(self, unit: LengthUnit) {
        self.settings.unit.set(unit);
        for Faulty { path, text, .. } in self.faulty.get_untracked() {
            self.type_in(&path, text);
        }
    }

    /// Takes the text of a figure's field: sets the figure, or notes why not. What was understood.
    pub fn type_in(self, path: &str, text: String) -> Option<Understood> {
        let (spec, _) = untrack(|| self.follow.figure(path))?;
        match understand(&text, spec, self.settings.unit.get_untracked()) {
            Ok(read) => {
                self.set_figure(path, read.value);
                Some(read)
            }
            Err(message) => {
                self.refuse(Faulty { path: path.to_owned(), text, message, name: spec.name.to_owned() });
                None
            }
        }
    }

    /// Takes back what [`Session::refuse`] noted.
    pub fn forgive(self, path: &str) {
        if untrack(|| self.refused(path)).is_some() {
            self.faulty.update(|list| list.retain(|known| known.path != path));
        }
    }

    /// Puts another job in place of this one; it can be undone. What stands open was of the other one.
    pub fn open(self, job: Job) {
        self.panel.set(None);
        self.is_first_visit.set(false);
        self.settle();
        self.faulty.set(Vec::new());
        self.last_edit.set_value(String::new());
        self.job.set(job);
        self.settle();
        let at = self.at();
        self.lineage.update_value(|lineage| lineage.begin(at));
        self.cleared.set(Vec::new());
    }

    /// Takes the readings that came with a link: they belong to the job that is open.
    pub fn take_readings(self, readings: &[(String, String)]) {
        for (check, text) in readings {
            self.measure(check, text);
        }
    }

    /// What was measured for this job, as it was typed, by the name of its figure.
    pub fn all_measured(self) -> Vec<(String, String)> {
        untrack(|| self.readings_as_typed())
    }

    /// Makes the job as it stands one state of the history. A job with faults waits for its mending.
    pub fn settle(self) {
        self.last_edit.set_value(String::new());
        let job = self.job.get_untracked();
        let same = self.history.with_untracked(|history| history.present() == Some(&job));
        if !same && staywright::plan::faults(&job).is_empty() {
            self.history.update(|history| {
                history.settle(&job);
            });
        }
    }

    /// Takes back what has not settled: faulty texts, or a job with faults. Whether there was any.
    pub fn take_back(self) -> bool {
        if self.faulty.with_untracked(|list| !list.is_empty()) {
            self.faulty.set(Vec::new());
            return true;
        }
        let settled = self.history.with_untracked(|history| history.present().cloned());
        match settled {
            Some(job) if job != self.job.get_untracked() => {
                self.job.set(job);
                true
            }
            _ => false,
        }
    }

    /// Goes to a state of the history; `read` finds it where it is not remembered. Whether it was found.
    pub fn go(self, at: u32, read: impl FnOnce() -> Option<Job>) -> bool {
        let from = self.at();
        self.lineage.update_value(|lineage| lineage.go(from, at));
        let known = self.history.try_update(|history| history.go(at).cloned()).flatten();
        let Some(job) = known.or_else(read) else { return false };
        self.history.update(|history| history.amend(job.clone()));
        self.faulty.set(Vec::new());
        self.last_edit.set_value(String::new());
        self.job.set(job);
        true
    }

    /// Goes one state back or on from memory. Where nothing is remembered there, undo ends here.
    pub fn remember(self, on: bool) -> bool {
        let next = self.history.with_untracked(|history| history.beside(on));
        match next {
            Some(at) => self.go(at, || None),
            None => {
                if !on {
                    self.history.update(History::end_here);
                }
                false
            }
        }
    }

    /// Whether undo has something to take back.
    pub fn can_undo(self) -> bool {
        self.faulty.with(|list| !list.is_empty())
            || self
                .history
                .with(|history| history.can_undo() || self.job.with(|job| history.present() != Some(job)))
    }

    /// Whether redo has something to bring again.
    pub fn can_redo(self) -> bool {
        self.history.with(History::can_redo)
    }

    /// Says something at the top of the page.
    pub fn say(self, text: impl Into<String>) {
        self.give_notice(Notice { text: text.into(), bad: false });
    }

    /// Says at the top of the page that something went wrong. Lines after the first are a list.
    pub fn say_bad(self, text: impl Into<String>) {
        self.give_notice(Notice { text: text.into(), bad: true });
    }

    /// The newest word stands alone: one before it may say the contrary.
    fn give_notice(self, notice: Notice) {
        self.refused_link.set(None);
        // It stands at the top, which a dialog covers.
        if untrack(|| matches!(self.panel.get(), Some(Panel::Menu | Panel::Job))) {
            self.panel.set(None);
        }
        self.notice.set(Some(notice));
    }

    /// Says at the field for a pasted link why it was not opened.
    pub fn refuse_link(self, why: String) {
        self.notice.set(None);
        self.refused_link.set(Some(why));
    }
}
