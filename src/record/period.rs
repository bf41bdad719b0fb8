//! What was done over a stretch of days.

use std::collections::BTreeMap;

use super::{Book, Did, Entry, FasteningId, Found, What};
use crate::hull::{CrossingId, HoleNumber, Hull};
use crate::units::{Day, count};

/// A stretch of days, the first and the last of them counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Period {
    /// The first.
    pub first: Day,
    /// The last.
    pub last: Day,
}

impl Period {
    /// Whether a day is in it.
    pub fn has(self, day: Day) -> bool {
        self.first <= day && day <= self.last
    }
}

/// One thing that was done to like fastenings, on however many days.
#[derive(Clone, Debug)]
pub struct Work<'b> {
    /// What was done.
    pub did: Did,
    /// To which: of what was driven, the new; `None` of what was done to planks and members.
    pub fastening: Option<FasteningId>,
    /// The holes, once each time it was done.
    pub holes: Vec<(CrossingId, HoleNumber)>,
    /// Of what was done to planks and members, where, once each time.
    pub crossings: Vec<CrossingId>,
    /// What was found, and of how many.
    pub found: BTreeMap<Found, u32>,
    /// The entries that tell of it, in the order it was done.
    pub entries: Vec<&'b Entry>,
}

impl Work<'_> {
    fn of((did, fastening): (Did, Option<FasteningId>)) -> Self {
        Self {
            did,
            fastening,
            holes: Vec::new(),
            crossings: Vec::new(),
            found: BTreeMap::new(),
            entries: Vec::new(),
        }
    }

    /// How often it was done: to so many holes, or at so many crossings.
    pub fn count(&self) -> u32 {
        count(self.holes.len().max(self.crossings.len()))
    }
}

/// What was done at some crossings over a period.
#[derive(Clone, Debug)]
pub struct Done<'b> {
    /// What, in the order of the deeds, then of sets.
    pub work: Vec<Work<'b>>,
    /// Every entry that did something there, in the order it was done, and to how many holes or
    /// crossings.
    pub entries: Vec<(&'b Entry, u32)>,
    /// Entries of those days that do not count any more, each with the entry that strikes it out.
    pub struck: Vec<(&'b Entry, &'b Entry)>,
}

/// Everything done over a period at the crossings that `here` says.
pub fn done<'b>(
    book: &'b Book,
    hull: &Hull,
    period: Period,
    here: &dyn Fn(CrossingId) -> bool,
) -> Done<'b> {
    let alike = alike(book);
    let mut touched: BTreeMap<u32, Vec<(FasteningId, CrossingId, HoleNumber)>> = BTreeMap::new();
    book.trace(hull, Some(period.last), &mut |change| {
        if period.has(change.entry.date) && here(change.crossing) {
            let hole = match change.before {
                Some(before) if change.entry.did() != Did::Driven => before,
                _ => change.after,
            };
            let like = alike.get(hole.fastening.index()).copied();
            touched.entry(change.entry.number).or_default().push((
                like.unwrap_or(hole.fastening),
                change.crossing,
                change.number,
            ));
        }
    });
    let mut work: BTreeMap<(Did, Option<FasteningId>), Work<'b>> = BTreeMap::new();
    let mut entries = Vec::new();
    for at in book.order.iter().map(|at| *at as usize) {
        let Some(entry) = book.entries.get(at).filter(|entry| period.has(entry.date)) else {
            continue;
        };
        let holes = touched.remove(&entry.number).unwrap_or_default();
        let there: Vec<CrossingId> = book.crossings_of(at).filter(|id| here(*id)).collect();
        let count = match &entry.what {
            What::Done { deed, .. } if deed.is_to_wood() => {
                if there.is_empty() {
                    continue;
                }
                let work = of(&mut work, entry, None);
                work.crossings.extend(&there);
                there.len()
            }
            What::Done { deed, .. } => {
                if holes.is_empty() {
                    continue;
                }
                let count = holes.len();
                for (fastening, crossing, number) in holes {
                    let work = of(&mut work, entry, Some(fastening));
                    work.holes.push((crossing, number));
                    if let Some(found) = deed.found() {
                        *work.found.entry(found).or_default() += 1;
                    }
                }
                count
            }
            What::Struck { .. } => continue,
        };
        entries.push((entry, u32::try_from(count).unwrap_or(u32::MAX)));
    }
    Done {
        work: work.into_values().collect(),
        entries,
        struck: struck(book, period, here),
    }
}

/// The work of an entry that was done to like fastenings.
fn of<'w, 'b>(
    work: &'w mut BTreeMap<(Did, Option<FasteningId>), Work<'b>>,
    entry: &'b Entry,
    fastening: Option<FasteningId>,
) -> &'w mut Work<'b> {
    let key = (entry.did(), fastening);
    let work = work.entry(key).or_insert_with(|| Work::of(key));
    if work
        .entries
        .last()
        .is_none_or(|last| last.number != entry.number)
    {
        work.entries.push(entry);
    }
    work
}

/// Of every fastening's description the first that is like it: of the same set, kind, metal and
/// size.
fn alike(book: &Book) -> Vec<FasteningId> {
    let mut first: Vec<FasteningId> = Vec::new();
    let ids = (0..).map(FasteningId).zip(&book.fastenings);
    ids.map(|(id, fastening)| {
        let known = first.iter().copied().find(|known| {
            let known = book.fastening(*known);
            (known.set, known.kind, known.metal, known.size)
                == (
                    fastening.set,
                    fastening.kind,
                    fastening.metal,
                    fastening.size,
                )
        });
        known.unwrap_or_else(|| {
            first.push(id);
            id
        })
    })
    .collect()
}

/// Entries of a period that are struck out, in the order of the file.
fn struck<'b>(
    book: &'b Book,
    period: Period,
    here: &dyn Fn(CrossingId) -> bool,
) -> Vec<(&'b Entry, &'b Entry)> {
    let entries = book.entries.iter().enumerate();
    let there = |at: usize| book.crossings_of(at).any(here);
    entries
        .filter(|(at, entry)| period.has(entry.date) && there(*at))
        .filter_map(|(at, entry)| Some((entry, book.struck_by(at)?)))
        .collect()
}
