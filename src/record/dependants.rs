//! What stands on an entry: which later ones could not be without it.

use std::collections::{BTreeSet, HashSet};

use super::lay_sets::lay_sets;
use super::problem::Telling;
use super::{Book, What, replay};
use crate::hull::Hull;
use crate::units::count;

/// Once so many stand on one entry, no more are looked for.
const MOST: usize = 60;

impl Book {
    /// Which of the entries has a number, counted from 0.
    pub fn row_of(&self, number: u32) -> Option<usize> {
        let entries = &self.entries;
        entries
            .binary_search_by_key(&number, |entry| entry.number)
            .ok()
    }

    /// The entries that must be struck out before some can be, in an order in which each can: what
    /// was done last comes first. Of a book without faults; empty where nothing stands in the way.
    pub fn struck_before(&self, hull: &Hull, targets: &[usize]) -> Vec<usize> {
        let last_first = |at: &usize| {
            let entry = self
                .entries
                .get(*at)
                .map(|entry| (entry.date, entry.number));
            std::cmp::Reverse(entry)
        };
        let mut chain = targets.to_vec();
        loop {
            chain.sort_unstable_by_key(last_first);
            chain.dedup();
            // Each in its turn must be possible while all that come after it still stand.
            let more = (1..=chain.len()).find_map(|count| {
                let gone = chain.get(..count)?;
                let mut more = self.impossible_without(hull, gone);
                more.retain(|at| !chain.contains(at));
                (!more.is_empty()).then_some(more)
            });
            match more {
                Some(more) if chain.len() < MOST => chain.extend(more),
                _ => break,
            }
        }
        chain.retain(|at| !targets.contains(at));
        chain
    }

    /// The entries that could not be if some were struck out.
    fn impossible_without(&self, hull: &Hull, gone: &[usize]) -> Vec<usize> {
        let (mut faults, unsure) = (Vec::new(), BTreeSet::new());
        let mut telling = Telling {
            faults: &mut faults,
            unsure: &unsure,
        };
        let mut state = lay_sets(self, hull, |_| true, &mut telling);
        let mut impossible = Vec::new();
        for at in self.order_without(gone) {
            let Some(entry) = self.entries.get(at) else {
                continue;
            };
            let told = telling.faults.len();
            let number = count(at);
            replay::apply(
                self,
                hull,
                &mut state,
                number,
                entry,
                &mut |_| {},
                &mut telling,
            );
            if telling.faults.len() > told {
                impossible.push(at);
            }
        }
        impossible
    }

    /// The entries that would count if some were struck out, in the order things happened. Where a
    /// strike is struck out, what it struck counts again.
    fn order_without(&self, gone: &[usize]) -> Vec<usize> {
        let mut struck: HashSet<usize> = gone.iter().copied().collect();
        for (at, entry) in self.entries.iter().enumerate().rev() {
            if let What::Struck { strike, .. } = &entry.what
                && !struck.contains(&at)
            {
                struck.extend(self.row_of(strike.number));
            }
        }
        let mut order: Vec<usize> = (0..self.entries.len())
            .filter(|at| !struck.contains(at))
            .collect();
        order.sort_by_key(|at| {
            self.entries
                .get(*at)
                .map(|entry| (entry.date, entry.number))
        });
        order
    }
}
