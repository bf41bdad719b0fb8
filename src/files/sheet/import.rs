//! The rows of a sheet fitted into the log as entries, all of them or none.

use std::collections::{BTreeSet, HashMap};

use super::super::hull::HullFile;
use super::super::log::{entry, note_unread};
use super::super::log_line::read_back;
use super::super::{Boat, Folder, Given, RawEntry, Reader, Text, photo};
use super::dates::DateOrder;
use super::headings::Column;
use super::known::{Sought, known, renumber};
use super::made_from::MadeFrom;
use super::rows::{Grid, Written, rows};
use super::tell::{first_at_each, tell_doubled, twice};
use super::text::Sheet;
use crate::record::{Entry, What};
use crate::text::{Fault, FileId, Step};
use crate::units::Day;

/// The highest number that a row keeps; over it rows are numbered anew.
const MOST_KEPT: u32 = 1_000_000;

/// How a sheet is to be taken.
#[derive(Clone, Copy, Debug, Default)]
pub struct Asked<'a> {
    /// In which order dates stand that may be read in more ways than one.
    pub dates: Option<DateOrder>,
    /// Headings of columns to pass over.
    pub ignore: &'a [String],
    /// Whether rows that are in the log already are passed over, and not a fault.
    pub new_rows: bool,
}

/// A sheet that fits.
#[derive(Debug)]
pub struct Imported {
    /// The boat with its entries.
    pub boat: Boat,
    /// The entries, by rising number, each with the row it came from.
    pub added: Vec<(u32, Entry)>,
    /// The rows that are in the log already, each with the number of its entry.
    pub known: Vec<(u32, u32)>,
    /// The columns that were read.
    pub columns: Vec<Column>,
    /// The headings of those that were passed over.
    pub ignored: Vec<String>,
    /// How many blank rows were passed over.
    pub blank: u32,
    /// How far the log has grown since the sheet was made from it, where it has.
    pub grown: Option<String>,
}

/// Fits the rows of a sheet into the log of a boat's folder. Nothing is written.
///
/// Rows that have numbers of the log stand in their order, then the others in the order of their
/// days; numbers go on after the last of the log, and strikes follow them. Where the rows' own
/// numbers are all higher than the last of the log they keep them.
///
/// # Errors
/// Every fault of the sheet, of the files of the boat, and of the story they make together.
pub fn import(
    folder: &Folder,
    sheet: &Sheet,
    asked: &Asked<'_>,
    today: Day,
) -> Result<Imported, Vec<Fault>> {
    if let Some(fault) = &sheet.fault {
        return Err(vec![fault.clone()]);
    }
    let mut faults = Vec::new();
    let grid = rows(sheet, asked, today, &mut faults);
    let (mut fitted, mut before_story) = (Fitted::default(), 0);
    let (boat, mut more) = folder.read(today, |file, entries, faults| {
        fitted = fit(sheet, &grid, asked, today, file, entries, faults);
        faults.extend(fitted.without_picture(folder));
        before_story = faults.len();
    });
    let of_story = more.split_off(before_story.min(more.len()));
    faults.extend(more);
    faults.extend(first_at_each(&boat.hull, &fitted, of_story));
    let by_start: HashMap<usize, &Written> = grid
        .rows
        .iter()
        .map(|row| (row.row.origin.byte, row))
        .collect();
    let located = faults.into_iter().map(|fault| match fault.origin {
        Some(origin) if origin.file == FileId::Added && fault.bytes.is_none() => {
            match by_start.get(&origin.byte) {
                Some(row) => row.locate(&grid.columns, fault),
                None => fault,
            }
        }
        _ => fault,
    });
    let faults: Vec<Fault> = located.collect();
    if !faults.is_empty() {
        return Err(faults);
    }
    // The book has their places as the log is to have them.
    let entries = boat.book.entries();
    let first = entries.len().saturating_sub(fitted.added.len());
    let entries = entries.get(first..).unwrap_or_default().iter().cloned();
    let rows = fitted.added.iter().map(|(row, _)| *row);
    let added = rows.zip(entries).collect();
    Ok(Imported {
        boat,
        added,
        known: fitted.known,
        columns: grid.columns.read,
        ignored: grid.columns.ignored,
        blank: grid.blank,
        grown: fitted.grown,
    })
}

/// What became of the rows: entries, or entries that are there already.
#[derive(Default)]
pub(super) struct Fitted {
    pub(super) added: Vec<(u32, Entry)>,
    pub(super) known: Vec<(u32, u32)>,
    grown: Option<String>,
    /// The numbers of those that were in a log before; what became of their pictures is no fault.
    carried_over: BTreeSet<u32>,
}

impl Fitted {
    /// New entries whose picture is not there.
    fn without_picture<'f>(&'f self, folder: &'f Folder) -> impl Iterator<Item = Fault> + 'f {
        let new = self.added.iter().map(|(_, entry)| entry);
        let new = new.filter(|entry| !self.carried_over.contains(&entry.number));
        new.filter_map(|entry| {
            let misread = photo::missing(folder.path(), entry)?;
            let path = vec![Step::Key("photo")];
            Some(Fault::misread(Some(entry.origin), path, misread))
        })
    }
}

/// A row on its way into the log.
struct Coming<'g> {
    written: &'g Written,
    from: String,
    entry: Option<Entry>,
    /// Whether something is wrong with it, so that what comes after it is not to be blamed.
    faulty: bool,
}

fn fit(
    sheet: &Sheet,
    grid: &Grid,
    asked: &Asked<'_>,
    today: Day,
    file: &mut HullFile,
    entries: &mut Vec<Entry>,
    faults: &mut Vec<Fault>,
) -> Fitted {
    let (gauges, units) = (file.hull.gauges, file.hull.units);
    let last = entries.iter().map(|entry| entry.number).max().unwrap_or(0);
    let grown = MadeFrom::check(&grid.rows, &file.hull.boat, last, faults);
    tell_doubled(&grid.rows, faults);
    let mut coming: Vec<Coming<'_>> = grid
        .rows
        .iter()
        .map(|written| {
            let (number, told) = (written.own.unwrap_or(1), faults.len());
            let entry = written.raw.as_ref().and_then(|raw| {
                let raw = numbered(raw, number);
                entry(&raw, &mut Reader::new(written.row.origin, faults), gauges)
            });
            Coming {
                written,
                from: format!("{} row {}", sheet.hash, written.row.number),
                entry,
                faulty: written.faulty || faults.len() > told,
            }
        })
        .collect();
    coming.sort_by_key(|row| {
        let day = row.entry.as_ref().map(|entry| entry.date);
        let own = row.written.own;
        // Rows with numbers of the log are in its order, whatever their days.
        (
            own.is_none(),
            own,
            day.filter(|_| own.is_none()),
            row.written.row.number,
        )
    });
    let sought: Vec<Sought<'_>> = coming
        .iter()
        .map(|row| Sought {
            own: row.written.own,
            from: row.from.clone(),
            entry: row.entry.as_ref(),
        })
        .collect();
    let known = known(&sought, entries, gauges, units);
    let numbers = numbers(&coming, &known, last);
    let by_own: HashMap<u32, u32> = coming
        .iter()
        .zip(&numbers)
        .filter_map(|(row, number)| Some((row.written.own?, *number)))
        .collect();
    let mut fitted = Fitted {
        grown,
        ..Fitted::default()
    };
    let has_written = grid.columns.of("written").is_some();
    for ((row, known), number) in coming.into_iter().zip(known).zip(numbers) {
        let place = row.written.row.number;
        if let Some(entry) = known {
            fitted.known.push((place, entry));
            continue;
        }
        if let Some(raw) = row.written.raw.as_ref().filter(|_| row.faulty) {
            note_unread(&numbered(raw, number), false, &mut file.unread);
        }
        let Some(mut entry) = row.entry else {
            continue;
        };
        entry.number = number;
        if let What::Struck { strike, .. } = &mut entry.what {
            renumber(strike, |own| Some(by_own.get(&own).copied().unwrap_or(own)));
        }
        // What was in a log before keeps the day it was written down on and where it came from.
        let is_carried_over = has_written && row.written.own.is_some();
        if is_carried_over {
            fitted.carried_over.insert(number);
        } else if entry.written.is_none() && entry.date < today {
            entry.written = Some(today);
        }
        entry.from.get_or_insert(row.from);
        read_back(&entry, gauges, units, row.written.row.origin, faults);
        fitted.added.push((place, entry));
    }
    fitted.added.sort_by_key(|(_, entry)| entry.number);
    entries.extend(fitted.added.iter().map(|(_, entry)| entry.clone()));
    if !asked.new_rows {
        faults.extend(twice(grid, &fitted));
    }
    fitted
}

fn numbered(raw: &RawEntry, number: u32) -> RawEntry {
    RawEntry {
        entry: Given::Is(Text::new(number.to_string())),
        ..raw.clone()
    }
}

/// The number that each row gets, or has in the log.
fn numbers(coming: &[Coming<'_>], known: &[Option<u32>], last: u32) -> Vec<u32> {
    let new = coming
        .iter()
        .zip(known)
        .filter(|(_, known)| known.is_none());
    let own: Vec<u32> = new.filter_map(|(row, _)| row.written.own).collect();
    let is_kept = own.iter().all(|own| *own > last && *own <= MOST_KEPT);
    let mut before = last;
    let each = coming.iter().zip(known).map(|(row, known)| {
        known.unwrap_or_else(|| {
            let next = before.saturating_add(1);
            before = row
                .written
                .own
                .filter(|own| is_kept && *own >= next)
                .unwrap_or(next);
            before
        })
    });
    each.collect()
}
