//! Entries that are to be added to a boat's log: typed, or read from a file of their own.

use std::path::Path;

use super::log::{self, RawEntry};
use super::log_line::read_back;
use super::{Boat, Folder, Given, Reader, Text, photo, read, slips, split_lines};
use crate::hull::Hull;
use crate::record::{Book, Entry, Unread, What};
use crate::text::{Fault, FileId, Misread, Origin};
use crate::units::Day;

use super::hull::HullFile;

/// An entry that is to be added, without its number.
#[derive(Clone, Debug)]
pub struct NewEntry {
    /// What was given.
    raw: RawEntry,
    /// Where it was given.
    origin: Origin,
    /// Whether part of its place was taken for something else.
    cut: bool,
}

/// Entries that are to be added together, and what was wrong with the text they were read from.
#[derive(Clone, Debug, Default)]
pub struct NewEntries {
    entries: Vec<NewEntry>,
    faults: Vec<Fault>,
}

impl NewEntries {
    /// Entries that were typed. A fault of one has [`FileId::Typed`] for its file, and for its line
    /// the number of the entry among them, from 1.
    pub fn typed(typed: &[RawEntry]) -> Self {
        let entries = typed.iter().zip(1..).map(|(raw, line)| NewEntry {
            raw: raw.clone(),
            origin: Origin {
                file: FileId::Typed,
                byte: 0,
                line,
            },
            cut: false,
        });
        Self {
            entries: entries.collect(),
            faults: Vec::new(),
        }
    }

    /// The entries of a text that is written as a log is, but without numbers.
    pub fn read(text: &str) -> Self {
        let mut faults = Vec::new();
        let mut entries = Vec::new();
        for piece in split_lines(text, FileId::Added, &mut faults) {
            let told = faults.len();
            let Given::Is(mut raw) = read::<RawEntry>(&piece, &mut faults) else {
                continue;
            };
            let cut = slips::place_was_cut(faults.get(told..).unwrap_or_default());
            if !matches!(raw.entry, Given::Missing) {
                let misread = Misread::new("an entry that is to be added has no number yet");
                Reader::new(piece.origin, &mut faults).misplaced(
                    "entry",
                    misread.help("leave `entry` out: the log goes on counting"),
                );
                raw.entry = Given::Missing;
            }
            entries.push(NewEntry {
                raw,
                origin: piece.origin,
                cut,
            });
        }
        Self { entries, faults }
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.entries.len()
    }

    /// Whether there is none, and nothing was wrong with where they should have been.
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty() && self.faults.is_empty()
    }

    /// Puts each of them, numbered, behind the entries of the log.
    fn put_behind(
        &self,
        file: &mut HullFile,
        entries: &mut Vec<Entry>,
        folder: &Path,
        today: Day,
        faults: &mut Vec<Fault>,
    ) {
        faults.extend(self.faults.iter().cloned());
        let last = entries.iter().map(|entry| entry.number).max().unwrap_or(0);
        for (new, number) in self.entries.iter().zip(last.saturating_add(1)..) {
            let raw = RawEntry {
                entry: Given::Is(Text::new(number.to_string())),
                ..new.raw.clone()
            };
            let (gauges, units) = (file.hull.gauges, file.hull.units);
            let mut fields = Reader::new(new.origin, faults);
            let entry = log::sound(&raw, new.cut, &mut fields, gauges, &mut file.unread);
            let Some(entry) = entry else { continue };
            let late = (entry.date < today).then_some(today);
            let entry = Entry {
                written: entry.written.or(late),
                ..entry
            };
            if let Some(misread) = photo::missing(folder, &entry) {
                fields.fault("photo", misread);
            }
            read_back(&entry, gauges, units, new.origin, faults);
            entries.push(entry);
        }
    }
}

impl Folder {
    /// The boat as she would be with some entries added, and the entries. Those of an earlier day
    /// are marked as written today, and their places name strakes by number.
    ///
    /// # Errors
    /// Every fault of the boat's files and of the new entries; what these would do to the story
    /// stands at the entry that breaks.
    pub fn boat_with(
        &self,
        new: &NewEntries,
        today: Day,
    ) -> Result<(Boat, Vec<Entry>), Vec<Fault>> {
        let (boat, faults) = self.read(today, |file, entries, faults| {
            new.put_behind(file, entries, self.path(), today, faults);
        });
        if faults.is_empty() {
            let first = boat.book.entries().len().saturating_sub(new.len());
            let added = boat.book.entries().get(first..).unwrap_or_default();
            let added = added.to_vec();
            return Ok((boat, added));
        }
        Err(self.depend(new, today, &faults).unwrap_or(faults))
    }

    /// Where strikes and nothing else would make later entries impossible: the one fault that names
    /// them all.
    fn depend(&self, new: &NewEntries, today: Day, faults: &[Fault]) -> Option<Vec<Fault>> {
        let of_log = |fault: &Fault| fault.origin.is_some_and(|at| at.file == FileId::Log);
        if !faults.iter().all(of_log) {
            return None;
        }
        let boat = self.boat(today).ok()?;
        let (mut unread, mut none) = (Unread::default(), Vec::new());
        let targets = new.entries.iter().map(|new| {
            let raw = RawEntry {
                entry: Given::Is(Text::new("1")),
                ..new.raw.clone()
            };
            let mut fields = Reader::new(new.origin, &mut none);
            let entry = log::sound(&raw, false, &mut fields, boat.hull.gauges, &mut unread)?;
            match entry.what {
                What::Struck { strike, .. } => boat.book.row_of(strike.number),
                What::Done { .. } => None,
            }
        });
        let targets: Vec<usize> = targets.collect::<Option<_>>()?;
        let origin = new.entries.first()?.origin;
        Some(vec![stand_on(&boat.hull, &boat.book, &targets, origin)?])
    }
}

/// The fault of strikes that later entries stand in the way of, with all of these in the order they
/// can be struck in.
fn stand_on(hull: &Hull, book: &Book, targets: &[usize], origin: Origin) -> Option<Fault> {
    let first = book.struck_before(hull, targets);
    let entries = first.iter().filter_map(|at| book.entries().get(*at));
    let titles: Vec<String> = entries
        .map(|entry| format!("`{}`", entry.title()))
        .collect();
    let says = match titles.as_slice() {
        [] => return None,
        [one] => format!("a later entry stands on it: {one}"),
        more => format!(
            "{} later entries stand on it: {}",
            more.len(),
            more.join(", ")
        ),
    };
    let help = match titles.len() {
        1 => "strike that one first; `then` between the two makes one command of it",
        _ => "strike them first, in this order; `then` between them makes one command of it",
    };
    let fault = Fault::new(Some(origin), says).key("strikes");
    Some(fault.help(help))
}
