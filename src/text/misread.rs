//! A word that could not be read.

use std::ops::Range;

/// Why a piece of text could not be read, and what would be right instead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Misread {
    /// What is wrong, as a sentence without a capital or a full stop.
    pub says: String,
    /// What would be right; printed after `help:`.
    pub help: Option<String>,
    /// The offending bytes within the text that was read, where it is not the whole of it.
    pub within: Option<Range<usize>>,
}

impl Misread {
    /// A misreading of the whole text.
    pub fn new(says: impl Into<String>) -> Self {
        Self {
            says: says.into(),
            help: None,
            within: None,
        }
    }

    /// Adds what would be right.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }

    /// Narrows the misreading to some bytes of the text.
    #[must_use]
    pub fn at(mut self, within: Range<usize>) -> Self {
        self.within = Some(within);
        self
    }

    /// Moves the narrowed bytes by `offset`, for a text that is part of a longer one of `whole`
    /// bytes.
    #[must_use]
    pub fn shifted(mut self, offset: usize, len: usize) -> Self {
        let range = self.within.unwrap_or(0..len);
        self.within = Some(range.start + offset..range.end + offset);
        self
    }
}

impl std::fmt::Display for Misread {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.says)?;
        match &self.help {
            Some(help) => write!(f, " ({help})"),
            None => Ok(()),
        }
    }
}

impl std::error::Error for Misread {}
