//! The table of what can be done to a hole, as data: for a page that has to know it too.

use super::act::{act, can_drive};
use super::replay::content_when_driven;
use super::{Content, Did, FrameHole, Mouth, PlankHole, Refusal, Stub};

/// What else is told with a deed, as far as what becomes of the hole hangs on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Told {
    /// Nothing.
    Nothing,
    /// Of a look: that nothing was there after all.
    Missing,
    /// Of one that broke: where the stub is.
    Stub(Stub),
    /// Of one driven: that its mouth is to be closed.
    Covered,
}

/// What one deed makes of everything that can be in a hole.
#[derive(Clone, Debug)]
pub struct Row {
    /// The deed.
    pub did: Did,
    /// What else is told.
    pub told: Told,
    /// What becomes of each of [`Content::every`], in that order.
    pub becomes: Vec<Result<Content, Refusal>>,
}

/// Every deed that is done to holes, with what else may be told of it.
pub fn table() -> Vec<Row> {
    let mut rows = Vec::new();
    for did in Did::ALL.iter().copied() {
        let told: &[Told] = match did {
            Did::Checked | Did::Bared => &[Told::Nothing, Told::Missing],
            Did::Broken => &[
                Told::Stub(Stub::Frame),
                Told::Stub(Stub::Plank),
                Told::Stub(Stub::Both),
            ],
            Did::Driven => &[Told::Nothing, Told::Covered],
            Did::Measured
            | Did::Hardened
            | Did::Pulled
            | Did::Cleared
            | Did::Left
            | Did::Plugged
            | Did::Doweled
            | Did::Bunged
            | Did::Stopped => &[Told::Nothing],
            // Done to planks, members and entries.
            Did::PlankOff
            | Did::PlankHung
            | Did::Faired
            | Did::Sistered
            | Did::FrameRenewed
            | Did::Struck => &[],
        };
        rows.extend(told.iter().map(|told| {
            Row {
                did,
                told: *told,
                becomes: Content::every()
                    .into_iter()
                    .map(|before| becomes(did, *told, before))
                    .collect(),
            }
        }));
    }
    rows
}

fn becomes(did: Did, told: Told, before: Content) -> Result<Content, Refusal> {
    let stub = match told {
        Told::Stub(stub) => stub,
        _ => Stub::Frame,
    };
    match did {
        Did::Driven => {
            can_drive(before).map(|()| content_when_driven(false, told == Told::Covered))
        }
        _ => act(did, stub, told == Told::Missing, before),
    }
}

impl Content {
    /// Everything that can be in a hole.
    pub fn every() -> Vec<Self> {
        let mouths = [Mouth::Closed, Mouth::Open, Mouth::Flush];
        let planks = [PlankHole::Open, PlankHole::Plugged, PlankHole::Gone];
        let frames = [FrameHole::Open, FrameHole::Doweled, FrameHole::Gone];
        let mut every = Vec::new();
        every.extend(mouths.map(Self::InPlace));
        every.extend(mouths.map(Self::LeftIn));
        every.extend(planks.map(Self::StubInFrame));
        every.extend(frames.map(Self::StubInPlank));
        every.push(Self::StubInBoth);
        for plank in planks {
            every.extend(frames.map(|frame| Self::Empty(plank, frame)));
        }
        every
    }
}
