//! # point-through
//!
//! **Looks for** fastenings driven blind, screws, nails and drifts, whose point comes through the
//! far side of the member or stops just short of it. At a butt the member is the block. Clenched
//! nails, rivets, bolts and trunnels go through on purpose and are not asked.
//!
//! **Why.** A point that comes through holds by less than its length, lets water along itself, tears
//! hands in the bilge, and has often split the frame on its way out. A point that all but comes
//! through splits off a chip when it is driven.
//!
//! The point lies at head depth + length − plank in the member. Where the bung's depth is not
//! known the head is taken as flush: deeper it could only come further, so what is told is told
//! for certain. Where length, plank or member is not known, nothing is said.
//!
//! **Limits.** `point margin` 1/8 in of wood beyond the point; common practice, no source.
//!
//! **Severity.** Mend where the point comes through; watch under the margin. Of fastenings in place,
//! sound or not; what was left in is not asked.
//!
//! **Sources.** Common practice, no source: a point stops 1/8 to 1/4 in short.
//!
//! **What to do.** Check the member's depth in hull.yaml first. Then draw it and drive a shorter one,
//! or in a shallow frame ask `refasten pick` with the place for what fits.

use std::cmp::Ordering;

use crate::audit::situation::{self, Situation};
use crate::audit::{Hits, Rule, Saying, Severity, Survey};
use crate::joint::{judge, limits};
use crate::record::HoleState;
use crate::tables::Basis;
use crate::units::Length;

pub(in crate::audit) const RULE: Rule = Rule {
    name: "point-through",
    file: include_str!("point_through.rs"),
    limits: &[limits::POINT_MARGIN],
    sources: &[Basis::practice("a point stops 1/8 to 1/4 in short")],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    situation::each(survey, hits, judged);
}

fn judged(of: &Situation<'_>) -> Option<Saying> {
    if of.fastening.kind.goes_through() || of.state == HoleState::LeftIn {
        return None;
    }
    let depth = of.head_depth();
    let cover = of
        .seat_under(depth.unwrap_or(Length::ZERO))?
        .point_cover()?;
    let severity = Severity::of(judge::point(cover, of.survey.limits).verdict)?;
    let known = depth.is_some();
    let says = match cover.cmp(&Length::ZERO) {
        Ordering::Less => {
            let least = if known { "" } else { "at least " };
            format!("the point comes {least}{} through", of.shown(-cover))
        }
        Ordering::Equal => "no wood beyond the point".to_owned(),
        Ordering::Greater => {
            let most = if known { "" } else { "at most " };
            format!("{most}{} of wood beyond the point", of.shown(cover))
        }
    };
    let saying = Saying::new(severity, says, "draw it and drive a shorter one");
    Some(saying.figure("point_cover_mm", cover.mm()))
}
