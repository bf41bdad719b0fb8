//! Spreadsheets: what was imported is exported, and imported again is known.

use std::collections::BTreeSet;

use refasten::files::sheet::{Asked, ENTRIES, Sheet, entries, import};
use refasten::files::{Boat, line};
use refasten::show::export::Table;
use refasten::text::{draw, tell};

use super::boat::{HULL, folder, read, without};
use super::today;

/// Any bytes as a spreadsheet; and what is left of it without the rows that have faults.
pub fn csv(bytes: &[u8]) {
    let mut bytes = bytes.to_vec();
    while let Err(rows) = there_and_back(&bytes) {
        let left = without(&bytes, &rows);
        if left.len() == bytes.len() {
            break;
        }
        bytes = left;
    }
}

/// Imports a sheet; gives the lines of the rows with faults, but not of its headings.
fn there_and_back(bytes: &[u8]) -> Result<(), BTreeSet<u32>> {
    let (_kept, empty) = folder(HULL.as_bytes(), b"", b"");
    let sheet = Sheet::of("a.csv".to_owned(), bytes);
    let asked = Asked::default();
    let imported = match import(&empty, &sheet, &asked, today()) {
        Ok(imported) => imported,
        Err(faults) => {
            let folder = sheet.beside(empty);
            let mut told = Vec::new();
            draw(&mut told, &faults, &folder.texts(), 80, false).expect("a vector");
            tell(&mut told, &faults, &folder.texts()).expect("a vector");
            let told = String::from_utf8(told).expect("text");
            let raw = |c: char| c.is_control() && c != '\n';
            assert!(!told.is_empty() && !told.contains(raw), "{told:?}");
            let lines = faults.iter().filter_map(|fault| Some(fault.origin?.line));
            return Err(lines.filter(|line| *line > 1).collect());
        }
    };
    // The entries are in the log as they are in the boat that was judged.
    let written = lines(&imported.boat);
    let (_kept, with_them) = folder(HULL.as_bytes(), written.as_bytes(), b"");
    let boat = read(&with_them).unwrap_or_else(|| panic!("{written}"));
    assert_eq!(lines(&boat), written);
    if boat.book.entries().is_empty() {
        return Ok(());
    }
    // Exported and imported into an empty log, they are the same again; into their own, known.
    let table = exported(&boat);
    let sheet = Sheet::of("b.csv".to_owned(), &table);
    match import(&empty, &sheet, &asked, today()) {
        Ok(again) => assert_eq!(lines(&again.boat), written),
        Err(faults) => panic!("{faults:?} of {}", String::from_utf8_lossy(&table)),
    }
    let new_rows = Asked {
        new_rows: true,
        ..Asked::default()
    };
    match import(&with_them, &sheet, &new_rows, today()) {
        Ok(again) => assert!(again.added.is_empty(), "{:?}", again.added),
        Err(faults) => panic!("{faults:?} of {}", String::from_utf8_lossy(&table)),
    }
    Ok(())
}

fn lines(boat: &Boat) -> String {
    let entries = boat.book.entries().iter();
    let lines = entries.map(|entry| line(entry, boat.hull.gauges, boat.hull.units) + "\n");
    lines.collect()
}

fn exported(boat: &Boat) -> Vec<u8> {
    let mut out = Vec::new();
    let mut table = Table::csv(&mut out, ENTRIES).expect("a vector");
    entries(boat, &mut table).expect("a vector");
    table.end().expect("a vector");
    out
}
