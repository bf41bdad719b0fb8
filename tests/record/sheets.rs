//! A log written as a table and read from it again is the same log.

use std::fs;
use std::path::Path;

use proptest::prelude::*;
use refasten::files::sheet::{Asked, ENTRIES, Imported, Sheet, entries, import};
use refasten::files::{Folder, line, written_plan};
use refasten::record::{Did, Entry, What};
use refasten::show::export::Table;
use refasten::tables::GaugeSystem;
use refasten::text::Fault;
use refasten::units::Units;

use super::boat::{TODAY, day, view};
use super::make::{self, ORIGIN};
use super::tales::{hull_file, plan, story};

/// A folder of the boat of every story with this log, and with the plan that a story carries out.
fn folder(log: &str, story: &[Entry]) -> (tempfile::TempDir, Folder) {
    let line = |line| written_plan(line, GaugeSystem::American, Units::Inch) + "\n";
    let plan: String = plan(story).iter().map(line).collect();
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("hull.yaml"), hull_file()).unwrap();
    fs::write(folder.path().join("log.yaml"), log).unwrap();
    let plan = format!("# refasten plan 1\n{plan}");
    fs::write(folder.path().join("plan.yaml"), plan).unwrap();
    let read = Folder::open(folder.path()).unwrap();
    (folder, read)
}

fn log_of(entries: &[Entry]) -> String {
    let line = |entry| line(entry, GaugeSystem::American, Units::Inch) + "\n";
    entries.iter().map(line).collect()
}

fn exported(folder: &Folder) -> Vec<u8> {
    let boat = folder.boat(day(TODAY)).unwrap();
    let mut out = Vec::new();
    let mut table = Table::csv(&mut out, ENTRIES).unwrap();
    entries(&boat, &mut table).unwrap();
    table.end().unwrap();
    out
}

fn imported(folder: &Folder, csv: &[u8], new_rows: bool) -> Result<Imported, Vec<Fault>> {
    let asked = Asked {
        new_rows,
        ..Asked::default()
    };
    import(
        folder,
        &Sheet::of("a.csv".to_owned(), csv),
        &asked,
        day(TODAY),
    )
}

/// An entry without what import adds to it.
fn bare(entry: &Entry) -> Entry {
    Entry {
        origin: ORIGIN,
        from: None,
        ..entry.clone()
    }
}

/// What a spreadsheet program may do to the rows that nobody sees: rows sorted by another column,
/// and each cell between quotes.
fn stirred(csv: &[u8]) -> Vec<u8> {
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .from_reader(csv);
    let mut rows: Vec<csv::ByteRecord> = reader.byte_records().map(Result::unwrap).collect();
    let heads = rows.remove(0);
    rows.sort_by_key(|row| row.iter().rev().map(<[u8]>::to_vec).collect::<Vec<_>>());
    let mut writer = csv::WriterBuilder::new()
        .quote_style(csv::QuoteStyle::Always)
        .delimiter(b';')
        .from_writer(Vec::new());
    // The byte-order mark belongs before the first quote.
    let mark = "\u{feff}".as_bytes();
    let heads: csv::ByteRecord = heads
        .iter()
        .map(|head| head.strip_prefix(mark).unwrap_or(head))
        .collect();
    writer.write_byte_record(&heads).unwrap();
    rows.iter()
        .for_each(|row| writer.write_byte_record(row).unwrap());
    [mark, &writer.into_inner().unwrap()].concat()
}

proptest! {
    #![proptest_config(make::cases(30))]

    #[test]
    fn an_exported_log_is_imported_as_the_same_story(entries in story(), stir in any::<bool>()) {
        let (_kept, full) = folder(&log_of(&entries), &entries);
        let csv = exported(&full);
        for row in csv::Reader::from_reader(&csv[..]).records() {
            for cell in &row.unwrap() {
                prop_assert!(!cell.starts_with(['=', '+', '-', '@', '\t', '\r']), "{}", cell);
            }
        }
        let csv = if stir { stirred(&csv) } else { csv };
        let (_kept, empty) = folder("", &entries);
        if entries.is_empty() {
            prop_assert!(imported(&empty, &csv, false).is_err());
            return Ok(());
        }
        let made = imported(&empty, &csv, false)
            .map_err(|faults| TestCaseError::fail(format!("{faults:#?}")))?;
        let added: Vec<Entry> = made.added.iter().map(|(_, entry)| bare(entry)).collect();
        prop_assert_eq!(&added, &entries.iter().map(bare).collect::<Vec<_>>());
        let boat = full.boat(day(TODAY)).unwrap();
        let state = |boat: &refasten::files::Boat| {
            view(&boat.book, &boat.book.state(&boat.hull, None), boat.hull.crossing_ids())
        };
        prop_assert_eq!(state(&made.boat), state(&boat));
        // Once in, every row is known, whatever its file is.
        let again: Vec<Entry> = made.added.iter().map(|(_, entry)| entry.clone()).collect();
        let (_kept, again) = folder(&log_of(&again), &entries);
        for csv in [&csv, &exported(&again), &exported(&full)] {
            let faults = imported(&again, csv, false).err().unwrap_or_default();
            prop_assert_eq!(faults.len(), 1, "{:?}", faults);
            prop_assert!(faults[0].says.starts_with("every row of this sheet is in the log already"));
            let none = imported(&again, csv, true).unwrap();
            prop_assert_eq!((none.added.len(), none.known.len()), (0, entries.len()));
        }
    }

    /// Part of a log is there already: the rest goes in behind it, and strikes find what they strike.
    #[test]
    fn a_grown_sheet_brings_its_new_rows(entries in story(), part in any::<prop::sample::Index>()) {
        let at = part.index(entries.len() + 1);
        let (_kept, full) = folder(&log_of(&entries), &entries);
        let csv = exported(&full);
        // The first part was logged under other numbers.
        let later = |number: u32| number + 7;
        let first: Vec<Entry> = entries
            .iter()
            .take(at)
            .map(|entry| {
                let mut entry = entry.clone();
                entry.number = later(entry.number);
                if let What::Struck { strike, .. } = &mut entry.what {
                    strike.number = later(strike.number);
                }
                entry
            })
            .collect();
        let (_kept, half) = folder(&log_of(&first), &entries);
        // A late entry of the second part may stand before the first; then the halves are no story.
        let Ok(made) = half.boat(day(TODAY)).and_then(|_| imported(&half, &csv, true)) else {
            return Ok(());
        };
        prop_assert_eq!(made.known.len(), at);
        prop_assert_eq!(made.added.len(), entries.len() - at);
        for ((_, new), old) in made.added.iter().zip(&entries[at..]) {
            prop_assert_eq!(new.did(), old.did());
            if let (What::Struck { strike: new, .. }, What::Struck { strike: old, .. }) = (&new.what, &old.what) {
                prop_assert_eq!((new.did, &new.place), (old.did, &old.place));
            }
        }
        let story = |book: &refasten::record::Book| {
            let done = book.story().filter(|entry| entry.did() != Did::Struck);
            done.map(|entry| (entry.date, entry.what.clone())).collect::<Vec<_>>()
        };
        prop_assert_eq!(story(&made.boat.book), story(&full.boat(day(TODAY)).unwrap().book));
    }

    #[test]
    fn no_bytes_make_the_reader_panic(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        let (_kept, empty) = folder("", &[]);
        prop_assert!(imported(&empty, &bytes, false).is_err());
    }

    #[test]
    fn no_cells_make_the_reader_panic(
        rows in prop::collection::vec("[-=+@'\"a-f0-9/.,; éPSF\\\\u{}]{0,20}(\t|,|;|\r|\n|\"){0,2}", 0..30),
    ) {
        let (_kept, empty) = folder("", &[]);
        let csv = format!("date,did,place,size,note\n{}", rows.concat());
        drop(imported(&empty, csv.as_bytes(), false));
    }
}

#[test]
fn a_sheet_is_read_from_its_file() {
    assert!(Sheet::load(Path::new("no/such/sheet.csv")).is_err());
}
