//! The crossings that entries name, looked up all at once.

use std::panic::resume_unwind;
use std::thread;

use super::Entry;
use crate::hull::{Hull, Spot};

/// Fewer entries are looked up before another thread has begun.
const MANY_ENTRIES: usize = 20_000;

/// Of each entry the crossings that it names, on two threads where there are many; `None` where
/// they are not there, or it has no place.
pub(super) fn resolved(hull: &Hull, entries: &[Entry]) -> Vec<Option<Box<[Spot]>>> {
    let of = |entry: &Entry| hull.resolve(entry.place()?).ok().map(Vec::into);
    let all = |entries: &[Entry]| -> Vec<Option<Box<[Spot]>>> { entries.iter().map(of).collect() };
    if entries.len() < MANY_ENTRIES {
        return all(entries);
    }
    let (first, second) = entries.split_at(entries.len() / 2);
    thread::scope(|scope| {
        let behind = scope.spawn(|| all(second));
        let mut resolved = all(first);
        resolved.extend(behind.join().unwrap_or_else(|panic| resume_unwind(panic)));
        resolved
    })
}
