//! # crossing-bare
//!
//! **Looks for** crossings at which nothing holds the plank to the member: every fastening is
//! drawn, broken, left in or found not to hold, or the plank itself is off.
//!
//! **Why.** A plank is held frame by frame. Where one has nothing in it the neighbours carry its
//! share, and a plank springs by the run.
//!
//! **Limits.** None: one fastening relied on is enough for this rule. Whether there are enough of
//! them is asked by `crossing-short`.
//!
//! **Severity.** Stop.
//!
//! **Sources.** US Army TB 55-1900-201-45/1, 2-12e: a new plank has fastenings at least equal in
//! size and number to the rest of the planking.
//!
//! **What to do.** Dowel what is spoiled, drive new fastenings, and log them with `driven`. If a
//! crossing is bare on purpose, as under a plank that is off, say so with an acceptance in
//! hull.yaml.

use crate::audit::{Counted, Hits, Rule, Saying, Severity, Survey};
use crate::tables::{Basis, Status};

pub(in crate::audit) const RULE: Rule = Rule {
    name: "crossing-bare",
    file: include_str!("crossing_bare.rs"),
    limits: &[],
    sources: &[Basis::on("TB201", Status::Read, "2-12e")],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    for (at, alike) in survey.alike() {
        if survey.state.is_off(at.crossing.id) {
            let saying = Saying::new(
                Severity::Stop,
                "the plank is off",
                "hang the plank and fasten it",
            );
            hits.at_each(&alike.all, at.holes.len(), saying);
        } else if !at.holes.is_empty() && at.relied_on().next().is_none() {
            let saying = Saying::new(
                Severity::Stop,
                "nothing here holds the plank",
                "drive new fastenings, doweling spoiled holes first",
            )
            .counting(Counted::Holes);
            hits.at_each(&alike.all, at.holes.len(), saying);
        }
    }
}
