//! # not-recorded
//!
//! **Looks for** crossings of which the record knows nothing: no set in hull.yaml covers them, and
//! nothing was ever driven there by the log.
//!
//! **Why.** Every plank is fastened wherever it crosses a member, so there is something there; the
//! record does not know what. No other rule can speak of such a crossing.
//!
//! **Limits.** None. A crossing whose holes are known to be empty is recorded.
//!
//! **Severity.** Watch, in the shell and on deck. In the shell it also makes the record too thin
//! for a verdict: without stops the audit then says so, and not that there are none.
//!
//! **Sources.** Common practice, no source.
//!
//! **What to do.** Add a set for them to hull.yaml. What is not known of it may be `unknown`; draw
//! a few and log what comes out.

use crate::audit::{Hits, Rule, Saying, Severity, Survey};
use crate::tables::Basis;

pub(in crate::audit) const RULE: Rule = Rule {
    name: "not-recorded",
    file: include_str!("not_recorded.rs"),
    limits: &[],
    sources: &[Basis::practice("")],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    for (_, alike) in survey.alike().filter(|(at, _)| at.holes.is_empty()) {
        let saying = Saying::new(
            Severity::Watch,
            "nothing is recorded here",
            "add a set for it to hull.yaml, with `unknown` for what nobody knows",
        );
        hits.at_each(&alike.all, 0, saying);
    }
}
