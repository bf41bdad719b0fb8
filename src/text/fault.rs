//! Something wrong in what a person wrote, and the place where they wrote it.

use std::ops::Range;

use super::Misread;

/// Which file: of a boat's folder, or one that is brought to it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FileId {
    /// Entries of the command line: what its number says in place of a line's.
    Typed,
    /// `hull.yaml`
    Hull,
    /// `log.yaml`
    Log,
    /// A file of entries that are to be added to the log, or a sheet of them.
    Added,
    /// `plan.yaml`
    Plan,
}

/// Where a record begins. The column of a word in it is worked out late, when it is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Origin {
    /// The file.
    pub file: FileId,
    /// Byte offset of the record in the text of the file: the start of its first line, or its
    /// own first byte where it is one of several between brackets.
    pub byte: usize,
    /// Number of the line it begins on, from 1.
    pub line: u32,
}

/// One step from a record down to a value in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Step {
    /// The value of this key.
    Key(&'static str),
    /// The key itself, as it was written.
    Name(String),
    /// The item of this number in a list, from 0.
    Item(usize),
}

/// One thing that is wrong, with where it was written and what would be right.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// The record it is in; `None` for what came from the command line.
    pub origin: Option<Origin>,
    /// The way from the record to the value; empty means the record as a whole.
    pub path: Vec<Step>,
    /// The offending bytes of the value, where it is not all of it.
    pub within: Option<Range<usize>>,
    /// Exact bytes of the file, where the reader knows them and no path leads there.
    pub bytes: Option<Range<usize>>,
    /// What is wrong.
    pub says: String,
    /// What would be right.
    pub help: Option<String>,
}

impl Fault {
    /// A fault of a whole record, or of the command line.
    pub fn new(origin: Option<Origin>, says: impl Into<String>) -> Self {
        Self {
            origin,
            path: Vec::new(),
            within: None,
            bytes: None,
            says: short(says.into()),
            help: None,
        }
    }

    /// A fault from a value that could not be read.
    pub fn misread(origin: Option<Origin>, path: Vec<Step>, misread: Misread) -> Self {
        Self {
            path,
            within: misread.within,
            help: misread.help.map(short),
            ..Self::new(origin, misread.says)
        }
    }

    /// Names the value it is about.
    #[must_use]
    pub fn at(mut self, path: Vec<Step>) -> Self {
        self.path = path;
        self
    }

    /// Names the value it is about by one key.
    #[must_use]
    pub fn key(self, key: &'static str) -> Self {
        self.at(vec![Step::Key(key)])
    }

    /// Adds what would be right.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(short(help.into()));
        self
    }
}

/// A sentence that quotes a word of a file may be as long as the file; a person reads its beginning
/// and its end.
fn short(text: String) -> String {
    const LONGEST: usize = 1000;
    if text.len() <= LONGEST {
        return text;
    }
    let letters: Vec<char> = text.chars().collect();
    let (Some(begins), Some(ends)) = (
        letters.first_chunk::<{ LONGEST / 2 }>(),
        letters.last_chunk::<{ LONGEST / 4 }>(),
    ) else {
        return text;
    };
    let begins = begins.iter().collect::<String>();
    begins + " … " + &ends.iter().collect::<String>()
}
