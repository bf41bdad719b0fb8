//! # driven-in-bad-hole
//!
//! **Looks for** fastenings relied on that went straight into a hole found bad: the one before them
//! was wasted or spun, or the wood round it soft, and no dowel was glued in first.
//!
//! **Why.** The wood round such a hole is eaten or crushed. A new fastening draws up as if it held,
//! and lets go when the plank works.
//!
//! **Limits.** None: what was found of the last fastening in that hole (`wasted`, `spun` or
//! `wood soft`) decides. A doweled hole is a new one, and so is a hole found sound.
//!
//! **Severity.** Mend.
//!
//! **Sources.** US Army TB 55-1900-201-45/1, 2-8b: plug the old holes in the frame, then drive new
//! of equivalent strength. A practitioner's page says never to put a new one in the same rotted
//! hole.
//!
//! **What to do.** Draw it, ream the hole to sound wood, glue in a dowel, and drive again; or add
//! one in sound wood beside it. If the hole was doweled before and not logged, strike the entry
//! that drove it and log both.

use crate::audit::{Hits, Rule, Saying, Severity, Survey};
use crate::tables::{Basis, Status};

pub(in crate::audit) const RULE: Rule = Rule {
    name: "driven-in-bad-hole",
    file: include_str!("driven_in_bad_hole.rs"),
    limits: &[],
    sources: &[
        Basis::on("TB201", Status::Read, "2-8b"),
        Basis::on("practitioner", Status::Read, "ream, plug, drill fresh"),
    ],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    for (at, alike) in survey.alike() {
        let bad = at.relied_on().filter(|hole| hole.in_spoiled_hole).count();
        if bad > 0 {
            let saying = Saying::new(
                Severity::Mend,
                "driven into a hole found bad, without a dowel",
                "draw it, dowel the hole and drive again, or add one in sound wood",
            );
            hits.at_each(&alike.all, bad, saying);
        }
    }
}
