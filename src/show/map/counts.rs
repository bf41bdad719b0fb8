//! How often each mark is on the map, in words.

use std::collections::BTreeMap;

use super::{By, Class, Map};
use crate::hull::{CrossingId, fold};
use crate::show::numbers::grouped;

/// The most places told of one mark in a description.
const PLACES: usize = 8;

/// How often a mark is there, and where.
#[derive(Clone, Debug, Default)]
pub(super) struct Count {
    /// Marks of this kind, a crossing without a hole counting as one.
    pub(super) marks: u32,
    /// The crossings with any, each once, in order.
    pub(super) crossings: Vec<CrossingId>,
}

impl Count {
    /// How many of what a map by it counts: holes, or crossings where all holes of one are alike.
    pub(super) fn of(&self, by: By) -> u32 {
        match by {
            By::Metal | By::State | By::Age => self.marks,
            By::Hold | By::Findings => u32::try_from(self.crossings.len()).unwrap_or(u32::MAX),
        }
    }
}

/// How often each mark is on the map, the gravest first.
pub(super) fn counts(map: &Map<'_>) -> BTreeMap<Class, Count> {
    let mut counts: BTreeMap<Class, Count> = BTreeMap::new();
    for at in map.survey.crossings() {
        for class in map.classes(at.crossing.id) {
            let count = counts.entry(class).or_default();
            count.marks += 1;
            if count.crossings.last() != Some(&at.crossing.id) {
                count.crossings.push(at.crossing.id);
            }
        }
    }
    counts
}

/// `open: 7, relied on: 1,640`.
pub(super) fn in_words(by: By, counts: &BTreeMap<Class, Count>) -> String {
    in_short(counts.iter().map(|(class, count)| (*class, count.of(by))))
}

/// The same in sentences, with where the rarer ones are.
pub(super) fn with_places(map: &Map<'_>, counts: &BTreeMap<Class, Count>) -> String {
    let most = counts.values().map(|count| count.of(map.by)).max();
    let mut sentences = Vec::new();
    for (class, count) in counts {
        let mut says = format!("{}: {}", class.label(), grouped(count.of(map.by)));
        if Some(count.of(map.by)) != most {
            says += ", at ";
            says += &places(map, count.crossings.iter().copied());
        }
        sentences.push(says + ".");
    }
    sentences.join(" ")
}

/// The first places of some crossings, and how many more there are.
fn places(map: &Map<'_>, crossings: impl Iterator<Item = CrossingId>) -> String {
    let places = fold(map.survey.hull, crossings).0;
    let named = places.iter().take(PLACES).map(ToString::to_string);
    let mut says = named.collect::<Vec<_>>().join(" and ");
    let more = places.len().saturating_sub(PLACES);
    if more > 0 {
        says += &format!(" and {more} more places");
    }
    says
}

impl Map<'_> {
    /// The day it is drawn for, and as of which day the log is known where that was asked for.
    pub(super) fn day(&self) -> String {
        let day = self.survey.day;
        match self.survey.book.known() {
            Some(known) => format!("{day}, as known on {}", known.day),
            None => day.to_string(),
        }
    }

    /// What it is of, where it is not of the whole boat: `, S3-5 F12-20 only`.
    pub(super) fn only(&self) -> String {
        if self.survey.asks_about_all() {
            return String::new();
        }
        let crossings = self.survey.crossings().map(|at| at.crossing.id);
        format!(", {} only", places(self, crossings))
    }
}

impl By {
    /// What a map by it is called.
    pub(super) const fn title(self) -> &'static str {
        match self {
            Self::Metal => "Metal of the fastenings",
            Self::State => "State of the fastenings",
            Self::Age => "Age of the fastenings",
            Self::Hold => "What is left of what was built at each crossing",
            Self::Findings => "The worst finding at each crossing",
        }
    }
}

/// The same of some marks only.
pub(super) fn in_short(counts: impl Iterator<Item = (Class, u32)>) -> String {
    let each = counts.map(|(class, count)| format!("{}: {}", class.label(), grouped(count)));
    each.collect::<Vec<_>>().join(", ")
}
