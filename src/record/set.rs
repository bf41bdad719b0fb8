//! Sets: like fastenings driven at one time over a range of crossings.

use crate::hull::Places;
use crate::joint::{Kind, Plug, Size};
use crate::tables::Metal;
use crate::text::{Origin, words};
use crate::units::{Length, When};

/// The number of a set's name in its book.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SetId(pub(super) u32);

impl SetId {
    /// Its place in a list of all names.
    pub const fn index(self) -> usize {
        self.0 as usize
    }
}

/// The number of a fastening's description in its book.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FasteningId(pub(super) u32);

impl FasteningId {
    /// Its place in a list of all descriptions.
    pub const fn index(self) -> usize {
        self.0 as usize
    }
}

words! {
    /// How it is known what a set is.
    How, "a way of knowing" {
        /// Written in her papers.
        Papers = "papers",
        /// Somebody said so.
        Told = "told",
        /// Seen with the bung out.
        Bared = "bared",
        /// Seen drawn.
        Drawn = "drawn",
        /// Not known.
        Unknown = "unknown",
    }
}

/// What one generation of fastenings is. `None` stands for what the owner cannot know.
#[derive(Clone, Debug, PartialEq)]
pub struct Fastening {
    /// The set it belongs to.
    pub set: SetId,
    /// Its kind.
    pub kind: Kind,
    /// Its metal.
    pub metal: Option<&'static Metal>,
    /// Its size.
    pub size: Option<Size>,
    /// What closes the hole over it.
    pub plug: Plug,
    /// Whether it only clamps for a time.
    pub temporary: bool,
    /// When it was driven.
    pub driven: When,
    /// Where it was written down.
    pub origin: Origin,
}

impl Fastening {
    /// How much thicker than its size one may be measured: rust swells, and calipers slip.
    const THICKER: (i64, i64) = (5, 4);

    /// The most it can be believed to measure; `None` where its size is not known.
    pub fn thickest(&self) -> Option<Length> {
        let made = self.size.and_then(Size::diameter)?;
        Some(made.share(Self::THICKER.0, Self::THICKER.1))
    }

    /// Whether another is of one make with it, whenever and wherever it was driven.
    pub(super) fn is_made_as(&self, other: &Self) -> bool {
        let same_metal = match (self.metal, other.metal) {
            (Some(one), Some(other)) => std::ptr::eq(one, other),
            (one, other) => one.is_none() && other.is_none(),
        };
        same_metal
            && self.kind == other.kind
            && (self.metal.is_some() || self.set == other.set)
            && self.size == other.size
            && self.plug == other.plug
            && self.temporary == other.temporary
    }
}

/// How a set stands to those that were there before it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Relation {
    /// These are gone, their holes used again.
    pub replaces: Vec<String>,
    /// These stay as metal, not relied on.
    pub leaves_in: Vec<String>,
    /// These stay and both are relied on.
    pub adds_to: Vec<String>,
}

/// A set as the owner wrote it, each value read.
#[derive(Clone, Debug)]
pub struct SetParts {
    /// Its name.
    pub name: String,
    /// Where it is.
    pub place: Places,
    /// How many at each crossing; where the place names holes it may be left out.
    pub per_crossing: Option<u8>,
    /// Its kind.
    pub kind: Kind,
    /// Its metal.
    pub metal: Option<&'static Metal>,
    /// Its size.
    pub size: Option<Size>,
    /// What closes the hole over it.
    pub plug: Plug,
    /// When it was driven.
    pub driven: When,
    /// How it is known.
    pub how: How,
    /// What it stands to.
    pub relation: Relation,
    /// Where it was written.
    pub origin: Origin,
}
