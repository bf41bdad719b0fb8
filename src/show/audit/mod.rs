//! What an audit says, for people and for programs.

mod boats;
mod head;
mod json;
mod text;

pub use boats::{Boats, Row, Told, boats, boats_json};
pub use json::json;
pub use text::text;
pub(super) use text::{accepted, many};

use std::io;

use crate::audit::{Outcome, Rule, Survey, Thin};
use crate::hull::Places;
use crate::show::page::lines;

/// An audit, and what it was asked about.
#[derive(Debug)]
pub struct Audit<'a> {
    /// The boat on the day.
    pub survey: &'a Survey<'a>,
    /// What was found.
    pub outcome: &'a Outcome,
    /// Where, if not the whole boat.
    pub place: Option<&'a Places>,
    /// By which rules, if not by all.
    pub only: &'a [&'static Rule],
}

impl Audit<'_> {
    /// The verdict and what it rests on, each sentence a line.
    pub(in crate::show) fn head(&self) -> io::Result<Vec<String>> {
        lines(|page| text::head(page, self))
    }

    /// Whether it is of the whole boat, by every rule.
    const fn is_of_all(&self) -> bool {
        self.place.is_none() && self.only.is_empty()
    }
}

/// Why a record is too thin, and where, if that is one place.
fn thin(thin: &Thin) -> (String, Option<&Places>) {
    match thin {
        Thin::NoPlanking => ("no planking is recorded".to_owned(), None),
        Thin::NothingRecorded(place) => ("nothing is recorded there".to_owned(), Some(place)),
        Thin::MetalNeverSeen { set, place } => (
            format!("the metal of `{set}` is not known, and none of it was ever drawn"),
            Some(place),
        ),
    }
}
