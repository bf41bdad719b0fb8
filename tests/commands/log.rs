//! Entries in one command: as if they were given one by one, and all or none.

use std::fs;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Output, Stdio};

const HULL: &str = "\
refasten: 1
boat: Test
frames:
  - {number: 1-9, siding: 1-3/8in, moulding: 1-3/4in, wood: white oak}
strakes:
  - {planks: P1-4, across: F1-9, thickness: 7/8in, wood: Douglas-fir}
sets:
  - {set: built, place: P1-4 F1-9, per crossing: 2, kind: rivet, metal: copper, driven: 1990}
";

/// A season's work, one entry after another, some late and one struck out.
const WORK: &[&[&str]] = &[
    &[
        "pulled",
        "P1",
        "F1-3",
        "--found",
        "wasted",
        "--date",
        "2026-10-02",
    ],
    &[
        "broken",
        "P2",
        "F1.1",
        "--stub",
        "frame",
        "--date",
        "2026-10-03",
        "--by",
        "A, B: \"C\"",
    ],
    &[
        "doweled",
        "P1",
        "F1-2",
        "--date",
        "2026-10-04",
        "--note",
        "frost; the rest \\ waits",
    ],
    &["struck", "3", "doweled", "P1", "F1-2", "--why", "it thawed"],
    &["plank", "off", "P4", "F9", "--date", "2026-10-05"],
    &[
        "checked", "P3", "F1-9", "--found", "sound", "--sample", "random",
    ],
];

fn boat() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("hull.yaml"), HULL).unwrap();
    folder
}

fn log(folder: &Path, words: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_refasten"));
    command.arg("log").args(words).arg("--boat").arg(folder);
    command
        .env("REFASTEN_TODAY", "2026-10-20")
        .env_remove("REFASTEN_PLAIN")
        .output()
        .unwrap()
}

fn bytes(folder: &Path) -> Option<Vec<u8>> {
    fs::read(folder.join("log.yaml")).ok()
}

/// The work without what cannot be done, each entry with its own day and name.
fn work() -> Vec<Vec<&'static str>> {
    let mut work: Vec<Vec<&str>> = WORK.iter().map(|words| words.to_vec()).collect();
    // Metal holds the plank; it is pulled first.
    work.insert(4, vec!["pulled", "P4", "F9", "--date", "2026-10-05"]);
    for words in &mut work {
        for (option, value) in [("--date", "2026-10-20"), ("--by", "N. Abara")] {
            if !words.contains(&option) {
                words.extend([option, value]);
            }
        }
    }
    work
}

fn together(work: &[Vec<&'static str>]) -> Vec<&'static str> {
    work.join(&"then")
}

#[test]
fn several_entries_are_the_same_as_one_after_another() {
    let (single, joined, filed) = (boat(), boat(), boat());
    for words in work() {
        let output = log(single.path(), &words);
        assert!(output.status.success(), "{words:?}: {output:?}");
    }
    let output = log(joined.path(), &together(&work()));
    assert!(output.status.success(), "{output:?}");
    assert_eq!(bytes(joined.path()), bytes(single.path()));
    // The log itself, without its numbers, is a file of entries.
    let text = String::from_utf8(bytes(single.path()).unwrap()).unwrap();
    let numberless: String = text
        .lines()
        .map(|line| match line.split_once(", ") {
            Some((start, rest)) if start.starts_with("- {entry: ") => format!("- {{{rest}\n"),
            _ => format!("{line}\n"),
        })
        .collect();
    let mut command = Command::new(env!("CARGO_BIN_EXE_refasten"));
    command
        .args(["log", "--from", "-", "--boat"])
        .arg(filed.path());
    command
        .env("REFASTEN_TODAY", "2026-10-20")
        .env_remove("REFASTEN_PLAIN")
        .stdin(Stdio::piped());
    let mut child = command.stdout(Stdio::null()).spawn().unwrap();
    let mut stdin = child.stdin.take().unwrap();
    stdin.write_all(numberless.as_bytes()).unwrap();
    drop(stdin);
    assert!(child.wait().unwrap().success());
    assert_eq!(bytes(filed.path()), bytes(single.path()));
}

#[test]
fn a_day_and_a_name_hold_until_they_are_told_anew() {
    let (told, carried) = (boat(), boat());
    let of = |words: &str| words.split(' ').map(str::to_owned).collect::<Vec<_>>();
    let each = of(
        "pulled P1 F1 --date 2026-10-02 --by A then doweled P1 F1 --date 2026-10-02 --by A then \
         plugged P1 F1 --date 2026-10-03 --by B",
    );
    let once = of(
        "pulled P1 F1 --date 2026-10-02 --by A then doweled P1 F1 then plugged P1 F1 --date \
         2026-10-03 --by B",
    );
    for (folder, words) in [(&told, each), (&carried, once)] {
        let words: Vec<&str> = words.iter().map(String::as_str).collect();
        assert!(log(folder.path(), &words).status.success());
    }
    assert!(bytes(told.path()).is_some());
    assert_eq!(bytes(carried.path()), bytes(told.path()));
}

#[test]
fn what_is_only_tried_changes_no_byte_and_takes_no_lock() {
    let folder = boat();
    let mut words = together(&work());
    words.push("--dry-run");
    assert!(log(folder.path(), &words).status.success());
    let names = || -> Vec<_> {
        let read = fs::read_dir(folder.path()).unwrap();
        read.map(|file| file.unwrap().file_name()).collect()
    };
    assert_eq!(names(), ["hull.yaml"]);
    words.pop();
    assert!(log(folder.path(), &words).status.success());
    let before = bytes(folder.path());
    for words in [
        vec!["pulled", "P3", "F1", "--dry-run"],
        vec!["struck", "4", "struck", "--dry-run"],
        vec!["struck", "1", "pulled", "P1", "F1-3", "--dry-run"],
    ] {
        log(folder.path(), &words);
        assert_eq!(bytes(folder.path()), before, "{words:?}");
    }
}

#[test]
fn one_that_is_wrong_keeps_all_from_being_written() {
    for wrong in [
        vec!["pulled", "P1", "F99"],
        vec!["pulled", "P1", "F1", "--found", "wastd"],
        vec!["cleared", "P1", "F9"],
        vec!["struck", "9", "pulled", "P1", "F1"],
    ] {
        for at in 0..=WORK.len() {
            let folder = boat();
            let mut work = work();
            work.insert(at, wrong.clone());
            let output = log(folder.path(), &together(&work));
            assert_eq!(output.status.code(), Some(2), "{wrong:?} at {at}");
            assert_eq!(bytes(folder.path()), None, "{wrong:?} at {at}");
        }
    }
}

#[test]
fn those_that_stand_on_an_entry_can_be_struck_in_the_order_they_are_named_in() {
    let folder = boat();
    let driven = [
        "driven",
        "P1",
        "F1",
        "--per-crossing",
        "2",
        "--kind",
        "wood screw",
        "--metal",
        "bronze",
        "--size",
        "unknown",
        "--bung",
        "1/2in",
        "then",
        "bunged",
        "P1",
        "F1",
    ];
    let start = [
        "pulled", "P1", "F1-2", "then", "doweled", "P1", "F1", "then",
    ];
    let mut words: Vec<&str> = start.into_iter().chain(driven).collect();
    let metal = words.iter().position(|word| *word == "bronze").unwrap();
    words[metal] = "silicon bronze";
    assert!(log(folder.path(), &words).status.success());
    let before = bytes(folder.path()).unwrap();
    let refused = log(folder.path(), &["struck", "1", "pulled", "P1", "F1-2"]);
    assert_eq!(refused.status.code(), Some(2));
    assert_eq!(bytes(folder.path()).unwrap(), before);
    let told = String::from_utf8(refused.stderr).unwrap();
    let named: Vec<&str> = told.split('`').skip(1).step_by(2).collect();
    let named: Vec<String> = named
        .iter()
        .map(|title| title.split_whitespace().collect::<Vec<_>>().join(" "))
        .take_while(|title| title != "then")
        .collect();
    assert_eq!(
        named,
        ["4 bunged P1 F1", "3 driven P1 F1", "2 doweled P1 F1"]
    );
    for title in named {
        let words: Vec<&str> = std::iter::once("struck").chain(title.split(' ')).collect();
        assert!(log(folder.path(), &words).status.success(), "{title}");
    }
    assert!(
        log(folder.path(), &["struck", "1", "pulled", "P1", "F1-2"])
            .status
            .success()
    );
}
