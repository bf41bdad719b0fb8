//! Entries of the log: what they ask, what refuses them, how they are struck out.

use super::boat::{faults, hull_with, log, read_bytes, set, sound, stands};

const OLD: &str = "old: relied on, closed";
const OPEN: &str = "old: open, open/open";
const DRIVEN: &str = "did: driven, per crossing: 2, kind: rivet, metal: copper, size: unknown";

/// Two old rivets at each crossing of P1 and P2; one screw added beside them at P2 F1.
fn hull() -> String {
    hull_with(&[
        set("old", "P1-2 F1-4", "per crossing: 2"),
        set("added", "P2 F1", "per crossing: 1, adds to: old"),
    ])
}

/// What stands at a place after these entries, all of one day.
fn after(entries: &[&str], place: &str) -> Vec<String> {
    let dated: Vec<String> = entries
        .iter()
        .map(|entry| format!("date: 2026-10-03, {entry}"))
        .collect();
    let dated: Vec<&str> = dated.iter().map(String::as_str).collect();
    stands(&sound(&hull(), &log(&dated)), place)
}

/// The one fault of these entries, each with its date.
fn fault(entries: &[&str]) -> String {
    let told = faults(&hull(), &log(entries));
    assert_eq!(told.len(), 1, "{entries:#?}: {told:#?}");
    told.into_iter().next().unwrap_or_default()
}

/// The one fault of these entries, all of one day.
fn fault_of(entries: &[&str]) -> String {
    let dated: Vec<String> = entries
        .iter()
        .map(|entry| format!("date: 2026-10-03, {entry}"))
        .collect();
    let dated: Vec<&str> = dated.iter().map(String::as_str).collect();
    fault(&dated)
}

#[test]
fn where_two_sets_stand_the_entry_says_which() {
    for did in [
        "checked",
        "bared",
        "hardened",
        "pulled",
        "broken",
        "left",
        "measured, diameter: 5mm",
    ] {
        assert_eq!(
            fault_of(&[&format!("did: {did}, place: P2 F1-2")]),
            "log 1: more than one set stands at P2 F1: `old`, `added` (say which with `set`)",
            "{did}"
        );
    }
    let both = after(
        &[
            "did: pulled, place: P2 F1, set: added",
            "did: pulled, place: P2 F1.2",
        ],
        "P2 F1",
    );
    assert_eq!(both, [OLD, OPEN, "added: open, open/open"]);
    // With one of the two drawn, nothing is left to choose.
    let last = after(
        &[
            "did: pulled, place: P2 F1, set: old",
            "did: pulled, place: P2 F1",
        ],
        "P2 F1",
    );
    assert_eq!(last, [OPEN, OPEN, "added: open, open/open"]);
    // What is done to empty holes asks for no set.
    let plugged = after(
        &[
            "did: pulled, place: P2 F1, set: old",
            "did: pulled, place: P2 F1.3",
            "did: plugged, place: P2 F1",
        ],
        "P2 F1",
    );
    assert!(
        plugged.iter().all(|hole| hole.contains("plugged")),
        "{plugged:?}"
    );
}

#[test]
fn the_count_is_a_check_on_the_place() {
    assert_eq!(
        after(&["did: pulled, place: P1 F1-2, count: 4"], "P1 F2"),
        [OPEN, OPEN]
    );
    assert_eq!(
        fault_of(&["did: pulled, place: P1 F1-2, count: 5"]),
        "log 1: the count is 5, but 4 would be pulled (is the place right? `refasten show --each` lists every hole there)"
    );
    assert_eq!(
        fault_of(&[
            "did: pulled, place: P1 F1",
            &format!("{DRIVEN}, place: P1 F1, count: 1")
        ]),
        "log 2: the count is 1, but 2 would be driven (is the place right? `refasten show --each` lists every hole there)"
    );
}

#[test]
fn what_was_drawn_can_be_measured_and_what_stands_comes_first() {
    let measured = "did: measured, place: P1 F1, diameter: 4mm, found: necked";
    let found = |entries: &[&str]| -> Vec<usize> {
        let dated: Vec<String> = entries
            .iter()
            .map(|e| format!("date: 2026-10-03, {e}"))
            .collect();
        let dated: Vec<&str> = dated.iter().map(String::as_str).collect();
        let boat = sound(&hull(), &log(&dated));
        let state = boat.book.state(&boat.hull, None);
        let spot = boat.hull.resolve(&"P1 F1".parse().unwrap()).unwrap()[0];
        state
            .holes(spot.crossing)
            .iter()
            .map(|hole| hole.found.each().count())
            .collect()
    };
    assert_eq!(found(&[measured]), [1, 1]);
    assert_eq!(found(&["did: pulled, place: P1 F1.1", measured]), [0, 1]);
    // On the bench: the last ones drawn, not those drawn before.
    assert_eq!(
        found(&[
            "did: pulled, place: P1 F1.1",
            "did: pulled, place: P1 F1.2",
            measured
        ]),
        [0, 1]
    );
    assert_eq!(found(&["did: pulled, place: P1 F1", measured]), [1, 1]);
    assert_eq!(
        found(&[
            "did: pulled, place: P1 F1",
            "did: measured, place: P1 F1.1, diameter: 4mm, found: necked"
        ]),
        [1, 0]
    );
}

#[test]
fn driven_into_the_lowest_open_holes_or_into_new_ones() {
    let new = "driven 2026: relied on, flush";
    let pulled = "did: pulled, place: P1 F1";
    let one =
        "did: driven, per crossing: 1, kind: rivet, metal: copper, size: unknown, place: P1 F1";
    assert_eq!(after(&[pulled, one], "P1 F1"), [new, OPEN]);
    assert_eq!(
        after(&["did: pulled, place: P1 F1.2", one], "P1 F1"),
        [OLD, new]
    );
    assert_eq!(
        after(&[pulled, "did: doweled, place: P1 F1.1", one], "P1 F1"),
        [new, OPEN]
    );
    assert_eq!(
        after(&[pulled, "did: plugged, place: P1 F1.1", one], "P1 F1"),
        ["old: plugged, plugged/open", new]
    );
    assert_eq!(
        after(&[&format!("{one}, hole: new")], "P1 F1"),
        [OLD, OLD, new]
    );
    assert_eq!(
        after(
            &[&format!("{one}, hole: new"), &format!("{one}, hole: new")],
            "P1 F1"
        ),
        [OLD, OLD, new, new]
    );
    // A crossing of which nothing was known takes new holes only.
    assert_eq!(
        after(&[&format!("{DRIVEN}, place: P3 F1, hole: new")], "P3 F1"),
        [new, new]
    );
    assert_eq!(
        fault_of(&[
            pulled,
            "did: plugged, place: P1 F1.1",
            &format!("{DRIVEN}, place: P1 F1")
        ]),
        "log 3: 2 cannot go into 1 open or doweled hole at P1 F1 (log what was pulled or doweled first, or bore with `--hole new`; entry 2 of 2026-10-03 was the last there, `2 plugged P1 F1.1`)"
    );
    assert!(
        fault_of(&[&format!("{DRIVEN}, place: P3 F1")])
            .starts_with("log 1: 2 cannot go into 0 open or doweled holes at P3 F1 (")
    );
    assert_eq!(
        fault_of(&[
            "did: driven, per crossing: 64, kind: rivet, metal: copper, size: unknown, place: P1 F1, hole: new"
        ]),
        "log 1: more than 64 holes in a crossing at P1 F1 (is `per crossing` right?)"
    );
}

#[test]
fn an_entry_is_done_everywhere_or_nowhere() {
    // F4 was drawn already, F3 has a stub: both are told, and nothing of the entry is done.
    let told = faults(
        &hull(),
        &log(&[
            "date: 2026-10-03, did: pulled, place: P1 F4",
            "date: 2026-10-03, did: broken, place: P1 F3",
            "date: 2026-10-03, did: pulled, place: P1 F1-4",
        ]),
    );
    assert_eq!(
        told,
        [
            "log 3: nothing can be pulled at P1 F4: there is no metal in the hole (see `refasten show --each` for what stands there; entry 1 of 2026-10-03 tells the same there: if it was done once, strike one of the two)",
            "log 3: nothing can be pulled at P1 F3: there is only a stub in the hole (a stub is `cleared`; or plug over it and drive a new one beside it; entry 2 of 2026-10-03 was the last there, `2 broken P1 F3`)",
        ]
    );
}

#[test]
fn what_an_entry_names_must_be_there() {
    for (entry, says) in [
        (
            "did: pulled, place: P1 F1.3",
            "there is no hole 3 at P1 F1 (",
        ),
        (
            "did: pulled, place: P3 F1",
            "nothing is recorded at P3 F1 (",
        ),
        (
            "did: pulled, place: P1 F1, set: added",
            "nothing of `added` is at P1 F1 (",
        ),
        (
            "did: pulled, place: P1 F1.1, set: added",
            "nothing of `added` is at P1 F1 (",
        ),
        (
            "did: pulled, place: P1 F1, set: odl",
            "there is no set `odl` before this (did you mean `old`?)",
        ),
        (
            "did: pulled, place: P1 F1, set: garboards",
            "there is no set `garboards` before this (name a set of hull.yaml, or one driven earlier in the log)",
        ),
        (
            "did: pulled, place: P1 F9",
            "P1 does not cross F9 (it crosses stem F1-4)",
        ),
        (
            "did: pulled, place: P9 F1",
            "there is no strake P9 (there are P1-3)",
        ),
    ] {
        let told = fault_of(&[entry]);
        assert!(
            told.starts_with(&format!("log 1: {says}")),
            "{entry}: {told}"
        );
    }
}

#[test]
fn a_set_driven_in_the_log_has_a_name_from_then_on() {
    let driven = format!("{DRIVEN}, place: P1 F1, set: winter");
    let pulled = "did: pulled, place: P1 F1";
    let again = after(
        &[pulled, &driven, "did: pulled, place: P1 F1, set: winter"],
        "P1 F1",
    );
    assert_eq!(
        again,
        ["winter: open, open/open", "winter: open, open/open"]
    );
    let told = faults(
        &hull(),
        &log(&[
            "date: 2026-10-03, did: pulled, place: P1 F2, set: winter",
            "date: 2026-10-03, did: pulled, place: P1 F1",
            &format!("date: 2026-10-03, {driven}"),
        ]),
    );
    assert_eq!(
        told,
        [
            "log 1: there is no set `winter` before this (name a set of hull.yaml, or one driven earlier in the log)"
        ]
    );
}

#[test]
fn numbers_rise_and_days_have_come() {
    let entry = |number: u32, date: &str, place: &str| {
        format!("- {{entry: {number}, date: {date}, did: pulled, place: {place}}}\n")
    };
    for (log, told) in [
        (
            entry(2, "2026-10-03", "P1 F1") + &entry(1, "2026-10-03", "P1 F2"),
            "log 2: entry 1 comes after entry 2 (numbers rise through the file; `check --repair` puts the line in its place)",
        ),
        (
            entry(2, "2026-10-03", "P1 F1") + &entry(2, "2026-10-03", "P1 F2"),
            "log 2: entry 2 comes after entry 2, and there is another entry 2 above (were two people's logs put together? `check --repair` numbers the later entries anew)",
        ),
        (
            entry(1, "2026-11-02", "P1 F1"),
            "log 1: 2026-11-02 has not come yet (today is 2026-11-01)",
        ),
    ] {
        assert_eq!(faults(&hull(), &log), [told]);
    }
    // Gaps are no fault, and today has come.
    let gaps = entry(3, "2026-11-01", "P1 F1") + &entry(70, "2026-10-03", "P1 F2");
    assert_eq!(faults(&hull(), &gaps), Vec::<String>::new());
}

#[test]
fn a_late_entry_is_legal_where_the_whole_story_stays_legal() {
    let pulled = "date: 2026-10-05, did: pulled, place: P1 F1";
    let boat = sound(
        &hull(),
        &log(&[pulled, "date: 2026-10-04, did: bared, place: P1 F1"]),
    );
    assert_eq!(stands(&boat, "P1 F1"), [OPEN, OPEN]);
    let story: Vec<u32> = boat.book.story().map(|entry| entry.number).collect();
    assert_eq!(story, [2, 1]);
    // The entry that is named is the one that the late one breaks.
    let broken = fault(&[
        pulled,
        "date: 2026-10-04, did: broken, place: P1 F1.1",
        "date: 2026-10-04, did: broken, place: P1 F1.2",
    ]);
    assert!(
        broken.starts_with("log 1: nothing can be pulled at P1 F1: "),
        "{broken}"
    );
    // On one day, the number tells what came first.
    let told = fault(&["date: 2026-10-05, did: plugged, place: P1 F1", pulled]);
    assert!(
        told.starts_with("log 1: nothing can be plugged at P1 F1: "),
        "{told}"
    );
}

#[test]
fn what_is_struck_out_never_was_and_striking_the_strike_brings_it_back() {
    let pulled = "did: pulled, place: P1 F1";
    let strike = "did: struck, strikes: 1 pulled P1 F1, why: it was F2";
    assert_eq!(after(&[pulled, strike], "P1 F1"), [OLD, OLD]);
    assert_eq!(
        after(&[pulled, strike, "did: struck, strikes: 2 struck"], "P1 F1"),
        [OPEN, OPEN]
    );
    let third = [
        "did: struck, strikes: 2 struck",
        "did: struck, strikes: 3 struck",
    ];
    assert_eq!(
        after(&[pulled, strike, third[0], third[1]], "P1 F1"),
        [OLD, OLD]
    );
    // An entry brought back can be struck out again.
    assert_eq!(
        after(&[pulled, strike, third[0], strike], "P1 F1"),
        [OLD, OLD]
    );
    // Struck out, it never was: not on the day itself either.
    let log = log(&[
        "date: 2026-10-03, did: pulled, place: P1 F1",
        "date: 2026-10-09, did: struck, strikes: 1 pulled P1 F1",
    ]);
    let boat = sound(&hull(), &log);
    let day = super::boat::day("2026-10-05");
    assert_eq!(
        super::boat::stands_on(&boat, "P1 F1", Some(day)),
        [OLD, OLD]
    );
}

#[test]
fn a_strike_names_its_entry_by_number_deed_and_place() {
    let pulled = "did: pulled, place: P1 F1";
    for (strike, says) in [
        (
            "1 pulled P1 F2",
            "entry 1 is not `1 pulled P1 F2` (it is `1 pulled P1 F1`)",
        ),
        (
            "1 broken P1 F1",
            "entry 1 is not `1 broken P1 F1` (it is `1 pulled P1 F1`)",
        ),
        (
            "1 struck",
            "entry 1 is not `1 struck` (it is `1 pulled P1 F1`)",
        ),
        (
            "7 pulled P1 F1",
            "there is no entry 7 (`refasten log` shows the last ones with their numbers)",
        ),
        (
            "2 struck",
            "entry 2 is not earlier than this one (a strike stands after what it strikes out)",
        ),
    ] {
        let told = fault_of(&[pulled, &format!("did: struck, strikes: {strike}")]);
        assert_eq!(told, format!("log 2: {says}"));
    }
    // However the place was typed.
    assert_eq!(
        after(
            &[
                "did: drawn, place: p1 f1",
                "did: struck, strikes: 1 drawn p1 F1"
            ],
            "P1 F1"
        ),
        [OLD, OLD]
    );
    let twice = fault_of(&[
        pulled,
        "did: struck, strikes: 1 pulled P1 F1",
        "did: struck, strikes: 1 pulled P1 F1",
    ]);
    assert_eq!(
        twice,
        "log 3: entry 1 is already struck out by entry 2 (to bring it back, strike entry 2)"
    );
}

#[test]
fn what_a_later_entry_needs_is_not_struck_out() {
    let told = fault_of(&[
        "did: pulled, place: P1 F1",
        "did: doweled, place: P1 F1",
        "did: struck, strikes: 1 pulled P1 F1",
    ]);
    assert!(
        told.starts_with(
            "log 2: nothing can be doweled at P1 F1: there is metal in the frame's hole ("
        ),
        "{told}"
    );
    // Nor the driving of a set that is drawn later.
    let told = fault_of(&[
        "did: pulled, place: P1 F1",
        &format!("{DRIVEN}, place: P1 F1, set: winter"),
        "did: pulled, place: P1 F1, set: winter",
        "did: struck, strikes: 2 driven P1 F1",
    ]);
    assert!(
        told.starts_with("log 3: nothing of `winter` is at P1 F1 ("),
        "{told}"
    );
}

#[test]
fn line_ends_and_a_byte_order_mark_do_not_matter() {
    let hull = hull();
    let log = "# refasten log 1\n".to_owned()
        + &log(&[
            "date: 2026-10-03, did: pulled, place: P1 F1, note: \"both, with ease\"",
            "date: 2026-10-04, did: doweled, place: P1 F1.1",
        ]);
    let plain = sound(&hull, &log);
    let crlf = |text: &str| text.replace('\n', "\r\n").into_bytes();
    let marked = |bytes: Vec<u8>| [b"\xef\xbb\xbf".to_vec(), bytes].concat();
    for (hull, log) in [
        (crlf(&hull), crlf(&log)),
        (
            marked(hull.clone().into_bytes()),
            marked(log.clone().into_bytes()),
        ),
        (marked(crlf(&hull)), marked(crlf(&log))),
    ] {
        let other = read_bytes(&hull, &log).unwrap();
        for place in ["P1 all", "P2 all"] {
            assert_eq!(stands(&other, place), stands(&plain, place));
        }
        let notes = |boat: &refasten::files::Boat| -> Vec<_> {
            boat.book
                .entries()
                .iter()
                .map(|entry| entry.note.clone())
                .collect()
        };
        assert_eq!(notes(&other), notes(&plain));
    }
}

#[test]
fn an_entry_that_is_nowhere_is_told_once() {
    let told = fault_of(&["did: pulled, place: P1 F9, count: 2"]);
    assert!(told.starts_with("log 1: P1 does not cross F9"), "{told}");
}

#[test]
fn a_day_of_writing_is_between_the_work_and_today() {
    let written =
        |day: &str| format!("date: 2026-10-03, did: pulled, place: P1 F1, written: {day}");
    for day in ["2026-10-03", "2026-10-09", "2026-11-01"] {
        assert_eq!(faults(&hull(), &log(&[&written(day)])), [""; 0], "{day}");
    }
    assert_eq!(
        fault(&[&written("2026-10-02")]),
        "log 1: written on 2026-10-02, before it was done (it was done on 2026-10-03)"
    );
    assert_eq!(
        fault(&[&written("2026-11-02")]),
        "log 1: 2026-11-02 has not come yet (today is 2026-11-01)"
    );
}

#[test]
fn a_plan_has_a_name_of_a_few_words_and_goes_with_what_is_driven() {
    let drawn = "date: 2026-10-03, did: pulled, place: P1 F1";
    let driven = format!("date: 2026-10-03, {DRIVEN}, place: P1 F1");
    let plan = |of: &str| format!("{of}, plan: {}", "p".repeat(61));
    assert_eq!(
        fault(&[drawn, &plan(&driven)]),
        "log 2: the name of a plan is at most 60 letters long (a few words will do, like `garboards spring`)"
    );
    let told = fault(&[&plan(drawn)]);
    assert!(
        told.starts_with("log 1: `plan` does not go with `pulled`"),
        "{told}"
    );
    let sound = format!("{driven}, plan: \" spring \", from: \"9f2c61d0 row 12\"");
    let plan = "- {plan: spring, date: 2026-10-01, place: P1 F1, per crossing: 2, kind: rivet}\n";
    let log = log(&[drawn, &sound]);
    let read = super::boat::read_with_plan(hull().as_bytes(), log.as_bytes(), plan.as_bytes());
    let boat = read.unwrap_or_else(|faults| panic!("{faults:#?}"));
    let entry = boat.book.entries().last();
    assert_eq!(
        entry.and_then(|entry| entry.from.as_deref()),
        Some("9f2c61d0 row 12")
    );
    let driving = entry.and_then(|entry| match &entry.what {
        refasten::record::What::Done {
            deed: refasten::record::Deed::Driven(driving),
            ..
        } => Some(driving),
        _ => None,
    });
    assert_eq!(
        driving.and_then(|driving| driving.plan.as_deref()),
        Some("spring")
    );
}
