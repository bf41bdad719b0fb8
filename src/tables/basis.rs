//! What a published figure rests on.

use std::fmt;

/// How well a figure is known. A figure never gets a better status than it was taken with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Status {
    /// Read in the source itself.
    Read,
    /// Read in a public transcription or reprint of the source.
    Transcribed,
    /// Computed from other figures by a stated formula.
    Derived,
    /// Recalled; not checked against the source.
    Memory,
    /// Common practice of the trade, no source.
    Practice,
}

impl Basis {
    /// The ground of something that is no figure of a table: which publication (by its key),
    /// how well it is known, and where in it. To be called in a constant.
    ///
    /// # Panics
    /// Where the table has no such key, which fails the build.
    #[expect(
        clippy::indexing_slicing,
        clippy::panic,
        reason = "the compiler runs it, and a panic there fails the build"
    )]
    pub const fn on(key: &'static str, status: Status, note: &'static str) -> Self {
        let mut at = 0;
        while at < SOURCES.len() {
            if same(SOURCES[at].key.as_bytes(), key.as_bytes()) {
                return Self {
                    source: Some(&SOURCES[at]),
                    status,
                    note,
                };
            }
            at += 1;
        }
        panic!("there is no source of this key in tables/sources.yaml")
    }

    /// Common practice of the trade, without a source.
    pub const fn practice(note: &'static str) -> Self {
        Self {
            source: None,
            status: Status::Practice,
            note,
        }
    }
}

/// Equality of bytes that the compiler can work out.
#[expect(clippy::indexing_slicing, reason = "the condition keeps within both")]
pub(super) const fn same(left: &[u8], right: &[u8]) -> bool {
    let mut at = 0;
    while at < left.len() && at < right.len() && left[at] == right[at] {
        at += 1;
    }
    at == left.len() && at == right.len()
}

impl Status {
    /// The word for it in the table files and in JSON.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Read => "read",
            Self::Transcribed => "transcribed",
            Self::Derived => "derived",
            Self::Memory => "memory",
            Self::Practice => "practice",
        }
    }
}

/// A publication.
#[derive(Debug, PartialEq, Eq)]
pub struct Source {
    /// Short key used in the tables.
    pub key: &'static str,
    /// The publication, as one would cite it.
    pub title: &'static str,
}

/// The ground a figure stands on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Basis {
    /// Where it is from; `None` for common practice without a source.
    pub source: Option<&'static Source>,
    /// How well it is known.
    pub status: Status,
    /// What the user should know about it: a formula, a disagreement; may be empty.
    pub note: &'static str,
}

/// In words: `public transcription`.
impl fmt::Display for Status {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Read => "read in the source",
            Self::Transcribed => "public transcription",
            Self::Derived => "derived",
            Self::Memory => "from memory, not checked",
            Self::Practice => "common practice, no source",
        })
    }
}

/// One line for a person: source, status, note.
impl fmt::Display for Basis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let status = self.status;
        match self.source {
            Some(source) => write!(f, "{} ({status}", source.title)?,
            None => write!(f, "{status}")?,
        }
        match (self.note, self.source) {
            ("", Some(_)) => f.write_str(")"),
            ("", None) => Ok(()),
            (note, Some(_)) => write!(f, "; {note})"),
            (note, None) => write!(f, "; {note}"),
        }
    }
}

include!(concat!(env!("OUT_DIR"), "/bases.rs"));
