//! How a file stood when it was read, so that a writer can tell whether another program has changed
//! it since. An editor asks nobody for a lock.

use std::fs::{self, Metadata};
use std::io;
use std::path::Path;
use std::time::SystemTime;

/// How the file under a path stood, or that there was none.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Seen(Option<Standing>);

#[derive(Clone, Debug, PartialEq, Eq)]
struct Standing {
    len: u64,
    written: Option<SystemTime>,
    node: Node,
}

impl Seen {
    /// How the file under this path stands now. To be asked before it is read: what changes between
    /// the two then counts as changed.
    ///
    /// # Errors
    ///
    /// What the system says, with the name of the file.
    pub fn at(path: &Path) -> io::Result<Self> {
        match fs::metadata(path) {
            Ok(known) => Ok(Self::of(&known)),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(Self(None)),
            Err(error) => {
                let says = format!("{}: {error}", path.display());
                Err(io::Error::new(error.kind(), says))
            }
        }
    }

    /// How a file stands of which this is known.
    pub(super) fn of(known: &Metadata) -> Self {
        Self(Some(Standing {
            len: known.len(),
            written: known.modified().ok(),
            node: Node::of(known),
        }))
    }

    /// Whether there was none.
    pub(super) const fn is_none(&self) -> bool {
        self.0.is_none()
    }
}

/// Which file it is, whatever it is called. Only Unix tells; elsewhere all are alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Node(Option<(u64, u64)>);

impl Node {
    /// Which file this is known of.
    #[cfg(unix)]
    pub(super) fn of(known: &Metadata) -> Self {
        use std::os::unix::fs::MetadataExt;
        Self(Some((known.dev(), known.ino())))
    }

    /// Which file this is known of.
    #[cfg(not(unix))]
    pub(super) const fn of(_known: &Metadata) -> Self {
        Self(None)
    }
}
