//! Limits that only the audit judges by; a wrong name fails the build.

use crate::tables::Limit;

pub(super) const PLANK_END: &Limit = Limit::get("plank end");
pub(super) const LOOSE_IN_A_ROW: &Limit = Limit::get("loose crossings in a row");
pub(super) const PLANK_LOOSE_STOP: &Limit = Limit::get("plank loose for stop");
pub(super) const PLANK_LOOSE_MEND: &Limit = Limit::get("plank loose for mend");
