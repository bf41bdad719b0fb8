//! How a page of text is laid out.

/// How wide a page of text is, and for whom it is laid out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Layout {
    /// Columns there are.
    pub width: u16,
    /// To be read aloud by a screen reader: nothing drawn, no table, no mark that only the eye reads.
    pub plain: bool,
    /// Whether colour may be added. Nothing is ever told by colour alone.
    pub colour: bool,
}

/// A page for the eye, without colour.
impl From<u16> for Layout {
    fn from(width: u16) -> Self {
        Self {
            width,
            plain: false,
            colour: false,
        }
    }
}

/// What a word is coloured for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Tint {
    /// Must be put right first.
    Stop,
    /// To be mended, or too little known.
    Mend,
    /// Worth an eye.
    Watch,
    /// Set off, and nothing more.
    Bold,
}

impl Tint {
    /// What a terminal is sent before the words. The colours are those that a user's own palette
    /// sets, so that they can be read on light and dark.
    pub(super) const fn begins(self) -> &'static str {
        match self {
            Self::Stop => "\u{1b}[1;31m",
            Self::Mend => "\u{1b}[1;33m",
            Self::Watch => "\u{1b}[1;36m",
            Self::Bold => "\u{1b}[1m",
        }
    }

    /// What it is sent after them.
    pub(super) const ENDS: &'static str = "\u{1b}[0m";
}
