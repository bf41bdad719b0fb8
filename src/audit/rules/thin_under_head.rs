//! # thin-under-head
//!
//! **Looks for** fastenings with too little plank left under the head: below the cone of a wood
//! screw's, under the top of any other.
//!
//! **Why.** The plank is held by the wood between the head and the frame. Where the bung is deep
//! and the head high, little is left, and the head pulls through.
//!
//! The wood is plank − depth of the bung − height of the head. Where no height is published, as of
//! No. 22, of nails, rivets and bolts, it is left out: the wood can only be less, so what is told is
//! told for certain. Where the bung's depth or the plank is not known, nothing is said. A trunnel has
//! no head.
//!
//! **Limits.** `wood under the head for mend` 0.25 of the plank; `wood under the head for watch` 0.4.
//! Choices made here; no published figure is known.
//!
//! **Severity.** Mend or watch by these limits, of fastenings counted on to hold.
//!
//! **Sources.** Common practice, no source. Heights of heads: ASME B18.6.1 (public transcription).
//!
//! **What to do.** Draw it, plug the hole, and drive another beside it with its head less deep. Check
//! the plank's thickness first where she has been faired.

use crate::audit::situation::{self, Situation};
use crate::audit::{Hits, Rule, Saying, Severity, Survey};
use crate::joint::{Kind, judge, limits};
use crate::tables::{Basis, Status};
use crate::units::Length;

pub(in crate::audit) const RULE: Rule = Rule {
    name: "thin-under-head",
    file: include_str!("thin_under_head.rs"),
    limits: &[limits::UNDER_HEAD_MEND, limits::UNDER_HEAD_WATCH],
    sources: &[
        Basis::practice(""),
        Basis::on("B18", Status::Transcribed, "heights of heads"),
    ],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    situation::each(survey, hits, judged);
}

fn judged(of: &Situation<'_>) -> Option<Saying> {
    let seat = of.seat().filter(|_| of.is_relied_on())?;
    if of.fastening.kind == Kind::Trunnel {
        return None;
    }
    let cone = seat.wood_below_cone();
    let wood = cone.unwrap_or(seat.wood_under_head());
    let severity = Severity::of(judge::under_head(wood, seat.plank, of.survey.limits).verdict)?;
    let plank = of.shown(seat.plank);
    let says = if wood > Length::ZERO {
        let most = if cone.is_some() { "" } else { "at most " };
        format!(
            "{most}{} of wood under the head in a {plank} plank",
            of.shown(wood)
        )
    } else {
        format!("no wood under the head in a {plank} plank")
    };
    let remedy = match severity {
        Severity::Watch => "set the head less deep when it is next drawn",
        Severity::Stop | Severity::Mend => {
            "draw it, plug the hole and drive another with its head less deep"
        }
    };
    let saying = Saying::new(severity, says, remedy)
        .figure("wood_under_head_mm", wood.mm())
        .figure("plank_mm", seat.plank.mm());
    Some(saying)
}
