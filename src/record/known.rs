//! The book as it stood on an earlier day: only what had been written down by then.

use std::collections::BTreeSet;

use super::fabric::joints_made;
use super::lay_sets::lay_sets;
use super::problem::Telling;
use super::{Book, Entry, Unread};
use crate::hull::Hull;
use crate::units::Day;

/// What a book that was turned back rests on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Known {
    /// The day it was turned back to, at its end.
    pub day: Day,
    /// How many entries had been written down by then, as far as they tell.
    pub entries: usize,
    /// How many there are in the log now.
    pub of: usize,
    /// How many of all say that they were written down on a later day than their own.
    pub told: usize,
    /// Entries that could not be done with what had been written down by then, and are left out.
    pub left_out: Vec<u32>,
}

impl Book {
    /// The book with only those entries and lines of the plan that had been written down by the end
    /// of a day. A strike written later does not count.
    ///
    /// An entry was written no earlier than its own day, nor than an entry above it in the file,
    /// for the log is only added to; a line of the plan no earlier than its day. Sets come from the hull file, which has no history: they are
    /// as they are now.
    #[must_use]
    pub fn as_known(mut self, hull: &Hull, day: Day) -> Self {
        let written = |entry: &Entry| entry.written.map_or(entry.date, |day| day.max(entry.date));
        let of = self.entries.len();
        let later = self.entries.iter().position(|entry| written(entry) > day);
        let entries = later.unwrap_or(of);
        let told = self.entries.iter().filter(|entry| entry.written.is_some());
        let told = told.count();
        self.last = None;
        self.entries.truncate(entries);
        self.spots.truncate(entries);
        self.driven.retain(|at, _| (*at as usize) < entries);
        self.plan.retain(|fitted| fitted.line.date <= day);
        // Whatever is wrong with the log was told when the book was built.
        self.struck = self.strikes(&Unread::default(), &mut Vec::new());
        self.put_in_order(|_| true);
        self.plan.retain(|fitted| fitted.line.date <= day);
        let left_out = self.leave_out(hull);
        self.joints_made = joints_made(hull, self.story());
        self.known = Some(Known {
            day,
            entries,
            of,
            told,
            left_out,
        });
        self
    }

    /// What the book rests on, where it was turned back to an earlier day.
    pub const fn known(&self) -> Option<&Known> {
        self.known.as_ref()
    }

    /// Leaves out of the story what cannot be done in it; gives the numbers of those entries.
    fn leave_out(&mut self, hull: &Hull) -> Vec<u32> {
        let (mut faults, unsure) = (Vec::new(), BTreeSet::new());
        let mut telling = Telling {
            faults: &mut faults,
            unsure: &unsure,
        };
        let mut state = lay_sets(self, hull, |_| true, &mut telling);
        // Those of the sets were told before.
        telling.faults.clear();
        self.play(hull, &mut state, None, &mut |_| {}, &mut telling);
        let broken: BTreeSet<_> = faults.iter().filter_map(|fault| fault.origin).collect();
        let entries = std::mem::take(&mut self.entries);
        let left = |entry: &Entry| broken.contains(&entry.origin);
        self.order.retain(|at| {
            let entry = entries.get(*at as usize);
            !entry.is_some_and(left)
        });
        let numbers = entries.iter().filter(|entry| left(entry));
        let numbers = numbers.map(|entry| entry.number).collect();
        self.entries = entries;
        numbers
    }
}
