//! A hole and everything that can be in it.

use super::{FasteningId, FoundSet, Stub};
use crate::text::words;

/// The mouth of a hole, over the head of a fastening.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Mouth {
    /// Bunged or stopped, as far as is known.
    Closed,
    /// Bare; it must be closed before she is launched.
    Open,
    /// The head is flush or proud and nothing is meant to cover it.
    Flush,
}

/// What is in a hole. Only what can be is sayable: a plugged plank has no head in it, a stub is
/// never doweled over.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Content {
    /// A whole fastening, counted on unless it was found unsound.
    InPlace(Mouth),
    /// A whole fastening, left in and not relied on.
    LeftIn(Mouth),
    /// A stub in the frame; the plank's hole is open or plugged.
    StubInFrame {
        /// Whether the plank's hole is closed for good.
        plugged: bool,
    },
    /// A stub in the plank; the frame's hole is open or doweled.
    StubInPlank {
        /// Whether the frame's hole has a dowel in it.
        doweled: bool,
    },
    /// A stub across the joint.
    StubInBoth,
    /// No metal.
    Empty {
        /// Whether the plank's hole is closed for good.
        plugged: bool,
        /// Whether the frame's hole has a dowel in it.
        doweled: bool,
    },
}

impl Content {
    /// A hole from which everything has just come out.
    pub const BARE: Self = Self::Empty {
        plugged: false,
        doweled: false,
    };

    /// What is left of a fastening that broke.
    pub const fn stub(stub: Stub) -> Self {
        match stub {
            Stub::Frame => Self::StubInFrame { plugged: false },
            Stub::Plank => Self::StubInPlank { doweled: false },
            Stub::Both => Self::StubInBoth,
        }
    }

    /// The plank side of the hole.
    pub const fn plank_side(self) -> PlankSide {
        match self {
            Self::InPlace(_) | Self::LeftIn(_) => PlankSide::Filled,
            Self::StubInPlank { .. } | Self::StubInBoth => PlankSide::Stub,
            Self::StubInFrame { plugged: true } | Self::Empty { plugged: true, .. } => {
                PlankSide::Plugged
            }
            Self::StubInFrame { plugged: false } | Self::Empty { plugged: false, .. } => {
                PlankSide::Open
            }
        }
    }

    /// The frame side of the hole.
    pub const fn frame_side(self) -> FrameSide {
        match self {
            Self::InPlace(_) | Self::LeftIn(_) => FrameSide::Filled,
            Self::StubInFrame { .. } | Self::StubInBoth => FrameSide::Stub,
            Self::StubInPlank { doweled: true } | Self::Empty { doweled: true, .. } => {
                FrameSide::Doweled
            }
            Self::StubInPlank { doweled: false } | Self::Empty { doweled: false, .. } => {
                FrameSide::Open
            }
        }
    }

    /// The mouth, where there is a head for it to be over.
    pub const fn mouth(self) -> Option<Mouth> {
        match self {
            Self::InPlace(mouth) | Self::LeftIn(mouth) => Some(mouth),
            _ => None,
        }
    }
}

words! {
    /// The plank side of a hole.
    PlankSide, "a state of the plank side" {
        /// A fastening goes through it.
        Filled = "filled",
        /// Nothing in it.
        Open = "open",
        /// Closed for good.
        Plugged = "plugged",
        /// A broken piece in it.
        Stub = "stub",
    }
}

words! {
    /// The frame side of a hole.
    FrameSide, "a state of the frame side" {
        /// A fastening holds in it.
        Filled = "filled",
        /// Nothing in it.
        Open = "open",
        /// A dowel glued into it.
        Doweled = "doweled",
        /// A broken piece in it.
        Stub = "stub",
    }
}

words! {
    /// The one state every hole is in.
    HoleState, "a state of a hole" {
        /// In place and counted on to hold.
        ReliedOn = "relied on",
        /// In place but found spun, headless, sheared or dealloyed.
        Unsound = "unsound",
        /// Left in, not relied on.
        LeftIn = "left in",
        /// A stub.
        Broken = "broken",
        /// No metal, and the plank's hole open.
        Open = "open",
        /// No metal, and the plank's hole closed for good.
        Plugged = "plugged",
    }
}

/// A numbered hole in a crossing and the last fastening that was in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Hole {
    /// The fastening that is in it, or was last.
    pub fastening: FasteningId,
    /// What is in it.
    pub content: Content,
    /// What was found of that fastening.
    pub found: FoundSet,
    /// Whether that fastening was driven into a spoiled hole that had not been doweled.
    pub in_spoiled_hole: bool,
    /// The latest entry that looked at the metal, as its place in the log, from 1; 0 for none.
    pub(super) looked: u32,
}

impl Hole {
    /// A hole with a fastening just put in it.
    pub const fn filled(fastening: FasteningId, mouth: Mouth) -> Self {
        Self {
            fastening,
            content: Content::InPlace(mouth),
            found: FoundSet::NONE,
            in_spoiled_hole: false,
            looked: 0,
        }
    }

    /// The one state it is in.
    pub const fn state(&self) -> HoleState {
        match self.content {
            Content::InPlace(_) if self.found.is_unsound() => HoleState::Unsound,
            Content::InPlace(_) => HoleState::ReliedOn,
            Content::LeftIn(_) => HoleState::LeftIn,
            Content::StubInFrame { .. } | Content::StubInPlank { .. } | Content::StubInBoth => {
                HoleState::Broken
            }
            Content::Empty { plugged: true, .. } => HoleState::Plugged,
            Content::Empty { plugged: false, .. } => HoleState::Open,
        }
    }

    /// Whether it holds metal that is counted on.
    pub const fn is_relied_on(&self) -> bool {
        matches!(self.state(), HoleState::ReliedOn)
    }

    /// Whether it holds any metal.
    pub const fn has_metal(&self) -> bool {
        !matches!(self.content, Content::Empty { .. })
    }
}
