//! Files of a boat's folder that are no files, links that lead away or to nothing, and folders that may
//! not be written. Never waits for ever, never writes where nobody would look for it.
#![cfg(unix)]

use std::fs::{self, Permissions};
use std::io;
use std::os::unix::fs::{PermissionsExt, symlink};
use std::path::Path;
use std::process::Command;

use super::boat::{all_of, boat, boat_with_a_log, refasten, run};

/// Makes a pipe with a name, which nobody ever opens at its other end.
fn pipe(path: &Path) -> io::Result<()> {
    assert!(Command::new("mkfifo").arg(path).status()?.success());
    Ok(())
}

/// Runs it, and wants this exit code and this of what it complains of; nothing may be written.
fn refuses(folder: &Path, words: &[&str], code: i32, says: &str) -> io::Result<()> {
    let before = all_of(folder)?;
    let ran = run(&mut refasten(folder, words))?;
    assert_eq!(ran.code, Some(code), "{words:?}: {}", ran.stderr);
    assert!(ran.stderr.contains(says), "{words:?}: {}", ran.stderr);
    assert_eq!(all_of(folder)?, before);
    Ok(())
}

const LOG: [&str; 3] = ["log", "checked", "P1 F1"];

#[test]
fn a_log_that_is_a_link_is_written_where_it_leads() -> io::Result<()> {
    let (folder, elsewhere) = (boat_with_a_log()?, tempfile::tempdir()?);
    let (log, real) = (
        folder.path().join("log.yaml"),
        elsewhere.path().join("real.yaml"),
    );
    fs::rename(&log, &real)?;
    symlink(&real, &log)?;
    let ran = run(&mut refasten(folder.path(), &LOG))?;
    assert!(
        ran.stdout.starts_with("entry 2 of "),
        "{}{}",
        ran.stdout,
        ran.stderr
    );
    assert!(log.symlink_metadata()?.is_symlink());
    assert_eq!(fs::read_to_string(&real)?.lines().count(), 3);
    // What mends it leaves the link, too.
    fs::write(&real, "- {entry: 1, da")?;
    let ran = run(&mut refasten(
        folder.path(),
        &["check", "--repair", "--replace"],
    ))?;
    assert_eq!(ran.code, Some(0), "{}", ran.stderr);
    assert!(log.symlink_metadata()?.is_symlink());
    assert_eq!(fs::read_to_string(&real)?, "# torn: - {entry: 1, da\n");
    Ok(())
}

/// The disk with the log may be away: that is not the same as a boat without a log.
#[test]
fn a_link_to_nothing_is_no_empty_log() -> io::Result<()> {
    for name in ["log.yaml", "plan.yaml", "hull.yaml"] {
        let (folder, elsewhere) = (boat()?, tempfile::tempdir()?);
        let (path, gone) = (folder.path().join(name), elsewhere.path().join("gone.yaml"));
        let _ = fs::remove_file(&path);
        symlink(&gone, &path)?;
        let says = format!(
            "{name}: it is a link to {}, and nothing is there",
            gone.display()
        );
        for words in [&LOG[..], &["audit"], &["check", "--repair"]] {
            refuses(folder.path(), words, 3, &says)?;
        }
        assert!(!gone.exists(), "{name}");
    }
    Ok(())
}

#[test]
fn what_is_no_file_is_not_read_and_not_waited_for() -> io::Result<()> {
    for name in ["log.yaml", "plan.yaml", "hull.yaml"] {
        let folder = boat()?;
        let path = folder.path().join(name);
        let _ = fs::remove_file(&path);
        let says = format!("{name}: it is not a file");
        pipe(&path)?;
        refuses(folder.path(), &LOG, 3, &says)?;
        refuses(folder.path(), &["audit"], 3, &says)?;
        fs::remove_file(&path)?;
        symlink("/dev/null", &path)?;
        refuses(folder.path(), &LOG, 3, &says)?;
        fs::remove_file(&path)?;
        fs::create_dir(&path)?;
        refuses(folder.path(), &LOG, 3, &says)?;
    }
    Ok(())
}

#[test]
fn a_lock_that_is_no_file_is_not_taken_and_not_waited_for() -> io::Result<()> {
    let folder = boat_with_a_log()?;
    let lock = folder.path().join(".refasten.lock");
    let precious = folder.path().join("precious.txt");
    fs::write(&precious, "1\n")?;
    let says = ".refasten.lock is not a file; take it away";
    fs::remove_file(&lock)?;
    pipe(&lock)?;
    refuses(folder.path(), &LOG, 3, says)?;
    fs::remove_file(&lock)?;
    symlink("precious.txt", &lock)?;
    refuses(folder.path(), &LOG, 3, says)?;
    fs::remove_file(&lock)?;
    fs::create_dir(&lock)?;
    refuses(folder.path(), &LOG, 3, says)?;
    // Those who only read need none.
    assert_eq!(run(&mut refasten(folder.path(), &["check"]))?.code, Some(0));
    Ok(())
}

#[test]
fn a_page_replaces_no_device_no_folder_and_no_file_that_is_closed() -> io::Result<()> {
    let folder = boat_with_a_log()?;
    let at = |name: &str| folder.path().join(name);
    symlink("/dev/null", at("null.html"))?;
    symlink("nothing", at("nothing.html"))?;
    pipe(&at("pipe.html"))?;
    fs::create_dir(at("folder.html"))?;
    fs::write(at("closed.html"), "signed\n")?;
    fs::set_permissions(at("closed.html"), Permissions::from_mode(0o444))?;
    for (name, code, says) in [
        ("null.html", 3, "cannot be written: it is not a file"),
        (
            "nothing.html",
            3,
            "cannot be written: it is a link to nothing, and nothing is there",
        ),
        ("pipe.html", 3, "cannot be written: it is not a file"),
        (
            "closed.html",
            3,
            "cannot be written: it may only be read, not written",
        ),
        ("folder.html", 2, "is a folder"),
        (
            "no/such/folder.html",
            2,
            "help: make the folder first, or name a file elsewhere",
        ),
    ] {
        let page = at(name);
        for command in ["report", "sheet"] {
            refuses(
                folder.path(),
                &[command, &page.to_string_lossy()],
                code,
                says,
            )?;
        }
    }
    assert!(at("nothing.html").symlink_metadata()?.is_symlink());
    Ok(())
}

/// Whether what nobody may write cannot be written: the superuser can all the same.
fn is_held_to_it(folder: &Path) -> bool {
    let held = fs::File::create(folder.join("tried")).is_err();
    if !held {
        eprintln!("not tried: this user may write everywhere");
        let _ = fs::remove_file(folder.join("tried"));
    }
    held
}

#[test]
fn a_folder_that_may_only_be_read_can_be_read() -> io::Result<()> {
    let folder = boat_with_a_log()?;
    fs::remove_file(folder.path().join(".refasten.lock"))?;
    fs::set_permissions(folder.path(), Permissions::from_mode(0o555))?;
    let ran = run(&mut refasten(folder.path(), &["check"]))?;
    assert_eq!(ran.code, Some(0), "{}", ran.stderr);
    if is_held_to_it(folder.path()) {
        refuses(folder.path(), &LOG, 3, "error: nothing can be written in ")?;
        let into_plan = ["pick", "P1 F1", "--into-plan", "--metal", "silicon bronze"];
        refuses(
            folder.path(),
            &into_plan,
            3,
            "error: nothing can be written in ",
        )?;
    }
    fs::set_permissions(folder.path(), Permissions::from_mode(0o755))?;
    Ok(())
}

#[test]
fn a_log_that_may_only_be_read_stays_as_it_is() -> io::Result<()> {
    let folder = boat_with_a_log()?;
    let log = folder.path().join("log.yaml");
    fs::set_permissions(&log, Permissions::from_mode(0o444))?;
    if fs::OpenOptions::new().append(true).open(&log).is_err() {
        refuses(
            folder.path(),
            &LOG,
            3,
            "log.yaml: it could not be written, and is as it was: ",
        )?;
    }
    // To replace it asks only for the folder, so the program looks itself.
    fs::remove_file(&log)?;
    fs::write(&log, "- {entry: 1, da")?;
    fs::set_permissions(&log, Permissions::from_mode(0o444))?;
    let words = ["check", "--repair", "--replace"];
    let ran = run(&mut refasten(folder.path(), &words))?;
    assert_eq!(ran.code, Some(3), "{}", ran.stdout);
    assert!(ran.stderr.contains("may only be read"), "{}", ran.stderr);
    assert!(!ran.stdout.contains("is replaced"), "{}", ran.stdout);
    assert_eq!(fs::read_to_string(&log)?, "- {entry: 1, da");
    Ok(())
}
