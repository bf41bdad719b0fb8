//! # bung-missing
//!
//! **Looks for** fastenings whose heads are bare though a bung or stopping is meant to cover them:
//! newly driven ones, and those whose bung was taken out for a look.
//!
//! **Why.** Water stands in an open counterbore. It wets the end grain of the plank, and the head
//! is the first to waste.
//!
//! **Limits.** None: one bare head is enough. Heads that lie flush, with nothing meant to cover
//! them, are not bare. What is left in and not relied on needs its bung as well.
//!
//! **Severity.** Mend in wet zones (underwater, wind and water, deck); watch in the dry ones.
//!
//! **Sources.** Common practice, no source.
//!
//! **What to do.** Set the bungs, or stop the heads, and log it with `bunged` or `stopped`.

use crate::audit::{Hits, Rule, Saying, Severity, Survey};
use crate::record::{Hole, Mouth};
use crate::tables::Basis;

pub(in crate::audit) const RULE: Rule = Rule {
    name: "bung-missing",
    file: include_str!("bung_missing.rs"),
    limits: &[],
    sources: &[Basis::practice("")],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    for (at, alike) in survey.alike() {
        let is_bare = |hole: &&Hole| hole.content.mouth() == Some(Mouth::Open);
        let bare = at.holes.iter().filter(is_bare).count();
        if bare == 0 {
            continue;
        }
        let severity = match at.crossing.zone.is_wet() {
            true => Severity::Mend,
            false => Severity::Watch,
        };
        let saying = Saying::new(
            severity,
            "bare heads, no bung or stopping over them",
            "set the bungs or stop the heads",
        );
        hits.at_each(&alike.all, bare, saying);
    }
}
