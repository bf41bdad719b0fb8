//! What can happen to a folder while a writer waits for it, or between its reading and its writing.

use std::fs;
use std::io::{self, BufRead, BufReader};
use std::path::Path;
use std::process::{Child, Stdio};

use refasten::files::{Folder, FolderLock, LOG_HEADER, Mending};

use super::boat::{Ran, all_of, boat_with_a_log, refasten, run};

/// Starts the program while another has the folder, and does something once it says that it waits.
fn while_it_waits(
    folder: &Path,
    words: &[&str],
    then: impl FnOnce() -> io::Result<()>,
) -> io::Result<Ran> {
    let lock = FolderLock::take(folder, &mut |_| {})?;
    let mut child: Child = refasten(folder, words)
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()?;
    let mut says = BufReader::new(child.stderr.take().expect("it is piped"));
    let mut first = String::new();
    says.read_line(&mut first)?;
    let us = std::process::id();
    assert_eq!(
        first,
        format!("waiting: another program (process {us}) is writing to this boat's folder\n")
    );
    then()?;
    drop(lock);
    let mut ran = Ran::from(child.wait_with_output()?);
    ran.stderr = io::read_to_string(says)?;
    Ok(ran)
}

const LOG: [&str; 3] = ["log", "checked", "P2 F2"];

#[test]
fn a_log_that_an_editor_puts_in_place_meanwhile_is_the_one_that_counts() -> io::Result<()> {
    let folder = boat_with_a_log()?;
    let (log, new) = (folder.path().join("log.yaml"), folder.path().join("new"));
    let entry =
        |n: u32| format!("- {{entry: {n}, date: 2026-10-19, did: checked, place: P1 F3}}\n");
    let edited = format!("{LOG_HEADER}\n{}{}", entry(4), entry(7));
    let ran = while_it_waits(folder.path(), &LOG, || {
        fs::write(&new, &edited)?;
        fs::rename(&new, &log)
    })?;
    assert_eq!(ran.code, Some(0), "{}", ran.stderr);
    assert!(ran.stdout.starts_with("entry 8 of "), "{}", ran.stdout);
    let text = fs::read_to_string(&log)?;
    let added = text.strip_prefix(&edited).unwrap();
    assert!(
        added.starts_with("- {entry: 8, ") && added.ends_with("}\n"),
        "{added}"
    );
    Ok(())
}

#[test]
fn a_log_that_is_torn_or_spoiled_meanwhile_is_not_written_to() -> io::Result<()> {
    for spoiled in [
        "- {entry: 1, da",
        "- {entry: 1, did: pulled, plaice: P1 F3}\n",
    ] {
        let folder = boat_with_a_log()?;
        let log = folder.path().join("log.yaml");
        let ran = while_it_waits(folder.path(), &LOG, || fs::write(&log, spoiled))?;
        assert_eq!(ran.code, Some(2), "{}", ran.stderr);
        assert_eq!(fs::read_to_string(&log)?, spoiled);
    }
    Ok(())
}

#[cfg(unix)]
#[test]
fn a_folder_that_vanishes_meanwhile_does_not_come_back() -> io::Result<()> {
    for words in [
        &LOG[..],
        &["pick", "P1 F1", "--into-plan", "--metal", "silicon bronze"],
    ] {
        let folder = boat_with_a_log()?;
        let path = folder.path();
        let ran = while_it_waits(path, words, || fs::remove_dir_all(path))?;
        assert_eq!(ran.code, Some(3), "{}", ran.stderr);
        let says = format!("error: nothing can be written in {}: ", path.display());
        assert!(ran.stderr.starts_with(&says), "{}", ran.stderr);
        assert!(!path.exists());
    }
    Ok(())
}

/// Tidying up takes away what version control ignores, the lock with it.
#[cfg(unix)]
#[test]
fn a_lock_that_vanishes_meanwhile_is_made_anew() -> io::Result<()> {
    let folder = boat_with_a_log()?;
    let lock = folder.path().join(".refasten.lock");
    let ran = while_it_waits(folder.path(), &LOG, || fs::remove_file(&lock))?;
    assert_eq!(ran.code, Some(0), "{}", ran.stderr);
    assert!(lock.exists());
    Ok(())
}

/// An editor asks for no lock: between reading and writing it may save.
#[test]
fn a_log_that_is_edited_after_it_was_read_is_left_to_its_editor() -> io::Result<()> {
    let folder = boat_with_a_log()?;
    let read = Folder::open(folder.path())?;
    let lock = FolderLock::take(folder.path(), &mut |_| {})?;
    let log = folder.path().join("log.yaml");
    let edited = format!("{LOG_HEADER}\n");
    fs::write(&log, &edited)?;
    fs::write(folder.path().join("plan.yaml"), "# new\n")?;
    let before = all_of(folder.path())?;
    for refused in [
        read.add_to_log(&lock, &["- {}"]),
        read.add_to_plan(&lock, "- {}"),
    ] {
        let says = refused.unwrap_err().to_string();
        assert!(says.contains("another program changed it"), "{says}");
    }
    assert_eq!(all_of(folder.path())?, before);
    // Read anew, it is written to.
    drop(lock);
    assert_eq!(run(&mut refasten(folder.path(), &LOG))?.code, Some(0));
    Ok(())
}

/// Its editor may mend it himself while the program shows what it would do.
#[test]
fn a_torn_log_that_is_edited_after_it_was_read_is_left_to_its_editor() -> io::Result<()> {
    let folder = boat_with_a_log()?;
    let log = folder.path().join("log.yaml");
    fs::write(&log, "- {entry: 1, da")?;
    let mending = Mending::begin(folder.path(), &mut |_| {})?.expect("it is torn");
    let edited = "- {entry: 1, date: 2026-10-19, did: checked, place: P1 F1}\n";
    fs::write(&log, edited)?;
    let says = mending.put_in_place().unwrap_err().to_string();
    assert!(says.contains("another program changed it"), "{says}");
    assert_eq!(fs::read_to_string(&log)?, edited);
    Ok(())
}

/// `rmdir` of the folder that a shell stands in.
#[cfg(unix)]
#[test]
fn a_folder_that_went_from_under_the_shell_is_told_of() -> io::Result<()> {
    let folder = tempfile::tempdir()?;
    let before = format!("cd '{0}' && rmdir '{0}' &&", folder.path().display());
    let mut command = super::boat::refasten_after(&before, folder.path(), &["check"]);
    let ran = run(command.env_remove("REFASTEN_BOAT"))?;
    assert_eq!(ran.code, Some(3), "{}", ran.stderr);
    let says = "error: the folder that refasten was started in: ";
    assert!(ran.stderr.starts_with(says), "{}", ran.stderr);
    Ok(())
}
