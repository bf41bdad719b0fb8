//! The order of the work, printed.

mod json;
mod text;

use crate::audit::Survey;
use crate::joint::Plug;
use crate::record::{Did, Driving, Fastening};
use crate::refit::{Cover, Order, Step, Turn, Work};

pub use json::json;
pub use text::text;

/// What is left to do, ready to be printed.
#[derive(Debug)]
pub struct Todo<'a> {
    /// The boat as she is.
    pub survey: &'a Survey<'a>,
    /// What is left.
    pub order: &'a Order,
    /// The place asked about, as it was typed; `None` for the whole boat.
    pub place: Option<&'a str>,
}

/// The word for a step that a shipwright would say.
const fn word(work: Work) -> &'static str {
    match work {
        Work::Draw => "draw",
        Work::Clear => "clear stub",
        Work::Leave => "leave",
        Work::Dowel => "dowel",
        Work::Plug => "plug",
        Work::Drive { .. } => "drive",
        Work::Cover(Cover::Bung) => "bung",
        Work::Cover(Cover::Stopping) => "stopping",
        Work::Trim => "trim",
    }
}

/// What is logged once a step is done; nothing for one that leaves no trace.
const fn logged(work: Work) -> Option<Did> {
    Some(match work {
        Work::Draw => Did::Pulled,
        Work::Clear => Did::Cleared,
        Work::Leave => Did::Left,
        Work::Dowel => Did::Doweled,
        Work::Plug => Did::Plugged,
        Work::Drive { .. } => Did::Driven,
        Work::Cover(Cover::Bung) => Did::Bunged,
        Work::Cover(Cover::Stopping) => Did::Stopped,
        Work::Trim => return None,
    })
}

/// Why a round comes when it does.
const fn turn(turn: Turn) -> &'static str {
    match turn {
        Turn::Open => "stands open already",
        Turn::Run => "along the planks",
        Turn::EndsFirstHalf => "hood ends and garboards, the first half",
        Turn::EndsSecondHalf => "hood ends and garboards, the second half",
    }
}

/// What a step drives, as the log is to have it.
fn driving(todo: &Todo<'_>, step: &Step) -> Option<Driving> {
    let Work::Drive {
        fastening,
        hole,
        per_crossing,
    } = step.work
    else {
        return None;
    };
    let book = todo.survey.book;
    let Fastening {
        set,
        kind,
        metal,
        size,
        plug,
        temporary,
        ..
    } = *book.fastening(fastening);
    let name = book.set_name(set).to_owned();
    Some(Driving {
        set: name.clone(),
        per_crossing,
        hole,
        kind,
        metal,
        guess: None,
        size,
        plug,
        temporary,
        plan: Some(name),
    })
}

/// What is to close the hole over a head, in words.
fn covered(plug: Plug, todo: &Todo<'_>) -> Option<String> {
    plug.closes().then(|| match plug {
        Plug::Bung(_) => format!("bung {}", plug.written(todo.survey.units)),
        _ => plug.written(todo.survey.units),
    })
}
