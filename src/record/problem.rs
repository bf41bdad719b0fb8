//! Why an entry cannot be done at a crossing.

use std::collections::{BTreeMap, BTreeSet};

use super::{Book, Deed, Did, Entry, Refusal, SetId};
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
    /// Tells why an entry cannot be done, where that is sure.
    pub(super) fn problems(
        &mut self,
        book: &Book,
        hull: &Hull,
        (at, entry): (u32, &Entry),
        deed: &Deed,
        problems: BTreeMap<Problem, Vec<CrossingId>>,
    ) {
        for (problem, crossings) in problems {
            // That is told of the day itself.
            let unborn = hull.particulars.launched.surely_after(entry.date);
            if unborn && matches!(problem, Problem::TooEarly(_)) {
                continue;
            }
            let crossings = self.sure(crossings);
            if !crossings.is_empty() {
                let before = problem
                    .hangs_on_what_stands()
                    .then(|| book.came_before(at, deed, &crossings, self.faults))
                    .flatten();
                let mut fault = problem.fault(book, hull, entry, deed, crossings);
                if let (Some(help), Some(before)) = (&mut fault.help, before) {
                    *help += &format!("; {before}");
                }
                self.faults.push(fault);
            }
        }
    }

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
    /// It was not there yet.
    TooEarly(SetId),
    /// It was never so thick.
    TooThick(SetId),
    /// Nothing can be driven where there is no plank.
    PlankIsOff,
    /// It can be taken off once.
    AlreadyOff,
    /// It can be hung where it is off.
    NotOff,
    /// Metal holds the plank or goes through the member.
    StillHeld,
    /// More is taken off than there is.
    TooThin,
    /// A sister has a letter.
    NotASister,
}

impl Problem {
    /// Whether it is what was done before that stands in the way.
    const fn hangs_on_what_stands(&self) -> bool {
        matches!(
            self,
            Self::Refused(_)
                | Self::TooFew { .. }
                | Self::PlankIsOff
                | Self::AlreadyOff
                | Self::NotOff
        )
    }

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
        let key = match self {
            Self::TooEarly(_) => "date",
            Self::TooThick(_) => "diameter",
            Self::TooMany => "per crossing",
            Self::NoneOfSet => "set",
            _ => "place",
        };
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
                match did {
                    Did::Driven => {
                        "`--hole new` bores one; `refasten show --each` lists what is there"
                    }
                    _ => "`refasten show --each` lists what is there",
                }
                .to_owned(),
            ),
            Self::NothingRecorded => (
                format!("nothing is recorded at {places}"),
                "add a set for it to hull.yaml, or drive with `--hole new`".to_owned(),
            ),
            Self::NoneOfSet => (
                format!(
                    "nothing of `{}` is at {places}",
                    entry.set().unwrap_or_default()
                ),
                "`refasten show --each` lists what is there".to_owned(),
            ),
            Self::TooFew { open, wanted } => (
                format!(
                    "{wanted} cannot go into {open} open or doweled {} at {places}",
                    if open == 1 { "hole" } else { "holes" }
                ),
                "log what was pulled or doweled first, or bore with `--hole new`".to_owned(),
            ),
            Self::TooEarly(set) => (
                format!(
                    "`{}` was not there yet on {}, at {places}",
                    book.set_name(set),
                    entry.date
                ),
                "is the date right, and the set's `driven`?".to_owned(),
            ),
            Self::TooThick(set) => (
                format!(
                    "no fastening of `{}` was ever so thick, at {places}",
                    book.set_name(set)
                ),
                "is it the diameter of the shank, and the size of the set right?".to_owned(),
            ),
            Self::PlankIsOff => (
                format!("the plank is off at {places}"),
                "log it `plank hung` first".to_owned(),
            ),
            Self::AlreadyOff => (
                format!("the plank is already off at {places}"),
                "`plank hung` hangs the new one".to_owned(),
            ),
            Self::NotOff => (
                format!("the plank is not off at {places}"),
                "log the old one `plank off` first".to_owned(),
            ),
            Self::StillHeld => (
                format!("metal still goes from plank to member at {places}"),
                "log each fastening `pulled` or `broken`, and a stub across the joint `cleared`"
                    .to_owned(),
            ),
            Self::TooThin => (
                format!("nothing would be left of the plank at {places}"),
                "is `off` what was taken off, and not what is left?".to_owned(),
            ),
            Self::NotASister => (
                format!("{places} names no sister"),
                "a sister has a letter: F12a beside F12; list it under `frames` in hull.yaml"
                    .to_owned(),
            ),
            Self::TooMany => (
                format!("more than {} holes in a crossing at {places}", Holes::MOST),
                "is `per crossing` right?".to_owned(),
            ),
        };
        Fault::new(Some(entry.origin), says).key(key).help(help)
    }
}
