//! # plank-end-loose
//!
//! **Looks for** plank ends at which half of the fastenings or fewer are relied on: hood ends at
//! stem, sternpost, horn timber and transom, and either side of a butt.
//!
//! **Why.** A bent plank wants to spring at its ends, and nothing beyond the end helps to hold it.
//! A sprung butt is among the signs of failing fastenings, and a sprung hood end opens the stem.
//!
//! **Limits.** `plank end`: half of what was built there, or the `per end` of the butt. A choice
//! made here; no published figure is known. An end with nothing recorded is quiet here, and one
//! at which nothing holds any more is told by `crossing-bare` alone, which stops the relaunch as
//! well. A butt that falls on a frame is judged as one crossing, both ends together.
//!
//! **Severity.** Stop in wet zones (underwater, wind and water, deck). In dry ones this rule is
//! quiet and `crossing-short` tells it.
//!
//! **Sources.** US Army TB 55-1900-201-45/1, 2-8b, for sprung butts as a sign. USCG NVIC 7-95, 4-K,
//! from memory and not checked, names hood ends and butts among the places to draw fastenings.
//!
//! **What to do.** Renew the fastenings of that end, and look behind it: ends loosen because the
//! stem, block or frame behind them is soft. The count given is that of the missing ones.

use std::collections::BTreeSet;

use crate::audit::{Counted, Hits, Rule, Saying, Severity, Survey, limits};
use crate::hull::{CrossingId, JointKind, Member};
use crate::tables::{Basis, Status};

pub(in crate::audit) const RULE: Rule = Rule {
    name: "plank-end-loose",
    file: include_str!("plank_end_loose.rs"),
    limits: &[limits::PLANK_END],
    sources: &[
        Basis::on("TB201", Status::Read, "2-8b, sprung butts"),
        Basis::on(
            "NVIC",
            Status::Memory,
            "4-K, places to draw; medium confidence",
        ),
    ],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    let share = survey.limits.bound(limits::PLANK_END).share();
    let butts = butts(survey);
    for at in survey.crossings() {
        let (id, member) = (at.crossing.id, at.crossing.member);
        let holding = survey.holding(id);
        if holding.missing() == 0 || holding.relied_on == 0 || !at.crossing.zone.is_wet() {
            continue;
        }
        let is_end =
            member.is_hood_end() || matches!(member, Member::Butt(..)) || butts.contains(&id);
        if is_end && holding.share_relied_on() <= share {
            let says = format!(
                "only {} of {} relied on at a plank's end",
                holding.relied_on, holding.expected
            );
            let remedy = "renew the fastenings of that end, and look at the wood behind it";
            let saying = Saying::new(Severity::Stop, says, remedy)
                .figure("relied_on", f64::from(holding.relied_on))
                .figure("expected", f64::from(holding.expected))
                .counting(Counted::Short);
            hits.at(id, holding.missing() as usize, saying);
        }
    }
}

/// Crossings at which a butt falls on the frame itself.
fn butts(survey: &Survey<'_>) -> BTreeSet<CrossingId> {
    let butts = survey.hull.joints.iter();
    butts
        .filter(|joint| matches!(joint.kind, JointKind::Butt { .. }))
        .flat_map(|joint| joint.crossings.iter().copied())
        .collect()
}
