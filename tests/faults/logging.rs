//! The `log` command itself, twice at once and killed.

use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use super::boat::{boat, refasten};

/// The command that logs this, unheard.
fn log(folder: &Path, words: &[&str]) -> Command {
    let words: Vec<&str> = std::iter::once("log")
        .chain(words.iter().copied())
        .collect();
    let mut command = refasten(folder, &words);
    command.stdout(Stdio::null()).stderr(Stdio::null());
    command
}

/// The numbers of the entries in the log, in order.
fn numbers(folder: &Path) -> io::Result<Vec<u32>> {
    let text = fs::read_to_string(folder.join("log.yaml"))?;
    let number = |line: &str| {
        line.strip_prefix("- {entry: ")?
            .split(',')
            .next()?
            .parse()
            .ok()
    };
    Ok(text.lines().filter_map(number).collect())
}

#[test]
fn two_terminals_logging_at_once_never_share_a_number() -> io::Result<()> {
    const EACH: usize = 30;
    let folder = boat()?;
    std::thread::scope(|scope| {
        let terminals = ["P1 F1", "P2 F2"].map(|place| {
            let folder = folder.path();
            scope.spawn(move || {
                (0..EACH).all(|_| {
                    log(folder, &["checked", place])
                        .status()
                        .is_ok_and(|status| status.success())
                })
            })
        });
        assert!(
            terminals
                .into_iter()
                .all(|terminal| terminal.join().unwrap())
        );
    });
    assert_eq!(
        numbers(folder.path())?,
        (1..=2 * EACH as u32).collect::<Vec<_>>()
    );
    Ok(())
}

#[test]
fn a_log_killed_at_any_instant_loses_nothing_that_was_acknowledged() -> io::Result<()> {
    let folder = boat()?;
    let mut acknowledged = BTreeSet::new();
    for round in 0..40_u64 {
        let mark = format!("round {round} ends");
        let mut child: Child =
            log(folder.path(), &["checked", "P1 F1", "--note", &mark]).spawn()?;
        // Some are killed before they start, some in the middle, some never.
        std::thread::sleep(Duration::from_micros(round * 317 % 9000));
        if round % 5 != 0 {
            child.kill()?;
        }
        if child.wait()?.success() {
            acknowledged.insert(mark);
        }
        // A torn line is mended, as the program itself tells its user to do.
        let check = |words: &[&str]| {
            let words: Vec<&str> = std::iter::once("check")
                .chain(words.iter().copied())
                .collect();
            let mut command = refasten(folder.path(), &words);
            command.stdout(Stdio::null()).stderr(Stdio::null()).status()
        };
        if !check(&[])?.success() {
            check(&["--repair", "--replace"])?;
            assert!(
                check(&[])?.success(),
                "after round {round} the log cannot be mended"
            );
        }
    }
    assert!(
        !acknowledged.is_empty(),
        "every one was killed too early to prove anything"
    );
    let text = fs::read_to_string(folder.path().join("log.yaml"))?;
    for mark in acknowledged {
        assert_eq!(text.matches(&mark).count(), 1, "{mark} is not there once");
    }
    let numbers = numbers(folder.path())?;
    assert!(
        numbers.windows(2).all(|pair| pair[0] < pair[1]),
        "numbers do not rise: {numbers:?}"
    );
    Ok(())
}

#[test]
fn nothing_is_written_when_the_entry_is_wrong() -> io::Result<()> {
    let folder = boat()?;
    assert!(log(folder.path(), &["pulled", "P1 F1"]).status()?.success());
    let before = fs::read(folder.path().join("log.yaml"))?;
    for words in [
        &["pulled", "P1 F1"][..],
        &["pulled", "P1 F99"],
        &["pulled", "P1 F2", "--count", "3"],
        &["pulled", "P1 F2", "--found", "rotten"],
        &["pulled", "P1 F2", "--date", "2026-10-21"],
        &["driven", "P1 F1"],
        &["launched", "P1 F1"],
        &["struck", "--strikes", "1 pulled P1 F2"],
    ] {
        assert_eq!(
            log(folder.path(), words).status()?.code(),
            Some(2),
            "{words:?}"
        );
        assert_eq!(
            fs::read(folder.path().join("log.yaml"))?,
            before,
            "{words:?}"
        );
    }
    Ok(())
}
