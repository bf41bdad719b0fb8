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

const HEAD: &str = "# refasten log 1\n- {entry: 1, did: pulled, place: P1 F1}\n";

fn unmerged(text: &str) -> String {
    let (out, _) = unmerge(text).expect("there is something to mend");
    assert_eq!(unmerge(&out), None, "mended once, it is in order:\n{out}");
    out
}

#[test]
fn those_whose_numbers_are_taken_come_after_with_their_strikes() {
    let ours = "- {entry: 2, did: pulled, place: P1 F2}\n- {entry: 3, did: struck, strikes: \"2 pulled P1 F2\"}\n";
    let theirs = "- {entry: 2, did: pulled, place: P1 F3}\n# by hand\n- entry: 3\n  did: struck\n  strikes: 2 pulled P1 F3\n- {entry: 4, did: struck, strikes: \"1 pulled P1 F1\"}\n";
    let mended = "- {entry: 4, did: pulled, place: P1 F3}\n# by hand\n- entry: 5\n  did: struck\n  strikes: 4 pulled P1 F3\n- {entry: 6, did: struck, strikes: \"1 pulled P1 F1\"}\n";
    let expected = format!("{HEAD}{ours}{mended}");
    assert_eq!(unmerged(&format!("{HEAD}{ours}{theirs}")), expected);
    let marked = format!("{HEAD}<<<<<<< HEAD\n{ours}=======\n{theirs}>>>>>>> shed\n");
    assert_eq!(unmerged(&marked), expected);
    let three =
        format!("{HEAD}<<<<<<< HEAD\n{ours}||||||| base\nold\n=======\n{theirs}>>>>>>> shed\n");
    assert_eq!(unmerged(&three), expected);
    assert_eq!(unmerge(&three).unwrap().1.marks, [3, 6, 7, 8, 15]);
}

#[test]
fn a_strike_means_the_nearest_of_two_alike_above_it() {
    let alike = "- {entry: 2, did: pulled, place: P1 F2, by: A}\n- {entry: 2, did: pulled, place: P1 F2, by: B}\n- {entry: 3, did: struck, strikes: \"2 pulled P1 F2\"}\n";
    let out = unmerged(&format!("{HEAD}{alike}"));
    assert!(out.ends_with("{entry: 3, did: pulled, place: P1 F2, by: B}\n- {entry: 4, did: struck, strikes: \"3 pulled P1 F2\"}\n"), "{out}");
}

#[test]
fn a_line_that_is_there_twice_is_kept_once() {
    let two = "- {entry: 2, did: pulled, place: P1 F2}\n";
    assert_eq!(
        unmerged(&format!("{HEAD}{two}{two}")),
        format!("{HEAD}{two}")
    );
    let three = "- {entry: 3, did: doweled, place: P1 F2}\n";
    let both = format!("{HEAD}{two}{three}");
    assert_eq!(unmerged(&format!("{both}{two}{three}")), both);
}

#[test]
fn an_entry_out_of_order_is_put_in_its_place_with_its_comment() {
    let entry = |n: u32| format!("- {{entry: {n}, did: pulled, place: P1 F{n}}}\n");
    let text = format!(
        "# head\n{}{}{}# on two\n{}",
        entry(1),
        entry(3),
        entry(4),
        entry(2)
    );
    let out = format!(
        "# head\n{}# on two\n{}{}{}",
        entry(1),
        entry(2),
        entry(3),
        entry(4)
    );
    assert_eq!(unmerged(&text), out);
    let first = format!("# head\n{}{}", entry(2), entry(1));
    assert_eq!(
        unmerged(&first),
        format!("# head\n{}{}", entry(1), entry(2))
    );
}

#[test]
fn a_log_in_order_is_left_alone() {
    for text in [
        "",
        "# refasten log 1\n",
        HEAD,
        "- {entry: x}\n- {entry: x, a: 1}\n",
        "=======\n",
    ] {
        assert_eq!(unmerge(text), None, "{text}");
    }
    let last = format!(
        "- {{entry: {0}, did: a}}\n- {{entry: {0}, did: b}}\n",
        u32::MAX
    );
    assert_eq!(unmerge(&last), None);
}

#[test]
fn windows_line_ends_are_kept() {
    let text =
        "- {entry: 1, did: pulled, place: P1 F1}\r\n- {entry: 1, did: pulled, place: P1 F2}\r\n";
    assert_eq!(
        unmerged(text),
        text.replace(
            "{entry: 1, did: pulled, place: P1 F2",
            "{entry: 2, did: pulled, place: P1 F2"
        )
    );
}
