//! Sets that stand in the same crossings, and what is there before the log begins.

use super::boat::{HULL, faults, hull_with, set, sound, stands};

/// What stands at P1 F1 of a hull with these sets: name, rest.
fn at_p1_f1(sets: &[(&str, &str)]) -> Vec<String> {
    let sets: Vec<String> = sets
        .iter()
        .map(|(name, rest)| set(name, "P1 F1", rest))
        .collect();
    stands(&sound(&hull_with(&sets), ""), "P1 F1")
}

const OLD: &str = "old: relied on, closed";
const NEW: &str = "new: relied on, closed";
const NEWEST: &str = "newest: relied on, closed";
const OLD_GONE: &str = "old: plugged, plugged/doweled";
const NEW_GONE: &str = "new: plugged, plugged/doweled";
const OLD_LEFT: &str = "old: left in, closed";
const NEW_LEFT: &str = "new: left in, closed";

#[test]
fn a_set_that_overlaps_says_how_it_stands_to_the_other() {
    let old = ("old", "per crossing: 2");
    for (rest, holes) in [
        // The holes are used again in their order; one too many counts as plugged.
        ("per crossing: 2, replaces: old", vec![NEW, NEW]),
        ("per crossing: 3, replaces: old", vec![NEW, NEW, NEW]),
        ("per crossing: 1, replaces: old", vec![NEW, OLD_GONE]),
        (
            "per crossing: 1, leaves in: old",
            vec![OLD_LEFT, OLD_LEFT, NEW],
        ),
        ("per crossing: 1, adds to: old", vec![OLD, OLD, NEW]),
    ] {
        assert_eq!(at_p1_f1(&[old, ("new", rest)]), holes, "{rest}");
    }
}

#[test]
fn three_generations() {
    let old = ("old", "per crossing: 2");
    let leaves = ("new", "per crossing: 2, leaves in: old");
    for (new, newest, holes) in [
        (
            leaves,
            "replaces: new",
            vec![OLD_LEFT, OLD_LEFT, NEWEST, NEWEST],
        ),
        // What was left in once can be gone by now.
        (
            leaves,
            "replaces: [old, new]",
            vec![NEWEST, NEWEST, NEW_GONE, NEW_GONE],
        ),
        (
            leaves,
            "replaces: old, leaves in: new",
            vec![NEWEST, NEWEST, NEW_LEFT, NEW_LEFT],
        ),
        (
            leaves,
            "leaves in: [old, new]",
            vec![OLD_LEFT, OLD_LEFT, NEW_LEFT, NEW_LEFT, NEWEST, NEWEST],
        ),
        (
            leaves,
            "adds to: new",
            vec![OLD_LEFT, OLD_LEFT, NEW, NEW, NEWEST, NEWEST],
        ),
        (
            ("new", "per crossing: 1, replaces: old"),
            "replaces: new",
            vec![NEWEST, OLD_GONE, NEWEST],
        ),
        (
            ("new", "per crossing: 1, adds to: old"),
            "replaces: [old, new]",
            vec![NEWEST, NEWEST, NEW_GONE],
        ),
        (
            ("new", "per crossing: 1, adds to: old"),
            "replaces: old, adds to: new",
            vec![NEWEST, NEWEST, NEW],
        ),
    ] {
        let rest = format!("per crossing: 2, {newest}");
        assert_eq!(
            at_p1_f1(&[old, new, ("newest", &rest)]),
            holes,
            "{new:?} {newest}"
        );
    }
}

#[test]
fn a_set_replaces_another_only_where_that_is() {
    let sets = [
        set("old", "P1 F1-2", "per crossing: 2"),
        set("new", "P1-2 F2-3", "per crossing: 2, replaces: old"),
    ];
    let boat = sound(&hull_with(&sets), "");
    assert_eq!(stands(&boat, "P1 F1"), [OLD, OLD]);
    assert_eq!(stands(&boat, "P1 F2"), [NEW, NEW]);
    assert_eq!(stands(&boat, "P1 F3"), [NEW, NEW]);
    assert_eq!(stands(&boat, "P2 F2"), [NEW, NEW]);
    assert!(stands(&boat, "P1 F4").is_empty());
}

#[test]
fn a_set_may_renew_single_holes() {
    let old = set("old", "P1 F1-2", "per crossing: 3");
    let new = set("new", "P1 F1.1+3 and P1 F2.2", "replaces: old");
    let boat = sound(&hull_with(&[old.clone(), new]), "");
    assert_eq!(stands(&boat, "P1 F1"), [NEW, OLD, NEW]);
    assert_eq!(stands(&boat, "P1 F2"), [OLD, NEW, OLD]);
    for (place, rest, says) in [
        (
            "P1 F1.4",
            "replaces: old",
            "`new` names holes that hold nothing it replaces, at P1 F1",
        ),
        (
            "P1 F1.3-4",
            "replaces: old",
            "`new` names holes that hold nothing it replaces, at P1 F1",
        ),
        (
            "P1 F3.1",
            "replaces: old",
            "`new` names holes that hold nothing it replaces, at P1 F3",
        ),
        (
            "P1 F3.1",
            "driven: 1970",
            "`new` names holes that hold nothing it replaces, at P1 F3",
        ),
    ] {
        let told = faults(&hull_with(&[old.clone(), set("new", place, rest)]), "");
        assert!(
            told.len() == 1 && told[0].contains(says),
            "{place}: {told:?}"
        );
    }
}

#[test]
fn the_expected_count_is_of_the_sets_neither_replaced_nor_left_in() {
    let sets = [
        set("first", "P1 F1-4", "per crossing: 3"),
        set("second", "P1 F2-4", "per crossing: 2, replaces: first"),
        set("third", "P1 F3-4", "per crossing: 4, leaves in: second"),
        set("fourth", "P1 F4", "per crossing: 1, adds to: third"),
    ];
    let boat = sound(&hull_with(&sets), "");
    let state = boat.book.state(&boat.hull, None);
    let spots = boat.hull.resolve(&"P1 F1-4".parse().unwrap()).unwrap();
    let expected: Vec<u8> = spots
        .iter()
        .map(|spot| state.expected(spot.crossing))
        .collect();
    assert_eq!(expected, [3, 2, 4, 5]);
}

#[test]
fn what_is_wrong_with_sets_is_told_at_the_set() {
    let old = || set("old rivets", "P1-3 F1-4", "per crossing: 2");
    let line = HULL.lines().count() + 2;
    for (second, says) in [
        (
            set("new", "P1-2 F2-3 and S1 F1", "per crossing: 2"),
            "`new` overlaps `old rivets` at P1-2 F2-3 and does not say how (add `replaces: old rivets` (the old are gone), `leaves in: old rivets` (they stay, not relied on) or `adds to: old rivets` (both hold))",
        ),
        (
            set("new", "P1 F1", "per crossing: 2, replaces: old rivet"),
            "there is no set `old rivet` before this (did you mean `old rivets`?)",
        ),
        (
            set("new", "S1 F1", "per crossing: 2, leaves in: new"),
            "there is no set `new` before this (a set stands after those it replaces, leaves in or adds to)",
        ),
        (
            set("old rivets", "S1 F1", "per crossing: 2"),
            "there are two sets named `old rivets` (give each set a name of its own)",
        ),
        (
            set("new", "S1 F1", "per crossing: 2, driven: 1957-12"),
            "driven 1957-12 before she was launched (she was launched 1958)",
        ),
        (
            set("new", "S1 F1", "per crossing: 2, driven: before 1950"),
            "driven before 1950 before she was launched (she was launched 1958)",
        ),
        (
            set("new", "S1 F1", "per crossing: 2, driven: 2026-11-02"),
            "2026-11-02 has not come yet (today is 2026-11-01)",
        ),
        (
            set("new", "P3 F1", "per crossing: 63, adds to: old rivets"),
            "more than 64 holes in a crossing, at P3 F1 (is `per crossing` right?)",
        ),
        (
            set("new", "P3 stem", "per crossing: 2"),
            "P3 does not cross stem (it crosses F1-4)",
        ),
    ] {
        let told = faults(&hull_with(&[old(), second.clone()]), "");
        // Where a name is not known, how it overlaps is not asked as well.
        assert_eq!(told, [format!("hull {}: {says}", line + 1)], "{second}");
    }
}

#[test]
fn a_set_of_this_year_is_no_fault() {
    let new = set("new", "S1 F1", "per crossing: 2, driven: 2026");
    assert_eq!(faults(&hull_with(&[new]), ""), Vec::<String>::new());
}
