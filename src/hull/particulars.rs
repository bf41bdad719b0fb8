//! What a boat is called, where she floats and how her parts are numbered.

use crate::text::words;
use crate::units::When;

words! {
    /// The water she lies in.
    #[derive(Default)]
    Water, "a kind of water" {
        /// Sea water.
        #[default]
        Salt = "salt",
        /// Lake or river water.
        Fresh = "fresh",
        /// The mouth of a river.
        Brackish = "brackish",
    }
}

impl Water {
    /// Whether there is salt in it.
    pub const fn is_salt(self) -> bool {
        matches!(self, Self::Salt | Self::Brackish)
    }
}

words! {
    /// Which end frames and beams are numbered from.
    FramesFrom, "an end to number frames from" {
        /// The first frame is next the stem.
        Bow = "from bow" | "bow" | "from stem",
        /// The first frame is farthest aft.
        Stern = "from stern" | "stern" | "from aft",
    }
}

words! {
    /// Which edge of the planking strakes are numbered from.
    StrakesFrom, "an edge to number strakes from" {
        /// The first strake is the garboard.
        Keel = "from keel" | "keel" | "from garboard",
        /// The first strake is the sheer strake.
        Sheer = "from sheer" | "sheer",
    }
}

/// How the owner numbers the boat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Numbering {
    /// Frames and beams.
    pub frames: FramesFrom,
    /// Strakes.
    pub strakes: StrakesFrom,
}

impl Default for Numbering {
    fn default() -> Self {
        Self {
            frames: FramesFrom::Bow,
            strakes: StrakesFrom::Keel,
        }
    }
}

/// What a surveyor writes at the head of a page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Particulars {
    /// When she was launched; nothing in her is older.
    pub launched: When,
    /// The rest, as the owner wrote it: what it is, and its value.
    pub rest: Vec<(&'static str, String)>,
}

impl Default for Particulars {
    fn default() -> Self {
        Self {
            launched: When::Unknown,
            rest: Vec::new(),
        }
    }
}
