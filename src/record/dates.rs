//! Which sets are there on a day, and of which that is not certain.

use std::collections::BTreeSet;

use super::{Book, Set, SetId};
use crate::hull::Hull;
use crate::units::Day;

impl Book {
    /// The sets that are taken as there at the end of a day: each from its last possible day, or
    /// from the first entry that touches it, and with it those it came after. One of no known day
    /// is there as soon as those it came after are.
    pub(super) fn sets_on(&self, day: Day) -> BTreeSet<SetId> {
        let mut there = BTreeSet::new();
        for set in &self.sets {
            let undated = self.fastening(set.fastening).driven.latest().is_none();
            if (undated && set.came_after().all(|old| there.contains(&old)))
                || self.surely_on(set, day)
            {
                there.insert(set.id);
            }
        }
        self.with_older(there)
    }

    /// The sets of the hull file that are counted as there at the end of a day, in its order.
    pub fn counted_on(&self, day: Day) -> Vec<&Set> {
        let there = self.sets_on(day);
        let sets = self.sets.iter();
        sets.filter(|set| there.contains(&set.id)).collect()
    }

    /// Whether it is certain that a set was there at the end of a day.
    pub(super) fn surely_on(&self, set: &Set, day: Day) -> bool {
        let latest = self.fastening(set.fastening).driven.latest();
        // It is written down, so it was driven by today.
        latest.map_or(self.today, |latest| latest.min(self.today)) <= day
            || self.touched_by(set, day)
    }

    /// Adds to some sets all that they came after.
    pub(super) fn with_older(&self, mut sets: BTreeSet<SetId>) -> BTreeSet<SetId> {
        for set in self.sets.iter().rev() {
            if sets.contains(&set.id) {
                sets.extend(set.came_after());
            }
        }
        sets
    }

    /// Whether an entry up to a day touches a set. One that touches only its neighbours in a
    /// crossing counts as well: by then the holes there have the numbers that both give them.
    pub(super) fn touched_by(&self, set: &Set, day: Day) -> bool {
        self.order
            .iter()
            .filter(|at| {
                self.entries
                    .get(**at as usize)
                    .is_some_and(|entry| entry.date <= day)
            })
            .flat_map(|at| self.entry_spots(*at).iter())
            .any(|spot| {
                set.spots
                    .binary_search_by_key(&spot.crossing, |s| s.crossing)
                    .is_ok()
            })
    }

    /// Sets that may or may not have been there on a day.
    pub fn uncertain_on(&self, hull: &Hull, day: Day) -> impl Iterator<Item = &Set> {
        let sure = self
            .sets
            .iter()
            .filter(|set| self.surely_on(set, day))
            .map(|set| set.id);
        let sure = self.with_older(sure.collect());
        // A set is no older than the boat, nor than those it came after.
        let mut possible = BTreeSet::new();
        for set in &self.sets {
            let driven = self.fastening(set.fastening).driven;
            let begins = [driven.earliest(), hull.particulars.launched.earliest()];
            if begins.into_iter().flatten().all(|begin| begin <= day)
                && set.came_after().all(|old| possible.contains(&old))
            {
                possible.insert(set.id);
            }
        }
        let unsure = move |set: &&Set| possible.contains(&set.id) && !sure.contains(&set.id);
        self.sets.iter().filter(unsure)
    }
}
