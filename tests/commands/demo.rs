//! The demo worked on, turned into millimetres, and only looked at.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;
use std::process::Command;

use serde_json::Value;

const TODAY: &str = "2024-11-25";

/// A copy of the demo to do things to.
fn demo() -> tempfile::TempDir {
    let copy = tempfile::tempdir().unwrap();
    for file in fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("demo")).unwrap() {
        let file = file.unwrap();
        // The pictures are nobody's business here.
        if file.path().is_file() {
            fs::copy(file.path(), copy.path().join(file.file_name())).unwrap();
        }
    }
    copy
}

fn run(folder: &Path, args: &[&str]) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_refasten"))
        .args(args)
        .arg("--boat")
        .arg(folder)
        .env("REFASTEN_TODAY", TODAY)
        .env_remove("REFASTEN_PLAIN")
        .output()
        .unwrap();
    let stderr = String::from_utf8_lossy(&output.stderr);
    assert!(stderr.is_empty(), "{args:?}: {stderr}");
    String::from_utf8(output.stdout).unwrap()
}

fn json(folder: &Path, args: &[&str]) -> Value {
    let args = [args, &["--format", "json"]].concat();
    serde_json::from_str(&run(folder, &args)).unwrap()
}

/// The places at which each rule has something to say.
fn findings(folder: &Path) -> BTreeMap<String, BTreeSet<String>> {
    let mut places: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for finding in json(folder, &["audit"])["findings"].as_array().unwrap() {
        let told = ["rule", "place"].map(|key| finding[key].as_str().unwrap().to_owned());
        let [rule, place] = told;
        places.entry(rule).or_default().insert(place);
    }
    places
}

/// What the audit newly says, and what it no longer says, since it was last asked.
fn changes(
    before: &mut BTreeMap<String, BTreeSet<String>>,
    folder: &Path,
    rules: &[&str],
) -> Vec<String> {
    let now = findings(folder);
    let none = BTreeSet::new();
    let mut changes = Vec::new();
    for rule in rules {
        let (was, is) = (
            before.get(*rule).unwrap_or(&none),
            now.get(*rule).unwrap_or(&none),
        );
        changes.extend(is.difference(was).map(|place| format!("+ {rule} {place}")));
        changes.extend(was.difference(is).map(|place| format!("- {rule} {place}")));
    }
    *before = now;
    changes
}

#[test]
fn an_audit_after_each_step_shows_exactly_those_crossings_opening_and_closing() {
    let folder = demo();
    let folder = folder.path();
    let mut known = findings(folder);
    let mut step = |words: &[&str]| {
        run(folder, &[&["log"], words].concat());
        changes(
            &mut known,
            folder,
            &[
                "open-hole",
                "crossing-bare",
                "bung-missing",
                "stub-left",
                "frame-hole-open",
            ],
        )
    };
    // Two frames of a sound strake, far from any other work.
    assert_eq!(
        step(&["pulled", "S8 F20-21", "--count", "4"]),
        [
            "+ open-hole P5 F18 and S3 F18-20 and S8 F20-21",
            "- open-hole P5 F18 and S3 F18-20",
            "+ crossing-bare S3 F18-20 and S8 F20-21",
            "- crossing-bare S3 F18-20",
        ]
    );
    assert_eq!(
        step(&["broken", "S8 F22.1", "--found", "sheared"]),
        [
            "+ open-hole P5 F18 and S3 F18-20 and S8 F20-22",
            "- open-hole P5 F18 and S3 F18-20 and S8 F20-21",
            "+ stub-left S8 F22",
        ]
    );
    assert_eq!(step(&["cleared", "S8 F22.1"]), ["- stub-left S8 F22"]);
    assert_eq!(step(&["doweled", "S8 F20-22", "--count", "5"]), [""; 0]);
    let screws = [
        "--kind",
        "wood screw",
        "--metal",
        "silicon bronze",
        "--size",
        "14 x 1-3/4in",
        "--bung",
        "1/2in x 1/4in",
    ];
    assert_eq!(
        step(&[&["driven", "S8 F20-21", "--per-crossing", "2"], &screws[..]].concat()),
        [
            "+ open-hole P5 F18 and S3 F18-20 and S8 F22",
            "- open-hole P5 F18 and S3 F18-20 and S8 F20-22",
            "+ crossing-bare S3 F18-20",
            "- crossing-bare S3 F18-20 and S8 F20-21",
            "+ bung-missing S8 F20-21 and D9 B9",
            "- bung-missing D9 B9",
        ]
    );
    assert_eq!(
        step(&[&["driven", "S8 F22.1"], &screws[..]].concat()),
        [
            "+ open-hole P5 F18 and S3 F18-20",
            "- open-hole P5 F18 and S3 F18-20 and S8 F22",
            "+ bung-missing S8 F20-22 and D9 B9",
            "- bung-missing S8 F20-21 and D9 B9",
        ]
    );
    assert_eq!(
        step(&["bunged", "S8 F20-22", "--count", "5"]),
        ["+ bung-missing D9 B9", "- bung-missing S8 F20-22 and D9 B9"]
    );
}

/// A text with every length in inches written in millimetres, to the nanometre the same.
fn in_millimetres(text: &str) -> String {
    let mut metric = String::new();
    for piece in text.split_inclusive("in") {
        let Some(head) = piece.strip_suffix("in") else {
            metric += piece;
            continue;
        };
        let start = head
            .rfind(|c: char| !matches!(c, '0'..='9' | '.' | '/' | '-'))
            .map_or(0, |at| at + 1);
        let number = &head[start..];
        match format!("{number}in").parse::<refasten::units::Length>() {
            Ok(length) if number.starts_with(|c: char| c.is_ascii_digit()) => {
                metric += &head[..start];
                metric += &length.written(refasten::units::Units::Metric);
            }
            _ => metric += piece,
        }
    }
    metric
}

#[test]
fn the_metric_twin_of_the_demo_has_the_same_findings() {
    assert_eq!(
        in_millimetres("inside, 14 x 1-3/4in, 34ft 9in"),
        "inside, 14 x 44.45mm, 34ft 228.6mm"
    );
    let twin = demo();
    for file in ["hull.yaml", "log.yaml"] {
        let path = twin.path().join(file);
        let text = fs::read_to_string(&path).unwrap();
        let metric = in_millimetres(&text).replace("show: inch", "show: metric");
        assert!(metric.matches("mm").count() > 10, "{file} has no lengths");
        fs::write(path, metric).unwrap();
    }
    let bare = |folder: &Path| {
        let mut audit = json(folder, &["audit"]);
        for finding in audit["findings"].as_array_mut().unwrap() {
            // The sentences are in the boat's own units; everything else is the same.
            let finding = finding.as_object_mut().unwrap();
            finding.remove("says");
            finding.remove("do");
        }
        audit
    };
    assert_eq!(bare(twin.path()), bare(demo().path()));
    assert!(run(twin.path(), &["audit"]).contains(" mm "));
    assert!(!run(twin.path(), &["audit"]).contains(" in in "));
}

/// Every file of a folder with its bytes.
fn bytes(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let files = fs::read_dir(folder).unwrap().map(|file| file.unwrap());
    files
        .map(|file| {
            (
                file.file_name().into_string().unwrap(),
                fs::read(file.path()).unwrap(),
            )
        })
        .collect()
}

#[test]
fn looking_leaves_every_file_as_it_was() {
    let folder = demo();
    let before = bytes(folder.path());
    for args in [
        &["audit"][..],
        &["audit", "P1-4", "F12", "--as-of", "2024-10-20"],
        &["show"],
        &["show", "--each"],
        &["history", "S3", "F13"],
        &["pick", "S3", "F18"],
        &["explain", "open-hole"],
        &["tables", "woods"],
        &["check"],
        &["sample"],
        &["sample", "--read"],
    ] {
        run(folder.path(), args);
        assert_eq!(bytes(folder.path()), before, "{args:?}");
    }
}

#[test]
fn every_way_of_counting_counts_every_hole_once() {
    let folder = demo();
    let all = json(folder.path(), &["show"])["all"].clone();
    assert!(all["holes"].as_u64().unwrap() > 1000);
    for by in ["frame", "strake", "metal", "set", "state", "zone"] {
        let count = json(folder.path(), &["show", "--by", by]);
        assert_eq!(count["all"], all, "{by}");
        for (key, total) in all.as_object().unwrap() {
            let groups = count["groups"].as_array().unwrap();
            let sum: u64 = groups
                .iter()
                .map(|group| group[key].as_u64().unwrap())
                .sum();
            assert_eq!(Some(sum), total.as_u64(), "{by}: {key}");
        }
    }
    let each = json(folder.path(), &["show", "--each"]);
    assert_eq!(
        each["holes"].as_array().unwrap().len() as u64,
        all["holes"].as_u64().unwrap()
    );
}
