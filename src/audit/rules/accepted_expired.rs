//! # accepted-expired
//!
//! **Looks for** acceptances in hull.yaml whose day has passed. What they accepted is listed
//! again among the findings.
//!
//! **Why.** A surveyor accepts a thing until a day. After it somebody must look again.
//!
//! **Limits.** None; the day is the acceptance's own `until`, and it still holds on that day.
//!
//! **Severity.** Watch.
//!
//! **Sources.** A survey-practice publication, 2013: where deterioration is handled
//! progressively it is noted at each survey with the next date.
//!
//! **What to do.** Put it right, or have it looked at and accepted again with a new date.

use crate::audit::{Acceptance, Rule, Saying, Severity};
use crate::tables::Basis;
use crate::units::Day;

pub(in crate::audit) const RULE: Rule = Rule {
    name: "accepted-expired",
    file: include_str!("accepted_expired.rs"),
    limits: &[],
    sources: &[Basis::practice("")],
    check: |_, _| {},
};

pub(in crate::audit) fn saying(acceptance: &Acceptance, until: Day) -> Saying {
    let says = format!(
        "`{}` was accepted by {} until {until}",
        acceptance.rule.name, acceptance.by
    );
    Saying::new(
        Severity::Watch,
        says,
        "put it right, or have it looked at and accepted again",
    )
}
