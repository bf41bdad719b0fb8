//! What is wrong with rows for what other rows and the log say.

use std::collections::{BTreeMap, HashMap, HashSet};

use super::import::Fitted;
use super::known::runs;
use super::rows::{Grid, Written};
use crate::hull::{CrossingId, Hull};
use crate::record::Entry;
use crate::text::{Fault, FileId};

/// The faults that rows have in the story, but for those at crossings where an earlier row has one:
/// what could not be done there may be all that is wrong with what follows.
pub(super) fn first_at_each(hull: &Hull, fitted: &Fitted, faults: Vec<Fault>) -> Vec<Fault> {
    let rows: HashMap<usize, &Entry> = fitted
        .added
        .iter()
        .map(|(_, entry)| (entry.origin.byte, entry))
        .collect();
    let row = |fault: &Fault| {
        let origin = fault.origin.filter(|origin| origin.file == FileId::Added)?;
        rows.get(&origin.byte).copied()
    };
    let mut faults = faults;
    faults.sort_by_key(|fault| row(fault).map(|entry| (entry.date, entry.number)));
    let mut first: HashMap<CrossingId, u32> = HashMap::new();
    faults.retain(|fault| {
        let Some(entry) = row(fault) else { return true };
        let spots = entry.place().and_then(|place| hull.resolve(place).ok());
        let mut follows = false;
        for spot in spots.unwrap_or_default() {
            follows |= *first.entry(spot.crossing).or_insert(entry.number) != entry.number;
        }
        !follows
    });
    faults
}

/// Tells the numbers that two rows have.
pub(super) fn tell_doubled(rows: &[Written], faults: &mut Vec<Fault>) {
    let mut seen: BTreeMap<u32, u32> = BTreeMap::new();
    for written in rows {
        let Some(own) = written.own else { continue };
        if let Some(first) = seen.insert(own, written.row.number) {
            let says = format!("entry {own} stands in row {first} already");
            let fault = Fault::new(Some(written.row.origin), says).key("entry");
            faults
                .push(fault.help("give each entry a number of its own, or leave new ones without"));
        }
    }
}

/// The fault of rows that are in the log already.
pub(super) fn twice(grid: &Grid, fitted: &Fitted) -> Option<Fault> {
    let rows: HashSet<u32> = fitted.known.iter().map(|(row, _)| *row).collect();
    let first = grid
        .rows
        .iter()
        .find(|row| rows.contains(&row.row.number))?;
    let entries = runs(fitted.known.iter().map(|(_, entry)| *entry));
    let (as_entries, are) = match rows.len() {
        1 => (format!("as entry {entries}"), "is"),
        _ => (format!("as entries {entries}"), "are"),
    };
    let one = |row: &Written| {
        let at = row.row.cells.first().map(|cell| cell.at.clone());
        (Some(row.row.origin), at)
    };
    let (origin, bytes) = one(first);
    let (says, help) = if rows.len() == grid.rows.len() {
        (
            format!("every row of this sheet is in the log already, {as_entries}"),
            "it was imported before, or logged by hand; there is nothing to add",
        )
    } else {
        let plural = if rows.len() == 1 { "row" } else { "rows" };
        (
            format!(
                "{plural} {} {are} in the log already, {as_entries}",
                runs(rows)
            ),
            "--new-rows passes them over and takes the others",
        )
    };
    Some(Fault {
        bytes,
        ..Fault::new(origin, says).help(help)
    })
}
