//! Words that would act where they are shown: on a terminal, on a page, in a spreadsheet; and slips
//! that look like YAML and are not.

use std::fs;
use std::path::Path;

use super::demo::{demo, run};

/// A terminal's title set, its colours changed, writing turned round, a script, a formula.
const NOTE: &str =
    r#""\e]0;x\a\e[31m \u202Eback \u2066 \x9b2J <script>alert(1)</script><x-y> &amp;""#;

/// The demo with such words wherever an owner may write some.
fn spoken_for() -> tempfile::TempDir {
    let folder = demo();
    let path = folder.path().join("demo/hull.yaml");
    let hull = fs::read_to_string(&path).unwrap();
    let hull = hull
        .lines()
        .map(|line| match line.starts_with("boat:") {
            true => format!("boat: {NOTE}\n"),
            false => format!("{line}\n"),
        })
        .collect::<String>();
    fs::write(&path, hull).unwrap();
    let path = folder.path().join("demo/log.yaml");
    let mut log = fs::read_to_string(&path).unwrap();
    let number = log.lines().count();
    for (more, words) in [(0, NOTE), (1, "\"=cmd()\""), (2, "\"@SUM(A1)\"")] {
        log += &format!(
            "- {{entry: {}, date: 2024-11-24, did: checked, place: P5 F20, by: {words}, note: {words}}}\n",
            number + more
        );
    }
    fs::write(&path, log).unwrap();
    folder
}

fn acts(text: &str) -> Option<char> {
    text.chars().find(|c| {
        c.is_control() && *c != '\n'
            || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
    })
}

#[test]
fn nothing_an_owner_wrote_acts_on_a_terminal() {
    let folder = spoken_for();
    let mut told = 0;
    for args in [
        &["audit"][..],
        &["show"],
        &["show", "--since", "2024-11-20"],
        &["show", "--season", "2024-25"],
        &["history", "P5", "F20"],
        &["todo"],
        &["map"],
        &["buy"],
        &["sample"],
        &["check"],
        &["log"],
        &["history", "P5", "F20", "--plain"],
        &["show", "no\u{1b}[31mwhere"],
        &["explain", "no\u{1b}[31mrule"],
    ] {
        let ran = run(folder.path(), args);
        assert!(matches!(ran.code, Some(0..=2)), "{args:?}: {}", ran.stderr);
        assert_eq!(acts(&ran.stdout), None, "{args:?}: {}", ran.stdout);
        assert_eq!(acts(&ran.stderr), None, "{args:?}: {}", ran.stderr);
        told += ran.stdout.matches("alert(1)").count();
    }
    assert!(told > 5, "the words are told, and do nothing: {told}");
}

#[test]
fn nothing_an_owner_wrote_acts_on_a_page() {
    let folder = spoken_for();
    for args in [
        &["report", "made.html"][..],
        &["sheet", "made.html", "P5", "F18-22"],
        &["map", "--drawing", "made.svg"],
    ] {
        let plain = demo();
        let made = |folder: &Path| {
            assert_eq!(run(folder, args).code, Some(0), "{args:?}");
            fs::read_to_string(
                folder.join(args.iter().find(|arg| arg.starts_with("made")).unwrap()),
            )
            .unwrap()
        };
        let (page, without) = (made(folder.path()), made(plain.path()));
        for tag in ["<script", "</script", "<x-y"] {
            let count = |page: &str| page.to_lowercase().matches(tag).count();
            assert_eq!(count(&page), count(&without), "{args:?}: {tag}");
        }
        assert_eq!(acts(&page), None, "{args:?}");
        assert!(page.contains("alert(1)"), "{args:?}");
    }
}

#[test]
fn nothing_an_owner_wrote_runs_in_a_spreadsheet() {
    let folder = spoken_for();
    let csv = run(folder.path(), &["export", "entries"]).stdout;
    assert_eq!(csv.matches("'=cmd()").count(), 2, "{csv}");
    assert_eq!(csv.matches("'@SUM(A1)").count(), 2, "{csv}");
    assert_eq!(csv.matches("\\u{1b}[31m").count(), 2, "{csv}");
    // And it is read back as it was written.
    fs::write(folder.path().join("all.csv"), csv).unwrap();
    let again = run(
        folder.path(),
        &["import", "all.csv", "--new-rows", "--dry-run"],
    );
    assert_eq!(again.code, Some(0), "{}", again.stderr);
    assert!(again.stdout.contains("nothing"), "{}", again.stdout);
}

#[test]
fn a_picture_is_in_the_boats_folder_or_refused() {
    for path in [
        "../s4.png",
        "photos/../../s4.png",
        "/etc/hostname",
        "//server/s4.png",
        "C:/s4.png",
        "C:\\\\s4.png",
        "~/s4.png",
        "photos/./s4.png",
        "photos//s4.png",
    ] {
        let folder = demo();
        fs::write(folder.path().join("s4.png"), "a").unwrap();
        let log = folder.path().join("demo/log.yaml");
        let text = fs::read_to_string(&log).unwrap();
        assert!(text.contains("photos/s4-f14.png"));
        fs::write(&log, text.replacen("photos/s4-f14.png", path, 1)).unwrap();
        let ran = run(folder.path(), &["report", "made.html", "--photos"]);
        assert_eq!(ran.code, Some(2), "{path}");
        assert_eq!(ran.stderr.matches("error: ").count(), 1, "{}", ran.stderr);
        assert!(!folder.path().join("made.html").exists());
    }
}

#[test]
fn each_slip_of_a_file_is_told_by_its_name() {
    let entry = "date: 2024-11-24, did: checked, place: P5 F20";
    for (added, says) in [
        (
            format!("- {{entry: 900, {entry}, did: pulled}}\n"),
            "`did` is given twice",
        ),
        (
            "- entry: 900\n\tdid: checked\n".to_owned(),
            "a tab stands where the indent should be",
        ),
        (
            format!("<<<<<<< ours\n- {{entry: 900, {entry}}}\n"),
            "a merge was left unfinished here",
        ),
        (
            format!("- {{entry: 900,\r{entry}}}\n"),
            "a carriage return stands here without a line feed",
        ),
        (
            format!("- {{entry: 900, {entry}, note: \"\0\"}}\n"),
            "the control character U+0000 stands here",
        ),
        (
            format!("- {{entry: 900, {entry}, note: a\u{feff}b}}\n"),
            "the hidden character U+FEFF stands here",
        ),
        (
            format!("- &a {{entry: 900, {entry}}}\n"),
            "`&a` names a value to be copied",
        ),
        (
            format!("- {{<<: *a, entry: 900, {entry}}}\n"),
            "`*a` stands for a value named elsewhere",
        ),
        (
            format!("- {{entry: 900, {entry}, note: !!js x}}\n"),
            "`!!js` is a tag",
        ),
        (
            format!("- {{entry: 900, {entry}, note: {}}}\n", "[".repeat(10_000)),
            "more than 4 deep",
        ),
        (
            format!("- {{entry: 900, {entry}, note: {}}}\n", "x".repeat(70_000)),
            "and a record may have 64 KiB",
        ),
        (
            format!("--- \n- {{entry: 900, {entry}}}\n"),
            "this line is neither an entry nor part of one",
        ),
    ] {
        let folder = demo();
        let log = folder.path().join("demo/log.yaml");
        let text = fs::read_to_string(&log).unwrap() + &added;
        fs::write(&log, &text).unwrap();
        let told = run(folder.path(), &["check", "--format", "json"]);
        assert_eq!(told.code, Some(2), "{says}");
        let told: serde_json::Value = serde_json::from_str(&told.stdout).unwrap();
        let faults = told["faults"].as_array().unwrap();
        let all: Vec<&str> = faults
            .iter()
            .map(|fault| fault["says"].as_str().unwrap())
            .collect();
        assert!(
            all.iter().any(|fault| fault.contains(says)),
            "{says}: {all:?}"
        );
        assert!(all.len() <= 3, "{says}: {all:?}");
        assert_eq!(fs::read_to_string(&log).unwrap(), text);
    }
}
