//! `show`, of what nobody knows.

use std::fs;

use crate::run::refasten;

/// A bung that the log says nobody knows is not a head left flush.
#[test]
fn a_bung_that_is_not_known_is_said_to_be_unknown() {
    let folder = tempfile::tempdir().unwrap();
    let hull = "refasten: 1\nboat: Test\nframes:\n  - {number: 1-3}\nstrakes:\n  - {planks: P1, across: F1-3, thickness: unknown}\n";
    fs::write(folder.path().join("hull.yaml"), hull).unwrap();
    let log = "\
- {entry: 1, date: 2026-10-01, did: driven, place: P1 F1, per crossing: 1, kind: wood screw, metal: copper, size: unknown, bung: unknown, hole: new}
- {entry: 2, date: 2026-10-01, did: driven, place: P1 F2, per crossing: 1, kind: wood screw, metal: copper, size: unknown, hole: new}
";
    fs::write(folder.path().join("log.yaml"), log).unwrap();
    let boat = folder.path().display().to_string();
    let ran = refasten(&["show", "--each", "--format", "json", "--boat", &boat]);
    assert_eq!((ran.stderr.as_str(), ran.code), ("", Some(0)));
    let shown: serde_json::Value = serde_json::from_str(&ran.stdout).unwrap();
    assert_eq!(shown["holes"][0]["bung"], "unknown");
    assert_eq!(shown["holes"][1]["bung"], "none");
}
