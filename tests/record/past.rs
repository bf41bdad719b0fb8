//! Any day of the past: the book as it was known then, what changed, what a hole has had.

use std::collections::BTreeSet;

use proptest::prelude::*;
use refasten::hull::{CrossingId, Holes, Hull, Spot};
use refasten::record::{
    Asked, Book, Did, Entry, Event, Period, State, Tally, done, generations, history,
};
use refasten::units::Day;

use super::boat::{day, log, set, sound, stands_on, view};
use super::make;
use super::tales::{EVE, book, hull, sets, story};

fn legal(hull: &Hull, entries: Vec<Entry>) -> Book {
    book(hull, sets(), entries).expect("the story is legal")
}

fn on(number: i8) -> Day {
    Day::new(2026, 10, number).unwrap()
}

fn all(hull: &Hull, book: &Book, day: Day) -> Vec<Vec<String>> {
    view(book, &book.state(hull, Some(day)), hull.crossing_ids())
}

fn everywhere(hull: &Hull) -> Vec<Spot> {
    let spot = |crossing| Spot {
        crossing,
        holes: Holes::ANY,
    };
    hull.crossing_ids().map(spot).collect()
}

/// Where the first entry stands that had not been written down by the end of a day.
fn known(entries: &[Entry], day: Day) -> usize {
    let mut latest = None;
    let later = entries.iter().position(|entry| {
        latest = latest.max(Some(entry.date)).max(entry.written);
        latest > Some(day)
    });
    later.unwrap_or(entries.len())
}

fn tally(hull: &Hull, state: &State) -> [i64; 7] {
    let t: Tally = state.tally(hull.crossing_ids());
    [
        t.holes,
        t.relied_on,
        t.unsound,
        t.left_in,
        t.broken,
        t.open,
        t.plugged,
    ]
    .map(i64::from)
}

/// How often each thing was done over a period.
fn times(hull: &Hull, book: &Book, period: Period) -> Vec<(Did, u32)> {
    let done = done(book, hull, period, &|_| true);
    let count = |did: &Did| {
        let work = done.work.iter().filter(|work| work.did == *did);
        (*did, work.map(refasten::record::Work::count).sum())
    };
    let by_entry: u32 = done.entries.iter().map(|(_, count)| count).sum();
    let times: Vec<(Did, u32)> = Did::ALL.iter().map(count).collect();
    assert_eq!(times.iter().map(|(_, count)| count).sum::<u32>(), by_entry);
    times
}

proptest! {
    #![proptest_config(make::cases(80))]

    #[test]
    fn the_book_as_known_is_that_of_what_was_written_down_by_then(entries in story(), known_on in 1..=31i8, looked in 1..=31i8) {
        let hull = hull();
        let whole = legal(&hull, entries.clone());
        let then = whole.clone().as_known(&hull, on(known_on));
        let count = known(&entries, on(known_on));
        prop_assert_eq!(then.entries().len(), count);
        let told = then.known().unwrap();
        prop_assert_eq!((told.entries, told.of), (count, entries.len()));
        // Every story was legal as it grew, so nothing of it has to be left out.
        prop_assert!(told.left_out.is_empty());
        let prefix = legal(&hull, entries[..count].to_vec());
        prop_assert_eq!(all(&hull, &then, on(looked)), all(&hull, &prefix, on(looked)));
        let struck = |book: &Book| (0..count).map(|at| book.struck_by(at).map(|by| by.number)).collect::<Vec<_>>();
        prop_assert_eq!(struck(&then), struck(&prefix));
        // More days never make less known.
        let later = whole.clone().as_known(&hull, on((known_on + 3).min(31)));
        prop_assert!(later.entries().len() >= count);
        // And as known today it is the whole book.
        let today = whole.clone().as_known(&hull, day(super::boat::TODAY));
        prop_assert_eq!(all(&hull, &today, on(looked)), all(&hull, &whole, on(looked)));
    }

    #[test]
    fn what_changed_and_what_was_before_make_what_is_after(entries in story(), days in prop::array::uniform3(1..=31i8)) {
        let hull = hull();
        let book = legal(&hull, entries);
        let mut days = days.map(on);
        days.sort_unstable();
        let [first, middle, last] = days;
        let mut counts = tally(&hull, &book.state(&hull, Some(first.eve())));
        book.trace(&hull, Some(last), &mut |change| {
            if change.entry.date < first {
                return;
            }
            let mut more = |hole, by: i64| {
                let mut one = Tally::default();
                one.count(hole);
                let figures = [one.holes, one.relied_on, one.unsound, one.left_in, one.broken, one.open, one.plugged];
                counts.iter_mut().zip(figures).for_each(|(count, figure)| *count += by * i64::from(figure));
            };
            if let Some(before) = &change.before {
                more(before, -1);
            }
            more(&change.after, 1);
        });
        prop_assert_eq!(counts, tally(&hull, &book.state(&hull, Some(last))));
        // What was done up to the middle and from there is what was done in all.
        let after = |day: Day| (1..=31).map(on).find(|next| *next > day);
        if let Some(next) = after(middle) {
            let sum: Vec<(Did, u32)> = times(&hull, &book, Period { first, last: middle })
                .into_iter()
                .zip(times(&hull, &book, Period { first: next, last: last.max(middle) }))
                .map(|((did, one), (_, two))| (did, one + two))
                .collect();
            prop_assert_eq!(sum, times(&hull, &book, Period { first, last }));
        }
    }

    #[test]
    fn what_a_hole_has_had_ends_with_what_is_in_it(entries in story(), looked in 1..=31i8) {
        let hull = hull();
        let book = legal(&hull, entries);
        for looked in [on(looked), day(EVE)] {
            let state = book.state(&hull, Some(looked));
            let had = generations(&book, &hull, &everywhere(&hull), looked);
            let holes: Vec<_> = hull
                .crossing_ids()
                .flat_map(|id| state.numbered(id).map(move |(number, hole)| ((id, number), hole)))
                .collect();
            prop_assert_eq!(had.len(), holes.len());
            for ((at, hole), (told, generations)) in holes.into_iter().zip(&had) {
                prop_assert_eq!(at, *told);
                let (last, before) = generations.split_last().unwrap();
                prop_assert_eq!(last.fastening, hole.fastening);
                prop_assert_eq!(last.end.is_none(), hole.is_whole());
                prop_assert_eq!(last.found, hole.found);
                prop_assert_eq!(last.measured, state.diameter(at.0, at.1));
                prop_assert!(before.iter().all(|one| one.end.is_some()));
            }
        }
    }

    #[test]
    fn the_histories_of_all_sets_and_of_all_metals_are_the_whole(entries in story()) {
        let hull = hull();
        let book = legal(&hull, entries);
        let spots = everywhere(&hull);
        let told = |asked: &Asked<'_>| {
            let mut holes: BTreeSet<(u32, Option<CrossingId>)> = BTreeSet::new();
            for event in history(&book, &hull, asked, None) {
                match event {
                    Event::Done { entry, holes: each } => holes.extend(each.iter().map(|(id, _)| (entry.number, Some(*id)))),
                    Event::Struck { entry, .. } => holes.extend([(entry.number, None)]),
                    Event::Built { .. } | Event::Wood { .. } => {}
                }
            }
            holes
        };
        let none = Asked { spots: &spots, set: None, metal: None };
        let whole = told(&none);
        let mut by_set = BTreeSet::new();
        for (set, _) in book.set_names() {
            let of_set = told(&Asked { set: Some(set), ..none });
            prop_assert!(of_set.is_subset(&whole));
            by_set.extend(of_set);
        }
        let done = |told: &BTreeSet<(u32, Option<CrossingId>)>| -> BTreeSet<_> { told.iter().filter(|(_, at)| at.is_some()).copied().collect() };
        prop_assert_eq!(done(&by_set), done(&whole));
        let metals: Vec<_> = book.fastenings().map(|fastening| fastening.metal).collect();
        let mut by_metal = BTreeSet::new();
        for metal in metals {
            by_metal.extend(told(&Asked { metal: Some(metal), ..none }));
        }
        prop_assert!(by_metal.is_subset(&whole));
    }
}

#[test]
fn an_entry_below_one_written_late_was_written_no_sooner() {
    let hull_file = super::boat::hull_with(&[set("a", "P1 F1-3", "per crossing: 1, driven: 1958")]);
    let boat = sound(
        &hull_file,
        &log(&[
            "date: 2026-10-03, did: bared, place: P1 F1",
            "date: 2026-10-02, written: 2026-10-20, did: bared, place: P1 F2",
            "date: 2026-10-04, did: bared, place: P1 F3",
        ]),
    );
    for (day_known, entries) in [
        ("2026-10-02", 0),
        ("2026-10-03", 1),
        ("2026-10-19", 1),
        ("2026-10-20", 3),
    ] {
        let then = boat.book.clone().as_known(&boat.hull, day(day_known));
        assert_eq!(then.entries().len(), entries, "{day_known}");
    }
}

#[test]
fn a_strike_written_later_does_not_count_sooner() {
    let hull_file = super::boat::hull_with(&[set("a", "P1 F1", "per crossing: 1, driven: 1958")]);
    let boat = sound(
        &hull_file,
        &log(&[
            "date: 2026-10-03, did: pulled, place: P1 F1",
            "date: 2026-10-03, written: 2026-10-09, did: struck, strikes: 1 pulled P1 F1",
        ]),
    );
    let at_end = stands_on(&boat, "P1 F1", Some(day("2026-10-03")));
    assert!(at_end[0].contains("relied on"), "{at_end:?}");
    let mut then = boat;
    then.book = then.book.as_known(&then.hull, day("2026-10-08"));
    let as_known = stands_on(&then, "P1 F1", Some(day("2026-10-03")));
    assert!(!as_known[0].contains("relied on"), "{as_known:?}");
}
