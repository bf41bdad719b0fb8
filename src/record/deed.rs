//! What can be done to fastenings and holes.

use crate::hull::Places;
use crate::joint::{Kind, Plug, Size};
use crate::tables::{Metal, Wood};
use crate::text::words;
use crate::units::Length;

use super::Found;

words! {
    /// The word for what was done.
    Did, "a thing that can be done" {
        /// Looked at, in the wood.
        Checked = "checked",
        /// Measured, in the wood or just drawn.
        Measured = "measured",
        /// Its bung or stopping taken out.
        Bared = "bared",
        /// Tightened.
        Hardened = "hardened",
        /// Drawn out whole.
        Pulled = "pulled" | "drawn",
        /// Broken in the drawing.
        Broken = "broken",
        /// A stub got out.
        Cleared = "cleared",
        /// Left where it is, not relied on.
        Left = "left",
        /// The plank's hole closed for good.
        Plugged = "plugged",
        /// A dowel glued into the frame's hole.
        Doweled = "doweled" | "dowelled",
        /// A new fastening put in.
        Driven = "driven",
        /// A bung set.
        Bunged = "bunged",
        /// The mouth stopped with putty.
        Stopped = "stopped",
        /// A plank, or a length of it, taken off.
        PlankOff = "plank off",
        /// A plank, or a length of it, hung.
        PlankHung = "plank hung",
        /// Planking planed or sanded thinner.
        Faired = "faired",
        /// A member given a sister beside it.
        Sistered = "sistered",
        /// A member renewed.
        FrameRenewed = "frame renewed",
        /// An earlier entry struck out.
        Struck = "struck",
    }
}

impl Did {
    /// The keys of an entry that go with it; those that go with every deed are not among them.
    pub const fn keys(self) -> &'static [&'static str] {
        match self {
            Self::Bared => &["place", "set", "count", "found"],
            Self::Measured => &["place", "set", "count", "found", "diameter"],
            Self::Checked | Self::Left | Self::Pulled => {
                &["place", "set", "count", "found", "sample"]
            }
            Self::Broken => &["place", "set", "count", "found", "sample", "stub"],
            Self::Hardened
            | Self::Cleared
            | Self::Plugged
            | Self::Doweled
            | Self::Bunged
            | Self::Stopped => &["place", "set", "count"],
            Self::Driven => &[
                "place",
                "set",
                "count",
                "per crossing",
                "kind",
                "metal",
                "size",
                "bung",
                "hole",
                "temporary",
                "plan",
            ],
            Self::PlankOff => &["place"],
            Self::PlankHung => &["place", "thickness", "wood", "joints"],
            Self::Faired => &["place", "off"],
            Self::Sistered | Self::FrameRenewed => &["place", "siding", "moulding", "wood"],
            Self::Struck => &["strikes", "why"],
        }
    }
}

words! {
    /// Where the stub of a broken fastening is.
    Stub, "a place for a stub" {
        /// In the frame.
        Frame = "frame",
        /// In the plank.
        Plank = "plank",
        /// Across the joint, in both.
        Both = "both",
    }
}

words! {
    /// Which holes new fastenings went into.
    HoleChoice, "a choice of holes" {
        /// The lowest that stand open or doweled.
        Same = "same",
        /// New ones.
        New = "new",
    }
}

words! {
    /// Why a fastening was pulled to look at it.
    Sample, "a kind of sample" {
        /// Chosen by lot, so that it speaks for the rest.
        Random = "random",
        /// Chosen because it looked bad; it speaks for itself.
        Targeted = "targeted",
    }
}

/// What was put in. `None` stands for what is not known.
#[derive(Clone, Debug, PartialEq)]
pub struct Driving {
    /// The name of the set they belong to.
    pub set: String,
    /// How many at each crossing; `None` where the place names the holes.
    pub per_crossing: Option<u8>,
    /// Which holes.
    pub hole: HoleChoice,
    /// Their kind.
    pub kind: Kind,
    /// Their metal.
    pub metal: Option<&'static Metal>,
    /// What somebody took the metal for, where it is not known. Nothing is judged by it.
    pub guess: Option<String>,
    /// Their size.
    pub size: Option<Size>,
    /// What is to close the hole over them.
    pub plug: Plug,
    /// Whether they only clamp for a time, and are not relied on.
    pub temporary: bool,
    /// The name of the plan that this carries out.
    pub plan: Option<String>,
}

/// A plank, or a length of it, that was hung. `None` stands for what is not known.
#[derive(Clone, Debug, PartialEq)]
pub struct NewPlank {
    /// Its thickness.
    pub thickness: Option<Length>,
    /// Its wood.
    pub wood: Option<&'static Wood>,
    /// The joints that came with it.
    pub joints: Option<Places>,
}

/// A member that is new from its day. `None` stands for what is as it was.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct NewMember {
    /// Its siding.
    pub siding: Option<Length>,
    /// Its moulding, or the depth of its landing.
    pub depth: Option<Length>,
    /// Its wood.
    pub wood: Option<&'static Wood>,
}

/// What was done, with what only that deed tells.
#[derive(Clone, Debug, PartialEq)]
pub enum Deed {
    /// Looked at, in the wood.
    Checked(Option<Found>, Option<Sample>),
    /// Measured at its thinnest.
    Measured(Length, Option<Found>),
    /// Its bung or stopping taken out.
    Bared(Option<Found>),
    /// Tightened.
    Hardened,
    /// Drawn out whole.
    Pulled(Option<Found>, Option<Sample>),
    /// Broken in the drawing.
    Broken(Stub, Option<Found>, Option<Sample>),
    /// A stub got out.
    Cleared,
    /// Left where it is, not relied on.
    Left(Option<Found>, Option<Sample>),
    /// The plank's hole closed for good.
    Plugged,
    /// A dowel glued into the frame's hole.
    Doweled,
    /// A new fastening put in.
    Driven(Box<Driving>),
    /// A bung set.
    Bunged,
    /// The mouth stopped with putty.
    Stopped,
    /// A plank, or a length of it, taken off.
    PlankOff,
    /// A plank, or a length of it, hung.
    PlankHung(Box<NewPlank>),
    /// Planking, and the bungs in it, made thinner by so much.
    Faired(Length),
    /// A sister put beside a member; the place names the sister.
    Sistered(NewMember),
    /// A member renewed.
    FrameRenewed(NewMember),
}

impl Driving {
    /// How many go into so many crossings, where no holes are named.
    pub(super) fn total(&self, crossings: usize) -> usize {
        usize::from(self.per_crossing.unwrap_or(1)).saturating_mul(crossings)
    }
}

impl Deed {
    /// The word for it.
    pub const fn did(&self) -> Did {
        match self {
            Self::Checked(..) => Did::Checked,
            Self::Measured(..) => Did::Measured,
            Self::Bared(_) => Did::Bared,
            Self::Hardened => Did::Hardened,
            Self::Pulled(..) => Did::Pulled,
            Self::Broken(..) => Did::Broken,
            Self::Cleared => Did::Cleared,
            Self::Left(..) => Did::Left,
            Self::Plugged => Did::Plugged,
            Self::Doweled => Did::Doweled,
            Self::Driven(_) => Did::Driven,
            Self::Bunged => Did::Bunged,
            Self::Stopped => Did::Stopped,
            Self::PlankOff => Did::PlankOff,
            Self::PlankHung(_) => Did::PlankHung,
            Self::Faired(_) => Did::Faired,
            Self::Sistered(_) => Did::Sistered,
            Self::FrameRenewed(_) => Did::FrameRenewed,
        }
    }

    /// What was found, where the deed tells.
    pub const fn found(&self) -> Option<Found> {
        match self {
            Self::Checked(found, _)
            | Self::Measured(_, found)
            | Self::Bared(found)
            | Self::Pulled(found, _)
            | Self::Broken(_, found, _)
            | Self::Left(found, _) => *found,
            _ => None,
        }
    }

    /// Why it was taken up, where it was to judge the rest.
    pub const fn sample(&self) -> Option<Sample> {
        match self {
            Self::Checked(_, sample)
            | Self::Pulled(_, sample)
            | Self::Broken(_, _, sample)
            | Self::Left(_, sample) => *sample,
            _ => None,
        }
    }

    /// Whether it is done to planks or members and not to what is in the holes.
    pub const fn is_to_wood(&self) -> bool {
        matches!(
            self,
            Self::PlankOff
                | Self::PlankHung(_)
                | Self::Faired(_)
                | Self::Sistered(_)
                | Self::FrameRenewed(_)
        )
    }

    /// Whether it is done to one generation of standing metal, so that the entry must say which
    /// where two stand together.
    pub const fn is_to_standing_metal(&self) -> bool {
        matches!(
            self,
            Self::Checked(..)
                | Self::Measured(..)
                | Self::Bared(_)
                | Self::Hardened
                | Self::Pulled(..)
                | Self::Broken(..)
                | Self::Left(..)
        )
    }
}
