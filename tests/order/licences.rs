//! Every crate that is leant on may be passed on under the licences of this one.
//!
//! `licences.txt` lists the crates of `Cargo.lock` with their licences. A crate that is new, or
//! whose licence has changed, fails here; `REFASTEN_BLESS=1` writes the list anew, for a person to
//! read over. That needs the network, for crates of other systems are asked about as well.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use serde_json::Value;

/// Licences that ask for no more than that their text goes along.
const ACCEPTED: [&str; 7] = [
    "Apache-2.0",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "MIT",
    "Unicode-3.0",
    "Zlib",
];

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn cargo(args: &[&str]) -> String {
    let output = Command::new(env!("CARGO"))
        .args(args)
        .current_dir(root())
        .output()
        .unwrap();
    let told = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "cargo {args:?}: {told}");
    String::from_utf8(output.stdout).unwrap()
}

/// The crates that cargo knows of, each with its licence: `clap: MIT OR Apache-2.0`.
fn told(args: &[&str]) -> BTreeSet<String> {
    let metadata = cargo(&[&["metadata", "--locked", "--format-version=1"], args].concat());
    let metadata: Value = serde_json::from_str(&metadata).unwrap();
    let line = |package: &Value| {
        let licence = package["license"].as_str().unwrap_or("not told");
        format!("{}: {licence}", package["name"].as_str().unwrap())
    };
    let packages = metadata["packages"].as_array().unwrap();
    packages.iter().map(line).collect()
}

/// Those of this machine's system, which are all here when a test runs.
fn here() -> BTreeSet<String> {
    let version = cargo(&["-vV"]);
    let host = version.lines().find_map(|line| line.strip_prefix("host: "));
    told(&["--offline", "--filter-platform", host.unwrap()])
}

/// The names of all crates of `Cargo.lock`, those of other systems with them.
fn locked() -> BTreeSet<String> {
    let lock = fs::read_to_string(root().join("Cargo.lock")).unwrap();
    let names = lock.lines().filter_map(|line| line.strip_prefix("name = "));
    names
        .map(|name| name.trim_matches('"').to_owned())
        .collect()
}

/// The lines of the list.
fn listed(path: &Path) -> BTreeSet<String> {
    let list = fs::read_to_string(path).unwrap();
    list.lines().map(str::to_owned).collect()
}

/// Whether a licence may be had on accepted terms: one of each choice, all of what goes together.
/// Brackets stand around choices only.
fn is_accepted(licence: &str) -> bool {
    licence.split(" AND ").all(|part| {
        let part = part.trim_matches(['(', ')']).replace('/', " OR ");
        part.split(" OR ").any(|one| ACCEPTED.contains(&one.trim()))
    })
}

#[test]
fn every_crate_is_listed_with_its_licence_and_may_be_passed_on() {
    let path = root().join("tests/order/licences.txt");
    if std::env::var_os("REFASTEN_BLESS").is_some_and(|bless| bless == "1") {
        let all: Vec<String> = told(&[]).into_iter().collect();
        fs::write(&path, all.join("\n") + "\n").unwrap();
    }
    let listed = listed(&path);
    let names: BTreeSet<String> = listed
        .iter()
        .map(|line| line.split_once(": ").unwrap().0.to_owned())
        .collect();
    assert_eq!(names, locked(), "the list and Cargo.lock name other crates");
    let changed: Vec<String> = here().difference(&listed).cloned().collect();
    assert_eq!(changed, [""; 0], "these are listed with another licence");
    let licence = |line: &&String| is_accepted(line.split_once(": ").unwrap().1);
    let refused: Vec<&String> = listed.iter().filter(|line| !licence(line)).collect();
    assert!(refused.is_empty(), "{refused:?}");
}

#[test]
fn a_licence_is_accepted_by_its_choices() {
    for licence in [
        "MIT OR Apache-2.0",
        "Unlicense/MIT",
        "(MIT OR Apache-2.0) AND Unicode-3.0",
        "MIT OR GPL-3.0-only",
    ] {
        assert!(is_accepted(licence), "{licence}");
    }
    for licence in [
        "GPL-3.0-only",
        "MIT AND GPL-3.0-only",
        "not told",
        "MPL-2.0 OR GPL-3.0",
    ] {
        assert!(!is_accepted(licence), "{licence}");
    }
}

/// What `Cargo.toml` says of this program's own licences, and the texts beside it, are the same.
#[test]
fn our_own_licences_are_here_as_they_are_named() {
    let own = "refasten: MIT OR Apache-2.0";
    assert!(here().contains(own));
    for (file, heading) in [
        (
            "LICENSE-MIT",
            "Permission is hereby granted, free of charge",
        ),
        (
            "LICENSE-APACHE",
            "Apache License\n                        Version 2.0",
        ),
    ] {
        let text = fs::read_to_string(root().join(file)).unwrap();
        assert!(text.contains(heading), "{file}");
    }
}
