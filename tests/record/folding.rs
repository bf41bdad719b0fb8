//! Crossings folded into places and unfolded again.

use std::collections::BTreeSet;

use proptest::prelude::*;
use refasten::hull::{CrossingId, Hull, Places, fold, fold_holes};

use super::boat::{HULL, sound};
use super::make;

fn unfold(hull: &Hull, places: &Places) -> Vec<CrossingId> {
    let spots = hull.resolve(places).unwrap();
    spots.into_iter().map(|spot| spot.crossing).collect()
}

proptest! {
    #![proptest_config(make::cases(300))]

    #[test]
    fn crossings_folded_and_unfolded_are_the_same_each_once((hull, crossings) in make::hull_and_crossings()) {
        let places = fold(&hull, crossings.iter().copied());
        let set: BTreeSet<CrossingId> = crossings.iter().copied().collect();
        let unfolded = unfold(&hull, &places);
        prop_assert_eq!(&unfolded, &set.iter().copied().collect::<Vec<_>>());
        // Each once, by one place alone.
        let by_place = places.0.iter().map(|place| Places(vec![place.clone()]));
        let named: usize = by_place.map(|place| unfold(&hull, &place).len()).sum();
        prop_assert_eq!(named, set.len(), "{}", places);
        // Whatever the order they come in.
        prop_assert_eq!(&fold(&hull, set), &places);
        // And what is printed can be typed in again.
        let typed = places.to_string().parse::<Places>().ok();
        prop_assert_eq!(typed, (!places.0.is_empty()).then_some(places));
    }

    #[test]
    fn holes_folded_and_unfolded_are_the_same((hull, holes) in make::hull_and_holes()) {
        let places = fold_holes(&hull, holes.iter().copied());
        let unfolded: BTreeSet<_> = hull
            .resolve(&places)
            .unwrap()
            .into_iter()
            .flat_map(|spot| spot.holes.numbers().map(move |number| (spot.crossing, number)))
            .collect();
        let set: BTreeSet<_> = holes.iter().copied().collect();
        prop_assert_eq!(&unfolded, &set, "{}", places);
        prop_assert_eq!(fold_holes(&hull, set), places);
    }
}

#[test]
fn a_person_would_say_it_so() {
    let hull = HULL.replace(
        "  - {planks: D1-2",
        "  - {planks: S2a, across: F2-3, thickness: 1in}\n  - {planks: DPS1, across: B1-3, thickness: 1in}\n  - {planks: D1-2",
    )
    .replace("  - {number: 1-4,", "  - {number: 2a, siding: 1in, moulding: 1in}\n  - {number: 1-4,")
    .replace("{planks: PS1-2, across: stem F1-4", "{planks: PS1-2, across: stem F1-4 F2a")
    + "joints:\n  - {at: P2 J3, kind: butt}\n  - {at: S2 J3, kind: butt}\n";
    let hull = sound(&hull, "").hull;
    let said = |typed: &str| fold(&hull, unfold(&hull, &typed.parse().unwrap())).to_string();
    for (typed, printed) in [
        // Runs along a strake, strakes of one row together, then the two sides.
        ("P1 F1 and P1 F2 and P1 F3", "P1 F1-3"),
        ("P1 F1-3 and P2 F1-3 and P3 F1+3", "P1-2 F1-3 and P3 F1+3"),
        ("P1-3 F1 and S1-3 F1", "PS1-3 F1"),
        ("P1-2 F1 and S2-3 F1", "P1-2 F1 and S2-3 F1"),
        ("D1 B1-3 and D2 B1-3", "D1-2 B1-3"),
        ("DP1 B1 and DS1 B1", "DPS1 B1"),
        // A sister or a stealer does not break a run: its letter stands behind.
        ("P1 F1-4 F2a", "P1 F1-4+2a"),
        ("S1-3 F2 and S2a F2", "S1-3+2a F2"),
        // Both ends of a butt, or one.
        ("P2 J3 aft and P2 J3 fwd", "P2 J3"),
        ("P2 J3 aft", "P2 J3 aft"),
        ("PS2 F3 J3 F4", "PS2 F3-4 J3"),
        // No strake named: every strake that crosses there. `all`: every crossing.
        ("PS F4", "PS1-3 F4"),
        ("PS stem", "PS1-2 stem"),
        ("S2a all", "S2a F2-3"),
        ("D all", "D1-2 B1-3"),
        ("P3 all", "P3 F1-4"),
    ] {
        assert_eq!(said(typed), printed, "{typed}");
    }
}

#[test]
fn text_for_a_person_shows_the_first_places_and_how_many_more() {
    let places: Places = "P1 F1 and P2 F2 and P3 F3".parse().unwrap();
    assert_eq!(places.shown(3), "P1 F1 and P2 F2 and P3 F3");
    assert_eq!(places.shown(2), "P1 F1 and P2 F2 and 1 more place");
    assert_eq!(places.shown(1), "P1 F1 and 2 more places");
}
