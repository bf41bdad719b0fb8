//! Findings that somebody has accepted.

use super::rules::{accepted_expired, accepted_unused};
use super::{Finding, Rule, Saying, Survey};
use crate::hull::{CrossingId, Places};
use crate::text::Origin;
use crate::units::Day;

/// A finding that somebody answers for, at some places, perhaps until a day.
#[derive(Clone, Debug)]
pub struct Acceptance {
    /// The rule.
    pub rule: &'static Rule,
    /// Where.
    pub place: Places,
    /// Why.
    pub why: String,
    /// Who answers for it.
    pub by: String,
    /// The last day it holds.
    pub until: Option<Day>,
    /// Where it was written.
    pub origin: Origin,
}

impl Acceptance {
    /// Whether it still holds on a day.
    pub fn holds_on(&self, day: Day) -> bool {
        self.until.is_none_or(|until| day <= until)
    }
}

/// What is to be said of the acceptances themselves: expired, or of nothing. An acceptance is
/// only known to be of nothing where its rule was asked and the whole boat looked at.
pub(super) fn findings(
    survey: &Survey<'_>,
    rules: &[&'static Rule],
    accepts: &[Vec<CrossingId>],
    uses: &[bool],
) -> Vec<Finding> {
    let said = |rule: &'static Rule, acceptance: &Acceptance, saying: Saying| {
        rules.contains(&rule).then(|| Finding {
            rule,
            saying,
            place: acceptance.place.clone(),
            crossings: 0,
            fastenings: 0,
            accepted: None,
        })
    };
    survey
        .accepted
        .iter()
        .zip(accepts)
        .zip(uses)
        .filter(|((_, crossings), _)| crossings.iter().any(|id| survey.asks_about(*id)))
        .filter_map(|((acceptance, _), used)| match (acceptance.until, used) {
            (Some(until), _) if !acceptance.holds_on(survey.day) => said(
                &accepted_expired::RULE,
                acceptance,
                accepted_expired::saying(acceptance, until),
            ),
            (_, false) if survey.asks_about_all() && rules.contains(&acceptance.rule) => said(
                &accepted_unused::RULE,
                acceptance,
                accepted_unused::saying(acceptance),
            ),
            _ => None,
        })
        .collect()
}
