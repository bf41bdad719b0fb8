//! # accepted-unused
//!
//! **Looks for** acceptances in hull.yaml that no longer accept anything: no finding of their
//! rule is left at their places.
//!
//! **Why.** An acceptance that stays behind after the work is done would hide the same trouble
//! when it comes back.
//!
//! **Limits.** None. Asked only when the whole boat is audited by the acceptance's rule.
//!
//! **Severity.** Watch.
//!
//! **Sources.** Common practice, no source.
//!
//! **What to do.** Take the line out of `accepted` in hull.yaml.

use crate::audit::{Acceptance, Rule, Saying, Severity};
use crate::tables::Basis;

pub(in crate::audit) const RULE: Rule = Rule {
    name: "accepted-unused",
    file: include_str!("accepted_unused.rs"),
    limits: &[],
    sources: &[Basis::practice("")],
    check: |_, _| {},
};

pub(in crate::audit) fn saying(acceptance: &Acceptance) -> Saying {
    let says = format!(
        "`{}` was accepted by {}, but nothing of it is left here",
        acceptance.rule.name, acceptance.by
    );
    Saying::new(
        Severity::Watch,
        says,
        "take the acceptance out of hull.yaml",
    )
}
