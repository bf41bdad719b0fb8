//! # gauge-off-rule
//!
//! **Looks for** wood screws much thinner or thicker than the planking rule's for their plank.
//!
//! **Why.** A thin screw is weak and has a small head. A thick one may split what it is driven into,
//! and is often the end of a long story: each refastening went up a size, and there is no wood
//! left for the next.
//!
//! Sizes are counted in the steps that screws are made in: from No. 14 down they are 12, 10, 9, 8.
//! A British or metric screw is counted from the one of its own kind that is nearest in shank to
//! the rule's. Planking outside the table is not asked,
//! nor are nails, rivets and bolts: no published table gives their size by the plank.
//!
//! **Limits.** `gauges under the rule` 2 sizes; `gauges over the rule` 3 sizes. Choices made here.
//!
//! **Severity.** Watch, of fastenings counted on to hold.
//!
//! **Sources.** Herreshoff screw table, as reprinted by a fastener supplier (public transcription).
//!
//! **What to do.** Nothing at once. When it is next drawn, drive the rule's size: where the hole is
//! too wide for it, glue in a dowel and bore again.

use crate::audit::situation::{self, Situation};
use crate::audit::{Hits, Rule, Saying, Severity, Survey};
use crate::joint::{judge, limits};
use crate::tables::{Basis, GaugeSystem, Quantity, Screw, Status};

pub(in crate::audit) const RULE: Rule = Rule {
    name: "gauge-off-rule",
    file: include_str!("gauge_off_rule.rs"),
    limits: &[limits::GAUGES_UNDER, limits::GAUGES_OVER],
    sources: &[Basis::on("HST", Status::Transcribed, "gauges")],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    situation::each(survey, hits, judged);
}

fn judged(of: &Situation<'_>) -> Option<Saying> {
    let screw = of.screw().filter(|_| of.is_relied_on())?;
    let rule = Screw::by_gauge(GaugeSystem::American, of.row()?.gauge)?;
    let wanted = rule.nearest_in(screw.system)?;
    let off = screw.sizes_above(wanted);
    let severity = Severity::of(judge::gauges_off(off, of.survey.limits).verdict)?;
    let which = if off < 0 { "under" } else { "over" };
    let sizes = Quantity::Gauges(u32::try_from(off.unsigned_abs()).unwrap_or(u32::MAX));
    let mut says = format!("{} is {sizes} {which} {}", screw.name(), wanted.name());
    says += &match wanted == rule {
        true => ", the rule's for this plank".to_owned(),
        false => format!(", the nearest to the rule's {}", rule.name()),
    };
    let remedy = match off < 0 {
        true => "drive the rule's size when it is next drawn",
        false => "dowel and drive the rule's size when it is next drawn",
    };
    Some(Saying::new(severity, says, remedy).figure("sizes_over_rule", off as f64))
}
