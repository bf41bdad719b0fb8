//! How fast the work goes, as the log itself shows.

use std::collections::BTreeMap;

use crate::audit::Survey;
use crate::record::Did;
use crate::units::{Day, count};

/// The last days with work that are looked at: how fast it went years ago says little.
const DAYS: usize = 20;

/// Fewer days than these say nothing.
const FEWEST_DAYS: usize = 5;

/// How fast the work went.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pace {
    /// On so many days something was drawn or driven.
    pub days: u32,
    /// The first of them.
    pub from: Day,
    /// The last of them.
    pub to: Day,
    /// Fastenings drawn and driven on a slow day: on a quarter of the days it was less.
    pub slow: u32,
    /// The same on a quick day: on a quarter of the days it was more.
    pub quick: u32,
    /// How many came out or broke in the drawing on these days.
    pub drawn: u32,
    /// How many of them broke. They are not in the pace: each takes its own time.
    pub broken: u32,
}

impl Pace {
    /// The pace up to the survey's day; `None` where there is too little to go on.
    pub fn of(survey: &Survey<'_>) -> Option<Self> {
        let mut days: BTreeMap<Day, (u32, u32, u32)> = BTreeMap::new();
        survey
            .book
            .trace(survey.hull, Some(survey.day), &mut |change| {
                let (drawn, driven, broken) = match change.entry.did() {
                    Did::Pulled => (1, 0, 0),
                    Did::Driven => (0, 1, 0),
                    Did::Broken => (0, 0, 1),
                    _ => return,
                };
                let day = days.entry(change.entry.date).or_default();
                *day = (day.0 + drawn, day.1 + driven, day.2 + broken);
            });
        let last: Vec<(Day, (u32, u32, u32))> = days.into_iter().rev().take(DAYS).collect();
        let mut counts: Vec<u32> = last
            .iter()
            .map(|(_, (drawn, driven, _))| drawn + driven)
            .filter(|count| *count > 0)
            .collect();
        if counts.len() < FEWEST_DAYS {
            return None;
        }
        counts.sort_unstable();
        let quarter = counts.len() / 4;
        let sum = |of: fn(&(u32, u32, u32)) -> u32| last.iter().map(|(_, day)| of(day)).sum();
        let broken: u32 = sum(|day| day.2);
        Some(Self {
            days: count(counts.len()),
            from: last.last()?.0,
            to: last.first()?.0,
            slow: *counts.get(quarter)?,
            quick: *counts.get(counts.len() - 1 - quarter)?,
            drawn: sum(|day| day.0) + broken,
            broken,
        })
    }

    /// Working days for so many fastenings to draw and drive, at a quick pace and at a slow one.
    pub const fn days_for(&self, fastenings: u32) -> (u32, u32) {
        // A day that counts had at least one.
        let quick = if self.quick == 0 { 1 } else { self.quick };
        let slow = if self.slow == 0 { 1 } else { self.slow };
        (fastenings.div_ceil(quick), fastenings.div_ceil(slow))
    }

    /// How many of so many to draw will break, at the share that broke; `None` where none was
    /// drawn.
    pub fn will_break(&self, to_draw: u32) -> Option<u32> {
        let of = u64::from(self.drawn);
        let wide = u64::from(to_draw) * u64::from(self.broken);
        (of > 0).then(|| u32::try_from(wide.div_ceil(of)).unwrap_or(u32::MAX))
    }
}
