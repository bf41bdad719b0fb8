//! The table of what can be done: each deed against each thing that can be in a hole.

use super::{Content, Did, FrameHole, Mouth, PlankHole, Stub};

/// Why a deed cannot be done to a hole as it stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Refusal {
    /// There is no metal in it.
    Empty,
    /// It holds a stub.
    Stub,
    /// It holds a whole fastening.
    Whole,
    /// The fastening was left in for good.
    LeftIn,
    /// The bung is already out.
    AlreadyBare,
    /// The mouth is closed, or nothing is meant to close it.
    NotBare,
    /// The plank side is already plugged.
    AlreadyPlugged,
    /// The plank was plugged over it.
    PluggedOver,
    /// The plank side went with the old plank.
    PlankGone,
    /// The frame side is already doweled.
    AlreadyDoweled,
    /// The member is new and has no hole there.
    MemberNew,
    /// The plank side is taken up by a piece of metal.
    PlankFilled,
    /// The frame side is taken up by a piece of metal.
    FrameFilled,
}

impl Refusal {
    /// What is in the way, as the end of a sentence that begins with the place.
    pub const fn says(self) -> &'static str {
        match self {
            Self::Empty => "there is no metal in the hole",
            Self::Stub => "there is only a stub in the hole",
            Self::Whole => "the fastening is whole",
            Self::LeftIn => "the fastening was left in, not relied on",
            Self::AlreadyBare => "the head is already bare",
            Self::NotBare => "no bare head is there to close over",
            Self::AlreadyPlugged => "the plank's hole is already plugged",
            Self::PluggedOver => "the plank's hole was plugged over it",
            Self::PlankGone => "the hole went with the old plank",
            Self::AlreadyDoweled => "the frame's hole already has a dowel",
            Self::MemberNew => "the member is new and has no hole there",
            Self::PlankFilled => "there is metal in the plank's hole",
            Self::FrameFilled => "there is metal in the frame's hole",
        }
    }

    /// What would make it possible, as an order.
    pub const fn help(self) -> &'static str {
        match self {
            Self::Empty => "see `refasten show --each` for what stands there",
            Self::Stub => "a stub is `cleared`; or plug over it and drive a new one beside it",
            Self::Whole => "log it `pulled` or `broken` first",
            Self::LeftIn => "it can be `pulled` or `broken`",
            Self::AlreadyBare => "`bunged` or `stopped` closes it again",
            Self::NotBare => "log the bung out with `bared`, or drive the fastening first",
            Self::AlreadyPlugged | Self::PluggedOver => {
                "a plug is for good: bore beside it with `--hole new`"
            }
            Self::PlankGone => "there is nothing to close",
            Self::AlreadyDoweled | Self::MemberNew => "it can be bored: `driven --hole same`",
            Self::PlankFilled | Self::FrameFilled => {
                "log it `pulled`, or its stub `cleared`, first"
            }
        }
    }
}

/// What a hole holds after a deed is done to it; nothing changes where it holds metal before and
/// after. Driving is not here: it puts a new fastening in, and needs [`can_drive`]. Deeds to
/// planks and members are not here either: they are done to the wood.
pub(super) fn act(
    did: Did,
    stub: Stub,
    missing: bool,
    before: Content,
) -> Result<Content, Refusal> {
    use Content::{Empty, InPlace, LeftIn, StubInBoth, StubInFrame, StubInPlank};
    use FrameHole::{Doweled, Open as FrameOpen};
    use PlankHole::{Gone, Open, Plugged};
    let after = match (did, before) {
        (Did::Checked | Did::Bared, InPlace(_) | LeftIn(_)) if missing => Content::BARE,

        (Did::Checked, Empty(..)) => return Err(Refusal::Empty),
        // The last one pulled can still be measured on the bench.
        (Did::Checked | Did::Measured, _) => before,

        (Did::Bared, InPlace(Mouth::Open) | LeftIn(Mouth::Open)) => {
            return Err(Refusal::AlreadyBare);
        }
        (Did::Bared, InPlace(Mouth::Closed)) => InPlace(Mouth::Open),
        (Did::Bared, LeftIn(Mouth::Closed)) => LeftIn(Mouth::Open),
        (Did::Bared, InPlace(Mouth::Flush) | LeftIn(Mouth::Flush)) => before,

        (Did::Hardened, InPlace(_)) => before,
        (Did::Hardened, LeftIn(_)) => return Err(Refusal::LeftIn),

        (Did::Pulled, InPlace(_) | LeftIn(_)) => Content::BARE,
        (Did::Broken, InPlace(_) | LeftIn(_)) => Content::stub(stub),

        (Did::Left, InPlace(mouth)) => LeftIn(mouth),
        (Did::Left, LeftIn(_)) => return Err(Refusal::LeftIn),

        (Did::Bared | Did::Hardened | Did::Pulled | Did::Broken | Did::Left, Empty(..)) => {
            return Err(Refusal::Empty);
        }
        (Did::Bared | Did::Hardened | Did::Pulled | Did::Broken | Did::Left, _) => {
            return Err(Refusal::Stub);
        }

        (Did::Cleared, StubInFrame(Plugged)) => return Err(Refusal::PluggedOver),
        (Did::Cleared, StubInFrame(plank)) => Empty(plank, FrameOpen),
        (Did::Cleared, StubInBoth) => Content::BARE,
        (Did::Cleared, StubInPlank(frame)) => Empty(Open, frame),
        (Did::Cleared, Empty(..)) => return Err(Refusal::Empty),
        (Did::Cleared, InPlace(_) | LeftIn(_)) => return Err(Refusal::Whole),

        (Did::Plugged, Empty(Plugged, _) | StubInFrame(Plugged)) => {
            return Err(Refusal::AlreadyPlugged);
        }
        (Did::Plugged, Empty(Gone, _) | StubInFrame(Gone)) => return Err(Refusal::PlankGone),
        (Did::Plugged, Empty(Open, frame)) => Empty(Plugged, frame),
        (Did::Plugged, StubInFrame(Open)) => StubInFrame(Plugged),
        (Did::Plugged, _) => return Err(Refusal::PlankFilled),

        (Did::Doweled, Empty(_, Doweled) | StubInPlank(Doweled)) => {
            return Err(Refusal::AlreadyDoweled);
        }
        (Did::Doweled, Empty(_, FrameHole::Gone) | StubInPlank(FrameHole::Gone)) => {
            return Err(Refusal::MemberNew);
        }
        (Did::Doweled, Empty(plank, FrameOpen)) => Empty(plank, Doweled),
        (Did::Doweled, StubInPlank(FrameOpen)) => StubInPlank(Doweled),
        (Did::Doweled, _) => return Err(Refusal::FrameFilled),

        (Did::Bunged | Did::Stopped, InPlace(Mouth::Open)) => InPlace(Mouth::Closed),
        (Did::Bunged | Did::Stopped, LeftIn(Mouth::Open)) => LeftIn(Mouth::Closed),
        (Did::Bunged | Did::Stopped, _) => return Err(Refusal::NotBare),

        // None of these is done to what stands in a hole.
        (
            Did::Driven
            | Did::Struck
            | Did::PlankOff
            | Did::PlankHung
            | Did::Faired
            | Did::Sistered
            | Did::FrameRenewed,
            _,
        ) => before,
    };
    Ok(after)
}

/// Whether a new fastening can go into this hole. Where the plank is new it is bored through to
/// the old place in the frame.
pub(super) fn can_drive(content: Content) -> Result<(), Refusal> {
    match content {
        Content::Empty(PlankHole::Open | PlankHole::Gone, _) => Ok(()),
        Content::Empty(PlankHole::Plugged, _) => Err(Refusal::AlreadyPlugged),
        Content::InPlace(_) | Content::LeftIn(_) => Err(Refusal::PlankFilled),
        Content::StubInFrame(_) | Content::StubInPlank(_) | Content::StubInBoth => {
            Err(Refusal::Stub)
        }
    }
}
