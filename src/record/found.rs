//! What was found of a fastening, a hole or the wood round it.

use crate::text::words;

words! {
    /// One finding from the closed list of them.
    Found, "a thing that can be found" {
        /// As good as new.
        Sound = "sound",
        /// Will not turn.
        Seized = "seized" | "stuck",
        /// Worn.
        Worn = "worn",
        /// Pitted.
        Pitted = "pitted",
        /// Bent.
        Bent = "bent",
        /// Loose under the head.
        Slack = "slack" | "loose",
        /// Turns without drawing.
        Spun = "spun" | "stripped",
        /// Thin where plank meets frame.
        Necked = "necked",
        /// Wasted by corrosion.
        Wasted = "wasted" | "corroded",
        /// Dealloyed: pink and weak at full size.
        Pink = "pink" | "dealloyed" | "dezincified",
        /// Without a head.
        HeadGone = "head gone" | "headless",
        /// In two pieces.
        Sheared = "sheared",
        /// Not there.
        Missing = "missing",
        /// The wood round it is soft.
        WoodSoft = "wood soft",
        /// The frame is split at it.
        FrameSplit = "frame split",
    }
}

impl Found {
    const fn bit(self) -> u16 {
        1 << self as u16
    }

    /// Whether a fastening found so counts as bad when the rest are judged by it.
    pub const fn is_bad(self) -> bool {
        self as u16 >= Self::Slack as u16
    }
}

/// Everything found of one fastening.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct FoundSet(u16);

impl FoundSet {
    /// Nothing found.
    pub const NONE: Self = Self(0);

    /// Findings after which a fastening in place is not counted on to hold.
    const UNSOUND: Self =
        Self(Found::Spun.bit() | Found::Pink.bit() | Found::HeadGone.bit() | Found::Sheared.bit());
    /// Findings after which the hole itself will not hold a new fastening.
    const BAD_HOLE: Self = Self(Found::Spun.bit() | Found::Wasted.bit() | Found::WoodSoft.bit());

    /// With one more.
    #[must_use]
    pub const fn with(self, found: Found) -> Self {
        Self(self.0 | found.bit())
    }

    /// Whether the fastening is no longer counted on to hold.
    pub const fn is_unsound(self) -> bool {
        self.0 & Self::UNSOUND.0 != 0
    }

    /// Whether the hole is not fit for a new fastening until it is doweled.
    pub const fn spoils_hole(self) -> bool {
        self.0 & Self::BAD_HOLE.0 != 0
    }

    /// Each of them.
    pub fn each(self) -> impl Iterator<Item = Found> {
        Found::ALL
            .iter()
            .copied()
            .filter(move |found| self.0 & found.bit() != 0)
    }
}
