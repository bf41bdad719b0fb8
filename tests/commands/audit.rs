//! `audit` of a boat's folder: what it prints and how it ends.

use std::fs;

use serde_json::Value;
use tempfile::TempDir;

use crate::run::{Ran, refasten};

const HULL: &str = "\
refasten: 1
boat: Test
frames:
  - {number: 1-12, siding: 1-3/8in, moulding: 1-3/4in, wood: white oak}
strakes:
  - {planks: PS1-2, across: F1-12, thickness: 7/8in, wood: Douglas-fir}
sets:
  - {set: built, place: PS1-2 F1-12, per crossing: 2, kind: wood screw, metal: silicon bronze, size: 14 x 1-3/4in, bung: 1/2in x 1/4in, driven: 1990}
";

const BARE: &str = "- {entry: 1, date: 2026-10-03, did: pulled, place: P1 F2}\n";

fn boat(hull: &str, log: &str) -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("hull.yaml"), hull).unwrap();
    fs::write(folder.path().join("log.yaml"), log).unwrap();
    folder
}

fn audit(folder: &TempDir, more: &[&str]) -> Ran {
    let path = folder.path().to_str().unwrap();
    refasten(&[&["audit", "--today=2026-11-01", "--boat", path], more].concat())
}

fn json(folder: &TempDir, more: &[&str]) -> Value {
    let ran = audit(folder, &[&["--format", "json"], more].concat());
    assert_eq!(ran.stderr, "");
    serde_json::from_str(&ran.stdout).unwrap()
}

#[test]
fn a_stop_ends_with_1_unless_it_is_not_asked_to() {
    let folder = boat(HULL, BARE);
    let ran = audit(&folder, &["--only", "crossing-bare"]);
    assert_eq!(ran.code, Some(1));
    assert!(
        ran.stdout.starts_with("Test on 2026-11-01: stops open\n"),
        "{}",
        ran.stdout
    );
    assert!(
        ran.stdout
            .contains("None of 94 fastenings was ever looked at"),
        "{}",
        ran.stdout
    );
    assert_eq!(audit(&folder, &["--fail-on", "never"]).code, Some(0));
    // The day before, nothing was drawn.
    let before = audit(&folder, &["--as-of", "2026-10-02"]);
    assert!(
        before.stdout.contains("no stops in this record"),
        "{}",
        before.stdout
    );
    assert_eq!(before.code, Some(0));
    // Elsewhere nothing stands open.
    assert_eq!(audit(&folder, &["S1-2", "F1-12"]).code, Some(0));
}

#[test]
fn a_record_too_thin_ends_with_1_too() {
    let hull = HULL.replace("place: PS1-2 F1-12", "place: PS1-2 F1-11");
    let ran = audit(&boat(&hull, ""), &["--only", "crossing-bare"]);
    assert_eq!(ran.code, Some(1));
    assert!(ran.stdout.contains("record too thin"), "{}", ran.stdout);
    assert!(
        ran.stdout
            .contains("Too thin at PS1-2 F12: nothing is recorded there"),
        "{}",
        ran.stdout
    );
    let never = ["--only", "crossing-bare", "--fail-on", "never"];
    assert_eq!(audit(&boat(&hull, ""), &never).code, Some(0));
}

#[test]
fn what_somebody_accepted_is_told_first_and_stops_nobody() {
    let accepted = format!(
        "{HULL}accepted:\n  - {{rule: crossing-bare, place: P1 F2, why: to be lifted, by: \"A. Example, surveyor\", until: 2028-04-01}}\n"
    );
    let folder = boat(&accepted, BARE);
    let ran = audit(&folder, &["--only", "crossing-bare"]);
    assert_eq!(ran.code, Some(0));
    assert!(
        ran.stdout.contains(
            "Accepted stops\nstop   crossing-bare\n       P1 F2: nothing here holds the plank (1 crossing, 2 holes)\n       Accepted by A. Example, surveyor, until 2028-04-01: to be lifted\n"
        ),
        "{}",
        ran.stdout
    );
    let finding = &json(&folder, &["--only", "crossing-bare"])["findings"][0];
    assert_eq!(finding["accepted"]["by"], "A. Example, surveyor");
    assert_eq!(finding["accepted"]["until"], "2028-04-01");
}

#[test]
fn json_is_complete_and_adds_up() {
    let answer = json(&boat(HULL, BARE), &["--only=crossing-bare"]);
    assert_eq!(answer["format"], 1);
    assert_eq!(answer["verdict"], "stops open");
    assert_eq!(answer["counts"]["stop"], 1);
    let coverage = &answer["coverage"];
    assert_eq!(coverage["fastenings"], 94);
    assert_eq!(coverage["looked_at"], 0);
    assert!(coverage["since"].is_null());
    let finding = &answer["findings"][0];
    for (key, value) in [
        ("rule", "crossing-bare"),
        ("severity", "stop"),
        ("place", "P1 F2"),
        ("do", "drive new fastenings, doweling spoiled holes first"),
    ] {
        assert_eq!(finding[key], value, "{key}");
    }
    assert!(finding["figures"].is_object() && finding["accepted"].is_null());
    let standing = |key: &str| answer["standing"][key].as_u64().unwrap();
    assert_eq!(
        standing("fastenings"),
        standing("relied_on") + standing("left_in") + standing("broken") + standing("unsound")
    );
    assert_eq!(
        standing("holes"),
        standing("fastenings") + standing("open") + standing("plugged")
    );
}

/// Every other frame of one strake, so that its place would be one very long word.
#[test]
fn a_page_of_80_columns_is_never_overrun_and_a_place_can_be_pasted_back() {
    let log: String = (1001..=1099)
        .step_by(2)
        .zip(1..)
        .map(|(frame, entry)| {
            format!("- {{entry: {entry}, date: 2026-10-03, did: pulled, place: P1 F{frame}}}\n")
        })
        .collect();
    let folder = boat(&HULL.replace("1-12", "1001-1099"), &log);
    for full in [&["--full"][..], &[]] {
        let ran = audit(&folder, &[&["--only", "crossing-bare"], full].concat());
        for line in ran.stdout.lines() {
            assert!(line.chars().count() <= 80, "{line}");
        }
    }
    let ran = audit(&folder, &["--only", "crossing-bare", "--full"]);
    let text = ran.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    let (_, place) = text.split_once("stop crossing-bare ").unwrap();
    let (place, _) = place.split_once(':').unwrap();
    let again = json(&folder, &[place, "--only", "crossing-bare"]);
    assert_eq!(again["findings"][0]["crossings"], 50);
}

#[test]
fn what_is_not_certain_on_that_day_is_said() {
    let more = "  - {set: later, place: P1 F1-2, per crossing: 1, kind: wood screw, metal: silicon bronze, size: 14 x 1-3/4in, bung: none, driven: 2020, adds to: built}\n";
    let folder = boat(&format!("{HULL}{more}"), "");
    let within = audit(&folder, &["--as-of", "2020-06-01"]).stdout;
    let within = within.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        within.contains(
            "`later`, driven 2020, was there on this day; it is counted as not yet there"
        ),
        "{within}"
    );
    let after = audit(&folder, &["--as-of", "2021-01-01"]).stdout;
    assert!(!after.contains("not certain"), "{after}");
    assert!(
        after.contains("the whole shell is judged as underwater"),
        "{after}"
    );
}

#[test]
fn everything_wrong_with_what_was_typed_is_told_at_once() {
    let ran = audit(
        &boat(HULL, ""),
        &["P1,2", "--as-of", "soon", "--only", "crossing-bear"],
    );
    assert_eq!((ran.code, ran.stdout.as_str()), (Some(2), ""));
    for part in [
        "PLACE: ",
        "--as-of: `soon`",
        "did you mean `crossing-bare`?",
    ] {
        assert!(ran.stderr.contains(part), "{}", ran.stderr);
    }
    let ran = audit(&boat(HULL, ""), &["P9", "F1"]);
    assert_eq!(ran.code, Some(2));
    assert!(
        ran.stderr.contains("there is no strake P9"),
        "{}",
        ran.stderr
    );
}

#[test]
fn nothing_in_the_folder_is_touched() {
    let folder = boat(HULL, BARE);
    audit(&folder, &[]);
    let files: Vec<_> = fs::read_dir(folder.path()).unwrap().collect();
    assert_eq!(files.len(), 2);
    let read = |name: &str| fs::read_to_string(folder.path().join(name)).unwrap();
    assert_eq!(
        (read("hull.yaml").as_str(), read("log.yaml").as_str()),
        (HULL, BARE)
    );
}

/// However many boats there are, their rows stand in the order of their names, and each is what an
/// audit of her alone says.
#[test]
fn boats_side_by_side_are_judged_as_each_alone() {
    let yard = tempfile::tempdir().unwrap();
    for number in 0..24_u32 {
        let boat = yard.path().join(format!("boat {number:02}"));
        fs::create_dir(&boat).unwrap();
        let frames = number % 4 + 1;
        let hull = format!(
            "refasten: 1\nboat: B{number}\nframes:\n  - {{number: 1-4}}\nstrakes:\n  - {{planks: P1, across: F1-4, thickness: 7/8in}}\nsets:\n  - {{set: a, place: P1 F1-{frames}, per crossing: 1, kind: rivet, metal: copper, size: 8 SWG x 3in}}\n"
        );
        fs::write(boat.join("hull.yaml"), hull).unwrap();
        if number % 3 == 0 {
            let log = "- {entry: 1, date: 2026-10-03, did: pulled, place: P1 F1}\n";
            fs::write(boat.join("log.yaml"), log).unwrap();
        }
    }
    let yard_path = yard.path().display().to_string();
    let ask = |args: &[&str]| {
        let ran = refasten(&[&["audit", "--format", "json"], args].concat());
        assert_eq!(ran.stderr, "");
        (
            serde_json::from_str::<serde_json::Value>(&ran.stdout).unwrap(),
            ran.code,
        )
    };
    let (all, code) = ask(&["--boats", &yard_path]);
    assert_eq!(code, Some(1));
    let rows = all["boats"].as_array().unwrap();
    assert_eq!(rows.len(), 24);
    for (number, row) in rows.iter().enumerate() {
        let folder = yard.path().join(format!("boat {number:02}"));
        let folder = folder.display().to_string();
        assert_eq!(row["folder"], folder.as_str());
        let (alone, _) = ask(&["--boat", &folder]);
        for key in ["boat", "verdict", "counts", "coverage", "standing"] {
            assert_eq!(row[key], alone[key], "{key} of {folder}");
        }
    }
    assert_eq!(ask(&["--boats", &yard_path]).0, all);
}
