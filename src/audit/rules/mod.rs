//! Every rule, one file each. The comment at the head of a file is the page that `explain`
//! prints. A rule is listed once, here.

use super::Rule;

pub(super) mod accepted_expired;
pub(super) mod accepted_unused;
mod bare_steel;
mod brass_in_salt;
mod bung_deep;
mod bung_missing;
mod bung_shallow;
mod bung_small;
mod butt_near_butt;
mod butt_on_frame;
mod crossing_bare;
mod crossing_short;
mod draw_due;
mod driven_in_bad_hole;
mod frame_crowded;
mod frame_hole_open;
mod gauge_off_rule;
mod graving_wide;
mod metal_unknown;
mod mixed_metals;
mod not_recorded;
mod open_hole;
mod plank_end_loose;
mod plank_loose;
mod planned_not_done;
mod point_through;
mod scarf_off_frame;
mod scarf_steep;
mod short_embedment;
mod short_plank;
mod sister_short;
mod sisters_adjacent;
mod size_unknown;
mod stainless_underwater;
mod stub_left;
mod temporary_left;
mod thin_under_head;
mod thread_in_plank;
mod too_many_open;
mod undated;
mod wasted;
mod weak_crossing;

/// Every rule, in the order their findings are listed within a severity.
pub(super) const ALL: &[&Rule] = &[
    &mixed_metals::RULE,
    &stainless_underwater::RULE,
    &brass_in_salt::RULE,
    &bare_steel::RULE,
    &metal_unknown::RULE,
    &size_unknown::RULE,
    &short_embedment::RULE,
    &point_through::RULE,
    &thin_under_head::RULE,
    &thread_in_plank::RULE,
    &gauge_off_rule::RULE,
    &frame_crowded::RULE,
    &wasted::RULE,
    &weak_crossing::RULE,
    &bung_small::RULE,
    &bung_shallow::RULE,
    &bung_deep::RULE,
    &bung_missing::RULE,
    &open_hole::RULE,
    &frame_hole_open::RULE,
    &crossing_bare::RULE,
    &crossing_short::RULE,
    &plank_end_loose::RULE,
    &plank_loose::RULE,
    &stub_left::RULE,
    &driven_in_bad_hole::RULE,
    &too_many_open::RULE,
    &temporary_left::RULE,
    &planned_not_done::RULE,
    &not_recorded::RULE,
    &undated::RULE,
    &draw_due::RULE,
    &accepted_unused::RULE,
    &accepted_expired::RULE,
    &butt_near_butt::RULE,
    &short_plank::RULE,
    &butt_on_frame::RULE,
    &scarf_off_frame::RULE,
    &scarf_steep::RULE,
    &graving_wide::RULE,
    &sister_short::RULE,
    &sisters_adjacent::RULE,
];
