//! The `log` command itself, twice at once and killed.

use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

const HULL: &str = "\
refasten: 1
boat: Test
frames:
  - {number: 1-9, siding: 1-3/8in, moulding: 1-3/4in, wood: white oak}
strakes:
  - {planks: P1-4, across: F1-9, thickness: 7/8in, wood: Douglas-fir}
sets:
  - {set: built, place: P1-4 F1-9, per crossing: 2, kind: wood screw, metal: silicon bronze, size: 14 x 1-3/4in, driven: 1990}
";

/// A boat's folder with nothing in its log.
fn boat() -> io::Result<tempfile::TempDir> {
    let folder = tempfile::tempdir()?;
    fs::write(folder.path().join("hull.yaml"), HULL)?;
    Ok(folder)
}

fn log(folder: &Path, words: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_refasten"));
    command.arg("log").args(words).arg("--boat").arg(folder);
    command
        .env("REFASTEN_TODAY", "2026-10-20")
        .stdout(Stdio::null())
        .stderr(Stdio::null());
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
            let mut command = Command::new(env!("CARGO_BIN_EXE_refasten"));
            command
                .arg("check")
                .args(words)
                .arg("--boat")
                .arg(folder.path());
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

#[cfg(unix)]
#[test]
fn a_full_disk_ends_with_exit_3_and_the_log_as_it_was() -> io::Result<()> {
    // A limit on the size of files stands in for a full disk: the write fails in the middle.
    let folder = boat()?;
    assert!(log(folder.path(), &["pulled", "P1 F1"]).status()?.success());
    let before = fs::read(folder.path().join("log.yaml"))?;
    let script =
        "trap '' XFSZ; ulimit -f 1; exec \"$0\" log checked P2 F2 --note \"$1\" --boat \"$2\"";
    let note = "x".repeat(3000);
    let status = Command::new("sh")
        .args(["-c", script, env!("CARGO_BIN_EXE_refasten"), &note])
        .arg(folder.path())
        .env("REFASTEN_TODAY", "2026-10-20")
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status()?;
    assert_eq!(status.code(), Some(3));
    assert_eq!(fs::read(folder.path().join("log.yaml"))?, before);
    Ok(())
}
