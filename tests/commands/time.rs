//! Counts before and after are those of the two days, each asked for by itself.

use std::collections::BTreeMap;

use serde_json::Value;

use crate::run::refasten;

const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/demo");

fn json(args: &[&str]) -> Value {
    let surroundings = ["--format", "json", "--boat", DEMO, "--today", "2024-11-25"];
    let ran = refasten(&[args, &surroundings].concat());
    assert_eq!((ran.stderr.as_str(), ran.code), ("", Some(0)));
    serde_json::from_str(&ran.stdout).unwrap()
}

/// The groups of a count by name, without what is not counted.
fn groups(shown: &Value) -> BTreeMap<String, Value> {
    let groups = shown["groups"].as_array().unwrap().iter();
    let group = |group: &Value| {
        let mut group = group.clone();
        let counts = group.as_object_mut().unwrap();
        let is_word = |key: &str| matches!(key, "name" | "called");
        counts.retain(|key, _| !is_word(key) && !key.starts_with("age_"));
        group
    };
    let name = |one: &Value| one["name"].as_str().unwrap().to_owned();
    groups.map(|one| (name(one), group(one))).collect()
}

#[test]
fn before_and_after_are_the_counts_of_those_days() {
    let days = [
        ("2024-10-04", "2024-10-03", "2024-10-18"),
        ("2024-11-01", "2024-10-31", "2024-11-25"),
        ("1975-06-01", "1975-05-31", "2024-11-25"),
    ];
    for ((since, eve, as_of), by) in days
        .into_iter()
        .flat_map(|days| ["set", "metal", "state", "strake"].map(|by| (days, by)))
    {
        let told = json(&["show", "--since", since, "--as-of", as_of, "--by", by]);
        for (side, day) in [("before", eve), ("after", as_of)] {
            let shown = json(&["show", "--as-of", day, "--by", by]);
            let mut expected = groups(&shown);
            for group in told["groups"].as_array().unwrap() {
                let is = expected.remove(group["name"].as_str().unwrap());
                // What is not there on that day is nought in every count.
                let nought = |is: &Value| is.as_object().unwrap().values().all(|n| *n == 0);
                match is {
                    Some(is) => assert_eq!(group[side], is, "{since} {side} {by}"),
                    None => assert!(nought(&group[side]), "{since} {side} {by}"),
                }
            }
            assert!(expected.is_empty(), "{expected:?}");
            assert_eq!(told["all"][side], shown["all"], "{since} {side} {by}");
        }
    }
}

#[test]
fn as_known_today_is_the_whole_book() {
    for command in [
        &["show", "--each"][..],
        &["history", "S3", "all"],
        &["sample", "--read"],
    ] {
        let mut known = json(&[command, &["--as-known", "2024-11-25"]].concat());
        assert_eq!(
            known["as_known"]["entries"],
            known["as_known"]["of_entries"]
        );
        known["as_known"] = Value::Null;
        assert_eq!(known, json(command));
    }
}

#[test]
fn a_season_counts_what_its_histories_tell() {
    let season = json(&["show", "--season", "2024"]);
    let moved = season["moved"].as_array().unwrap();
    let events = json(&["history", "PS1-11", "all", "and", "D", "all"]);
    for did in ["pulled", "broken", "driven"] {
        let told = events["events"].as_array().unwrap().iter();
        let told = told.filter(|event| event["did"] == did && event["struck_by"].is_null());
        let holes: u64 = told.map(|event| event["holes"].as_u64().unwrap()).sum();
        let sum = |rows: &[Value]| {
            rows.iter()
                .map(|row| row[did].as_u64().unwrap())
                .sum::<u64>()
        };
        assert_eq!(sum(moved), holes, "{did}");
        assert_eq!(sum(season["by"].as_array().unwrap()), holes, "{did}");
    }
}
