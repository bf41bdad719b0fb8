//! One writer at a time in a boat folder.

use std::fs::{File, OpenOptions, TryLockError};
use std::io;
use std::path::Path;
use std::time::Duration;

/// The file whose lock a writer holds.
///
/// It is empty and stays in the folder: to take it away while another writer waits for it would
/// let two of them write at once. `new` puts its name into the folder's `.gitignore`, so that
/// version control does not see it. A lock ends with its process, however that ends.
pub const LOCK_FILE: &str = ".refasten.lock";

/// How often the lock is asked for before anybody is told that it is waited for, and how long in
/// between: another writer is done in a few milliseconds.
const PATIENCE: u32 = 25;
const PAUSE: Duration = Duration::from_millis(20);

/// The right to write in a boat folder, until it is dropped. Readers need none.
#[derive(Debug)]
pub struct FolderLock {
    _file: File,
}

impl FolderLock {
    /// Takes the lock of a folder. If another writer keeps it for half a second, calls `waiting`
    /// once and then waits on.
    ///
    /// # Errors
    ///
    /// Where the folder cannot be written or knows no locks.
    pub fn take(folder: &Path, waiting: &mut dyn FnMut()) -> io::Result<Self> {
        let path = folder.join(LOCK_FILE);
        let file = OpenOptions::new()
            .write(true)
            .create(true)
            .truncate(false)
            .open(&path)
            .map_err(|error| {
                io::Error::new(error.kind(), format!("{}: {error}", path.display()))
            })?;
        for _ in 0..PATIENCE {
            match file.try_lock() {
                Ok(()) => return Ok(Self { _file: file }),
                Err(TryLockError::WouldBlock) => std::thread::sleep(PAUSE),
                Err(TryLockError::Error(error)) => return Err(error),
            }
        }
        waiting();
        file.lock()?;
        Ok(Self { _file: file })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::mpsc;

    #[test]
    fn a_second_writer_says_that_it_waits_and_then_waits() -> io::Result<()> {
        let folder = tempfile::tempdir()?;
        let first = FolderLock::take(folder.path(), &mut || panic!("nobody is there"))?;
        let (says, hears) = mpsc::channel();
        let path = folder.path().to_owned();
        let second = std::thread::spawn(move || {
            let _lock = FolderLock::take(&path, &mut || says.send("waits").unwrap())?;
            says.send("has it").unwrap();
            Ok::<_, io::Error>(())
        });
        assert_eq!(hears.recv(), Ok("waits"));
        assert_eq!(hears.try_recv(), Err(mpsc::TryRecvError::Empty));
        drop(first);
        assert_eq!(hears.recv(), Ok("has it"));
        second.join().unwrap()
    }
}
