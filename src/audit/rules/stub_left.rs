//! # stub-left
//!
//! **Looks for** stubs of broken fastenings that are still in the wood.
//!
//! **Why.** A stub holds nothing and is in the way of the next fastening. Iron that stays near new
//! bronze in wet wood eats the wood around it.
//!
//! **Limits.** None. A stub in the frame may stay if the crossing has as many relied on as were
//! built there and the plank's hole over the stub is plugged. A stub in the plank, or across the
//! joint, can never be plugged over: it stands in the plank's hole, often proud of the frame.
//!
//! **Severity.** Mend where it is not fully replaced, not plugged over or stands in the plank;
//! watch where it is replaced and plugged over.
//!
//! **Sources.** Common practice, no source.
//!
//! **What to do.** Get the stub out with a tube bit and dowel the hole, and log it with `cleared`
//! and `doweled`; or drive the replacement a little fore or aft of it, never straight above or
//! below along the grain of the frame, and plug the old hole.

use std::collections::BTreeMap;

use crate::audit::{Hits, Rule, Saying, Severity, Survey};
use crate::record::{Content, PlankHole};
use crate::tables::Basis;

pub(in crate::audit) const RULE: Rule = Rule {
    name: "stub-left",
    file: include_str!("stub_left.rs"),
    limits: &[],
    sources: &[Basis::practice(
        "left iron near new bronze couples in wet wood",
    )],
    check,
};

/// What is said of a stub: how soon, what is wrong, what to do.
type Said = (Severity, &'static str, &'static str);

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    for (at, alike) in survey.alike() {
        let holding = survey.holding(at.crossing.id);
        let replaced = holding.relied_on > 0 && holding.missing() == 0;
        let mut stubs: BTreeMap<Said, usize> = BTreeMap::new();
        for said in at
            .holes
            .iter()
            .filter_map(|hole| said(hole.content, replaced))
        {
            *stubs.entry(said).or_default() += 1;
        }
        for ((severity, says, remedy), count) in stubs {
            hits.at_each(&alike.all, count, Saying::new(severity, says, remedy));
        }
    }
}

/// What is to be said of what is in a hole; nothing where it is no stub.
const fn said(content: Content, replaced: bool) -> Option<Said> {
    Some(match content {
        Content::StubInPlank(_) | Content::StubInBoth => (
            Severity::Mend,
            "stub left in the plank's hole, where nothing can be plugged over it",
            "get it out, then drive or plug",
        ),
        Content::StubInFrame(_) if !replaced => (
            Severity::Mend,
            "stub left, and fewer relied on beside it than were built there",
            "drive what is missing beside it, or get it out and use the hole again",
        ),
        Content::StubInFrame(PlankHole::Open) => (
            Severity::Mend,
            "stub left in the frame, the plank's hole over it not plugged",
            "plug the plank's hole, or get the stub out",
        ),
        Content::StubInFrame(PlankHole::Plugged | PlankHole::Gone) => (
            Severity::Watch,
            "stub left in the frame, replaced and plugged over",
            "nothing now; know that it is there when you bore",
        ),
        Content::InPlace(_) | Content::LeftIn(_) | Content::Empty(..) => return None,
    })
}
