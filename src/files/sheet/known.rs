//! Rows that are in the log already.

use std::collections::{HashMap, HashSet};

use super::super::log_line::line;
use crate::record::{Entry, Strike, What};
use crate::tables::GaugeSystem;
use crate::units::Units;

/// What an entry says, whatever its number and wherever it came from.
fn says(entry: &Entry, gauges: GaugeSystem, units: Units) -> String {
    let bare = Entry {
        number: 0,
        written: None,
        from: None,
        ..entry.clone()
    };
    line(&bare, gauges, units)
}

/// A row to look for.
pub(super) struct Sought<'s> {
    /// Its number in the sheet, if it has one.
    pub(super) own: Option<u32>,
    /// Where it would be taken from.
    pub(super) from: String,
    /// What it says.
    pub(super) entry: Option<&'s Entry>,
}

/// For each row the number of the entry that it is in the log: one that was taken from this very
/// row, else one that says the same. No entry stands for two rows. The rows come in the order of
/// their numbers, so that a strike follows what it strikes.
pub(super) fn known(
    rows: &[Sought<'_>],
    log: &[Entry],
    gauges: GaugeSystem,
    units: Units,
) -> Vec<Option<u32>> {
    let taken: HashMap<&str, u32> = log
        .iter()
        .filter_map(|entry| Some((entry.from.as_deref()?, entry.number)))
        .collect();
    let taken: Vec<Option<u32>> = rows
        .iter()
        .map(|row| taken.get(row.from.as_str()).copied())
        .collect();
    let spoken_for: HashSet<u32> = taken.iter().flatten().copied().collect();
    let mut alike: HashMap<String, Vec<u32>> = HashMap::new();
    for entry in log
        .iter()
        .rev()
        .filter(|entry| !spoken_for.contains(&entry.number))
    {
        alike
            .entry(says(entry, gauges, units))
            .or_default()
            .push(entry.number);
    }
    let mut by_own: HashMap<u32, Option<u32>> = HashMap::new();
    let mut all = Vec::with_capacity(rows.len());
    for (row, taken) in rows.iter().zip(taken) {
        let found = taken.or_else(|| {
            let entry = in_the_numbers_of_the_log(row.entry?, &by_own)?;
            alike.get_mut(&says(&entry, gauges, units))?.pop()
        });
        if let Some(own) = row.own {
            by_own.insert(own, found);
        }
        all.push(found);
    }
    all
}

/// An entry with what it strikes by the number that has in the log; `None` where that is not there.
fn in_the_numbers_of_the_log(entry: &Entry, by_own: &HashMap<u32, Option<u32>>) -> Option<Entry> {
    let mut entry = entry.clone();
    if let What::Struck { strike, .. } = &mut entry.what {
        renumber(strike, |number| {
            by_own.get(&number).map_or(Some(number), |known| *known)
        })?;
    }
    Some(entry)
}

/// Gives a strike the number that what it strikes has now; `None` where it has none.
pub(super) fn renumber(strike: &mut Strike, now: impl Fn(u32) -> Option<u32>) -> Option<()> {
    strike.number = now(strike.number)?;
    Some(())
}

/// Numbers in words: `2-6 and 9`.
pub(super) fn runs(numbers: impl IntoIterator<Item = u32>) -> String {
    let mut sorted: Vec<u32> = numbers.into_iter().collect();
    sorted.sort_unstable();
    let mut runs: Vec<(u32, u32)> = Vec::new();
    for number in sorted {
        match runs.last_mut() {
            Some((_, last)) if last.checked_add(1) == Some(number) => *last = number,
            _ => runs.push((number, number)),
        }
    }
    const MOST: usize = 8;
    let more = runs.len().saturating_sub(MOST);
    let mut words: Vec<String> = runs
        .iter()
        .take(MOST)
        .map(|(first, last)| match first == last {
            true => first.to_string(),
            false => format!("{first}-{last}"),
        })
        .collect();
    if more > 0 {
        words.push(format!("{more} more"));
    }
    match words.pop() {
        Some(last) if !words.is_empty() => format!("{} and {last}", words.join(", ")),
        last => last.unwrap_or_default(),
    }
}
