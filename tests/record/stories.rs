//! What every story of a boat keeps, whatever was done to her.

use std::collections::BTreeMap;

use proptest::prelude::*;
use refasten::hull::{CrossingId, Hull};
use refasten::record::{Book, Did, Entry, Hole, SetParts, State, Tally};
use refasten::units::Day;

use super::boat::{day, view};
use super::make;
use super::tales::{self, EVE, book, hull, sets, story, strike};

/// The state of a whole boat in words.
fn all(hull: &Hull, book: &Book, state: &State) -> Vec<Vec<String>> {
    view(book, state, hull.crossing_ids())
}

fn at_end(hull: &Hull, book: &Book) -> Vec<Vec<String>> {
    all(hull, book, &book.state(hull, None))
}

fn legal(hull: &Hull, entries: Vec<Entry>) -> Book {
    book(hull, sets(), entries).expect("the story is legal")
}

fn holes<'s>(hull: &Hull, state: &'s State) -> impl Iterator<Item = &'s Hole> {
    hull.crossing_ids().flat_map(|id| state.holes(id))
}

/// Tallies of groups of crossings or holes together.
fn sum<'t>(tallies: impl IntoIterator<Item = &'t Tally>) -> [u32; 8] {
    let figures = |t: &Tally| {
        [
            t.holes,
            t.relied_on,
            t.unsound,
            t.left_in,
            t.broken,
            t.open,
            t.plugged,
            t.bungs_missing,
        ]
    };
    tallies.into_iter().map(figures).fold([0; 8], |sum, next| {
        std::array::from_fn(|i| sum[i] + next[i])
    })
}

/// Tallies of the crossings that are alike in something.
fn by<K: Ord>(hull: &Hull, state: &State, key: impl Fn(CrossingId) -> K) -> Vec<Tally> {
    let mut groups: BTreeMap<K, Vec<CrossingId>> = BTreeMap::new();
    for id in hull.crossing_ids() {
        groups.entry(key(id)).or_default().push(id);
    }
    groups.into_values().map(|ids| state.tally(ids)).collect()
}

proptest! {
    #![proptest_config(make::cases(100))]

    #[test]
    fn every_hole_is_in_exactly_one_state_and_every_grouping_adds_up(entries in story()) {
        let hull = hull();
        let book = legal(&hull, entries);
        let state = book.state(&hull, None);
        let whole = state.tally(hull.crossing_ids());
        let states = whole.relied_on + whole.unsound + whole.left_in + whole.broken + whole.open + whole.plugged;
        prop_assert_eq!(states, whole.holes);
        prop_assert_eq!(whole.holes as usize, holes(&hull, &state).count());
        let metal = holes(&hull, &state).filter(|hole| hole.has_metal());
        prop_assert_eq!(whole.fastenings() as usize, metal.count());
        let whole = sum([&whole]);
        prop_assert_eq!(sum(&by(&hull, &state, |id| hull.crossing(id).strake.id)), whole);
        prop_assert_eq!(sum(&by(&hull, &state, |id| hull.crossing(id).member)), whole);
        prop_assert_eq!(sum(&by(&hull, &state, |id| hull.crossing(id).zone.to_string())), whole);
        let mut by_set: BTreeMap<&str, Tally> = BTreeMap::new();
        for hole in holes(&hull, &state) {
            let set = book.set_name(book.fastening(hole.fastening).set);
            by_set.entry(set).or_default().count(hole);
        }
        prop_assert_eq!(sum(by_set.values()), whole);
    }

    #[test]
    fn holes_are_only_ever_added_and_each_day_is_the_story_so_far(entries in story()) {
        let hull = hull();
        let book = legal(&hull, entries);
        let mut days: Vec<Day> = book.story().map(|entry| entry.date).collect();
        days.sort_unstable();
        days.dedup();
        let mut before = book.state(&hull, Some(day(EVE)));
        for on in days {
            let state = book.state(&hull, Some(on));
            for id in hull.crossing_ids() {
                prop_assert!(state.holes(id).len() >= before.holes(id).len());
            }
            let done = book.story().filter(|entry| entry.did() != Did::Struck);
            let so_far: Vec<Entry> = done
                .filter(|entry| entry.date <= on)
                .zip(1..)
                .map(|(entry, number)| Entry { number, ..entry.clone() })
                .collect();
            let cut = legal(&hull, so_far);
            prop_assert_eq!(all(&hull, &book, &state), at_end(&hull, &cut), "{}", on);
            before = state;
        }
        prop_assert_eq!(all(&hull, &book, &before), at_end(&hull, &book));
    }

    #[test]
    fn every_change_is_told_with_what_was_there_before(entries in story()) {
        let hull = hull();
        let book = legal(&hull, entries);
        let eve = book.state(&hull, Some(day(EVE)));
        let mut told: Vec<Vec<Hole>> = hull.crossing_ids().map(|id| eve.holes(id).to_vec()).collect();
        let mut wrong = Vec::new();
        let state = book.trace(&hull, None, &mut |change| {
            let crossing = &mut told[change.crossing.index()];
            if crossing.get(change.number.index()).copied() != change.before {
                wrong.push(change.entry.number);
            }
            crossing.truncate(crossing.len().max(change.number.index()));
            match crossing.get_mut(change.number.index()) {
                Some(hole) => *hole = change.after,
                None => crossing.push(change.after),
            }
        });
        prop_assert_eq!(wrong, Vec::<u32>::new());
        for (id, told) in hull.crossing_ids().zip(told) {
            prop_assert_eq!(state.holes(id), told);
        }
    }

    #[test]
    fn entries_that_touch_different_crossings_may_come_in_either_order(entries in story()) {
        let hull = hull();
        let story = tales::plain(&legal(&hull, entries));
        let book = legal(&hull, story.clone());
        let end = at_end(&hull, &book);
        for at in 1..story.len() {
            let crossings: Vec<CrossingId> = book.crossings_of(at).collect();
            if book.crossings_of(at - 1).any(|id| crossings.contains(&id)) {
                continue;
            }
            let mut swapped = story.clone();
            swapped.swap(at - 1, at);
            for (entry, number) in swapped.iter_mut().zip(1..) {
                entry.number = number;
            }
            // A set must be driven before it is named.
            if let Some(book) = tales::book(&hull, sets(), swapped) {
                prop_assert_eq!(at_end(&hull, &book), end.clone(), "{} and {}", at, at + 1);
            } else {
                let names_what_is_driven = story[at - 1].did() == Did::Driven;
                prop_assert!(names_what_is_driven, "{} and {}", at, at + 1);
            }
        }
    }

    #[test]
    fn a_story_struck_out_never_was_and_comes_back_whole(entries in story()) {
        let hull = hull();
        let mut entries = entries;
        let book = legal(&hull, entries.clone());
        let told = at_end(&hull, &book);
        let empty = at_end(&hull, &legal(&hull, Vec::new()));
        let done: Vec<Entry> = book.story().filter(|entry| entry.did() != Did::Struck).cloned().collect();
        let mut strikes: Vec<Entry> = Vec::new();
        // The last thing done is struck out first: each is legal on the way.
        for entry in done.iter().rev() {
            let number = entries.last().map_or(1, |entry| entry.number + 1);
            strikes.push(strike(entry, number, None));
            entries.extend(strikes.last().cloned());
            prop_assert!(tales::book(&hull, sets(), entries.clone()).is_some());
        }
        let struck = legal(&hull, entries.clone());
        prop_assert_eq!(at_end(&hull, &struck), empty.clone());
        prop_assert_eq!(all(&hull, &struck, &struck.state(&hull, Some(day("2026-10-20")))), empty);
        for strike_out in strikes.iter().rev() {
            let number = entries.last().map_or(1, |entry| entry.number + 1);
            entries.push(strike(strike_out, number, None));
        }
        prop_assert_eq!(at_end(&hull, &legal(&hull, entries)), told);
    }

    #[test]
    fn sets_in_different_crossings_may_be_written_in_either_order(entries in story()) {
        let hull = hull();
        let end = at_end(&hull, &legal(&hull, entries.clone()));
        let there = |set: &SetParts| -> Vec<CrossingId> {
            let spots = hull.resolve(&set.place).unwrap();
            spots.into_iter().map(|spot| spot.crossing).collect()
        };
        let mut swaps = 0;
        for at in 1..sets().len() {
            let mut sets = sets();
            let crossings = there(&sets[at]);
            if there(&sets[at - 1]).iter().any(|id| crossings.contains(id)) {
                continue;
            }
            sets.swap(at - 1, at);
            let book = tales::book(&hull, sets, entries.clone()).expect("they do not meet");
            prop_assert_eq!(at_end(&hull, &book), end.clone());
            swaps += 1;
        }
        prop_assert_eq!(swaps, 3);
    }
}
