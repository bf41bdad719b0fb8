//! Why an entry cannot be done at a crossing.

use std::collections::BTreeSet;

use super::{Book, Deed, Entry, Refusal, SetId};
use crate::hull::{CrossingId, HoleNumber, Holes, Hull, fold};
use crate::text::Fault;

/// How many places a fault lists before it only counts them.
pub(super) const MOST_PLACES: usize = 4;

/// Where faults are told, and where there is no telling because something was not read.
pub(super) struct Telling<'f> {
    pub(super) faults: &'f mut Vec<Fault>,
    pub(super) unsure: &'f BTreeSet<CrossingId>,
}

impl Telling<'_> {
    /// Drops the crossings of which nothing can be told.
    pub(super) fn sure(&self, mut crossings: Vec<CrossingId>) -> Vec<CrossingId> {
        crossings.retain(|id| !self.unsure.contains(id));
        crossings
    }
}

/// Why an entry cannot be done at a crossing.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Problem {
    Refused(Refusal),
    /// More than one set stands there.
    Which(Vec<SetId>),
    NoHole(HoleNumber),
    NothingRecorded,
    NoneOfSet,
    TooFew {
        open: usize,
        wanted: usize,
    },
    TooMany,
}

impl Problem {
    pub(super) fn fault(
        self,
        book: &Book,
        hull: &Hull,
        entry: &Entry,
        deed: &Deed,
        crossings: Vec<CrossingId>,
    ) -> Fault {
        let places = fold(hull, crossings).shown(MOST_PLACES);
        let did = deed.did();
        let (says, help) = match self {
            Self::Refused(refusal) => (
                format!("nothing can be {did} at {places}: {}", refusal.says()),
                refusal.help().to_owned(),
            ),
            Self::Which(sets) => {
                let names: Vec<String> = sets
                    .iter()
                    .map(|id| format!("`{}`", book.set_name(*id)))
                    .collect();
                (
                    format!("more than one set stands at {places}: {}", names.join(", ")),
                    "say which with `set`".to_owned(),
                )
            }
            Self::NoHole(number) => (
                format!("there is no hole {number} at {places}"),
                "`--hole new` bores one; `refasten show --each` lists what is there".to_owned(),
            ),
            Self::NothingRecorded => (
                format!("nothing is recorded at {places}"),
                "add a set for it to hull.yaml, or drive with `--hole new`".to_owned(),
            ),
            Self::NoneOfSet => (
                format!("nothing of that set is at {places}"),
                "`refasten show --each` lists what is there".to_owned(),
            ),
            Self::TooFew { open, wanted } => (
                format!(
                    "{wanted} cannot go into {open} open or doweled {} at {places}",
                    if open == 1 { "hole" } else { "holes" }
                ),
                "log what was pulled or doweled first, or bore with `--hole new`".to_owned(),
            ),
            Self::TooMany => (
                format!("more than {} holes in a crossing at {places}", Holes::MOST),
                "is `per crossing` right?".to_owned(),
            ),
        };
        Fault::new(Some(entry.origin), says).key("place").help(help)
    }
}
