//! # open-hole
//!
//! **Looks for** holes that stand open through the plank: a fastening was drawn or broke off, and
//! the plank's hole was neither used again nor plugged.
//!
//! **Why.** An open hole in the shell is a leak. On deck it lets rain into the beam.
//!
//! **Limits.** None: one open hole is enough. It counts whether the frame behind it is open,
//! doweled, or still has a stub in it.
//!
//! **Severity.** Stop in the shell, topsides too, since she heels and rolls; mend on deck.
//!
//! **Sources.** Common practice, no source.
//!
//! **What to do.** Drive a new fastening there, doweling a spoiled frame hole first, and log it
//! with `driven`; or close the plank's hole with a glued plug and log it with `plugged`.

use crate::audit::{Counted, Hits, Rule, Saying, Severity, Survey};
use crate::record::{Hole, PlankSide};
use crate::tables::Basis;

pub(in crate::audit) const RULE: Rule = Rule {
    name: "open-hole",
    file: include_str!("open_hole.rs"),
    limits: &[],
    sources: &[Basis::practice("")],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    for (at, alike) in survey.alike() {
        let is_open = |hole: &&Hole| hole.content.plank_side() == PlankSide::Open;
        let open = at.holes.iter().filter(is_open).count();
        if open == 0 {
            continue;
        }
        let severity = match at.crossing.strake.id.side.is_deck() {
            true => Severity::Mend,
            false => Severity::Stop,
        };
        let saying = Saying::new(
            severity,
            "holes stand open in the plank",
            "drive new fastenings there, or plug the holes",
        )
        .counting(Counted::Holes);
        hits.at_each(&alike.all, open, saying);
    }
}
