//! Everything that ever happened at a place.

use std::collections::{BTreeMap, BTreeSet};

use super::{Book, Entry, Fastening, Hole, Set, SetId, What};
use crate::hull::{CrossingId, HoleNumber, Hull, Spot};
use crate::tables::Metal;
use crate::units::{Day, count};

/// One thing that happened at a place.
#[derive(Clone, Debug)]
pub enum Event<'b> {
    /// A set that was built there.
    Built {
        /// The set.
        set: &'b Set,
        /// Where of the place.
        crossings: Vec<CrossingId>,
    },
    /// Something done there.
    Done {
        /// The entry.
        entry: &'b Entry,
        /// The holes of the place that it changed.
        holes: Vec<(CrossingId, HoleNumber)>,
    },
    /// Something done to the wood there.
    Wood {
        /// The entry.
        entry: &'b Entry,
        /// Where of the place.
        crossings: Vec<CrossingId>,
    },
    /// An entry that does not count any more.
    Struck {
        /// The entry.
        entry: &'b Entry,
        /// The entry that strikes it out.
        by: &'b Entry,
    },
}

/// What a history is asked of.
#[derive(Clone, Copy, Debug)]
pub struct Asked<'a> {
    /// Where.
    pub spots: &'a [Spot],
    /// Only of this set.
    pub set: Option<SetId>,
    /// Only of this metal; `Some(None)` for that which is not known.
    pub metal: Option<Option<&'static Metal>>,
}

impl Asked<'_> {
    /// Whether all that happened at the places is asked, of whatever set and metal.
    const fn is_of_all(&self) -> bool {
        self.set.is_none() && self.metal.is_none()
    }

    /// Whether a fastening is one of those asked about.
    pub fn fits(&self, fastening: &Fastening) -> bool {
        self.set.is_none_or(|set| set == fastening.set)
            && self
                .metal
                .is_none_or(|metal| fastening.kind.is_metal() && metal == fastening.metal)
    }

    /// Where at a crossing, if it is one of those asked about.
    pub(super) fn spot(&self, id: CrossingId) -> Option<&Spot> {
        let at = self.spots.binary_search_by_key(&id, |spot| spot.crossing);
        self.spots.get(at.ok()?)
    }
}

/// Everything that happened up to a day at some places: sets in the order of the hull file, then
/// entries in the order things happened, those struck out among them by their date. Where only a
/// set or a metal is asked about, what touched a hole while one of its fastenings was in it, or
/// was the last to be, and what came in its place.
pub fn history<'b>(
    book: &'b Book,
    hull: &Hull,
    asked: &Asked<'_>,
    day: Option<Day>,
) -> Vec<Event<'b>> {
    let mut with: BTreeSet<CrossingId> = BTreeSet::new();
    let mut built = Vec::new();
    for set in book.sets() {
        let here = set.spots.iter().map(|spot| spot.crossing);
        let mut crossings: Vec<CrossingId> = here.filter(|id| asked.spot(*id).is_some()).collect();
        if asked.fits(book.fastening(set.fastening)) {
            with.extend(&crossings);
        } else if asked
            .set
            .is_some_and(|old| set.came_after().any(|id| id == old))
        {
            crossings.retain(|id| with.contains(id));
        } else {
            continue;
        }
        if !crossings.is_empty() {
            built.push(Event::Built { set, crossings });
        }
    }
    let mut changed: BTreeMap<u32, Vec<(CrossingId, HoleNumber)>> = BTreeMap::new();
    book.trace(hull, day, &mut |change| {
        let of_it = |hole: &Hole| asked.fits(book.fastening(hole.fastening));
        let before = change.before.as_ref();
        if asked
            .spot(change.crossing)
            .is_some_and(|spot| spot.holes.has(change.number))
            && (before.is_some_and(of_it) || of_it(&change.after))
        {
            with.insert(change.crossing);
            let holes = changed.entry(change.entry.number).or_default();
            holes.push((change.crossing, change.number));
        }
    });
    let mut done: Vec<(&Entry, Event<'b>)> = Vec::new();
    for (at, entry) in book
        .entries()
        .iter()
        .enumerate()
        .filter(|(_, entry)| day.is_none_or(|day| entry.date <= day))
    {
        let holes = changed.remove(&entry.number);
        let mut here = book.crossings_of(at).filter(|id| match asked.is_of_all() {
            true => asked.spot(*id).is_some(),
            false => with.contains(id),
        });
        if let Some(by) = book.struck_by(at) {
            if here.next().is_some() && of_asked(book, asked, at, entry) {
                done.push((entry, Event::Struck { entry, by }));
            }
        } else if matches!(&entry.what, What::Done { deed, .. } if deed.is_to_wood()) {
            let crossings: Vec<CrossingId> = here.collect();
            if !crossings.is_empty() && (asked.is_of_all() || holes.is_some()) {
                done.push((entry, Event::Wood { entry, crossings }));
            }
        } else if let Some(holes) = holes {
            done.push((entry, Event::Done { entry, holes }));
        }
    }
    done.sort_by_key(|(entry, _)| (entry.date, entry.number));
    built
        .into_iter()
        .chain(done.into_iter().map(|(_, event)| event))
        .collect()
}

/// Whether an entry that was struck out may have been about the set or the metal asked about.
fn of_asked(book: &Book, asked: &Asked<'_>, at: usize, entry: &Entry) -> bool {
    if let Some(driven) = book.driven_by(count(at)) {
        return asked.fits(book.fastening(driven));
    }
    let What::Done { set: Some(set), .. } = &entry.what else {
        return true;
    };
    let set = book.set_named(set);
    book.fastenings()
        .any(|fastening| Some(fastening.set) == set && asked.fits(fastening))
}
