//! An entry written as a line of the log is read back the same.

use proptest::prelude::*;
use refasten::files::{Folder, Given, NewEntries, RawEntry, Text, line, written_plan};
use refasten::record::{Entry, PlanLine};
use refasten::tables::GaugeSystem;
use refasten::text::FileId;
use refasten::units::Units;

use super::boat::{TODAY, day, read_with_plan, view};
use super::make::{self, ORIGIN};
use super::tales::{book, hull_file, plan, sets, story};

fn nowhere(entries: &[Entry]) -> Vec<Entry> {
    let of = |entry: &Entry| Entry {
        origin: ORIGIN,
        ..entry.clone()
    };
    entries.iter().map(of).collect()
}

proptest! {
    #![proptest_config(make::cases(80))]

    #[test]
    fn whatever_is_logged_is_read_back(
        entries in story(),
        british in any::<bool>(),
        metric in any::<bool>(),
        crlf in any::<bool>(),
    ) {
        let (gauges, head) = match british {
            true => (GaugeSystem::British, "gauges: british\n"),
            false => (GaugeSystem::American, ""),
        };
        let units = if metric { Units::Metric } else { Units::Inch };
        let end = if crlf { "\r\n" } else { "\n" };
        let mut log = format!("# refasten log 1{end}");
        for entry in &entries {
            let line = line(entry, gauges, units);
            prop_assert!(!line.contains(char::is_control), "{}", line);
            log += &line;
            log += end;
        }
        let hull = format!("{}{head}", hull_file()).replace('\n', end);
        let lines = plan(&entries);
        let mut plan = format!("# refasten plan 1{end}");
        for line in &lines {
            plan += &written_plan(line, gauges, units);
            plan += end;
        }
        let read = read_with_plan(hull.as_bytes(), log.as_bytes(), plan.as_bytes());
        let boat = read.map_err(|faults| TestCaseError::fail(format!("{log}\n{plan}\n{faults:#?}")))?;
        let read: Vec<PlanLine> = boat
            .book
            .plan_lines()
            .map(|line| PlanLine { origin: ORIGIN, ..line.clone() })
            .collect();
        prop_assert_eq!(read, lines, "{}", plan);
        prop_assert_eq!(nowhere(boat.book.entries()), nowhere(&entries), "{}", log);
        // The sets of the hull file are those the stories are made with.
        let made = book(&boat.hull, sets(), entries).expect("the story is legal");
        let state = |book: &refasten::record::Book| view(book, &book.state(&boat.hull, None), boat.hull.crossing_ids());
        prop_assert_eq!(state(&boat.book), state(&made));
    }
}

#[test]
fn what_could_not_be_read_back_is_not_taken() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("hull.yaml"), hull_file()).unwrap();
    let folder = Folder::open(folder.path()).unwrap();
    let text = |text: &str| Given::Is(Text::new(text));
    let typed = |note: &str| RawEntry {
        date: text("2026-10-03"),
        did: text("pulled"),
        place: text("P3 F1"),
        note: text(note),
        ..RawEntry::default()
    };
    let long = "x".repeat(70_000);
    for (note, says) in [
        ("", "`note` is empty"),
        (" \t", "`note` is empty"),
        (
            &long,
            "this record is 69 KiB long, and a record may have 64 KiB",
        ),
    ] {
        let taken = folder.boat_with(&NewEntries::typed(&[typed(note)]), day(TODAY));
        let faults = taken.err().unwrap_or_default();
        assert_eq!(faults.len(), 1, "{faults:?}");
        let at = faults[0].origin.map(|origin| (origin.file, origin.line));
        assert_eq!(
            (faults[0].says.as_str(), at),
            (says, Some((FileId::Typed, 1)))
        );
    }
    assert!(
        folder
            .boat_with(&NewEntries::typed(&[typed("x")]), day(TODAY))
            .is_ok()
    );
}

#[test]
fn what_is_logged_late_says_on_which_day() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("hull.yaml"), hull_file()).unwrap();
    let folder = Folder::open(folder.path()).unwrap();
    let text = |text: &str| Given::Is(Text::new(text));
    let written = |date: &str, given: Given<Text>| {
        let typed = RawEntry {
            date: text(date),
            did: text("pulled"),
            place: text("P3 F1"),
            written: given,
            ..RawEntry::default()
        };
        let (_, entries) = folder
            .boat_with(&NewEntries::typed(&[typed]), day(TODAY))
            .unwrap();
        entries[0].written
    };
    assert_eq!(written(TODAY, Given::Missing), None);
    assert_eq!(written("2026-10-03", Given::Missing), Some(day(TODAY)));
    let told = "2026-10-09";
    assert_eq!(written("2026-10-03", text(told)), Some(day(told)));
}
