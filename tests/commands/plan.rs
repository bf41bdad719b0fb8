//! `pick --into-plan`: what is printed is what is written.

use std::fs;
use std::path::Path;

use serde_json::{Value, json};

use crate::run::{Ran, refasten};

/// A copy of the demo, and a run on it.
fn demo() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo");
    for name in ["hull.yaml", "log.yaml", "plan.yaml"] {
        fs::copy(from.join(name), folder.path().join(name)).unwrap();
    }
    folder
}

fn run(folder: &Path, args: &[&str]) -> Ran {
    let boat = folder.to_str().unwrap();
    refasten(&[args, &["--boat", boat, "--today", "2024-11-25"]].concat())
}

fn plan(folder: &Path) -> String {
    fs::read_to_string(folder.join("plan.yaml")).unwrap()
}

#[test]
fn the_plan_takes_what_pick_printed_and_says_what_becomes_of_the_old() {
    let folder = demo();
    let before = plan(folder.path());
    let pick = ["pick", "S4 F15-20", "--metal", "silicon bronze"];
    let into = ["--into-plan", "--plan", "bilge", "--format", "json"];
    let ran = run(folder.path(), &[&pick[..], &into].concat());
    assert_eq!((ran.stderr.as_str(), ran.code), ("", Some(0)));
    let answer: Value = serde_json::from_str(&ran.stdout).unwrap();
    assert_eq!(
        answer["planned"],
        json!({
            "plan": "bilge", "date": "2024-11-25", "place": "S4 F15-20", "fastenings": 12,
            "draws": [{"set": "quay wall", "fastenings": 12}], "leaves_in": [],
            "in_old_holes": 12, "in_new_holes": 0, "plugged": 0, "overtakes": [],
        })
    );
    let fastening = &answer["fastening"];
    assert_eq!(fastening["label"], "No. 14 x 1-3/4 in");
    assert_eq!(
        plan(folder.path()),
        before
            + "- {plan: \"bilge\", date: 2024-11-25, place: S4 F15-20, per crossing: 2, kind: wood screw, \
               metal: silicon bronze, size: 14 x 1-3/4in, bung: 1/2in x 1/4in, hole: same}\n"
    );
    // What is fixed by hand is written as well, and a later line takes the place of an earlier.
    let thicker = [
        "pick",
        "S4 F17",
        "--metal",
        "silicon bronze",
        "--gauge",
        "16",
        "--per-crossing",
        "3",
        "--into-plan",
        "--leaves-in",
        "quay wall",
    ];
    let ran = run(folder.path(), &thicker);
    assert_eq!(ran.code, Some(0), "{}", ran.stderr);
    let told = ran.stdout.split("\n\n").last().unwrap();
    assert_eq!(
        told,
        "Written to plan.yaml: `plan 2024` of 2024-11-25, 3 fastenings at S4 F17\n\
         - leaves in, not relied on, 2 of `quay wall`\n\
         - bores 3 new holes\n\
         - takes the place of what `bilge` of 2024-11-25 had waiting at S4 F17\n\
         Judge her with it: refasten audit --planned. When it is done: log driven …\n  \
         --plan \"plan 2024\"\n"
    );
    let written = plan(folder.path());
    let last = written.lines().last().unwrap();
    assert!(
        last.contains("per crossing: 3") && last.contains("size: 16 x"),
        "{last}"
    );
    assert_eq!(run(folder.path(), &["check"]).code, Some(0));
}

#[test]
fn the_first_line_makes_the_file_and_line_ends_are_kept() {
    let folder = demo();
    let path = folder.path().join("plan.yaml");
    fs::remove_file(&path).unwrap();
    let pick = [
        "pick",
        "S4 F15-20",
        "--metal",
        "silicon bronze",
        "--into-plan",
    ];
    assert_eq!(run(folder.path(), &pick).code, Some(0));
    let written = plan(folder.path());
    assert!(
        written.starts_with("# refasten plan 1\n- {plan: \"plan 2024\""),
        "{written}"
    );
    let crlf = written.replace('\n', "\r\n");
    fs::write(&path, &crlf).unwrap();
    assert_eq!(run(folder.path(), &pick).code, Some(0));
    let written = plan(folder.path());
    assert!(written.starts_with(&crlf));
    assert!(written.lines().count() == 3 && written.ends_with("}\r\n"));
}

#[test]
fn nothing_is_written_where_anything_is_wrong() {
    let folder = demo();
    let before = plan(folder.path());
    let pick = ["pick", "S4 F19", "--into-plan"];
    for more in [
        &[][..],
        &["--metal", "silicon bronze", "--replaces", "nobody"],
        &["--metal", "silicon bronze", "--gauge", "99"],
        &["--metal", "silicon bronze", "--hole", "old"],
        &["--metal", "silicon bronze", "--plan", " "],
    ] {
        let ran = run(folder.path(), &[&pick[..], more].concat());
        assert_eq!(ran.code, Some(2), "{more:?}: {}", ran.stdout);
        assert_eq!(ran.stdout, "");
        assert_eq!(plan(folder.path()), before);
    }
    // Nor after a line that was cut short.
    let torn = before.clone() + "- {plan: \"bil";
    fs::write(folder.path().join("plan.yaml"), &torn).unwrap();
    let pick = ["pick", "S4 F19", "--metal", "silicon bronze", "--into-plan"];
    let ran = run(folder.path(), &pick);
    assert_eq!(ran.code, Some(2));
    assert!(
        ran.stderr.contains("the last line of the plan has no end"),
        "{}",
        ran.stderr
    );
    assert_eq!(plan(folder.path()), torn);
}
