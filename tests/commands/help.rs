//! The help, the completions and the manual pages: all from the same definitions.

use std::fs;
use std::path::Path;
use std::process::Command;

use crate::console::{copy, words};
use crate::run::refasten;

/// The names of the commands, as the program's own page lists them.
fn commands() -> Vec<String> {
    let page = refasten(&["--help"]).stdout;
    let rows = page
        .lines()
        .skip_while(|line| !line.starts_with("Commands"));
    let rows = rows.skip(1).take_while(|line| !line.is_empty());
    let names = rows.filter_map(|row| row.strip_prefix("  ")?.split(' ').next());
    let names: Vec<String> = names
        .filter(|name| !name.is_empty())
        .map(str::to_owned)
        .collect();
    assert!(names.len() > 15, "the commands were not read: {names:?}");
    names
}

/// The options on a page of help, as they are typed.
fn options(page: &str) -> Vec<&str> {
    let typed = page.lines().filter_map(|line| line.strip_prefix("  --"));
    typed
        .filter_map(|option| option.split(' ').next())
        .collect()
}

/// What the example of `import` reads.
const WEEK: &str = "date,did,place,found\n2024-11-24,checked,S5 F10,sound\n";

#[test]
fn every_example_of_the_help_runs_as_it_stands() {
    let mut pages = vec![refasten(&["--help"]).stdout];
    pages.extend(
        commands()
            .iter()
            .map(|name| refasten(&["help", name]).stdout),
    );
    for page in &pages {
        let examples = page.lines().skip_while(|line| !line.starts_with("Example"));
        let examples: Vec<&str> = examples.skip(1).map(str::trim).collect();
        assert!(!examples.is_empty(), "no example in\n{page}");
        for example in examples {
            let folder = tempfile::tempdir().unwrap();
            copy(
                &Path::new(env!("CARGO_MANIFEST_DIR")).join("demo"),
                folder.path(),
            );
            fs::write(folder.path().join("week.csv"), WEEK).unwrap();
            let words = words(example);
            assert_eq!(words[0], "refasten", "{example}");
            let output = Command::new(env!("CARGO_BIN_EXE_refasten"))
                .args(&words[1..])
                .current_dir(folder.path())
                .env("REFASTEN_TODAY", "2024-11-25")
                .env_remove("REFASTEN_BOAT")
                .output()
                .unwrap();
            let right = if words[1] == "audit" { 1 } else { 0 };
            let told = String::from_utf8_lossy(&output.stderr);
            assert_eq!(output.status.code(), Some(right), "{example}\n{told}");
        }
    }
}

#[test]
fn help_fits_a_screen_and_is_never_wider_than_it() {
    for name in commands() {
        let page = refasten(&["help", &name]).stdout;
        assert_eq!(page, refasten(&[&name, "-h"]).stdout);
        for line in page.lines() {
            assert!(line.chars().count() <= 80, "{name}: {line}");
        }
        // These two take whatever a fastening may be.
        let most = if ["pick", "log"].contains(&name.as_str()) {
            70
        } else {
            40
        };
        assert!(page.lines().count() <= most, "{name}");
    }
}

#[test]
fn every_shell_is_told_every_command_and_option() {
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let script = refasten(&["completions", shell]);
        assert_eq!((script.code, script.stderr.as_str()), (Some(0), ""));
        for name in commands() {
            assert!(script.stdout.contains(&name), "{shell}: {name}");
            for option in options(&refasten(&["help", &name]).stdout) {
                assert!(script.stdout.contains(option), "{shell}: {name} {option}");
            }
        }
    }
}

#[test]
fn every_command_has_its_manual_page_with_every_option() {
    let folder = tempfile::tempdir().unwrap();
    let into = folder.path().join("share/man1");
    let ran = refasten(&["man", "--into", into.to_str().unwrap()]);
    assert_eq!((ran.code, ran.stderr.as_str()), (Some(0), ""));
    let mut pages = vec!["refasten.1".to_owned()];
    for name in commands() {
        let file = format!("refasten-{name}.1");
        let page = fs::read_to_string(into.join(&file)).unwrap();
        assert_eq!(page, refasten(&["man", &name]).stdout);
        for option in options(&refasten(&["help", &name]).stdout) {
            let typed = format!("\\-\\-{}", option.replace('-', "\\-"));
            assert!(page.contains(&typed), "{file}: {typed}");
        }
        pages.push(file);
    }
    assert_eq!(fs::read_dir(&into).unwrap().count(), pages.len());
}

/// What no page of Markdown can hold.
#[cfg(unix)]
#[test]
fn what_is_no_text_is_named_as_far_as_it_can_be() {
    use std::ffi::OsStr;
    use std::os::unix::ffi::OsStrExt;

    let output = Command::new(env!("CARGO_BIN_EXE_refasten"))
        .args([OsStr::new("pick"), OsStr::new("--plank")])
        .arg(OsStr::from_bytes(b"1\xff in"))
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(2));
    let told = String::from_utf8(output.stderr).unwrap();
    assert!(
        told.starts_with("error: `1\u{fffd} in` is not text in UTF-8\n"),
        "{told}"
    );
}
