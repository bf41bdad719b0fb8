//! A season of work on a boat, for her log book and her insurer.

mod json;
mod text;

pub use json::json;
pub use text::text;

use std::collections::{BTreeMap, BTreeSet};

use super::sample::Sample;
use crate::audit::{Outcome, Survey};
use crate::hull::{CrossingId, Places};
use crate::record::{Did, Done, Entry, Found, PlankSide};
use crate::units::{Day, Season};

/// A boat on one day, and what an audit says of her.
#[derive(Debug)]
pub struct Judged<'b> {
    /// The boat.
    pub survey: &'b Survey<'b>,
    /// The audit.
    pub outcome: &'b Outcome,
}

/// A season of work on a boat.
#[derive(Debug)]
pub struct Summary<'b> {
    /// The season.
    pub season: Season,
    /// Where, if not the whole boat.
    pub place: Option<&'b Places>,
    /// What was done in it.
    pub done: &'b Done<'b>,
    /// At the end of its first day.
    pub first: Judged<'b>,
    /// At the end of its last day, or of the day up to which it is told.
    pub last: Judged<'b>,
    /// What its samples say.
    pub sample: Sample<'b>,
}

/// What one person did.
#[derive(Debug, Default)]
pub(in crate::show) struct Hand {
    pub(in crate::show) days: BTreeSet<Day>,
    pub(in crate::show) entries: u32,
    pub(in crate::show) moved: Moved,
}

/// How many came out, broke and went in.
#[derive(Clone, Copy, Debug, Default)]
pub(in crate::show) struct Moved {
    pub(in crate::show) pulled: u32,
    pub(in crate::show) broken: u32,
    pub(in crate::show) driven: u32,
}

impl Moved {
    const fn add(&mut self, did: Did, count: u32) {
        match did {
            Did::Pulled => self.pulled += count,
            Did::Broken => self.broken += count,
            Did::Driven => self.driven += count,
            _ => {}
        }
    }

    const fn is_nothing(self) -> bool {
        self.pulled + self.broken + self.driven == 0
    }
}

impl Summary<'_> {
    /// The last day that is told of.
    pub(in crate::show) const fn until(&self) -> Day {
        self.last.survey.day
    }

    /// What each person did, by name; `None` for entries that name nobody.
    pub(in crate::show) fn hands(&self) -> BTreeMap<Option<&str>, Hand> {
        let mut hands: BTreeMap<Option<&str>, Hand> = BTreeMap::new();
        for (entry, count) in &self.done.entries {
            let hand = hands.entry(name(entry)).or_default();
            hand.days.insert(entry.date);
            hand.entries += 1;
            hand.moved.add(entry.did(), *count);
        }
        hands
    }

    /// Days on which anything was done.
    pub(in crate::show) fn days(&self) -> usize {
        let days = self.done.entries.iter().map(|(entry, _)| entry.date);
        days.collect::<BTreeSet<Day>>().len()
    }

    /// What came out, broke and went in, by metal, kind and size.
    pub(in crate::show) fn moved(&self) -> BTreeMap<[String; 3], Moved> {
        let (hull, units) = (self.last.survey.hull, self.last.survey.units);
        let mut moved: BTreeMap<[String; 3], Moved> = BTreeMap::new();
        for work in &self.done.work {
            let Some(fastening) = work.fastening.map(|id| self.last.survey.book.fastening(id))
            else {
                continue;
            };
            let mut one = Moved::default();
            one.add(work.did, work.count());
            if one.is_nothing() {
                continue;
            }
            let metal = fastening.metal.map_or("unknown", |metal| metal.name);
            let size = fastening.size.map_or_else(
                || "unknown".to_owned(),
                |size| size.written(hull.gauges, units),
            );
            let key = [metal.to_owned(), fastening.kind.name().to_owned(), size];
            moved.entry(key).or_default().add(work.did, work.count());
        }
        moved
    }

    /// What was found, and how often.
    pub(in crate::show) fn found(&self) -> BTreeMap<Found, u32> {
        let mut all: BTreeMap<Found, u32> = BTreeMap::new();
        for (found, count) in self.done.work.iter().flat_map(|work| &work.found) {
            *all.entry(*found).or_default() += count;
        }
        all
    }

    /// Crossings with a plank's hole open at the end.
    pub(in crate::show) fn open(&self) -> Vec<CrossingId> {
        let survey = self.last.survey;
        let crossings = survey.crossings();
        let is_open = |hole: &crate::record::Hole| hole.content.plank_side() == PlankSide::Open;
        let open = crossings.filter(|at| at.holes.iter().any(is_open));
        open.map(|at| at.crossing.id).collect()
    }

    /// Crossings with the plank off at the end.
    pub(in crate::show) fn off(&self) -> Vec<CrossingId> {
        let survey = self.last.survey;
        let crossings = survey.crossings().map(|at| at.crossing.id);
        crossings.filter(|id| survey.state.is_off(*id)).collect()
    }
}

fn name(entry: &Entry) -> Option<&str> {
    entry
        .by
        .as_deref()
        .map(str::trim)
        .filter(|by| !by.is_empty())
}
