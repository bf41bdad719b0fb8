//! The limits a sample is drawn and read by; a wrong name fails the build.

use super::Confidence;
use crate::joint::{Bound, Limits};
use crate::tables::Limit;
use crate::text::Misread;

const CONFIDENCE: &Limit = Limit::get("confidence");
const DRAW_BY_LOT: &Limit = Limit::get("fastenings to draw by lot");
const OPEN_FRAMES: &Limit = Limit::get("open frames at once");
const SHARE_TO_SHOW: &Limit = Limit::get("bad share to show");

/// How sure a bound is to be.
///
/// # Errors
/// When the user's own limit is nothing at all or certainty, which no sample gives.
pub fn confidence(limits: &Limits) -> Result<Confidence, Misread> {
    let bound = limits.bound(CONFIDENCE);
    Confidence::new(bound.share()).ok_or_else(|| {
        Misread::new(format!("a confidence of {} proves nothing", bound.is))
            .help("set the limit `confidence` between 0 and 1: 0.95 is usual")
    })
}

/// How many are drawn of each zone and metal where nobody says.
pub fn draw_by_lot(limits: &Limits) -> Bound {
    limits.bound(DRAW_BY_LOT)
}

/// The bad share that is worth showing to be the most.
pub fn share_to_show(limits: &Limits) -> Bound {
    limits.bound(SHARE_TO_SHOW)
}

/// How many frames may stand open at once; one at the least, or nothing could be drawn.
pub(crate) fn open_frames(limits: &Limits) -> usize {
    limits.bound(OPEN_FRAMES).count().max(1) as usize
}
