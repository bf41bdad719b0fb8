//! What was done before at the place where an entry cannot be done.

use super::{Book, Deed, Did, Entry};
use crate::hull::{CrossingId, Spot};
use crate::text::Fault;

/// Faults for which the entry before is looked up; a log that is all wrong is not searched for
/// each of them.
const MOST_FAULTS: usize = 50;

impl Book {
    /// The entry before one, in the order things happened, that names a hole at one of these
    /// crossings as the one does, and was done: `faults` were told of those that were not. The last
    /// that did the same to what is there; else the last.
    pub(super) fn last_before(
        &self,
        at: u32,
        crossings: &[CrossingId],
        faults: &[Fault],
    ) -> Option<&Entry> {
        if faults.len() >= MOST_FAULTS {
            return None;
        }
        let spots = self.entry_spots(at);
        let spot = |spots: &[Spot], id: CrossingId| {
            let at = spots.binary_search_by_key(&id, |spot| spot.crossing).ok()?;
            spots.get(at).copied()
        };
        let asked: Vec<Spot> = crossings.iter().filter_map(|id| spot(spots, *id)).collect();
        let own = self.order.iter().position(|other| *other == at)?;
        let earlier = self.order.get(..own)?.iter().rev();
        let there = |other: u32| {
            asked.iter().any(|asked| {
                spot(self.entry_spots(other), asked.crossing).is_some_and(|spot| {
                    spot.holes.is_any()
                        || asked.holes.is_any()
                        || asked.holes.numbers().any(|hole| spot.holes.has(hole))
                })
            })
        };
        let there = earlier.copied().filter(|other| there(*other));
        let there = there.filter_map(|other| self.entries.get(other as usize));
        let was_done = |entry: &&Entry| {
            let own = |fault: &Fault| fault.origin == Some(entry.origin);
            !faults.iter().any(own)
        };
        let did = self.entries.get(at as usize)?.did();
        let mut last = None;
        for entry in there.filter(was_done) {
            if entry.did() == did {
                return Some(entry);
            }
            // Before that, another fastening was in the hole, or another plank was there.
            if matches!(entry.did(), Did::Driven | Did::PlankHung) {
                return last.or(Some(entry));
            }
            last = last.or(Some(entry));
        }
        last
    }

    /// Words for the help of a fault: which entry was the last there before one that cannot be
    /// done, and what to do where both tell of the same.
    pub(super) fn came_before(
        &self,
        at: u32,
        deed: &Deed,
        crossings: &[CrossingId],
        faults: &[Fault],
    ) -> Option<String> {
        let before = self.last_before(at, crossings, faults)?;
        let by = before.by.as_ref();
        let by = by.map_or_else(String::new, |by| format!(" by {by}"));
        let entry = format!("entry {} of {}{by}", before.number, before.date);
        Some(if before.did() == deed.did() {
            format!("{entry} tells the same there: if it was done once, strike one of the two")
        } else {
            format!("{entry} was the last there, `{}`", before.title())
        })
    }
}
