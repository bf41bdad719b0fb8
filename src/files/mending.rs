//! The log of a folder mended: first beside it, then, when told, in its place.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::decode::whole;
use super::{FolderLock, LOG_FILE, Mended, mend, replace};

/// Where the mended log is written, for a person to look at.
pub const MENDED_FILE: &str = "log.mended.yaml";

/// A mended log beside the one that is not. No other writer comes between until it is dropped.
#[derive(Debug)]
pub struct Mending {
    _lock: FolderLock,
    log: PathBuf,
    beside: PathBuf,
    mended: Mended,
}

impl Mending {
    /// Writes the mended log beside it; `None` where nothing is to be mended or there is none, and
    /// then nothing is written. Calls `waiting` if another writer has the folder.
    ///
    /// # Errors
    ///
    /// Where the system cannot read the log, lock the folder or write the file.
    pub fn begin(folder: &Path, waiting: &mut dyn FnMut()) -> io::Result<Option<Self>> {
        let log = folder.join(LOG_FILE);
        let torn = || match whole(&log) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
            bytes => Ok::<_, io::Error>(bytes?.as_deref().and_then(mend)),
        };
        if torn()?.is_none() {
            return Ok(None);
        }
        let lock = FolderLock::take(folder, waiting)?;
        // Another writer may have been here since.
        let Some(mended) = torn()? else {
            return Ok(None);
        };
        let beside = folder.join(MENDED_FILE);
        replace(&beside, &mended.bytes)?;
        Ok(Some(Self {
            _lock: lock,
            log,
            beside,
            mended,
        }))
    }

    /// What was mended.
    pub const fn mended(&self) -> &Mended {
        &self.mended
    }

    /// Puts the mended log in its place, and takes away the one beside.
    ///
    /// # Errors
    ///
    /// Where the system refuses; the log is then as it was, or mended.
    pub fn put_in_place(self) -> io::Result<()> {
        replace(&self.log, &self.mended.bytes)?;
        fs::remove_file(&self.beside)
    }
}
