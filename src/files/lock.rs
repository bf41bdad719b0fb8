//! One writer at a time in a boat folder.

use std::fmt;
use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, Read, Seek, Write};
use std::path::Path;
use std::time::Duration;

use super::seen::Node;

/// The file whose lock a writer holds.
///
/// It stays in the folder: to take it away while another writer waits for it would let two of them
/// write at once. `new` puts its name into the folder's `.gitignore`, so that version control does
/// not see it. In it stands the number of the process that had the lock last. A lock ends with its
/// process, however that ends.
pub const LOCK_FILE: &str = ".refasten.lock";

/// How long a writer waits between two looks at the lock.
const PAUSE: Duration = Duration::from_millis(10);
/// After how many looks somebody is told: another writer is done in a few milliseconds.
const TOLD: u32 = 50;
/// After how many it is given up: by then the other one is stopped, or waits for a person.
const GIVEN_UP: u32 = 3000;

/// The right to write in a boat folder, until it is dropped. Readers need none.
#[derive(Debug)]
pub struct FolderLock {
    _file: File,
}

/// Who has the lock: the number of its process, where that is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Holder(Option<u32>);

impl fmt::Display for Holder {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            Some(process) => write!(f, "another program (process {process})"),
            None => f.write_str("another program"),
        }
    }
}

impl FolderLock {
    /// Takes the lock of a folder. If another writer keeps it for half a second, calls `waiting`
    /// once; if for half a minute, gives up.
    ///
    /// # Errors
    ///
    /// Where the folder cannot be written or knows no locks; [`io::ErrorKind::TimedOut`] where
    /// another writer does not let go.
    pub fn take(folder: &Path, waiting: &mut dyn FnMut(Holder)) -> io::Result<Self> {
        Self::take_within(GIVEN_UP, folder, waiting)
    }

    /// The same with another patience: how many looks are taken at the lock.
    fn take_within(looks: u32, folder: &Path, waiting: &mut dyn FnMut(Holder)) -> io::Result<Self> {
        let path = folder.join(LOCK_FILE);
        let mut file = open(&path)?;
        for look in 0..looks {
            if look == TOLD {
                waiting(holder(&mut file));
            }
            match file.try_lock() {
                // The file may have been taken away, and another may lock the one that came after.
                Ok(()) if is_there(&file, &path)? => {
                    sign(&mut file);
                    return Ok(Self { _file: file });
                }
                Ok(()) => file = open(&path)?,
                Err(TryLockError::WouldBlock) => std::thread::sleep(PAUSE),
                Err(TryLockError::Error(error)) => {
                    let says = format!("{} cannot be locked: {error}", path.display());
                    return Err(io::Error::new(error.kind(), says));
                }
            }
        }
        let says = format!(
            "{} has not let go of {} for half a minute, so nothing was written; end it if it is \
             stopped, or answer it if it waits",
            holder(&mut file),
            folder.display()
        );
        Err(io::Error::new(io::ErrorKind::TimedOut, says))
    }
}

/// Opens the lock file, or makes it. What is no plain file may be another's, or may never open.
fn open(path: &Path) -> io::Result<File> {
    let there = path.symlink_metadata();
    if there.as_ref().is_ok_and(|there| !there.is_file()) {
        let says = format!("{} is not a file; take it away", path.display());
        return Err(io::Error::other(says));
    }
    OpenOptions::new()
        .read(true)
        .write(true)
        .create(true)
        .truncate(false)
        .open(path)
        .map_err(|error| {
            let of_folder = there.is_err() || error.kind() == io::ErrorKind::ReadOnlyFilesystem;
            let says = match path.parent().filter(|_| of_folder) {
                Some(folder) => {
                    format!("nothing can be written in {}: {error}", folder.display())
                }
                None => format!("{} cannot be locked: {error}", path.display()),
            };
            io::Error::new(error.kind(), says)
        })
}

/// Whether the file is still the one of this path.
fn is_there(file: &File, path: &Path) -> io::Result<bool> {
    match fs::symlink_metadata(path) {
        Ok(there) => Ok(Node::of(&there) == Node::of(&file.metadata()?)),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(false),
        Err(error) => Err(error),
    }
}

/// Most bytes of a lock file that holds the number of a process, and nothing of anybody's.
const SIGNED: u64 = 11;

/// Writes the number of this process into the file. Where that fails nobody is the worse for it: those
/// who wait are not told whom they wait for.
fn sign(file: &mut File) {
    if holder(file).0.is_some() || file.metadata().is_ok_and(|known| known.len() == 0) {
        let signed = format!("{}\n", std::process::id());
        let _ = file
            .rewind()
            .and_then(|()| file.set_len(0))
            .and_then(|()| file.write_all(signed.as_bytes()));
    }
}

/// Whose number stands in the file.
fn holder(file: &mut File) -> Holder {
    let mut text = String::new();
    let read = file
        .rewind()
        .and_then(|()| file.take(SIGNED + 1).read_to_string(&mut text));
    let signed = read.is_ok() && text.len() as u64 <= SIGNED;
    Holder(text.trim_end().parse().ok().filter(|_| signed))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::mpsc;

    #[test]
    fn a_second_writer_says_for_whom_it_waits_and_then_waits() -> io::Result<()> {
        let folder = tempfile::tempdir()?;
        let first = FolderLock::take(folder.path(), &mut |_| panic!("nobody is there"))?;
        let (says, hears) = mpsc::channel();
        let path = folder.path().to_owned();
        let second = std::thread::spawn(move || {
            let _lock =
                FolderLock::take(&path, &mut |holder| says.send(holder.to_string()).unwrap())?;
            says.send("has it".to_owned()).unwrap();
            Ok::<_, io::Error>(())
        });
        let us = format!("another program (process {})", std::process::id());
        assert_eq!(hears.recv(), Ok(us));
        assert_eq!(hears.try_recv(), Err(mpsc::TryRecvError::Empty));
        drop(first);
        assert_eq!(hears.recv().as_deref(), Ok("has it"));
        second.join().unwrap()
    }

    #[test]
    fn a_writer_does_not_wait_for_ever() -> io::Result<()> {
        let folder = tempfile::tempdir()?;
        let _lock = FolderLock::take(folder.path(), &mut |_| {})?;
        let given_up = FolderLock::take_within(3, folder.path(), &mut |_| {}).unwrap_err();
        assert_eq!(given_up.kind(), io::ErrorKind::TimedOut);
        let us = format!("another program (process {}) has", std::process::id());
        assert!(given_up.to_string().starts_with(&us), "{given_up}");
        Ok(())
    }

    #[cfg(unix)]
    #[test]
    fn the_lock_of_a_file_that_was_taken_away_is_no_lock() -> io::Result<()> {
        let folder = tempfile::tempdir()?;
        let first = FolderLock::take(folder.path(), &mut |_| {})?;
        let (says, hears) = mpsc::channel();
        let path = folder.path().to_owned();
        let second =
            std::thread::spawn(move || FolderLock::take(&path, &mut |_| says.send(()).unwrap()));
        hears.recv().unwrap();
        // It waits for the old file; now there is a new one, and somebody has that.
        fs::remove_file(folder.path().join(LOCK_FILE))?;
        let third = FolderLock::take(folder.path(), &mut |_| {})?;
        drop(first);
        std::thread::sleep(PAUSE * 5);
        assert!(!second.is_finished(), "two have the folder");
        drop(third);
        second.join().unwrap()?;
        Ok(())
    }

    #[test]
    fn what_is_not_ours_stays_as_it_is() -> io::Result<()> {
        let folder = tempfile::tempdir()?;
        let path = folder.path().join(LOCK_FILE);
        for theirs in ["somebody's own words\n", "12345678901234\n", "x"] {
            fs::write(&path, theirs)?;
            drop(FolderLock::take(folder.path(), &mut |_| {})?);
            assert_eq!(fs::read_to_string(&path)?, theirs);
        }
        fs::write(&path, "999999\n")?;
        drop(FolderLock::take(folder.path(), &mut |_| {})?);
        let us = format!("{}\n", std::process::id());
        assert_eq!(fs::read_to_string(&path)?, us);
        Ok(())
    }
}
