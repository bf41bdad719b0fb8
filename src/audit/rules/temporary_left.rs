//! # temporary-left
//!
//! **Looks for** fastenings that were logged as `temporary` and are still in.
//!
//! **Why.** A screw driven only to clamp a plank, or to hold it while its neighbours are drawn,
//! has seldom the metal, the size or the bung of one that stays. Bunged over by mistake, a steel
//! clamp screw is hard to find again and rusts where it is.
//!
//! **Limits.** None. A temporary fastening is never relied on.
//!
//! **Severity.** Mend, whatever it is of and wherever it is.
//!
//! **Sources.** Common practice, no source.
//!
//! **What to do.** Draw it and log it with `pulled`; then drive what belongs there, or plug and
//! dowel the hole.

use crate::audit::{Hits, Rule, Saying, Severity, Survey};
use crate::tables::Basis;

pub(in crate::audit) const RULE: Rule = Rule {
    name: "temporary-left",
    file: include_str!("temporary_left.rs"),
    limits: &[],
    sources: &[Basis::practice("what only clamps comes out again")],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    for (at, alike) in survey.alike() {
        let left = at
            .holes
            .iter()
            .filter(|hole| hole.has_metal() && survey.fastening(hole).temporary);
        let count = left.count();
        if count > 0 {
            let saying = Saying::new(
                Severity::Mend,
                "a temporary fastening is still in",
                "draw it, then drive what belongs there or plug the hole",
            );
            hits.at_each(&alike.all, count, saying);
        }
    }
}
