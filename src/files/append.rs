//! Lines added to the end of the log, whole or not at all.

use std::fmt;
use std::fs::{File, OpenOptions};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::Path;

use super::lock::FolderLock;
use super::replace::sync_folder;

/// The first line of a log.
pub const LOG_HEADER: &str = "# refasten log 1";

/// Why nothing was added.
#[derive(Debug)]
pub enum AppendError {
    /// The last line of the file has no end: a write before this one was cut short.
    Torn,
    /// The system refused, and the file is as it was.
    Refused(io::Error),
    /// The system refused, and the file could not be cut back: its last line may be torn.
    Left(io::Error),
}

impl fmt::Display for AppendError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Torn => f.write_str(
                "the last line of the file is torn, so nothing is written after it; \
                 `check --repair` mends it",
            ),
            Self::Refused(error) => {
                write!(
                    f,
                    "the file could not be written, and is as it was: {error}"
                )
            }
            Self::Left(error) => write!(
                f,
                "the file could not be written, and its last line may be torn: {error}; \
                 `check --repair` mends it"
            ),
        }
    }
}

impl std::error::Error for AppendError {}

impl From<io::Error> for AppendError {
    fn from(error: io::Error) -> Self {
        Self::Refused(error)
    }
}

/// What an append needs of a file.
pub trait Appending: Write {
    /// Waits until what was written is on the disk.
    ///
    /// # Errors
    ///
    /// Where it may not be.
    fn sync(&mut self) -> io::Result<()>;

    /// Cuts the file to a length in bytes.
    ///
    /// # Errors
    ///
    /// Where it is not cut.
    fn cut(&mut self, len: u64) -> io::Result<()>;
}

impl Appending for File {
    fn sync(&mut self) -> io::Result<()> {
        self.sync_data()
    }

    fn cut(&mut self, len: u64) -> io::Result<()> {
        self.set_len(len)
    }
}

/// Adds lines, given without their line ends, to the log at `path`; makes it with its first line
/// where there is none. They are on the disk when this returns. The line ends are those of the
/// file. The lock is that of the folder.
///
/// # Errors
///
/// [`AppendError`]; then no line was added.
pub fn append(lock: &FolderLock, path: &Path, lines: &[&str]) -> Result<(), AppendError> {
    append_under(lock, path, LOG_HEADER, lines)
}

/// The same to a file that begins with another first line.
///
/// # Errors
///
/// [`AppendError`]; then no line was added.
pub fn append_under(
    _lock: &FolderLock,
    path: &Path,
    header: &str,
    lines: &[&str],
) -> Result<(), AppendError> {
    if lines.iter().any(|line| line.contains(['\n', '\r'])) {
        let error = io::Error::new(io::ErrorKind::InvalidInput, "an entry holds a line end");
        return Err(error.into());
    }
    let mut file = OpenOptions::new()
        .read(true)
        .append(true)
        .create(true)
        .open(path)?;
    let len = file.metadata()?.len();
    let end = last_line_end(&mut file, len)?;
    let mut text = String::new();
    if len == 0 {
        text.push_str(header);
        text.push_str(end);
    }
    for line in lines {
        text.push_str(line);
        text.push_str(end);
    }
    append_to(&mut file, len, text.as_bytes())?;
    if len == 0 {
        sync_folder(path)?;
    }
    Ok(())
}

/// Adds bytes to a file of `len` bytes, and takes them off again if they do not all arrive.
///
/// # Errors
///
/// [`AppendError::Refused`] where the file is as it was, [`AppendError::Left`] where it may not be.
pub fn append_to(file: &mut impl Appending, len: u64, bytes: &[u8]) -> Result<(), AppendError> {
    let Err(error) = file.write_all(bytes).and_then(|()| file.sync()) else {
        return Ok(());
    };
    match file.cut(len).and_then(|()| file.sync()) {
        Ok(()) => Err(AppendError::Refused(error)),
        Err(_) => Err(AppendError::Left(error)),
    }
}

/// How the last line of the file ends.
fn last_line_end(file: &mut File, len: u64) -> Result<&'static str, AppendError> {
    let mut tail = Vec::new();
    file.seek(SeekFrom::Start(len.saturating_sub(2)))?;
    file.take(2).read_to_end(&mut tail)?;
    match tail.as_slice() {
        [] | [b'\n'] => Ok("\n"),
        [b'\r', b'\n'] => Ok("\r\n"),
        [_, b'\n'] => Ok("\n"),
        _ => Err(AppendError::Torn),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    #[test]
    fn lines_come_after_those_that_are_there_with_their_line_ends() -> io::Result<()> {
        let folder = tempfile::tempdir()?;
        let path = folder.path().join("log.yaml");
        let lock = FolderLock::take(folder.path(), &mut || {})?;
        append(&lock, &path, &["- {a: 1}", "- {a: 2}"]).unwrap();
        append(&lock, &path, &["- {a: 3}"]).unwrap();
        assert_eq!(
            fs::read_to_string(&path)?,
            "# refasten log 1\n- {a: 1}\n- {a: 2}\n- {a: 3}\n"
        );
        fs::write(&path, "# c\r\n- {a: 1}\r\n")?;
        append(&lock, &path, &["- {a: 2}"]).unwrap();
        assert_eq!(
            fs::read_to_string(&path)?,
            "# c\r\n- {a: 1}\r\n- {a: 2}\r\n"
        );
        Ok(())
    }

    #[test]
    fn nothing_is_written_after_a_torn_line() -> io::Result<()> {
        let folder = tempfile::tempdir()?;
        let path = folder.path().join("log.yaml");
        let lock = FolderLock::take(folder.path(), &mut || {})?;
        for torn in ["- {a: 1}\n- {a:", "x", "- {a: 1}\r"] {
            fs::write(&path, torn)?;
            let refused = append(&lock, &path, &["- {a: 2}"]);
            assert!(matches!(refused, Err(AppendError::Torn)));
            assert_eq!(fs::read_to_string(&path)?, torn);
        }
        let refused = append(&lock, &path, &["- {a:\n 2}"]);
        assert!(matches!(refused, Err(AppendError::Refused(_))));
        Ok(())
    }
}
