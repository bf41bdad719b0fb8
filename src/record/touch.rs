//! What entries touch that are not in the log yet.

use super::replay::Change;
use crate::hull::{CrossingId, HoleNumber};
use crate::text::FileId;

/// A hole, and the entry that touches it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Touch {
    /// Number of the entry.
    pub entry: u32,
    /// The crossing.
    pub crossing: CrossingId,
    /// The hole there.
    pub hole: HoleNumber,
}

impl Touch {
    /// What an entry touches that is not in the log yet.
    pub(super) fn of_new(change: &Change<'_>) -> Option<Self> {
        (change.entry.origin.file != FileId::Log).then_some(Self {
            entry: change.entry.number,
            crossing: change.crossing,
            hole: change.number,
        })
    }
}
