//! Line ends of Windows and byte-order marks: every command answers the same on such files, and
//! what it adds to them ends its lines as they do.

use std::fs;
use std::path::Path;

use super::demo::{demo, run};

const FILES: [&str; 3] = ["hull.yaml", "log.yaml", "plan.yaml"];

/// Every command that reads a boat, in each of its forms.
const COMMANDS: &[&[&str]] = &[
    &["audit"],
    &["audit", "--full", "--planned"],
    &["audit", "--format", "json"],
    &["audit", "--boats", "demo"],
    &["show"],
    &["show", "S3", "F12", "--each"],
    &["show", "--since", "2024-11-01"],
    &["show", "--season", "2024-25"],
    &["show", "--format", "json"],
    &["todo"],
    &["todo", "--as-known", "2024-11-10"],
    &["buy"],
    &["buy", "--as", "csv"],
    &["buy", "--format", "json"],
    &["report", "made.html", "--photos"],
    &["sheet", "made.html", "S3-5", "F12-20"],
    &["map"],
    &["map", "--by", "findings"],
    &["map", "--drawing", "made.svg"],
    &["history", "S3", "F12"],
    &["sample"],
    &["sample", "--read"],
    &["export", "entries"],
    &["export", "sets"],
    &["export", "fastenings"],
    &["check"],
    &["check", "--format", "json"],
    &["check", "--repair"],
    &["pick", "S4", "F16", "--metal", "silicon bronze"],
    &["import", "rows.csv", "--dry-run"],
];

const ROWS: &str = "date,did,place,by,note\n2024-11-24,checked,P5 F20,W. Tarrow,\"a, b\"\n";

/// A folder with the demo in it, each of its files changed by `to`.
fn changed(to: fn(&str) -> String) -> tempfile::TempDir {
    let folder = demo();
    for file in FILES {
        let path = folder.path().join("demo").join(file);
        let text = fs::read_to_string(&path).unwrap();
        fs::write(&path, to(&text)).unwrap();
    }
    fs::write(folder.path().join("rows.csv"), to(ROWS)).unwrap();
    folder
}

fn crlf(text: &str) -> String {
    text.replace('\n', "\r\n")
}

fn marked(text: &str) -> String {
    format!("\u{feff}{text}")
}

/// What a command prints and what it writes, and how it ends.
fn answer(folder: &Path, args: &[&str]) -> (Option<i32>, String, String) {
    let ran = run(folder, args);
    assert_eq!(ran.stderr, "", "{args:?}");
    let made = args.iter().find(|arg| arg.starts_with("made."));
    let made = made.map_or_else(String::new, |made| {
        let made = fs::read_to_string(folder.join(made)).unwrap();
        assert!(made.len() > 5000, "{args:?}");
        made
    });
    (ran.code, ran.stdout, made)
}

#[test]
fn every_command_answers_the_same() {
    let plain = changed(str::to_owned);
    let others = [changed(crlf), changed(marked)];
    for args in COMMANDS {
        let expected = answer(plain.path(), args);
        assert!(!expected.1.is_empty(), "{args:?}");
        for other in &others {
            let got = answer(other.path(), args);
            // The sheet's bytes make its hash, and the hash names it.
            if args[0] == "import" {
                assert_eq!(got.0, expected.0);
                assert_eq!(got.1.lines().count(), expected.1.lines().count());
            } else {
                assert_eq!(got, expected, "{args:?}");
            }
        }
    }
}

#[test]
fn what_is_added_ends_as_the_file_does() {
    let adding: &[(&str, &[&str])] = &[
        (
            "log.yaml",
            &[
                "log", "checked", "P5 F20", "--note", "a \"b\"", "--by", "N. Abara",
            ],
        ),
        ("log.yaml", &["import", "rows.csv"]),
        (
            "plan.yaml",
            &[
                "pick",
                "S4",
                "F16",
                "--metal",
                "silicon bronze",
                "--into-plan",
            ],
        ),
    ];
    for (folder, end) in [
        (changed(crlf), "\r\n"),
        (changed(marked), "\n"),
        (changed(|text| marked(&crlf(text))), "\r\n"),
    ] {
        for (file, args) in adding {
            let path = folder.path().join("demo").join(file);
            let before = fs::read_to_string(&path).unwrap();
            let ran = run(folder.path(), args);
            assert_eq!((ran.code, ran.stderr.as_str()), (Some(0), ""), "{args:?}");
            let after = fs::read_to_string(&path).unwrap();
            let added = after
                .strip_prefix(&before)
                .expect("nothing else is touched");
            let ends = added.matches('\n').count();
            assert!(
                ends == 1 && added.ends_with(&format!("}}{end}")),
                "{added:?}"
            );
        }
        assert_eq!(run(folder.path(), &["check"]).code, Some(0));
    }
}

#[test]
fn a_fault_is_shown_at_the_same_place() {
    let spoil = |folder: &Path| {
        let path = folder.join("demo/log.yaml");
        let text = fs::read_to_string(&path).unwrap();
        let spoilt = text.replacen("did: checked", "did: chekced", 2);
        fs::write(&path, spoilt).unwrap();
        let ran = run(folder, &["check"]);
        assert_eq!(ran.code, Some(2));
        ran.stderr
    };
    let told = spoil(changed(str::to_owned).path());
    assert!(told.contains("did you mean `checked`?"), "{told}");
    assert_eq!(spoil(changed(crlf).path()), told);
    assert_eq!(spoil(changed(marked).path()), told);
}
