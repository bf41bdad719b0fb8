//! `check` on folders that are not as they should be.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use serde_json::Value;

use crate::run::{Ran, refasten};

fn check(folder: &Path, more: &[&str]) -> Ran {
    let boat = folder.to_str().unwrap();
    refasten(&[&["check", "--boat", boat], more].concat())
}

/// Every file of a folder but the lock, with what is in it.
fn files(folder: &Path) -> BTreeMap<String, String> {
    let read = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap());
    let files = read.map(|entry| {
        let name = entry.file_name().into_string().unwrap();
        (name, fs::read_to_string(entry.path()).unwrap())
    });
    files.filter(|(name, _)| name != ".refasten.lock").collect()
}

/// A hull with the words that are wrong between guillemets.
const HULL: &str = "\
refasten: 1
boat: Faulty
frames:
  - {number: 1-20, siding: 1-1/4in, «spaceing»: 9in, wood: white oak}
beams:
  - {number: 1-9, moulding: 2in, wood: «wite oak»}
strakes:
  - {planks: P1-9, across: F1-20, thickness: 7/8in}
  - {planks: S1-9, across: F1-20, thickness: «7/8»}
  - {planks: «P9», across: F1-20, thickness: 7/8in}
zones:
  - {zone: topsides, place: P8 F1, «F3»}
joints:
  - {at: P3 J11, kind: butt, block: {wood: {oak: «{»red: {knots: many}}}}}
sets:
  - {set: built, place: PS1-9 F1-20, per crossing: 2, kind: rivet, metal: copper, size: 8 SWG x 3in}
  - {set: «repair», place: P4-5 F8-9, per crossing: 2, kind: wood screw, metal: silicon bronze}
  - {set: later, place: S4 F8, per crossing: 2, kind: bolt, metal: «silcon bronze», replaces: built}
limits:
  - {limit: open frames at once, is: 4}
";

/// Its log, marked the same way.
const LOG: &str = "\
# refasten log 1
- {entry: 1, date: 2026-10-03, did: pulled, place: P6 F3, found: necked}
- {entry: 2, date: 2026-10-04, did: bared, place: P7 F3, note: soft, «wet»}
- {entry: 3, date: 2026-10-05, did: pulled, place: «P6 F3»}
- {entry: 4, date: 2026-10-06, did: pulled, place: P6 F5-6, count: «5»}
- {entry: 5, date: «2026-11-06», did: checked, place: P6 F8, found: sound}
";

/// What is said of each marked word, in their order.
const SAYS: [&str; 12] = [
    "`spaceing` is not a key that is known here",
    "`wite oak` is not a wood of the tables",
    "`7/8` has no unit",
    "strake P9 is laid out twice",
    "a comma cannot join places",
    "lists and keys stand more than 4 deep in each other here",
    "`repair` overlaps `built` at P4-5 F8-9 and does not say how",
    "`silcon bronze` is not a metal of the tables",
    "`wet` stands after a comma, so it is not part of `note`",
    "nothing can be pulled at P6 F3: there is no metal in the hole",
    "the count is 5, but 4 would be pulled",
    "2026-11-06 has not come yet",
];

#[test]
fn twelve_faults_in_two_files_are_told_in_one_run_each_at_its_place() {
    let folder = tempfile::tempdir().unwrap();
    let mut places = Vec::new();
    for (name, marked) in [("hull.yaml", HULL), ("log.yaml", LOG)] {
        for (line, number) in marked.lines().zip(1_u64..) {
            if let Some((before, rest)) = line.split_once('«') {
                let column = 1 + before.chars().count() as u64;
                let wide = rest.split('»').next().unwrap().chars().count() as u64;
                places.push((name.to_owned(), number, column, column + wide));
            }
        }
        fs::write(folder.path().join(name), marked.replace(['«', '»'], "")).unwrap();
    }
    let before = files(folder.path());
    let ran = check(folder.path(), &["--format", "json"]);
    assert_eq!((ran.stderr.as_str(), ran.code), ("", Some(2)));
    let told: Value = serde_json::from_str(&ran.stdout).unwrap();
    let told = told["faults"].as_array().unwrap();
    let number = |fault: &Value, key: &str| fault[key].as_u64().unwrap();
    let at = |fault: &Value| {
        let file = fault["file"].as_str().unwrap().to_owned();
        let (line, column) = (number(fault, "line"), number(fault, "column"));
        (file, line, column, number(fault, "end"))
    };
    let says: Vec<&str> = told.iter().map(|f| f["says"].as_str().unwrap()).collect();
    assert_eq!(says, SAYS);
    assert_eq!(told.iter().map(at).collect::<Vec<_>>(), places);
    assert!(told.iter().all(|fault| fault["help"].is_string()));
    assert_eq!(files(folder.path()), before);
}

const WHOLE: &str = "# refasten log 1\n- {entry: 1, date: 2026-10-03, did: bared, place: P1 F1}\n";
const TORN: &str = "- {entry: 2, date: 2026-10-03, did: pul";

/// A boat whose log was cut short.
fn torn() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let hull = "refasten: 1\nboat: Torn\nframes:\n  - {number: 1-4}\nstrakes:\n  \
        - {planks: P1, across: F1-4, thickness: 7/8in}\nsets:\n  \
        - {set: built, place: P1 F1-4, per crossing: 2, kind: wood screw, bung: unknown}\n";
    fs::write(folder.path().join("hull.yaml"), hull).unwrap();
    fs::write(folder.path().join("log.yaml"), format!("{WHOLE}{TORN}")).unwrap();
    folder
}

#[test]
fn a_torn_log_is_mended_beside_and_put_in_place_only_when_told() {
    let folder = torn();
    let ran = check(folder.path(), &[]);
    assert_eq!(ran.code, Some(2));
    assert!(ran.stderr.contains("the last line of the log has no end"));
    assert!(ran.stderr.contains("log.yaml:3:1"), "{}", ran.stderr);

    let before = files(folder.path());
    let ran = check(folder.path(), &["--repair"]);
    assert_eq!((ran.stderr.as_str(), ran.code), ("", Some(0)));
    assert_eq!(
        ran.stdout,
        format!(
            "log.yaml: line 3 was cut short; it is kept as a comment\n- {TORN}\n+ # torn: {TORN}\n\
             the mended one is in log.mended.yaml, and log.yaml is as it was\n\
             to replace what is mended:\n  \
             refasten check --repair --replace\n"
        )
    );
    let mended = format!("{WHOLE}# torn: {TORN}\n");
    let mut after = files(folder.path());
    assert_eq!(after.remove("log.mended.yaml").as_ref(), Some(&mended));
    assert_eq!(after, before);

    let ran = check(folder.path(), &["--repair", "--replace"]);
    assert_eq!(ran.code, Some(0));
    assert!(
        ran.stdout
            .ends_with("log.yaml is replaced by the mended one\n")
    );
    let after = files(folder.path());
    assert_eq!(after.get("log.yaml"), Some(&mended));
    assert_eq!(after.len(), 2, "{after:?}");
    let ran = check(folder.path(), &[]);
    assert_eq!(ran.code, Some(0), "{}", ran.stderr);

    let ran = check(folder.path(), &["--repair", "--replace"]);
    assert_eq!(
        ran.stdout,
        "log.yaml ends as it should and is in order; nothing is to be mended\n"
    );
    assert_eq!(files(folder.path()), after);
}

#[test]
fn what_was_mended_is_told_to_programs() {
    let folder = torn();
    let told = |more: &[&str]| -> Value {
        let args = [&["--repair", "--format", "json"], more].concat();
        serde_json::from_str(&check(folder.path(), &args).stdout).unwrap()
    };
    let mended = serde_json::json!({"line": 3, "keeps_entry": false});
    let beside = told(&[]);
    assert_eq!(beside["mended"], mended);
    assert_eq!(
        (&beside["beside"], &beside["replaced"]),
        (&"log.mended.yaml".into(), &false.into())
    );
    let replaced = told(&["--replace"]);
    assert_eq!(replaced["mended"], mended);
    assert_eq!(
        (&replaced["beside"], &replaced["replaced"]),
        (&Value::Null, &true.into())
    );
    let nothing = told(&["--replace"]);
    assert_eq!(
        (&nothing["mended"], &nothing["replaced"]),
        (&Value::Null, &false.into())
    );
}
