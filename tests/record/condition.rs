//! What is known of a fastening and of its hole, and what of it is counted on.

use refasten::files::Boat;
use refasten::record::{Found, Hole, HoleState};
use refasten::units::Length;

use super::boat::{HULL, hull_with, log, set, sound, stands};

/// A boat of one hole, at P1 F1, after these entries, all of one day.
fn boat(entries: &[&str]) -> Boat {
    let built = set("built", "P1 F1", "per crossing: 1, driven: 1958");
    let dated: Vec<String> = entries
        .iter()
        .map(|entry| format!("date: 2026-10-03, place: P1 F1, {entry}"))
        .collect();
    let dated: Vec<&str> = dated.iter().map(String::as_str).collect();
    sound(&hull_with(&[built]), &log(&dated))
}

/// That hole, and what was measured in it.
fn measured_hole(entries: &[&str]) -> (Hole, Option<Length>) {
    let boat = boat(entries);
    let spot = boat.hull.resolve(&"P1 F1".parse().unwrap()).unwrap()[0];
    let state = boat.book.state(&boat.hull, None);
    let holes: Vec<_> = state.numbered(spot.crossing).collect();
    let [(number, hole)] = holes.as_slice() else {
        panic!("{} holes", holes.len());
    };
    (**hole, state.diameter(spot.crossing, *number))
}

fn hole(entries: &[&str]) -> Hole {
    measured_hole(entries).0
}

const DRIVEN: &str = "did: driven, per crossing: 1, kind: rivet, metal: copper, size: unknown";

#[test]
fn spun_dealloyed_headless_and_sheared_ones_are_not_counted_on() {
    for found in Found::ALL {
        let is = match found {
            Found::Missing => HoleState::Open,
            Found::Spun | Found::Pink | Found::HeadGone | Found::Sheared => HoleState::Unsound,
            _ => HoleState::ReliedOn,
        };
        let checked = format!("did: checked, found: {found}");
        assert_eq!(hole(&[&checked]).state(), is, "{found}");
    }
}

#[test]
fn what_was_found_once_stays_known_until_a_new_one_is_driven() {
    let known = |entries: &[&str]| hole(entries).found.each().collect::<Vec<_>>();
    let worn = "did: checked, found: worn";
    let spun = "did: bared, found: spun";
    let pulled = "did: pulled, found: bent";
    assert_eq!(known(&[]), []);
    assert_eq!(known(&[worn, spun]), [Found::Worn, Found::Spun]);
    assert_eq!(known(&[worn, "did: hardened"]), [Found::Worn]);
    assert_eq!(known(&[worn, pulled]), [Found::Worn, Found::Bent]);
    assert_eq!(known(&[worn, pulled, DRIVEN]), []);
}

#[test]
fn a_spoiled_hole_is_remembered_by_what_is_driven_into_it() {
    for found in Found::ALL {
        let spoils = matches!(found, Found::Spun | Found::Wasted | Found::WoodSoft);
        let pulled = format!("did: pulled, found: {found}");
        assert_eq!(hole(&[&pulled, DRIVEN]).in_spoiled_hole, spoils, "{found}");
        // A dowel makes the hole good.
        let doweled = hole(&[&pulled, "did: doweled", DRIVEN]);
        assert!(!doweled.in_spoiled_hole, "{found}");
        // And so does a sound fastening drawn from it since.
        let again = hole(&[&pulled, DRIVEN, "did: pulled, found: sound", DRIVEN]);
        assert!(!again.in_spoiled_hole, "{found}");
    }
}

#[test]
fn the_bung_tells_how_a_mouth_begins() {
    for (bung, built, driven) in [
        // What the hull file tells was bunged; what the log tells is bunged when it says so.
        ("1/2in x 1/4in", "closed", "bare"),
        ("stopping", "closed", "bare"),
        ("unknown", "closed", "flush"),
        ("none", "flush", "flush"),
    ] {
        let sets = [set(
            "built",
            "P1 F1",
            &format!("per crossing: 1, bung: {bung}"),
        )];
        let entry = format!("date: 2026-10-03, place: P1 F2, bung: {bung}, hole: new, {DRIVEN}");
        let boat = sound(&hull_with(&sets), &log(&[&entry]));
        let told = |set: &str, mouth: &str| [format!("{set}: relied on, {mouth}")];
        assert_eq!(stands(&boat, "P1 F1"), told("built", built), "{bung}");
        assert_eq!(
            stands(&boat, "P1 F2"),
            told("driven 2026", driven),
            "{bung}"
        );
    }
}

#[test]
fn a_butt_is_meant_to_hold_as_many_as_it_says_or_as_were_built() {
    let expected = |per_end: u8| {
        let joint = format!("joints:\n  - {{at: P1 J2, kind: butt, per end: {per_end}}}\n");
        let built = set("built", "P1 J2", "per crossing: 4, driven: 1958");
        let boat: Boat = sound(&format!("{HULL}{joint}sets:\n{built}"), "");
        let state = boat.book.state(&boat.hull, None);
        let spots = boat.hull.resolve(&"P1 J2".parse().unwrap()).unwrap();
        spots
            .iter()
            .map(|spot| state.expected(spot.crossing))
            .collect::<Vec<_>>()
    };
    assert_eq!(expected(5), [5, 5]);
    assert_eq!(expected(3), [4, 4]);
}

#[test]
fn of_two_measurements_the_thinner_holds_until_a_new_one_is_driven() {
    let measured = |diameter| format!("did: measured, diameter: {diameter}");
    let thin = measured("2.5mm");
    let thick = measured("3mm");
    let known = |entries: &[&str]| measured_hole(entries).1.map(refasten::units::Length::mm);
    assert_eq!(known(&[]), None);
    assert_eq!(known(&[&thin, &thick]), Some(2.5));
    assert_eq!(known(&[&thick, &thin]), Some(2.5));
    assert_eq!(known(&[&thin, "did: pulled", DRIVEN]), None);
}
