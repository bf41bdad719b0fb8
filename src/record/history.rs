//! Everything that ever happened at a place.

use std::collections::BTreeMap;

use super::{Book, Entry, Set, What};
use crate::hull::{CrossingId, HoleNumber, Hull, Spot};
use crate::units::Day;

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

/// Everything that happened at some places up to a day: sets in the order of the hull file, then
/// entries in the order things happened, those struck out among them by their date.
pub fn history<'b>(
    book: &'b Book,
    hull: &Hull,
    spots: &[Spot],
    day: Option<Day>,
) -> Vec<Event<'b>> {
    let spot_at = |id: CrossingId| {
        spots
            .binary_search_by_key(&id, |spot| spot.crossing)
            .ok()
            .and_then(|at| spots.get(at))
    };
    let built = book.sets().iter().filter_map(|set| {
        let crossings: Vec<CrossingId> = set
            .spots
            .iter()
            .map(|spot| spot.crossing)
            .filter(|id| spot_at(*id).is_some())
            .collect();
        (!crossings.is_empty()).then_some(Event::Built { set, crossings })
    });
    let mut changed: BTreeMap<u32, Vec<(CrossingId, HoleNumber)>> = BTreeMap::new();
    book.trace(hull, day, &mut |change| {
        if spot_at(change.crossing).is_some_and(|spot| spot.holes.has(change.number)) {
            changed
                .entry(change.entry.number)
                .or_default()
                .push((change.crossing, change.number));
        }
    });
    let mut done: Vec<(&Entry, Event<'b>)> = Vec::new();
    for (at, entry) in book
        .entries()
        .iter()
        .enumerate()
        .filter(|(_, entry)| day.is_none_or(|day| entry.date <= day))
    {
        let here = || book.crossings_of(at).filter(|id| spot_at(*id).is_some());
        if let Some(by) = book.struck_by(at) {
            if here().next().is_some() {
                done.push((entry, Event::Struck { entry, by }));
            }
        } else if matches!(&entry.what, What::Done { deed, .. } if deed.is_to_wood()) {
            let crossings: Vec<CrossingId> = here().collect();
            if !crossings.is_empty() {
                done.push((entry, Event::Wood { entry, crossings }));
            }
        } else if let Some(holes) = changed.remove(&entry.number) {
            done.push((entry, Event::Done { entry, holes }));
        }
    }
    done.sort_by_key(|(entry, _)| (entry.date, entry.number));
    built
        .chain(done.into_iter().map(|(_, event)| event))
        .collect()
}
