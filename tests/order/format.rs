//! The format page names every key of every file, and no other.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use refasten::files::{Folder, Keys, RawEntry, RawPlan};
use refasten::record::{Did, Found};

/// The keys in the first column of the table under a heading of the page.
fn on_page<'a>(page: &'a str, heading: &str) -> BTreeSet<&'a str> {
    let from = page.find(&format!("\n{heading}\n"));
    let part = page.get(from.unwrap() + 1 + heading.len()..).unwrap();
    let rows = part
        .lines()
        .skip_while(|line| !line.starts_with("| key |"))
        .take_while(|line| line.starts_with('|'));
    rows.filter_map(|row| row.strip_prefix("| `")?.split('`').next())
        .collect()
}

/// What helps with the fault of a boat that says this.
fn help(hull: &str, log: &str, says: &str) -> String {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("hull.yaml"), hull).unwrap();
    fs::write(folder.path().join("log.yaml"), log).unwrap();
    let faults = Folder::open(folder.path())
        .unwrap()
        .boat("2026-10-20".parse().unwrap())
        .unwrap_err();
    let fault = faults.into_iter().find(|fault| fault.says.contains(says));
    fault.unwrap().help.unwrap()
}

/// The keys that are read where this one, which is none of them, stands.
fn read(hull: &str) -> BTreeSet<String> {
    let help = help(hull, "", "`zzzzzzzz`");
    let (_, keys) = help.split_once(" are ").unwrap();
    keys.split(", ").map(str::to_owned).collect()
}

fn page() -> String {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("demo/FORMAT.md")).unwrap()
}

#[test]
fn every_key_of_the_hull_file_is_on_the_format_page() {
    let page = page();
    let same = |heading: &str, hull: &str| {
        let read = read(hull);
        let read: BTreeSet<&str> = read.iter().map(String::as_str).collect();
        assert_eq!(on_page(&page, heading), read, "{heading}");
    };
    same("## hull.yaml", "refasten: 1\nzzzzzzzz: 1\n");
    for maps in ["particulars", "numbering", "practice"] {
        let heading = format!("### {maps}");
        same(&heading, &format!("{maps}: {{zzzzzzzz: 1}}\n"));
    }
    let lists = [
        "frames",
        "ends",
        "strakes",
        "names",
        "zones",
        "joints",
        "graving pieces",
        "hardware",
        "sets",
        "limits",
        "accepted",
        "own",
        "boxes",
    ];
    for list in lists {
        let heading = format!("### {list}");
        same(&heading, &format!("{list}:\n  - {{zzzzzzzz: 1}}\n"));
    }
    let beams = read("beams:\n  - {zzzzzzzz: 1}\n");
    assert_eq!(beams, read("frames:\n  - {zzzzzzzz: 1}\n"));
    let block = read("joints:\n  - {block: {zzzzzzzz: 1}}\n");
    assert_eq!(block, ["thickness", "wood"].map(str::to_owned).into());
}

#[test]
fn every_key_of_the_log_is_on_the_format_page() {
    let keys = RawEntry::KEYS.iter().copied().collect();
    assert_eq!(on_page(&page(), "### entries"), keys);
}

#[test]
fn every_key_of_the_plan_is_on_the_format_page() {
    let keys = RawPlan::KEYS.iter().copied().collect();
    assert_eq!(on_page(&page(), "### plans"), keys);
}

#[test]
fn every_deed_stands_on_the_format_page_with_its_keys() {
    let page = page();
    let (_, part) = page.split_once("### What can be done").unwrap();
    for did in Did::ALL {
        let named = format!("`{did}`");
        let row = part
            .lines()
            .find(|line| line.starts_with("| ") && line.split('|').nth(1).unwrap().contains(&named))
            .unwrap_or_else(|| panic!("{did} is not on the page"));
        let keys = row.rsplit('|').nth(1).unwrap().replace('`', "");
        let odd = if *did == Did::Struck {
            "place"
        } else {
            "strikes"
        };
        let log = format!("- {{entry: 1, date: 2026-10-03, did: {did}, {odd}: P1 F1}}\n");
        let help = help("refasten: 1\nboat: Test\n", &log, "does not go with");
        assert_eq!(help, format!("with `{did}` go {}", keys.trim()));
    }
}

#[test]
fn everything_that_can_be_found_stands_on_the_format_page() {
    let page = page();
    let (_, part) = page.split_once("### What can be found").unwrap();
    for found in Found::ALL {
        assert!(part.contains(&format!("`{found}`")), "{found}");
    }
}
