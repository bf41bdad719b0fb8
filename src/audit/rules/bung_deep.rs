//! # bung-deep
//!
//! **Looks for** bungs so deep that they take too much of the plank, over any kind of fastening.
//!
//! **Why.** What the bung takes is missing under the head. A hole over a third of the plank deep
//! is a weak place in it, and leaves nothing for the next time she is faired or refastened.
//!
//! **Limits.** `most bung depth` 1/3 of the plank. No published rule for the share is known.
//!
//! **Severity.** Watch. Only where a whole fastening stands and the bung's depth and the plank's
//! thickness are known. How much wood is left under the head of a screw is asked by
//! `thin-under-head`.
//!
//! **Sources.** Common practice, no source: a quarter of the plank is usual, a third the most.
//!
//! **What to do.** Check the plank's thickness first. Else nothing at once; set the next fastenings
//! less deep.

use crate::audit::situation::{self, Situation};
use crate::audit::{Hits, Rule, Saying, Severity, Survey};
use crate::joint::{judge, limits};
use crate::tables::Basis;

pub(in crate::audit) const RULE: Rule = Rule {
    name: "bung-deep",
    file: include_str!("bung_deep.rs"),
    limits: &[limits::BUNG_MOST],
    sources: &[Basis::practice(
        "a quarter of the plank is usual, a third the most",
    )],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    situation::each(survey, hits, judged);
}

fn judged(of: &Situation<'_>) -> Option<Saying> {
    let (depth, plank) = (of.bung_depth()?, of.plank?);
    let severity = Severity::of(judge::bung_deep(depth, plank, of.survey.limits).verdict)?;
    let says = format!(
        "bung {} deep in a {} plank",
        of.shown(depth),
        of.shown(plank)
    );
    let remedy = "set the next fastenings less deep";
    let saying = Saying::new(severity, says, remedy)
        .figure("bung_depth_mm", depth.mm())
        .figure("plank_mm", plank.mm());
    Some(saying)
}
