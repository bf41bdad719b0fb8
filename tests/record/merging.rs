//! Two logs that grew apart from one beginning, merged line by line and put in order again.

use std::collections::HashMap;

use proptest::prelude::*;
use refasten::files::{line, unmerge};
use refasten::record::{Entry, Strike, What};
use refasten::tables::GaugeSystem;
use refasten::units::Units;

use super::boat::{HULL, read, set};
use super::make;
use super::tales::{book, grown_apart, hull, hull_file, sets};

fn written(entry: &Entry) -> String {
    line(entry, GaugeSystem::American, Units::Inch) + "\n"
}

fn lines(entries: &[Entry]) -> String {
    entries.iter().map(written).collect()
}

/// What a union merge makes of both: what both begin with, then the lines of each.
fn union(begin: &[Entry], ours: &[Entry], theirs: &[Entry]) -> String {
    lines(ours) + &lines(&theirs[begin.len()..])
}

/// The same with the marks of a merge that was left unfinished.
fn marked(begin: &[Entry], ours: &[Entry], theirs: &[Entry]) -> String {
    format!(
        "{}<<<<<<< HEAD\n{}||||||| merged common ancestors\n=======\n{}>>>>>>> shed\n",
        lines(begin),
        lines(&ours[begin.len()..]),
        lines(&theirs[begin.len()..])
    )
}

/// One person's entries, then the other's with numbers of their own. A line that both wrote is
/// there once.
fn one_after_the_other(begin: &[Entry], ours: &[Entry], theirs: &[Entry]) -> Vec<Entry> {
    let mut all = ours.to_vec();
    let last = ours.last().map_or(0, |entry| entry.number);
    let same = |entry: &Entry| ours.iter().any(|other| written(other) == written(entry));
    let new: Vec<&Entry> = theirs[begin.len()..]
        .iter()
        .filter(|entry| !same(entry))
        .collect();
    let taken = new.first().is_some_and(|entry| entry.number <= last);
    let mut numbers: HashMap<u32, u32> = HashMap::new();
    for (entry, next) in new.into_iter().zip(last + 1..) {
        let mut entry = entry.clone();
        if taken {
            numbers.insert(entry.number, next);
            entry.number = next;
        }
        if let What::Struck { strike, .. } = &mut entry.what {
            *strike = Strike {
                number: numbers
                    .get(&strike.number)
                    .copied()
                    .unwrap_or(strike.number),
                ..strike.clone()
            };
        }
        all.push(entry);
    }
    all
}

proptest! {
    #![proptest_config(make::cases(40))]

    #[test]
    fn the_work_of_both_is_kept_one_after_the_other([begin, ours, theirs] in grown_apart()) {
        let expected = one_after_the_other(&begin, &ours, &theirs);
        let merged = union(&begin, &ours, &theirs);
        let mended = unmerge(&merged).map_or_else(|| merged.clone(), |(text, _)| text);
        prop_assert_eq!(&mended, &lines(&expected));
        prop_assert_eq!(unmerge(&mended), None);
        let (out_of_marks, told) = unmerge(&marked(&begin, &ours, &theirs)).unwrap();
        prop_assert_eq!(&out_of_marks, &mended);
        prop_assert_eq!(told.marks.len(), 4);
        // Where one can be told after the other, the log that was mended tells just that.
        // An entry that carries out a plan wants the plan beside it, and is left to its own tests.
        if expected.iter().all(|entry| entry.carries_out().is_none())
            && let Some(told) = book(&hull(), sets(), expected.clone()) {
            let boat = read(&hull_file(), &mended).unwrap();
            let states = |book, hull| super::boat::view(book, &refasten::record::Book::state(book, hull, None), hull.crossing_ids());
            prop_assert_eq!(states(&boat.book, &boat.hull), states(&told, &hull()));
        }
    }
}

#[test]
fn where_both_did_the_same_the_fault_names_both() {
    let hull = format!("{HULL}sets:\n{}", set("a", "P1 F1-2", "per crossing: 2"));
    let merged = "\
- {entry: 1, date: 2026-10-01, did: bared, place: P1 F1-2}
- {entry: 2, date: 2026-10-02, did: pulled, place: P1 F1.1, by: A}
- {entry: 2, date: 2026-10-03, did: pulled, place: P1 F1.1, by: B}
- {entry: 3, date: 2026-10-03, did: left, place: P1 F1.1, by: B}
- {entry: 4, date: 2026-10-03, did: pulled, place: P1 F1-2, count: 4, by: B}
";
    let (mended, _) = unmerge(merged).unwrap();
    assert_eq!(
        read(&hull, &mended).unwrap_err(),
        [
            "log 3: nothing can be pulled at P1 F1: there is no metal in the hole (see `refasten show --each` for what stands there; entry 2 of 2026-10-02 by A tells the same there: if it was done once, strike one of the two)",
            "log 4: nothing can be left at P1 F1: there is no metal in the hole (see `refasten show --each` for what stands there; entry 2 of 2026-10-02 by A was the last there, `2 pulled P1 F1.1`)",
            "log 5: the count is 4, but 3 would be pulled (is the place right? `refasten show --each` lists every hole there; entry 2 of 2026-10-02 by A tells the same there: if it was done once, strike one of the two)",
        ]
    );
}

#[test]
fn a_log_whose_numbers_fall_back_is_told_once_for_each_time() {
    let hull = format!("{HULL}sets:\n{}", set("a", "P1 F1-4", "per crossing: 1"));
    let entry = |number: u32, frame: u32| {
        format!("- {{entry: {number}, date: 2026-10-01, did: pulled, place: P1 F{frame}}}\n")
    };
    let merged = entry(1, 1) + &entry(2, 2) + &entry(1, 3) + &entry(2, 4);
    let told = read(&hull, &merged).unwrap_err();
    assert_eq!(
        told,
        [
            "log 3: entry 1 comes after entry 2, and there is another entry 1 above (were two people's logs put together? `check --repair` numbers the later entries anew)"
        ]
    );
    let twice = entry(1, 1) + &entry(1, 1);
    let told = read(&hull, &twice).unwrap_err();
    assert_eq!(
        told,
        ["log 2: entry 1 is there twice (`check --repair` keeps a line once that is there twice)"]
    );
}
