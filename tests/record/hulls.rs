//! A hull built from what the owner wrote, and what lies beside what in her.

use refasten::hull::{CrossingId, Hull};
use refasten::joint::Zone;

use super::boat::{HULL, faults, log, set, sound};

fn at(hull: &Hull, place: &str) -> CrossingId {
    let spots = hull.resolve(&place.parse().unwrap()).unwrap();
    assert_eq!(spots.len(), 1, "{place}");
    spots[0].crossing
}

fn named(hull: &Hull, ids: impl IntoIterator<Item = CrossingId>) -> Vec<String> {
    let name = |id| {
        let crossing = hull.crossing(id);
        format!("{} {}", crossing.strake.id, crossing.member)
    };
    ids.into_iter().map(name).collect()
}

#[test]
fn what_does_not_fit_together_is_told_where_it_was_written() {
    let lines = HULL.lines().count();
    for (more, says) in [
        (
            "strakes:\n  - {planks: P1, across: F1-4, thickness: 1in}",
            "strake P1 is laid out twice",
        ),
        (
            "strakes:\n  - {planks: PS1-2, across: F1-4, thickness: 1in}",
            "strake P1, strake S2 and 2 more are laid out twice",
        ),
        (
            "strakes:\n  - {planks: P4-6+5, across: F1-4, thickness: 1in}",
            "`4-6+5` names 5 twice",
        ),
        (
            "strakes:\n  - {planks: P4, across: F1-9, thickness: 1in}",
            "F5 is crossed but not described",
        ),
        (
            "strakes:\n  - {planks: P4, across: K1-4, thickness: 1in}",
            "K1 is crossed but not described",
        ),
        (
            "strakes:\n  - {planks: P4, across: F1 transom, thickness: 1in}",
            "transom is crossed but not described",
        ),
        (
            "strakes:\n  - {planks: P4, across: all, thickness: 1in}",
            "`all` does not say which members",
        ),
        (
            "strakes:\n  - {planks: P4, across: F1.2, thickness: 1in}",
            "holes are not named here",
        ),
        (
            "strakes:\n  - {planks: P4, across: F1 J1, thickness: 1in}",
            "butt blocks are not named here",
        ),
        (
            "frames:\n  - {number: 4-5, siding: 1in, moulding: 1in}",
            "F4 is described twice",
        ),
        (
            "joints:\n  - {at: P9 J1, kind: butt}",
            "there is no strake P9",
        ),
        (
            "joints:\n  - {at: P1 J9, kind: butt}",
            "P1 crosses neither F9 nor F10, so no joint lies between them",
        ),
        (
            "joints:\n  - {at: P1 F9, kind: butt}",
            "P1 does not cross F9",
        ),
        (
            "waterline: [F1 2, F1 3]",
            "the waterline has two marks at F1",
        ),
        (
            "zones:\n  - {zone: inside, place: D3 B1}",
            "there is no strake D3",
        ),
        (
            "hardware:\n  - {what: strap, metal: copper, place: DP1 B1}",
            "there is no strake DP1",
        ),
    ] {
        let key = more.split(':').next().unwrap();
        // A list that is there already takes the line at its end.
        let hull = match HULL.find(&format!("\n{key}:\n")) {
            Some(begin) => {
                let body = begin + key.len() + 3;
                let end = HULL[body..]
                    .find("\n")
                    .map_or(HULL.len(), |end| body + end + 1);
                format!(
                    "{}{}\n{}",
                    &HULL[..end],
                    more.split_once('\n').unwrap().1,
                    &HULL[end..]
                )
            }
            None => format!("{HULL}{more}\n"),
        };
        let told = faults(&hull, "");
        assert!(
            told.len() == 1 && told[0].contains(says),
            "{more}: {told:?}"
        );
        let line: usize = told[0].split([' ', ':']).nth(1).unwrap().parse().unwrap();
        assert!(line > 0 && line <= lines + 3);
    }
}

#[test]
fn a_hull_without_end_is_refused_before_it_is_laid_out() {
    let hull = "refasten: 1\nboat: Test\nframes:\n  - {number: 1-9999, siding: 1in, moulding: 1in}\nstrakes:\n  - {planks: P1-999, across: F1-9999, thickness: 1in}\n";
    let told = faults(hull, "");
    assert_eq!(
        told,
        [
            "hull 6: the planking has more than 5 million crossings (are the numbers of frames and strakes right?)"
        ]
    );
}

#[test]
fn a_place_that_names_the_same_over_and_over_is_refused_before_it_is_laid_out() {
    let again = "F1-9999 ".repeat(8000);
    for (hull, says) in [
        (
            format!("{HULL}zones:\n  - {{zone: inside, place: P1 {again}}}\n"),
            "a place may name",
        ),
        (
            HULL.replace("across: F1-4", &format!("across: {again}")),
            "more than",
        ),
    ] {
        let told = faults(&hull, "");
        assert!(told.iter().any(|fault| fault.contains(says)), "{told:?}");
    }
}

#[test]
fn neighbours_along_a_strake_are_next_to_each_other_in_one_lane() {
    let hull = HULL
        .replace("across: stem F1-4", "across: stem K1-2 F1-4")
        .replace("ends:\n", "ends:\n  - {member: K1-2, landing depth: 2in}\n")
        + "joints:\n  - {at: P1 J2, kind: butt}\n";
    let hull = sound(&hull, "").hull;
    for (place, neighbours) in [
        ("P1 stem", vec!["P1 F1"]),
        ("P1 F1", vec!["P1 stem", "P1 F2"]),
        ("P1 F2", vec!["P1 F1", "P1 J2 fwd"]),
        ("P1 J2 aft", vec!["P1 J2 fwd", "P1 F3"]),
        ("P1 F4", vec!["P1 F3"]),
        // Along the keel rabbet.
        ("P1 K1", vec!["P1 K2"]),
        ("S1 F3", vec!["S1 F2", "S1 F4"]),
        ("D2 B2", vec!["D2 B1", "D2 B3"]),
    ] {
        let id = at(&hull, place);
        assert_eq!(
            named(&hull, hull.neighbours_along(id)),
            neighbours,
            "{place}"
        );
    }
}

#[test]
fn neighbours_across_are_the_nearest_strakes_that_lie_on_the_member() {
    let hull = HULL.replace(
        "strakes:\n",
        "strakes:\n  - {planks: P2a, across: F1-2, thickness: 1in}\n",
    );
    let hull = sound(&hull, "").hull;
    for (place, neighbours) in [
        ("P1 F2", vec!["P2 F2"]),
        ("P2 F2", vec!["P1 F2", "P2a F2"]),
        // The stealer ends before frame 3, and the strakes on either side of it meet there.
        ("P2 F3", vec!["P1 F3", "P3 F3"]),
        ("P3 F3", vec!["P2 F3"]),
        ("P1 stem", vec!["P2 stem"]),
        ("P3 F1", vec!["P2a F1"]),
        ("S1 F1", vec!["S2 F1"]),
        ("D1 B1", vec!["D2 B1"]),
    ] {
        let id = at(&hull, place);
        assert_eq!(
            named(&hull, hull.neighbours_across(id)),
            neighbours,
            "{place}"
        );
    }
}

#[test]
fn a_strake_is_cut_into_planks_at_its_joints() {
    let joints = "joints:\n  - {at: PS1 J2, kind: butt}\n  - {at: P1 F4, kind: scarf, slope: 10}\n  - {at: P2 F2, kind: butt}\n";
    let planks = |hull: &Hull, strake: usize| -> Vec<Vec<String>> {
        let planks = hull.planks(&hull.strakes()[strake], |_| false);
        planks
            .into_iter()
            .map(|plank| named(hull, plank.crossings))
            .collect()
    };
    let hull = sound(&(HULL.to_owned() + joints), "").hull;
    assert_eq!(
        planks(&hull, 0),
        [
            vec!["P1 stem", "P1 F1", "P1 F2", "P1 J2 fwd"],
            vec!["P1 J2 aft", "P1 F3", "P1 F4"],
            vec!["P1 F4"],
        ]
    );
    // Planks that meet on a frame both lie on it.
    assert_eq!(
        planks(&hull, 1),
        [
            vec!["P2 stem", "P2 F1", "P2 F2"],
            vec!["P2 F2", "P2 F3", "P2 F4"]
        ]
    );
    assert_eq!(planks(&hull, 2), [["P3 F1", "P3 F2", "P3 F3", "P3 F4"]]);
    // Numbered from the stern, J2 lies forward of F2: the planks begin at the bow all the same.
    let stern = format!("{HULL}numbering: {{frames: from stern, strakes: from keel}}\n{joints}");
    assert_eq!(
        planks(&sound(&stern, "").hull, 0),
        [
            vec!["P1 stem", "P1 F4"],
            vec!["P1 F4", "P1 F3", "P1 J2 fwd"],
            vec!["P1 J2 aft", "P1 F2", "P1 F1"],
        ]
    );
}

#[test]
fn zones_by_the_waterline_and_by_the_first_rule_that_names_the_place() {
    use Zone::{Deck, Inside, Topsides, Underwater, WindAndWater};
    let zone = |more: &str, place: &str| {
        let hull = sound(&format!("{HULL}{more}"), "").hull;
        hull.crossing(at(&hull, place)).zone
    };
    let keel = "waterline: [F1 3, F3 1]\n";
    let sheer = "numbering: {strakes: from sheer}\nwaterline: [F1 3, F3 1]\n";
    let stern = "numbering: {frames: from stern}\nwaterline: [F1 3, F3 1]\n";
    for (more, place, is) in [
        // Without a waterline, the harder case.
        ("", "P3 F1", Underwater),
        ("", "D1 B1", Deck),
        (keel, "P2 F1", Underwater),
        (keel, "P3 F1", WindAndWater),
        (keel, "P2 F2", WindAndWater),
        (keel, "P3 F2", Topsides),
        (keel, "P2 stem", Underwater),
        (keel, "S1 F4", WindAndWater),
        // Halfway between two strakes, the higher number has it.
        ("waterline: [F1 1, F3 2]\n", "P2 F2", WindAndWater),
        ("waterline: [F1 1, F3 2]\n", "P1 F2", Underwater),
        (sheer, "P2 F1", Topsides),
        (sheer, "P3 F2", Underwater),
        // The stem is beside the highest frame.
        (stern, "P2 stem", Topsides),
        (stern, "P2 F1", Underwater),
        (
            "zones:\n  - {zone: inside, place: D1 B1-2}\n  - {zone: topsides, place: D all}\n",
            "D1 B2",
            Inside,
        ),
        (
            "zones:\n  - {zone: inside, place: D1 B1-2}\n  - {zone: topsides, place: D all}\n",
            "D1 B3",
            Topsides,
        ),
        (
            "zones:\n  - {zone: inside, place: PS F4}\n",
            "P2 F4",
            Inside,
        ),
    ] {
        assert_eq!(zone(more, place), is, "{more} {place}");
    }
}

#[test]
fn more_holes_than_a_record_can_have_are_refused_before_they_are_laid_out() {
    let hull = "refasten: 1\nboat: Test\nframes:\n  - {number: 1-9999, siding: 1in, moulding: 1in}\nstrakes:\n  - {planks: P1-32, across: F1-9999, thickness: 1in}\nsets:\n";
    let more = "20 million fastenings";
    let told = faults(
        &format!("{hull}{}", set("built", "P all", "per crossing: 64")),
        "",
    );
    assert!(told.len() == 1 && told[0].contains(more), "{told:?}");
    let driven = "date: 2026-10-03, did: driven, place: P all, per crossing: 63, hole: new, kind: rivet, metal: copper, size: unknown";
    let told = faults(
        &format!("{hull}{}", set("built", "P all", "per crossing: 1")),
        &log(&[driven]),
    );
    assert!(
        told.len() == 1 && told[0].contains("20 million holes"),
        "{told:?}"
    );
}
