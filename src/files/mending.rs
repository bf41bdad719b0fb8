//! The log and the plan of a folder mended: first beside them, then, when told, in their place.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::decode::whole;
use super::{FolderLock, Holder, LOG_FILE, Mended, PLAN_FILE, Seen, mend, replace};

/// Each file that can be mended, and the one beside it that a person is to look at first.
const FILES: [(&str, &str); 2] = [
    (LOG_FILE, "log.mended.yaml"),
    (PLAN_FILE, "plan.mended.yaml"),
];

/// Mended files beside those that are not. No other writer comes between until it is dropped.
#[derive(Debug)]
pub struct Mending {
    _lock: FolderLock,
    folder: PathBuf,
    files: Vec<MendedFile>,
}

/// A file that was mended.
#[derive(Debug)]
pub struct MendedFile {
    /// Its name.
    pub name: &'static str,
    /// The name of the mended one.
    pub beside: &'static str,
    /// What was mended.
    pub mended: Mended,
    /// How the file stood when it was read.
    seen: Seen,
}

impl Mending {
    /// Writes each mended file beside the one that is not; `None` where nothing is to be mended, and
    /// then nothing is written. Calls `waiting` if another writer has the folder.
    ///
    /// # Errors
    ///
    /// Where the system cannot read a file, lock the folder or write.
    pub fn begin(folder: &Path, waiting: &mut dyn FnMut(Holder)) -> io::Result<Option<Self>> {
        if mended(folder)?.is_empty() {
            return Ok(None);
        }
        let lock = FolderLock::take(folder, waiting)?;
        // Another writer may have been here since.
        let files = mended(folder)?;
        if files.is_empty() {
            return Ok(None);
        }
        for (at, file) in files.iter().enumerate() {
            if let Err(error) = replace(&folder.join(file.beside), &file.mended.bytes) {
                // All of them or none; the first error is the one to tell.
                for file in files.iter().take(at) {
                    let _ = fs::remove_file(folder.join(file.beside));
                }
                return Err(error);
            }
        }
        Ok(Some(Self {
            _lock: lock,
            folder: folder.to_owned(),
            files,
        }))
    }

    /// What was mended, the log first.
    pub fn files(&self) -> &[MendedFile] {
        &self.files
    }

    /// Puts the mended files in their place, and takes away those beside.
    ///
    /// # Errors
    ///
    /// Where the system refuses, with the name of the file; each is then as it was, or mended.
    pub fn put_in_place(&self) -> io::Result<()> {
        for file in &self.files {
            let path = self.folder.join(file.name);
            if Seen::at(&path)? != file.seen {
                let says = format!(
                    "{}: another program changed it while it was mended, so it was not replaced; \
                     do it again",
                    path.display()
                );
                return Err(io::Error::other(says));
            }
            replace(&path, &file.mended.bytes)?;
            let beside = self.folder.join(file.beside);
            fs::remove_file(&beside).map_err(|error| {
                let says = format!(
                    "{} is mended, but {} cannot be taken away: {error}",
                    file.name,
                    beside.display()
                );
                io::Error::new(error.kind(), says)
            })?;
        }
        Ok(())
    }
}

/// Each file of a folder in which there is something to mend.
fn mended(folder: &Path) -> io::Result<Vec<MendedFile>> {
    let mut files = Vec::new();
    for (name, beside) in FILES {
        let path = folder.join(name);
        let seen = Seen::at(&path)?;
        let bytes = match whole(&path) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => continue,
            bytes => bytes?,
        };
        files.extend(bytes.as_deref().and_then(mend).map(|mended| MendedFile {
            name,
            beside,
            mended,
            seen,
        }));
    }
    Ok(files)
}
