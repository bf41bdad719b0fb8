//! The log as a table.

use std::io;

use super::super::log_line::said;
use super::super::{Boat, Keys, RawEntry};
use crate::record::Entry;
use crate::show::csv::Cell;
use crate::show::export::Table;

/// The columns of [`entries`]: the keys of the log.
pub const ENTRIES: &[&str] = RawEntry::KEYS;

/// Writes every entry in the order of the log, those struck out and the strikes among them, each
/// key in a column of its own. [`import`](super::import) reads it back.
///
/// # Errors
/// What the table gives.
pub fn entries(boat: &Boat, table: &mut Table<'_>) -> io::Result<()> {
    let mut entries = boat.book.entries().iter();
    entries.try_for_each(|entry| table.row(&row(entry, boat)))
}

fn row(entry: &Entry, boat: &Boat) -> Vec<Cell> {
    let said = said(entry, boat.hull.gauges, boat.hull.units);
    let cell = |key: &&str| {
        let value = said.iter().find(|said| said.key == *key);
        value.map_or(Cell::Empty, |said| match (*key, said.value.parse()) {
            ("entry" | "count" | "per crossing", Ok(number)) => Cell::Number(number),
            ("date" | "written", _) => Cell::Day(said.value.clone()),
            _ => Cell::Text(said.value.clone()),
        })
    };
    ENTRIES.iter().map(cell).collect()
}
