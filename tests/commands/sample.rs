//! `sample`: what counts as drawn by lot, and what is proposed.

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::fs;

use serde_json::Value;
use tempfile::TempDir;

use crate::run::{Ran, refasten};

/// Forty-eight bronze screws underwater, eight galvanised nails in the topsides.
const HULL: &str = "\
refasten: 1
boat: Test
frames:
  - {number: 1-12, siding: 1-3/8in, moulding: 1-3/4in, wood: white oak}
strakes:
  - {planks: PS1, across: F1-12, thickness: 7/8in, wood: Douglas-fir}
  - {planks: P4, across: F1-4, thickness: 7/8in, wood: Douglas-fir}
waterline: [F1 2, F12 2]
sets:
  - {set: built, place: PS1 F1-12, per crossing: 2, kind: wood screw, metal: silicon bronze, size: 14 x 1-3/4in, bung: 1/2in x 1/4in, driven: 1990}
  - {set: nails, place: P4 F1-4, per crossing: 2, kind: boat nail, metal: galvanised steel, size: 1/4in x 2-1/4in, bung: stopping, driven: 1990}
";

fn boat(hull: &str, entries: &[&str]) -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    let mut log = String::new();
    for (at, entry) in entries.iter().enumerate() {
        writeln!(log, "- {{entry: {}, {entry}}}", at + 1).unwrap();
    }
    fs::write(folder.path().join("hull.yaml"), hull).unwrap();
    fs::write(folder.path().join("log.yaml"), log).unwrap();
    folder
}

fn sample(folder: &TempDir, more: &[&str]) -> Ran {
    let path = folder.path().to_str().unwrap();
    refasten(&[&["sample", "--today=2026-11-01", "--boat", path], more].concat())
}

fn json(folder: &TempDir, more: &[&str]) -> Value {
    let ran = sample(folder, &[&["--format", "json"], more].concat());
    assert_eq!((ran.stderr.as_str(), ran.code), ("", Some(0)));
    serde_json::from_str(&ran.stdout).unwrap()
}

/// What is read of the bronze under water.
fn bronze(entries: &[&str], more: &[&str]) -> Value {
    let read = json(&boat(HULL, entries), &[&["--read"], more].concat());
    let groups = read["groups"].as_array().unwrap();
    let is_it = |group: &&Value| group["metal"] == "silicon bronze";
    groups.iter().find(is_it).unwrap().clone()
}

/// lot, drawn by lot, bad of these, targeted, bad of these.
fn counts(group: &Value) -> [u64; 5] {
    [
        "lot",
        "pulled_random",
        "bad_random",
        "pulled_targeted",
        "bad_targeted",
    ]
    .map(|key| group[key].as_u64().unwrap())
}

const FOUR_GOOD: &str =
    "date: 2026-10-03, did: pulled, place: P1 F1-4.1, found: sound, sample: random";

#[test]
fn only_those_drawn_by_lot_bound_the_rest() {
    let group = bronze(
        &[
            FOUR_GOOD,
            "date: 2026-10-03, did: pulled, place: P1 F5.1, found: worn, sample: random",
            "date: 2026-10-03, did: pulled, place: S1 F2.1, found: necked, sample: random",
            "date: 2026-10-03, did: pulled, place: S1 F3-8.1, found: wasted, sample: targeted",
            "date: 2026-10-04, did: pulled, place: S1 F9, found: wasted",
        ],
        &[],
    );
    assert_eq!(counts(&group), [48, 6, 1, 6, 6]);
    assert_eq!(group["confidence"], 0.95);
    // By hand: the chance to draw none or one bad in six, if so many of the 48 were bad.
    let ways = |of: u64, some: u64| {
        let factors = (0..some).map(|i| (of - i) as f64 / (i + 1) as f64);
        factors.product::<f64>()
    };
    let chance = |bad: u64| (ways(48 - bad, 6) + bad as f64 * ways(48 - bad, 5)) / ways(48, 6);
    let most = group["most_bad"].as_u64().unwrap();
    assert!(chance(most) > 0.05 && chance(most + 1) <= 0.05, "{most}");
    assert_eq!(group["bad_share_upper"], most as f64 / 48.0);
    assert_eq!(group["lot_on"], "2026-10-02");
}

#[test]
fn nothing_drawn_by_lot_bounds_nothing() {
    let targeted = "date: 2026-10-03, did: pulled, place: P1 F1-4, found: sound, sample: targeted";
    let group = bronze(&[targeted], &[]);
    assert_eq!(counts(&group), [40, 0, 0, 8, 0]);
    assert!(group["bad_share_upper"].is_null());
}

#[test]
fn one_that_broke_is_bad_whatever_is_told_of_it() {
    let broke = "date: 2026-10-03, did: broken, place: P1 F6.1, found: sound, sample: random";
    assert_eq!(counts(&bronze(&[FOUR_GOOD, broke], &[])), [48, 5, 1, 0, 0]);
    let untold = "date: 2026-10-03, did: broken, place: P1 F6.1, sample: random";
    assert_eq!(counts(&bronze(&[FOUR_GOOD, untold], &[])), [48, 5, 1, 0, 0]);
}

#[test]
fn what_was_found_before_or_on_the_bench_counts() {
    let before = "date: 2026-10-02, did: checked, place: P1 F7.1, found: slack";
    let drawn = "date: 2026-10-03, did: pulled, place: P1 F7.1, sample: random";
    assert_eq!(counts(&bronze(&[before, drawn], &[])), [48, 1, 1, 0, 0]);
    let bench = "date: 2026-10-05, did: measured, place: P1 F7.1, diameter: 0.1in, found: wasted";
    assert_eq!(counts(&bronze(&[drawn, bench], &[])), [48, 1, 1, 0, 0]);
}

#[test]
fn one_of_which_nothing_is_told_is_not_counted() {
    let group = bronze(
        &[
            FOUR_GOOD,
            "date: 2026-10-03, did: pulled, place: P1 F5.1, sample: random",
        ],
        &[],
    );
    assert_eq!(counts(&group), [48, 4, 0, 0, 0]);
    assert_eq!(group["untold"], 1);
}

#[test]
fn one_that_could_not_be_reached_makes_the_sample_smaller() {
    let left = "date: 2026-10-03, did: left, place: P1 F8.1, found: seized";
    assert_eq!(counts(&bronze(&[FOUR_GOOD, left], &[])), [48, 4, 0, 0, 0]);
    let chosen = format!("{left}, sample: random");
    assert_eq!(
        counts(&bronze(&[FOUR_GOOD, &chosen], &[])),
        [48, 4, 0, 0, 0]
    );
}

/// One chosen by lot that only spins is bad, and is counted once however it ends.
#[test]
fn one_that_spun_and_would_not_come_is_bad() {
    let spun = "date: 2026-10-03, did: checked, place: P1 F8.1, found: spun, sample: random";
    assert_eq!(counts(&bronze(&[FOUR_GOOD, spun], &[])), [48, 5, 1, 0, 0]);
    let left = "date: 2026-10-04, did: left, place: P1 F8.1, found: spun, sample: random";
    assert_eq!(counts(&bronze(&[FOUR_GOOD, left], &[])), [48, 5, 1, 0, 0]);
    let out = "date: 2026-10-05, did: pulled, place: P1 F8.1, sample: random";
    assert_eq!(
        counts(&bronze(&[FOUR_GOOD, spun, out], &[])),
        [48, 5, 1, 0, 0]
    );
    let good = "date: 2026-10-03, did: checked, place: P1 F8.1, found: sound, sample: random";
    assert_eq!(counts(&bronze(&[FOUR_GOOD, good], &[])), [48, 4, 0, 0, 0]);
}

/// What went back is new, and no part of the lot; nor is one that was not relied on.
#[test]
fn the_lot_is_what_was_relied_on_before_the_first_was_drawn() {
    let group = bronze(
        &[
            "date: 2026-10-01, did: bared, place: S1 F12.1",
            "date: 2026-10-01, did: left, place: S1 F12.1",
            FOUR_GOOD,
            "date: 2026-10-04, did: driven, place: P1 F1-4.1, kind: wood screw, metal: silicon bronze, size: 14 x 2in, bung: none",
            "date: 2026-10-05, did: pulled, place: P1 F1.1 and S1 F12.1, found: wasted, sample: random",
            "date: 2026-10-06, did: pulled, place: P1 F9.1, found: sound, sample: random",
        ],
        &[],
    );
    assert_eq!(counts(&group), [47, 5, 0, 0, 0]);
    assert_eq!(group["outside_lot"], 2);
}

/// A clamp goes out again.
#[test]
fn a_clamp_is_of_no_lot() {
    let group = bronze(
        &[
            "date: 2026-10-01, did: pulled, place: P1 F1-4, found: wasted",
            "date: 2026-10-01, did: driven, place: P1 F1-4.1, kind: wood screw, metal: silicon bronze, size: 14 x 2in, temporary: yes",
            "date: 2026-10-03, did: pulled, place: S1 F5.1, found: sound, sample: random",
        ],
        &[],
    );
    assert_eq!(counts(&group), [40, 1, 0, 0, 0]);
}

/// Entries of one day stand in the order they were made, but the lot is that of its eve.
#[test]
fn what_was_drawn_earlier_on_the_first_day_is_of_the_lot() {
    let group = bronze(
        &[
            "date: 2026-10-03, did: pulled, place: S1 F9, found: wasted",
            FOUR_GOOD,
        ],
        &[],
    );
    assert_eq!(counts(&group), [48, 4, 0, 0, 0]);
    assert_eq!(group["lost_otherwise"], 2);
}

#[test]
fn a_later_look_is_a_sample_of_its_own() {
    let entries = [
        FOUR_GOOD,
        "date: 2026-10-20, did: pulled, place: S1 F1-2.1, found: wasted, sample: random",
    ];
    assert_eq!(counts(&bronze(&entries, &[])), [48, 6, 2, 0, 0]);
    let since = bronze(&entries, &["--since", "2026-10-10"]);
    assert_eq!(counts(&since), [44, 2, 2, 0, 0]);
    let then = bronze(&entries, &["--as-of", "2026-10-10"]);
    assert_eq!(counts(&then), [48, 4, 0, 0, 0]);
}

#[test]
fn a_struck_pull_was_never_drawn() {
    let strike = "date: 2026-10-04, did: struck, strikes: \"1 pulled P1 F1-4.1\"";
    assert_eq!(counts(&bronze(&[FOUR_GOOD, strike], &[])), [48, 0, 0, 0, 0]);
}

#[test]
fn every_one_drawn_is_a_census() {
    let all = "date: 2026-10-03, did: pulled, place: PS1 F1-10, found: sound, sample: random";
    let bad = "date: 2026-10-03, did: pulled, place: PS1 F11-12, found: wasted, sample: random";
    let group = bronze(&[all, bad], &[]);
    assert_eq!(counts(&group), [48, 48, 8, 0, 0]);
    assert_eq!(group["bad_share_upper"], 8.0 / 48.0);
    assert_eq!(group["more_good"], Value::Null);
}

/// A set of uncertain date counts from the first entry that touches it: the draw itself.
#[test]
fn a_lot_of_uncertain_date_was_there_when_it_was_drawn_from() {
    let hull = HULL.replace("driven: 1990", "driven: 2026");
    let read = json(&boat(&hull, &[FOUR_GOOD]), &["--read"]);
    assert_eq!(read["groups"][0]["lot"], 48);
    assert_eq!(read["groups"][0]["pulled_random"], 4);
}

#[test]
fn the_owners_own_confidence_holds() {
    let limits = |is: &str| format!("{HULL}limits:\n  - {{limit: confidence, is: {is}}}\n");
    let read = json(&boat(&limits("0.8"), &[FOUR_GOOD]), &["--read"]);
    assert_eq!(read["groups"][0]["confidence"], 0.8);
    let sure = sample(&boat(&limits("1"), &[FOUR_GOOD]), &["--read"]);
    assert_eq!(sure.code, Some(2));
    assert!(sure.stderr.contains("a confidence of 100 % proves nothing"));
}

#[test]
fn a_lot_is_drawn_the_same_again_from_its_seed() {
    let folder = boat(HULL, &[]);
    let own = json(&folder, &[]);
    let seed = own["seed"].to_string();
    assert_eq!(json(&folder, &["--seed", &seed]), own);
    let other = json(&folder, &["--seed", "1"]);
    assert_ne!(other["groups"], own["groups"]);
    assert_ne!(json(&folder, &["--as-of=2026-10-31"])["seed"], own["seed"]);
}

/// So many of each group, at crossings where only that metal stands.
#[test]
fn as_many_are_drawn_of_each_group_as_are_asked() {
    let folder = boat(HULL, &[]);
    let path = folder.path().to_str().unwrap();
    let drawn = json(&folder, &["--count", "6"]);
    for group in drawn["groups"].as_array().unwrap() {
        assert_eq!(group["draw"], 6, "{group}");
        let place = group["place"].as_str().unwrap();
        let crossings = place.split(' ').map(|word| word.split('.').next().unwrap());
        let place = &crossings.collect::<Vec<_>>().join(" ");
        let shown = refasten(&["show", place, "--each", "--format=json", "--boat", path]);
        let shown: Value = serde_json::from_str(&shown.stdout).unwrap();
        for hole in shown["holes"].as_array().unwrap() {
            assert_eq!(hole["metal"], group["metal"], "{place}");
        }
    }
    // More than there are is all there are.
    let drawn = json(&folder, &["--count", "500"]);
    assert_eq!(drawn["groups"][0]["draw"], 48);
    assert_eq!(drawn["groups"][0]["bad_share_upper_if_good"], 0.0);
}

/// With all of them good, the lot drawn for a share shows it, and one fewer does not.
#[test]
fn a_draw_for_a_share_shows_it() {
    let drawn = json(&boat(HULL, &[]), &["--prove", "10%"]);
    let group = &drawn["groups"][0];
    let would = group["bad_share_upper_if_good"].as_f64().unwrap();
    assert!(would <= 0.1, "{would}");
    let wanted = group["wanted"].as_u64().unwrap();
    let fewer = json(&boat(HULL, &[]), &["--count", &(wanted - 1).to_string()]);
    let would = fewer["groups"][0]["bad_share_upper_if_good"]
        .as_f64()
        .unwrap();
    assert!(would > 0.1, "{would}");
    // What was drawn before is not asked for again.
    let more = json(&boat(HULL, &[FOUR_GOOD]), &["--prove", "10%"]);
    assert_eq!(more["groups"][0]["wanted"], wanted - 4);
}

/// Every round can be logged as it is printed, opens no more frames than may be open, never two
/// holes of one crossing, and what it asks for stands.
#[test]
fn rounds_keep_to_the_limit_and_can_be_logged_as_they_are() {
    for (open, at_once) in [(0_u64, 3), (1, 2), (2, 1), (3, 3)] {
        let drawn: Vec<String> = (0..open)
            .map(|at| {
                let frame = at + 1;
                format!("date: 2026-10-03, did: pulled, place: S1 F{frame}, found: sound")
            })
            .collect();
        let drawn: Vec<&str> = drawn.iter().map(String::as_str).collect();
        let folder = boat(HULL, &drawn);
        let answer = json(&folder, &["--count", "30"]);
        assert_eq!(answer["open_frames"]["at_once"], at_once, "{open} open");
        assert_eq!(answer["open_frames"]["open"], open);
        let path = folder.path().to_str().unwrap();
        for round in answer["rounds"].as_array().unwrap() {
            let round = round.as_str().unwrap();
            let args = ["log", "pulled", round, "--sample=random", "--found=sound"];
            let logged = refasten(
                &[
                    &args[..],
                    &["--today=2026-11-01", "--format=json", "--boat", path],
                ]
                .concat(),
            );
            assert_eq!(logged.code, Some(0), "{round}: {}", logged.stderr);
            let logged: Value = serde_json::from_str(&logged.stdout).unwrap();
            let place = logged["place"].as_str().unwrap();
            assert!(frames(place).len() <= at_once, "{place}");
            // No two holes of one crossing: what stands open more is a crossing for each hole.
            let stands = logged["standing"]["open_crossings"].as_u64().unwrap();
            assert_eq!(stands - open, logged["holes"].as_u64().unwrap(), "{place}");
            let what = [
                "--kind=wood screw",
                "--metal=lead",
                "--size=14 x 2in",
                "--set=back",
            ];
            let back = [
                &["log", "driven", round, "--today=2026-11-01", "--boat", path],
                &what[..],
            ];
            assert_eq!(refasten(&back.concat()).code, Some(0), "{round}");
        }
        let read = json(&folder, &["--read"]);
        let groups = read["groups"].as_array().unwrap();
        let drawn = groups.iter().filter_map(|g| g["pulled_random"].as_u64());
        assert_eq!(drawn.collect::<Vec<_>>(), [0, 30, 8, 0], "{read}");
    }
}

/// The numbers of the frames that a place names: 1, 2, 3 and 9 of `P1 F1-3+9.2`.
fn frames(place: &str) -> BTreeSet<u32> {
    let picks = place.split(' ').filter_map(|word| word.strip_prefix('F'));
    let runs = picks.flat_map(|pick| pick.split('.').next().unwrap().split('+'));
    runs.flat_map(|run| {
        let (first, last) = run.split_once('-').unwrap_or((run, run));
        first.parse().unwrap()..=last.parse().unwrap()
    })
    .collect()
}

#[test]
fn nails_are_looked_at_by_lifting_a_plank() {
    let drawn = json(&boat(HULL, &[]), &["--count", "4"]);
    assert!(drawn["groups"][0]["lift"].is_null(), "screws come out");
    assert_eq!(drawn["groups"][1]["lift"]["place"], "P4 F1-4");
    assert_eq!(drawn["groups"][1]["lift"]["shows"], 8);
}

/// The targeted list has none of those drawn by lot, and points beside what was bad.
#[test]
fn what_is_aimed_at_stands_apart() {
    let bad = "date: 2026-10-03, did: pulled, place: S1 F6, found: wasted, sample: targeted";
    let drawn = json(&boat(HULL, &[bad]), &["--count", "2"]);
    let aims = drawn["targeted"].as_array().unwrap();
    assert_eq!(aims[0]["why"], "beside bad ones");
    let beside = frames(aims[0]["place"].as_str().unwrap());
    assert!(beside.is_subset(&[5, 7].into()), "{beside:?}");
    assert_eq!(drawn["still_open"], "S1 F6.1-2");
}

#[test]
fn slips_are_told_all_at_once() {
    let folder = boat(HULL, &[]);
    let ran = sample(&folder, &["--prove", "often", "--seed", "1.5", "P1,2"]);
    assert_eq!(ran.code, Some(2));
    for slip in ["--prove", "--seed", "PLACE"] {
        assert!(ran.stderr.contains(slip), "{slip}: {}", ran.stderr);
    }
    assert_eq!(sample(&folder, &["--read", "--count", "3"]).code, Some(2));
    assert_eq!(
        sample(&folder, &["--prove", "1%", "--count", "3"]).code,
        Some(2)
    );
}
