//! Writers that are killed, race each other, or meet a full disk.

use std::collections::BTreeSet;
use std::fs;
use std::io::{self, BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};

use refasten::files::{
    AppendError, Appending, FolderLock, LOG_HEADER, Seen, append, append_to, mend, replace,
};

/// Names the folder that a process started by these tests writes in.
const FOLDER: &str = "REFASTEN_TEST_FOLDER";

/// Starts this very test program again, to write entries into the folder.
fn writer(folder: &Path) -> io::Result<Child> {
    Command::new(std::env::current_exe()?)
        .args([
            "--exact",
            "writing::as_another_process",
            "--ignored",
            "--nocapture",
        ])
        .env(FOLDER, folder)
        .stdout(Stdio::piped())
        .spawn()
}

/// Appends an entry with the next number, and returns the number once it is on the disk.
fn append_next(folder: &Path) -> Result<usize, AppendError> {
    let log = folder.join("log.yaml");
    let lock = FolderLock::take(folder, &mut |_| {})?;
    let seen = Seen::at(&log)?;
    let text = fs::read_to_string(&log).unwrap_or_default();
    let number = 1 + text.lines().filter(|line| line.starts_with("- ")).count();
    let note = "x".repeat(200);
    append(
        &lock,
        &log,
        LOG_HEADER,
        &seen,
        &[&format!("- {{entry: {number}, note: {note}}}")],
    )?;
    Ok(number)
}

#[test]
#[ignore = "a helper that the other tests start as a process of its own"]
fn as_another_process() {
    let Some(folder) = std::env::var_os(FOLDER).map(PathBuf::from) else {
        return;
    };
    for _ in 0..500 {
        let number = append_next(&folder).expect("the folder can be written");
        println!("\nwritten {number}");
        io::stdout().flush().expect("someone listens");
    }
}

#[test]
fn two_processes_give_each_entry_its_own_number() -> io::Result<()> {
    let folder = tempfile::tempdir()?;
    let mut writers = [writer(folder.path())?, writer(folder.path())?];
    for writer in &mut writers {
        // What it prints must be taken, or it waits.
        io::copy(
            &mut writer.stdout.take().expect("it is piped"),
            &mut io::sink(),
        )?;
        assert!(writer.wait()?.success());
    }
    let text = fs::read_to_string(folder.path().join("log.yaml"))?;
    let entry = |line: &str| -> Option<usize> {
        assert!(line.ends_with("x}"), "torn: {line}");
        line.strip_prefix("- {entry: ")?
            .split(',')
            .next()?
            .parse()
            .ok()
    };
    let numbers: Vec<_> = text.lines().skip(1).filter_map(entry).collect();
    assert_eq!(numbers, (1..=1000).collect::<Vec<_>>());
    Ok(())
}

#[test]
fn a_writer_killed_at_any_instant_loses_no_acknowledged_entry() -> io::Result<()> {
    for after in [1, 2, 7, 20, 33] {
        let folder = tempfile::tempdir()?;
        let mut writer = writer(folder.path())?;
        let mut said = BufReader::new(writer.stdout.take().expect("it is piped")).lines();
        let mut written = BTreeSet::new();
        while written.len() < after
            && let Some(line) = said.next()
        {
            written.extend(
                line?
                    .strip_prefix("written ")
                    .and_then(|n| n.parse::<usize>().ok()),
            );
        }
        writer.kill()?;
        writer.wait()?;
        let log = folder.path().join("log.yaml");
        let bytes = fs::read(&log)?;
        if let Some(mended) = mend(&bytes) {
            replace(&log, &mended.bytes)?;
        }
        let text = fs::read_to_string(&log)?;
        for number in written {
            assert!(text.contains(&format!("\n- {{entry: {number}, note")));
        }
        append_next(folder.path()).expect("the next writer goes on");
    }
    Ok(())
}

/// A file that fails as told.
struct Failing {
    bytes: Vec<u8>,
    /// Bytes there is room for.
    room: usize,
    syncs: bool,
    cuts: bool,
}

impl Write for Failing {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let len = bytes.len().min(self.room - self.bytes.len());
        if len == 0 {
            return Err(io::ErrorKind::StorageFull.into());
        }
        // A short write is no error, only less.
        let len = len.min(5);
        self.bytes.extend(&bytes[..len]);
        Ok(len)
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

impl Appending for Failing {
    fn sync(&mut self) -> io::Result<()> {
        match self.syncs {
            true => Ok(()),
            false => Err(io::Error::other("the disk is gone")),
        }
    }

    fn cut(&mut self, len: u64) -> io::Result<()> {
        if !self.cuts {
            return Err(io::Error::other("the disk is gone"));
        }
        self.bytes
            .truncate(usize::try_from(len).expect("it is small"));
        self.syncs = true;
        Ok(())
    }
}

#[test]
fn a_disk_that_fills_up_or_fails_leaves_the_log_as_it_was() {
    let old = b"- {a: 1}\n";
    let new = b"- {a: 2}\n- {a: 3}\n";
    for room in 0..=new.len() {
        for (syncs, cuts) in [(true, true), (false, true), (true, false)] {
            let mut file = Failing {
                bytes: old.to_vec(),
                room: old.len() + room,
                syncs,
                cuts,
            };
            let done = append_to(&mut file, old.len() as u64, new);
            match done {
                Ok(()) => assert!(room == new.len() && syncs && file.bytes.ends_with(new)),
                Err(AppendError::Refused(_)) => assert_eq!(file.bytes, old),
                Err(AppendError::Left(_)) => assert!(!cuts && file.bytes.starts_with(old)),
                Err(AppendError::Torn | AppendError::Changed) => panic!("the log was whole"),
            }
        }
    }
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_device_is_an_error() -> io::Result<()> {
    let mut full = fs::OpenOptions::new().append(true).open("/dev/full")?;
    assert!(append_to(&mut full, 0, b"- {a: 1}\n").is_err());
    Ok(())
}

#[cfg(unix)]
#[test]
fn a_folder_that_cannot_be_written_is_an_error_and_stays_as_it_is() -> io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    let folder = tempfile::tempdir()?;
    fs::set_permissions(folder.path(), fs::Permissions::from_mode(0o555))?;
    // The superuser may write all the same; then there is nothing to show.
    if let Err(error) = FolderLock::take(folder.path(), &mut |_| {}) {
        let path = folder.path().display().to_string();
        assert!(error.to_string().contains(&path), "{error}");
        assert_eq!(fs::read_dir(folder.path())?.count(), 0);
    }
    Ok(())
}
