//! # crossing-short
//!
//! **Looks for** crossings that are held, but by fewer fastenings than she was built with there.
//!
//! **Why.** The neighbours carry what is missing, and they are as old. What was enough for the
//! builder is the only measure there is: no published number by width of plank is known.
//!
//! **Limits.** None of its own: what was built there. That is what the sets in hull.yaml that are
//! neither replaced nor left in have there together, or the `per end` of a butt where it is more.
//! A crossing at which nothing holds any more is told by `crossing-bare`, and not here.
//!
//! **Severity.** Mend.
//!
//! **Sources.** US Army TB 55-1900-201-45/1, 2-12e: a new plank has fastenings at least equal in
//! size and number to the rest of the planking.
//!
//! **What to do.** Drive what is missing: into doweled holes, or beside the old ones where there
//! is room. The count given is that of the missing ones. If fewer but stouter fastenings were
//! driven on purpose, say so with an acceptance in hull.yaml.

use crate::audit::{Counted, Hits, Rule, Saying, Severity, Survey};
use crate::tables::{Basis, Status};

pub(in crate::audit) const RULE: Rule = Rule {
    name: "crossing-short",
    file: include_str!("crossing_short.rs"),
    limits: &[],
    sources: &[Basis::on("TB201", Status::Read, "2-12e")],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    for (at, alike) in survey.alike() {
        let holding = survey.holding(at.crossing.id);
        if holding.relied_on == 0 || holding.missing() == 0 {
            continue;
        }
        let saying = Saying::new(
            Severity::Mend,
            format!("{} of {} relied on", holding.relied_on, holding.expected),
            "drive what is missing",
        )
        .figure("relied_on", f64::from(holding.relied_on))
        .figure("expected", f64::from(holding.expected))
        .counting(Counted::Short);
        hits.at_each(&alike.all, holding.missing() as usize, saying);
    }
}
