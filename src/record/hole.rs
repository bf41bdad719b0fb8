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

/// The plank's part of a hole that has no metal in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PlankHole {
    /// Nothing in it.
    Open,
    /// Closed for good.
    Plugged,
    /// Gone with the plank it was in.
    Gone,
}

/// The frame's part of a hole that has no metal in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum FrameHole {
    /// Nothing in it.
    Open,
    /// A dowel glued into it.
    Doweled,
    /// Gone with the member it was in.
    Gone,
}

/// What is in a hole. Only what can be is sayable: a plugged plank has no head in it, a stub is
/// never doweled over.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Content {
    /// A whole fastening, counted on unless it was found unsound.
    InPlace(Mouth),
    /// A whole fastening, left in and not relied on.
    LeftIn(Mouth),
    /// A stub in the frame, and the plank's part of the hole.
    StubInFrame(PlankHole),
    /// A stub in the plank, and the frame's part of the hole.
    StubInPlank(FrameHole),
    /// A stub across the joint.
    StubInBoth,
    /// No metal.
    Empty(PlankHole, FrameHole),
}

impl Content {
    /// A hole from which everything has just come out.
    pub const BARE: Self = Self::Empty(PlankHole::Open, FrameHole::Open);

    /// What is left of a fastening that broke.
    pub const fn stub(stub: Stub) -> Self {
        match stub {
            Stub::Frame => Self::StubInFrame(PlankHole::Open),
            Stub::Plank => Self::StubInPlank(FrameHole::Open),
            Stub::Both => Self::StubInBoth,
        }
    }

    /// The plank side of the hole.
    pub const fn plank_side(self) -> PlankSide {
        match self {
            Self::InPlace(_) | Self::LeftIn(_) => PlankSide::Filled,
            Self::StubInPlank(_) | Self::StubInBoth => PlankSide::Stub,
            Self::StubInFrame(plank) | Self::Empty(plank, _) => match plank {
                PlankHole::Open => PlankSide::Open,
                PlankHole::Plugged => PlankSide::Plugged,
                PlankHole::Gone => PlankSide::Gone,
            },
        }
    }

    /// The frame side of the hole.
    pub const fn frame_side(self) -> FrameSide {
        match self {
            Self::InPlace(_) | Self::LeftIn(_) => FrameSide::Filled,
            Self::StubInFrame(_) | Self::StubInBoth => FrameSide::Stub,
            Self::StubInPlank(frame) | Self::Empty(_, frame) => match frame {
                FrameHole::Open => FrameSide::Open,
                FrameHole::Doweled => FrameSide::Doweled,
                FrameHole::Gone => FrameSide::Gone,
            },
        }
    }

    /// The state of a hole that holds this, where nothing was found that makes it unsound.
    pub const fn state(self) -> HoleState {
        match self {
            Self::InPlace(_) => HoleState::ReliedOn,
            Self::LeftIn(_) => HoleState::LeftIn,
            Self::StubInFrame(_) | Self::StubInPlank(_) | Self::StubInBoth => HoleState::Broken,
            Self::Empty(PlankHole::Open, _) => HoleState::Open,
            Self::Empty(PlankHole::Plugged | PlankHole::Gone, _) => HoleState::Plugged,
        }
    }

    /// The mouth, where there is a head for it to be over.
    pub const fn mouth(self) -> Option<Mouth> {
        match self {
            Self::InPlace(mouth) | Self::LeftIn(mouth) => Some(mouth),
            _ => None,
        }
    }

    /// What is left when the plank comes off; `None` where metal holds it.
    pub(super) const fn without_plank(self) -> Option<Self> {
        Some(match self {
            Self::InPlace(_) | Self::LeftIn(_) | Self::StubInBoth => return None,
            Self::StubInFrame(_) => Self::StubInFrame(PlankHole::Gone),
            // The stub goes with the plank it is in.
            Self::StubInPlank(frame) | Self::Empty(_, frame) => Self::Empty(PlankHole::Gone, frame),
        })
    }

    /// What is left when the member is renewed; `None` where metal goes through it.
    pub(super) const fn without_member(self) -> Option<Self> {
        Some(match self {
            Self::InPlace(_) | Self::LeftIn(_) | Self::StubInBoth => return None,
            Self::StubInPlank(_) => Self::StubInPlank(FrameHole::Gone),
            // The stub goes with the member it is in.
            Self::StubInFrame(plank) | Self::Empty(plank, _) => Self::Empty(plank, FrameHole::Gone),
        })
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
        /// Gone with the plank it was in.
        Gone = "gone",
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
        /// Gone with the member it was in.
        Gone = "gone",
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
        /// No metal, and no hole in the plank: closed for good, or gone with the old plank.
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

    /// Whether all that is known of it is known of another: all but who looked last.
    pub fn is_like(&self, other: &Self) -> bool {
        let looked = other.looked;
        Self { looked, ..*self } == *other
    }

    /// The one state it is in.
    pub const fn state(&self) -> HoleState {
        match self.content.state() {
            HoleState::ReliedOn if self.found.is_unsound() => HoleState::Unsound,
            state => state,
        }
    }

    /// Whether it holds metal that is counted on.
    pub const fn is_relied_on(&self) -> bool {
        matches!(self.state(), HoleState::ReliedOn)
    }

    /// Whether it holds a whole fastening, counted on or not.
    pub const fn is_whole(&self) -> bool {
        matches!(self.content, Content::InPlace(_) | Content::LeftIn(_))
    }

    /// Whether it holds any metal.
    pub const fn has_metal(&self) -> bool {
        !matches!(self.content, Content::Empty(..))
    }
}
