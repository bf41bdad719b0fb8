//! Lines added to the end of the log, whole or not at all.

use std::fmt;
use std::fs::{self, File, OpenOptions};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use super::lock::FolderLock;
use super::replace::sync_folder;
use super::seen::{Node, Seen};

/// The first line of a log.
pub const LOG_HEADER: &str = "# refasten log 1";

/// Why nothing was added.
#[derive(Debug)]
pub enum AppendError {
    /// The last line of the file has no end: a write before this one was cut short.
    Torn,
    /// Another program changed the file since it was read; it is as that left it.
    Changed,
    /// The system refused, and the file is as it was.
    Refused(io::Error),
    /// The system refused, and the file could not be cut back: its last line may be torn.
    Left(io::Error),
}

impl fmt::Display for AppendError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Torn => f.write_str(
                "its last line is torn, so nothing is written after it; `check --repair` mends it",
            ),
            Self::Changed => f.write_str(
                "another program changed it while this one was at work, so nothing was written; \
                 do it again",
            ),
            Self::Refused(error) => {
                write!(f, "it could not be written, and is as it was: {error}")
            }
            Self::Left(error) => write!(
                f,
                "it may hold what was to be written, whole or in part: {error}; look at its end, \
                 and where its last line is torn `check --repair` mends it"
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

/// Why nothing was added to a file of a boat's folder.
#[derive(Debug)]
pub struct NotAdded {
    /// The file.
    pub path: PathBuf,
    /// Why.
    pub error: AppendError,
}

impl fmt::Display for NotAdded {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.path.display(), self.error)
    }
}

impl std::error::Error for NotAdded {}

/// What an append needs of a file.
pub trait Appending: Write {
    /// Waits until what was written is on the disk, under the name of the file.
    ///
    /// # Errors
    ///
    /// Where it may not be.
    fn sync(&mut self) -> io::Result<()>;

    /// Cuts the file to a length in bytes, and waits until that is on the disk.
    ///
    /// # Errors
    ///
    /// Where it may not be.
    fn cut(&mut self, len: u64) -> io::Result<()>;
}

impl Appending for File {
    fn sync(&mut self) -> io::Result<()> {
        self.sync_data()
    }

    fn cut(&mut self, len: u64) -> io::Result<()> {
        self.set_len(len)?;
        self.sync_data()
    }
}

/// A file that is appended to, and its name.
struct Named<'a> {
    file: File,
    path: &'a Path,
    /// Whether it was made to be appended to; then it is taken away again where nothing is.
    made: bool,
}

impl<'a> Named<'a> {
    /// Opens the file, or makes it where none was seen.
    fn open(path: &'a Path, seen: &Seen) -> Result<Self, AppendError> {
        let made = seen.is_none();
        let opened = OpenOptions::new()
            .read(true)
            .append(true)
            .create_new(made)
            .open(path);
        let file = opened.map_err(|error| match error.kind() {
            // It came or went since.
            io::ErrorKind::AlreadyExists => AppendError::Changed,
            io::ErrorKind::NotFound if !made => AppendError::Changed,
            _ => AppendError::Refused(error),
        })?;
        let named = Self { file, path, made };
        if !made && Seen::of(&named.file.metadata()?) != *seen {
            return Err(AppendError::Changed);
        }
        Ok(named)
    }
}

impl Write for Named<'_> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.file.write(bytes)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.file.flush()
    }
}

impl Named<'_> {
    /// Whether the file is still the one of its name.
    fn is_there(&self) -> io::Result<bool> {
        let there = match fs::metadata(self.path) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(false),
            there => there?,
        };
        Ok(Node::of(&there) == Node::of(&self.file.metadata()?))
    }
}

impl Appending for Named<'_> {
    fn sync(&mut self) -> io::Result<()> {
        self.file.sync()?;
        if self.made {
            sync_folder(self.path)?;
        }
        // An editor saves by putting a new file in the place of the old one; what was added to the
        // old one is gone with it.
        match self.is_there()? {
            true => Ok(()),
            false => Err(io::Error::other(
                "another program took it away or put a new one in its place",
            )),
        }
    }

    fn cut(&mut self, len: u64) -> io::Result<()> {
        if self.made && self.is_there()? {
            fs::remove_file(self.path)?;
            return sync_folder(self.path);
        }
        self.file.cut(len)
    }
}

/// Adds lines, given without their line ends, to the file at `path`, which stood as `seen` when it was
/// read; makes it with `header` as its first line where there was none. They are on the disk when this
/// returns. The line ends are those of the file. The lock is that of the folder.
///
/// # Errors
///
/// [`AppendError`]; then no line was added, but for [`AppendError::Left`].
pub fn append(
    _lock: &FolderLock,
    path: &Path,
    header: &str,
    seen: &Seen,
    lines: &[&str],
) -> Result<(), AppendError> {
    if lines.iter().any(|line| line.contains(['\n', '\r'])) {
        let error = io::Error::new(io::ErrorKind::InvalidInput, "an entry holds a line end");
        return Err(error.into());
    }
    let mut file = Named::open(path, seen)?;
    let len = file.file.metadata()?.len();
    let end = last_line_end(&mut file.file, len)?;
    let mut text = String::new();
    if len == 0 {
        text.push_str(header);
        text.push_str(end);
    }
    for line in lines {
        text.push_str(line);
        text.push_str(end);
    }
    append_to(&mut file, len, text.as_bytes())
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
    match file.cut(len) {
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

    const FIRST: &str = "# first";

    /// Adds lines to the log of a folder as it stands now.
    fn add(folder: &Path, lines: &[&str]) -> Result<(), AppendError> {
        let path = folder.join("log.yaml");
        let lock = FolderLock::take(folder, &mut |_| {})?;
        append(&lock, &path, FIRST, &Seen::at(&path)?, lines)
    }

    #[test]
    fn lines_come_after_those_that_are_there_with_their_line_ends() -> io::Result<()> {
        let folder = tempfile::tempdir()?;
        let path = folder.path().join("log.yaml");
        add(folder.path(), &["- {a: 1}", "- {a: 2}"]).unwrap();
        add(folder.path(), &["- {a: 3}"]).unwrap();
        assert_eq!(
            fs::read_to_string(&path)?,
            "# first\n- {a: 1}\n- {a: 2}\n- {a: 3}\n"
        );
        fs::write(&path, "# c\r\n- {a: 1}\r\n")?;
        add(folder.path(), &["- {a: 2}"]).unwrap();
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
        for torn in ["- {a: 1}\n- {a:", "x", "- {a: 1}\r"] {
            fs::write(&path, torn)?;
            let refused = add(folder.path(), &["- {a: 2}"]);
            assert!(matches!(refused, Err(AppendError::Torn)));
            assert_eq!(fs::read_to_string(&path)?, torn);
        }
        let refused = add(folder.path(), &["- {a:\n 2}"]);
        assert!(matches!(refused, Err(AppendError::Refused(_))));
        Ok(())
    }

    #[test]
    fn nothing_is_written_to_a_file_that_changed_since_it_was_read() -> io::Result<()> {
        let folder = tempfile::tempdir()?;
        let path = folder.path().join("log.yaml");
        let lock = FolderLock::take(folder.path(), &mut |_| {})?;
        let refuses = |seen: &Seen| {
            let refused = append(&lock, &path, FIRST, seen, &["- {a: 2}"]);
            matches!(refused, Err(AppendError::Changed))
        };
        let none = Seen::at(&path)?;
        fs::write(&path, "- {a: 1}\n")?;
        assert!(refuses(&none), "it came");
        let old = Seen::at(&path)?;
        fs::write(&path, "- {a: 1}\n- {a: 3}\n")?;
        assert!(refuses(&old), "it grew");
        assert_eq!(fs::read_to_string(&path)?, "- {a: 1}\n- {a: 3}\n");
        let old = Seen::at(&path)?;
        fs::remove_file(&path)?;
        assert!(refuses(&old), "it went");
        assert!(!path.exists());
        Ok(())
    }

    #[cfg(unix)]
    #[test]
    fn what_goes_to_a_file_that_lost_its_name_is_not_called_written() -> io::Result<()> {
        let folder = tempfile::tempdir()?;
        let (path, new) = (folder.path().join("log.yaml"), folder.path().join("new"));
        for made in [false, true] {
            let _ = fs::remove_file(&path);
            if !made {
                fs::write(&path, "- {a: 1}\n")?;
            }
            let mut file = Named::open(&path, &Seen::at(&path)?).unwrap();
            let len = file.file.metadata()?.len();
            fs::write(&new, "- {a: 1}\n")?;
            fs::rename(&new, &path)?;
            let refused = append_to(&mut file, len, b"- {a: 2}\n");
            assert!(matches!(refused, Err(AppendError::Refused(_))));
            assert_eq!(fs::read_to_string(&path)?, "- {a: 1}\n");
        }
        Ok(())
    }

    #[test]
    fn a_file_that_was_made_for_it_is_taken_away_again() -> io::Result<()> {
        let folder = tempfile::tempdir()?;
        let path = folder.path().join("log.yaml");
        let mut file = Named::open(&path, &Seen::at(&path)?).unwrap();
        file.write_all(b"- {a")?;
        file.cut(0)?;
        assert!(!path.exists());
        Ok(())
    }
}
