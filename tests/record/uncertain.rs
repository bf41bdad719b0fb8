//! Sets of which nobody knows the day they were driven.

use proptest::prelude::*;
use refasten::files::Boat;

use super::boat::{day, hull_with, log, set, sound, stands_on};
use super::make;

fn boat(sets: &[(&str, &str)], entries: &[&str]) -> Boat {
    let sets: Vec<String> = sets
        .iter()
        .map(|(name, rest)| set(name, "P1 F1", &format!("per crossing: 1, {rest}")))
        .collect();
    sound(&hull_with(&sets), &log(entries))
}

/// The sets that count on a day.
fn there(boat: &Boat, on: &str) -> Vec<String> {
    let holes = stands_on(boat, "P1 F1", Some(day(on)));
    let name = |hole: &String| hole.split(':').next().unwrap_or_default().to_owned();
    holes.iter().map(name).collect()
}

fn uncertain<'b>(boat: &'b Boat, on: &str) -> Vec<&'b str> {
    let sets = boat.book.uncertain_on(&boat.hull, day(on));
    sets.map(|set| boat.book.set_name(set.id)).collect()
}

#[test]
fn a_set_counts_from_its_last_possible_day() {
    let boat = boat(&[("a", "driven: 1990s")], &[]);
    for (on, counts, unsure) in [
        ("1989-12-31", false, false),
        ("1990-01-01", false, true),
        ("1999-12-30", false, true),
        ("1999-12-31", true, false),
        ("2026-11-01", true, false),
    ] {
        assert_eq!(!there(&boat, on).is_empty(), counts, "{on}");
        assert_eq!(!uncertain(&boat, on).is_empty(), unsure, "{on}");
    }
}

#[test]
fn what_is_written_down_has_been_driven_by_today() {
    for driven in ["2026", "2020s", "2026-11", "unknown"] {
        let boat = boat(&[("a", &format!("driven: {driven}"))], &[]);
        assert_eq!(there(&boat, "2026-11-01"), ["a"], "{driven}");
        assert!(uncertain(&boat, "2026-11-01").is_empty(), "{driven}");
    }
}

#[test]
fn a_set_counts_from_the_first_entry_that_touches_it() {
    let entry = "date: 2026-10-03, did: checked, place: P1 F1, found: sound";
    let boat = boat(&[("a", "driven: 2020s")], &[entry]);
    assert!(there(&boat, "2026-10-02").is_empty());
    assert_eq!(uncertain(&boat, "2026-10-02"), ["a"]);
    assert_eq!(there(&boat, "2026-10-03"), ["a"]);
    assert!(uncertain(&boat, "2026-10-03").is_empty());
}

#[test]
fn nothing_is_older_than_the_boat() {
    // She was launched in 1958.
    for driven in ["1950s", "before 1980", "unknown"] {
        let boat = boat(&[("a", &format!("driven: {driven}"))], &[]);
        assert!(uncertain(&boat, "1957-12-31").is_empty(), "{driven}");
        assert_eq!(uncertain(&boat, "1958-01-01"), ["a"], "{driven}");
    }
}

#[test]
fn a_set_stands_on_those_it_came_after() {
    // What a set of 2005 replaced was there in 2005, though its own decade was not over.
    let replaced = boat(
        &[("a", "driven: 2000s"), ("b", "driven: 2005, adds to: a")],
        &[],
    );
    assert!(there(&replaced, "2004-06-01").is_empty());
    assert_eq!(there(&replaced, "2005-12-31"), ["a", "b"]);
    assert!(uncertain(&replaced, "2005-12-31").is_empty());
    // And a set of no known day that replaced one of 1980 is not older than that.
    let newer = boat(
        &[("a", "driven: 1980"), ("b", "driven: unknown, replaces: a")],
        &[],
    );
    assert!(there(&newer, "1979-01-01").is_empty());
    assert!(uncertain(&newer, "1979-01-01").is_empty());
    assert_eq!(there(&newer, "1981-01-01"), ["b"]);
    assert_eq!(uncertain(&newer, "1981-01-01"), ["b"]);
}

proptest! {
    #![proptest_config(make::cases(60))]

    #[test]
    fn holes_never_vanish_and_never_change_their_number(
        driven in prop::collection::vec(prop::sample::select(vec!["1960", "1970s", "1975", "1980", "2000s", "2020s", "before 1990", "unknown"]), 3),
        hows in prop::collection::vec(prop::sample::select(vec!["replaces", "leaves in", "adds to"]), 3),
        after_all in any::<bool>(),
    ) {
        let second = format!("driven: {}, {}: a", driven[1], hows[0]);
        let third = match after_all {
            true => format!("driven: {}, {}: a, {}: b", driven[2], hows[1], if hows[1] == hows[2] { "adds to" } else { hows[2] }),
            false => format!("driven: {}, {}: [a, b]", driven[2], hows[1]),
        };
        prop_assume!(!(after_all && hows[1] == "adds to" && hows[2] == "adds to"));
        let first = format!("driven: {}", driven[0]);
        let boat = boat(&[("a", &first), ("b", &second), ("c", &third)], &[]);
        let mut before: Vec<String> = Vec::new();
        for year in 1957..=2026 {
            let now = there(&boat, &format!("{year}-12-31"));
            prop_assert!(now.len() >= before.len(), "{}: {:?} then {:?}", year, before, now);
            for (old, new) in before.iter().zip(&now) {
                prop_assert!(old <= new, "{}: {:?} then {:?}", year, before, now);
            }
            before = now;
        }
        prop_assert_eq!(before, there(&boat, "2026-11-01"));
    }
}
