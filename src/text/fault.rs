//! What is wrong with what was entered, in words.

use super::Style;
use crate::model::{
    Against, DropoutKind, EndMisfit, Fault, FileKind, LongList, LongText, NamedFigure, RejectedValue,
    Relation, Wanted, Wrong,
};
use crate::units::{Bounds, Length};

/// A fault with its field in front: `wheel.tyre_width_mm: …`.
pub fn fault(fault: &Fault, style: Style) -> String {
    let what = fault_message(fault, style);
    if fault.field.is_empty() { what } else { format!("{}: {what}", fault.field) }
}

/// What is wrong, without the field: it begins small and has no full stop.
pub fn fault_message(fault: &Fault, style: Style) -> String {
    let given = &fault.value;
    match &fault.what {
        Wrong::Empty => "it is empty".to_owned(),
        Wrong::NoJson { line, character } => {
            format!("it cannot be read as JSON from line {line}, character {character} on")
        }
        Wrong::Wanted(wanted) => format!("{} belongs here, not {given}", self::wanted(*wanted, style)),
        Wrong::Missing => "it is missing, and has no default".to_owned(),
        Wrong::EndNotOfDropout { dropout } => end_not_of_dropout(*dropout).to_owned(),
        Wrong::UnknownKey { known } => format!("unknown key; known here: {}", known.join(", ")),
        Wrong::NoneOf { allowed } => {
            format!("must be one of: {}; {given} is none of them", allowed.join(", "))
        }
        Wrong::NoSuchProcess { known } => {
            format!("must be the name of one of the processes: {}", known.join(", "))
        }
        Wrong::OtherFormat { file, version } => other_format(*file, *version, given),
        Wrong::NoFormat { version } => format!("the format is missing; write \"format\": {version}"),
        Wrong::TooMany { list, count, most } => {
            format!("{count} {} are given; 0 to {most} are allowed", list_name(*list))
        }
        Wrong::TooLong { text, count, most } => {
            format!("{} {count} characters; at most {most} fit", text_has(*text))
        }
        Wrong::Outside { name, value, unit, bounds } => outside(name, (*value, unit), *bounds, style),
        Wrong::Against(against) => self::against(against, style),
        Wrong::NoBore { wall, diameter } => no_bore(*wall, *diameter, style),
        Wrong::EndMisfit(misfit) => end_misfit(*misfit).to_owned(),
        Wrong::StraightWithRoll => "a straight tube has no roll: leave it out".to_owned(),
        Wrong::StraightWithFind => "a straight tube has nothing to find: leave it out".to_owned(),
        Wrong::PostTwice => "another post stands at the same place".to_owned(),
        Wrong::KeyTwice => "this key stands more than once here: leave one of them out".to_owned(),
        Wrong::SeatStaysTooShort { way, least } => {
            let [way, least] = [*way, *least].map(|mm| style.length(Length::from_mm(mm)));
            format!("the seat stays start {way} from the axle: at least {least} is needed")
        }
        Wrong::StayTooShort { left, least } => {
            let [left, least] = [*left, *least].map(|mm| style.length(Length::from_mm(mm)));
            format!("the way from axle to stay end leaves {left} of stay: at least {least} is needed")
        }
        Wrong::SpeedsTwice => "give either a list of speeds or their range, not both".to_owned(),
        Wrong::NoSpeed => "at least one spindle speed is needed".to_owned(),
        Wrong::FixtureAlongSpindle => "the fixture lies along x or y: z is the spindle's own axis".to_owned(),
        Wrong::SameName => "another way of joining has the same name".to_owned(),
        Wrong::NoName => "a way of joining needs a name".to_owned(),
        Wrong::NotWritten(why) => why.clone(),
    }
}

/// The trade's name of a figure in this English.
pub fn figure_name(name: &'static str, style: Style) -> String {
    style.spell(name)
}

fn wanted(wanted: Wanted, style: Style) -> String {
    match wanted {
        Wanted::Number => "a number".to_owned(),
        Wanted::NumberWithin(bounds, unit) => format!("a number from {}", style.range(bounds, unit)),
        Wanted::WholeNumber { most } => {
            format!("a whole number from {}", style.range(Bounds::new(0.0, most), ""))
        }
        Wanted::Text => "a text".to_owned(),
        Wanted::Object => "an object { … }".to_owned(),
        Wanted::Numbers => "an object of names and numbers { … }".to_owned(),
        Wanted::List => "a list [ … ]".to_owned(),
        Wanted::ListOfNumbers => "a list of numbers [ … ]".to_owned(),
        Wanted::ListOfObjects => "a list of objects [ { … } ]".to_owned(),
    }
}

fn other_format(file: FileKind, version: u64, given: &RejectedValue) -> String {
    let file = match file {
        FileKind::Job => "job",
        FileKind::Shop => "shop",
    };
    format!("this version reads {file} format {version}, not {given}")
}

const fn end_not_of_dropout(dropout: DropoutKind) -> &'static str {
    match dropout {
        DropoutKind::Plate => "the dropout is a plate: the rear end is a slot",
        DropoutKind::Round => "the dropout is round: the rear end is cut to its cylinder",
        DropoutKind::Socket => "the dropout has plugs: the rear end is square",
    }
}

const fn list_name(list: LongList) -> &'static str {
    match list {
        LongList::Posts => "posts",
        LongList::Other => "entries",
    }
}

const fn text_has(text: LongText) -> &'static str {
    match text {
        LongText::JobName => "the job's name has",
        LongText::Notes => "the notes have",
        LongText::Other => "the text has",
    }
}

fn outside(name: &'static str, (value, unit): (f64, &str), bounds: Bounds, style: Style) -> String {
    let name = figure_name(name, style);
    let range = style.range(bounds, unit);
    if value.is_finite() {
        format!("{name} {} is outside {range}", style.figure(value, unit))
    } else {
        format!("{name} is no number: {range} is allowed")
    }
}

fn against(against: &Against, style: Style) -> String {
    let Against { figure, relation, other } = against;
    let must = match *relation {
        Relation::LessThan => "must be less than",
        Relation::AtMost => "must not be more than",
        Relation::MoreThan => "must be more than",
        Relation::AtLeast => "must be at least",
        Relation::Behind => "must lie behind",
        Relation::AtOrBehind => "must lie at or behind",
    };
    let [figure, other] = [figure, other].map(|one: &NamedFigure| {
        format!("{} {}", figure_name(one.name, style), style.figure(one.value, one.unit))
    });
    format!("{figure} {must} {other}")
}

fn no_bore(wall: f64, diameter: f64, style: Style) -> String {
    let [wall, tube, half] = [wall, diameter, diameter / 2.0].map(|mm| style.entered(Length::from_mm(mm)));
    format!("wall {wall} leaves no bore in a tube of {tube}: less than {half} is needed")
}

const fn end_misfit(misfit: EndMisfit) -> &'static str {
    match misfit {
        EndMisfit::MiterAtRear => "a rear end meets no shell or seat tube: it can be boss, slot or square",
        EndMisfit::RoundDropoutAtFront => {
            "a boss is a round dropout, at the rear end only: a front end can be cope or square"
        }
        EndMisfit::SlotAtFront => {
            "a slot holds a dropout plate, at the rear end only: a front end can be cope or square"
        }
    }
}
