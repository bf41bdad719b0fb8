//! A disk that is full, and an answer that nobody can be given: a sentence, exit code 3, and the files
//! as they were; or, where they were written already, a sentence that says so.
#![cfg(unix)]

use std::fs;
use std::io;
use std::path::Path;
use std::process::Stdio;

use super::boat::{Ran, all_of, boat, boat_with_a_log, refasten, refasten_after, run};

/// A limit on the size of files stands in for a full disk: a write fails in its middle.
fn with_little_room(folder: &Path, words: &[&str]) -> io::Result<Ran> {
    run(&mut refasten_after(
        "trap '' XFSZ; ulimit -f 1;",
        folder,
        words,
    ))
}

/// Runs it with standard output on a device that is always full.
fn unheard(folder: &Path, words: &[&str]) -> io::Result<Ran> {
    let full = fs::OpenOptions::new().write(true).open("/dev/full")?;
    let mut command = refasten(folder, words);
    let child = command.stdout(full).stderr(Stdio::piped()).spawn()?;
    child.wait_with_output().map(Ran::from)
}

#[test]
fn a_full_disk_leaves_the_files_as_they_were() -> io::Result<()> {
    let folder = boat_with_a_log()?;
    let note = "x".repeat(3000);
    let sheet = tempfile::NamedTempFile::with_suffix(".csv")?;
    let csv = format!("date,did,place,note\n2026-10-19,checked,P1 F2,{note}\n");
    fs::write(sheet.path(), csv)?;
    let sheet = sheet.path().to_string_lossy();
    let page = folder.path().join("page.html");
    let drawing = folder.path().join("drawing.svg");
    for path in [&page, &drawing] {
        fs::write(path, "an older one\n")?;
    }
    let before = all_of(folder.path())?;
    let (page, drawing) = (page.to_string_lossy(), drawing.to_string_lossy());
    for words in [
        &["log", "checked", "P2 F2", "--note", &note][..],
        &[
            "pick",
            "P1 F1",
            "--into-plan",
            "--metal",
            "silicon bronze",
            "--note",
            &note,
        ],
        &["import", &sheet],
        &["report", &page],
        &["sheet", &page],
        &["map", "--drawing", &drawing],
    ] {
        let ran = with_little_room(folder.path(), words)?;
        assert_eq!(ran.code, Some(3), "{words:?}: {}", ran.stderr);
        assert_eq!(ran.stdout, "", "{words:?}");
        assert!(ran.stderr.starts_with("error: "), "{}", ran.stderr);
        assert!(ran.stderr.contains("written"), "{}", ran.stderr);
        assert_eq!(all_of(folder.path())?, before, "{words:?}");
    }
    Ok(())
}

#[test]
fn a_full_disk_leaves_a_torn_log_as_it_was() -> io::Result<()> {
    let folder = boat()?;
    let torn = format!("- {{entry: 1, note: \"{}", "x".repeat(3000));
    fs::write(folder.path().join("log.yaml"), torn)?;
    fs::write(folder.path().join("plan.yaml"), "- {plan: \"a\", da")?;
    let before = all_of(folder.path())?;
    for words in [
        &["check", "--repair"][..],
        &["check", "--repair", "--replace"],
    ] {
        let ran = with_little_room(folder.path(), words)?;
        assert_eq!(ran.code, Some(3), "{words:?}: {}", ran.stderr);
        assert!(
            ran.stderr.contains("log.mended.yaml cannot be written"),
            "{}",
            ran.stderr
        );
        assert_eq!(all_of(folder.path())?, before, "{words:?}");
    }
    Ok(())
}

#[test]
fn a_folder_is_begun_whole_or_not_at_all() -> io::Result<()> {
    let folder = tempfile::tempdir()?;
    let new = folder.path().join("yard/tern");
    let ran = with_little_room(folder.path(), &["new", &new.to_string_lossy()])?;
    assert_eq!(ran.code, Some(3), "{}", ran.stderr);
    assert!(
        ran.stderr.contains("yard/tern/hull.yaml cannot be made: "),
        "{}",
        ran.stderr
    );
    assert_eq!(fs::read_dir(folder.path())?.count(), 0);
    Ok(())
}

#[cfg(target_os = "linux")]
#[test]
fn an_answer_that_cannot_be_printed_is_told_of() -> io::Result<()> {
    let folder = boat_with_a_log()?;
    for words in [
        &["audit"][..],
        &["show", "--each"],
        &["map"],
        &["map", "--drawing", "-"],
        &["check"],
        &["check", "--format", "json"],
        &["buy"],
        &["todo"],
        &["sample"],
        &["export", "fastenings"],
        &["tables"],
        &["explain", "short-embedment"],
        &["history", "P1 F1"],
        &["pick", "P1 F1"],
        &["pick", "P1 F1", "--format", "json"],
        &["log"],
        &["--help"],
        &["log", "--help"],
        &["--version"],
        &["check", "--repair"],
    ] {
        let ran = unheard(folder.path(), words)?;
        assert_eq!(ran.code, Some(3), "{words:?}: {}", ran.stderr);
        let says =
            "error: the answer could not be printed: No space left on device (os error 28)\n";
        assert_eq!(ran.stderr, says, "{words:?}");
    }
    Ok(())
}

/// Whoever is not told that it was written would write it again.
#[cfg(target_os = "linux")]
#[test]
fn what_is_written_all_the_same_is_told_of() -> io::Result<()> {
    let folder = boat_with_a_log()?;
    let sheet = tempfile::NamedTempFile::with_suffix(".csv")?;
    let csv = "date,did,place\n2026-10-19,checked,P1 F2\n2026-10-19,checked,P1 F3\n";
    fs::write(sheet.path(), csv)?;
    let sheet = sheet.path().to_string_lossy();
    let inside = |name: &str| folder.path().join(name).to_string_lossy().into_owned();
    let (page, drawing, new) = (inside("page.html"), inside("a.svg"), inside("new"));
    let says = |words: &[&str], done: &str| -> io::Result<()> {
        let ran = unheard(folder.path(), words)?;
        assert_eq!(ran.code, Some(3), "{words:?}: {}", ran.stderr);
        let start = format!("error: {done}, but the answer could not be printed: ");
        assert!(ran.stderr.starts_with(&start), "{words:?}: {}", ran.stderr);
        Ok(())
    };
    says(&["log", "checked", "P2 F2"], "entry 2 is in the log")?;
    says(
        &["log", "checked", "P2 F2", "then", "checked", "P2 F3"],
        "entries 3 to 4 are in the log",
    )?;
    says(&["import", &sheet], "entries 5 to 6 are in the log")?;
    says(
        &["pick", "P1 F1", "--into-plan", "--metal", "silicon bronze"],
        "what was picked is in the plan `plan 2026`",
    )?;
    says(&["report", &page], &format!("{page} is written"))?;
    says(&["sheet", &page], &format!("{page} is written"))?;
    says(
        &["map", "--drawing", &drawing],
        &format!("{drawing} is written"),
    )?;
    says(
        &["pick", "P1 F1", "--drawing", &drawing],
        &format!("{drawing} is written"),
    )?;
    says(&["new", &new], &format!("{new} is begun"))?;
    let log = fs::read_to_string(folder.path().join("log.yaml"))?;
    assert_eq!(log.lines().count(), 7);
    Ok(())
}

/// What a person is to see first was not seen.
#[cfg(target_os = "linux")]
#[test]
fn a_log_whose_mending_cannot_be_shown_is_not_replaced() -> io::Result<()> {
    let folder = boat()?;
    let log = folder.path().join("log.yaml");
    fs::write(&log, "- {entry: 1, da")?;
    let ran = unheard(folder.path(), &["check", "--repair", "--replace"])?;
    assert_eq!(ran.code, Some(3), "{}", ran.stderr);
    assert_eq!(fs::read_to_string(&log)?, "- {entry: 1, da");
    Ok(())
}

/// A pipe that nobody reads any more is no fault, and changes neither what is done nor the exit code.
#[test]
fn a_closed_pipe_is_a_quiet_end() -> io::Result<()> {
    let folder = boat_with_a_log()?;
    let log = folder.path().join("log.yaml");
    let closed = |words: &[&str]| -> io::Result<Ran> {
        let (reader, writer) = io::pipe()?;
        drop(reader);
        let mut command = refasten(folder.path(), words);
        let child = command.stdout(writer).stderr(Stdio::piped()).spawn()?;
        child.wait_with_output().map(Ran::from)
    };
    for (words, code) in [
        (&["show", "--each"][..], 0),
        (&["audit", "--fail-on", "watch"], 1),
        (&["audit", "--fail-on", "watch", "--format", "json"], 1),
        (&["--help"], 0),
        (&["log", "checked", "P2 F2"], 0),
    ] {
        let heard = run(&mut refasten(folder.path(), words))?;
        assert_eq!(heard.code, Some(code), "{words:?}: {}", heard.stderr);
        let ran = closed(words)?;
        assert_eq!(
            (ran.code, ran.stderr.as_str()),
            (Some(code), ""),
            "{words:?}"
        );
    }
    assert_eq!(fs::read_to_string(&log)?.lines().count(), 4);
    fs::write(&log, "- {entry: 1, da")?;
    assert_eq!(closed(&["check"])?.code, Some(2));
    assert_eq!(closed(&["check", "--repair", "--replace"])?.code, Some(0));
    assert_eq!(fs::read_to_string(&log)?, "# torn: - {entry: 1, da\n");
    Ok(())
}
