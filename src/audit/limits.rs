//! Limits that only the audit judges by; a wrong name fails the build.

use crate::tables::Limit;

pub(super) const PLANK_END: &Limit = Limit::get("plank end");
pub(super) const LOOSE_IN_A_ROW: &Limit = Limit::get("loose crossings in a row");
pub(super) const PLANK_LOOSE_STOP: &Limit = Limit::get("plank loose for stop");
pub(super) const PLANK_LOOSE_MEND: &Limit = Limit::get("plank loose for mend");
pub(super) const OPEN_FRAMES: &Limit = Limit::get("open frames at once");
pub(super) const BUTT_SPACES: &Limit = Limit::get("butts in neighbouring strakes");
pub(super) const BUTTS_APART: &Limit = Limit::get("butts on unusual frames");
pub(super) const STRAKES_BETWEEN: &Limit = Limit::get("strakes between butts");
pub(super) const CLOSEST_FRAMES: &Limit = Limit::get("closest usual frames");
pub(super) const WIDEST_FRAMES: &Limit = Limit::get("widest usual frames");
pub(super) const SHORTEST_PLANK: &Limit = Limit::get("shortest plank");
pub(super) const SHORTEST_LENGTH: &Limit = Limit::get("shortest plank in length");
pub(super) const WIDEST_GRAVING: &Limit = Limit::get("widest graving piece");
pub(super) const SCARF_SLOPE: &Limit = Limit::get("scarf slope");
pub(super) const BEYOND_DAMAGE: &Limit = Limit::get("sister beyond the damage");
pub(super) const PLANKS_PAST: &Limit = Limit::get("planks past the damage");
pub(super) const SISTERS: &Limit = Limit::get("sisters side by side");
pub(super) const CROSSING_STOP: &Limit = Limit::get("strength of a crossing for stop");
pub(super) const CROSSING_MEND: &Limit = Limit::get("strength of a crossing for mend");
pub(super) const WEAK_NEIGHBOURS: &Limit = Limit::get("weak neighbours");
pub(super) const FIRST_LOOK_SALT: &Limit = Limit::get("first look in salt water");
pub(super) const NEXT_LOOK_SALT: &Limit = Limit::get("next look in salt water");
pub(super) const FIRST_LOOK_FRESH: &Limit = Limit::get("first look in fresh water");
pub(super) const NEXT_LOOK_FRESH: &Limit = Limit::get("next look in fresh water");
