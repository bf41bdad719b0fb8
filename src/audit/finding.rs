//! Findings: what the rules say, folded.

use std::collections::BTreeSet;
use std::panic::resume_unwind;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

use super::hits::{Covers, Hits};
use super::{Acceptance, Rule, Saying, Severity, Survey};
use crate::hull::{CrossingId, Places, fold};
use crate::units::count;

/// One thing the audit has to say.
#[derive(Clone, Debug)]
pub struct Finding {
    /// The rule that says it.
    pub rule: &'static Rule,
    /// What it says.
    pub saying: Saying,
    /// Where.
    pub place: Places,
    /// How many crossings it is at.
    pub crossings: u32,
    /// How many fastenings or holes it concerns.
    pub fastenings: u32,
    /// Who has accepted it, why and until when.
    pub accepted: Option<Acceptance>,
}

/// Findings counted by severity; what somebody has accepted is counted apart.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    /// Not before relaunch.
    pub stop: u32,
    /// This haul-out.
    pub mend: u32,
    /// Worth an eye.
    pub watch: u32,
    /// Accepted by somebody.
    pub accepted: u32,
}

impl Counts {
    pub(super) fn of(findings: &[Finding]) -> Self {
        let mut counts = Self::default();
        for finding in findings {
            *match (&finding.accepted, finding.saying.severity) {
                (Some(_), _) => &mut counts.accepted,
                (None, Severity::Stop) => &mut counts.stop,
                (None, Severity::Mend) => &mut counts.mend,
                (None, Severity::Watch) => &mut counts.watch,
            } += 1;
        }
        counts
    }

    /// How many, not accepted, are at least so grave.
    pub const fn at_least(&self, severity: Severity) -> u32 {
        match severity {
            Severity::Stop => self.stop,
            Severity::Mend => self.stop + self.mend,
            Severity::Watch => self.stop + self.mend + self.watch,
        }
    }
}

/// A boat of fewer crossings is looked over before another thread has begun.
const MANY_CROSSINGS: usize = 20_000;

/// Lets every rule look, and folds what they say: by rule, severity and figures, accepted apart.
/// Gives with it what `beside` finds, which looks at the same time where there is much to look at.
pub(super) fn find<T: Send>(
    survey: &Survey<'_>,
    rules: &[&'static Rule],
    beside: impl FnOnce() -> T + Send,
) -> (Vec<Finding>, T) {
    let accepts = resolve(survey);
    let mut uses = vec![false; survey.accepted.len()];
    let (found, by_side) = look(survey, rules, &accepts, beside);
    let mut findings = Vec::with_capacity(found.iter().map(|found| found.findings.len()).sum());
    for found in found {
        for at in found.accepted {
            if let Some(used) = uses.get_mut(at) {
                *used = true;
            }
        }
        findings.extend(found.findings);
    }
    findings.extend(super::accepted::findings(survey, rules, &accepts, &uses));
    // Rules come in the order they are listed in; the sort keeps that within a severity. The severities
    // are sorted, not the findings, which may be many and are large.
    findings.sort_by_cached_key(|finding| finding.saying.severity);
    (findings, by_side)
}

/// What one rule finds, and which acceptances cover any of it.
struct Found {
    findings: Vec<Finding>,
    accepted: BTreeSet<usize>,
}

/// Lets every rule look, on two threads where there is much to look at: each takes the next rule
/// that none has begun. What is found stands in the order of the rules, whoever found it.
fn look<T: Send>(
    survey: &Survey<'_>,
    rules: &[&'static Rule],
    accepts: &[Vec<CrossingId>],
    beside: impl FnOnce() -> T + Send,
) -> (Vec<Found>, T) {
    let next = AtomicUsize::new(0);
    let work = || {
        let mut done = Vec::new();
        loop {
            let at = next.fetch_add(1, Ordering::Relaxed);
            let Some(rule) = rules.get(at) else {
                return done;
            };
            done.push((at, by_rule(survey, rule, accepts)));
        }
    };
    let (mut found, by_side) = if survey.hull.crossing_count() < MANY_CROSSINGS {
        (work(), beside())
    } else {
        thread::scope(|scope| {
            let other = scope.spawn(|| (beside(), work()));
            let mut found = work();
            let (by_side, more) = other.join().unwrap_or_else(|panic| resume_unwind(panic));
            found.extend(more);
            (found, by_side)
        })
    };
    found.sort_by_key(|(at, _)| *at);
    (found.into_iter().map(|(_, found)| found).collect(), by_side)
}

/// Lets one rule look, and folds what it says.
fn by_rule(survey: &Survey<'_>, rule: &'static Rule, accepts: &[Vec<CrossingId>]) -> Found {
    let mut hits = Hits::new(survey, holding(survey, rule, accepts));
    (rule.check)(survey, &mut hits);
    let mut found = Found {
        findings: Vec::new(),
        accepted: BTreeSet::new(),
    };
    for told in hits.told {
        for (accepted, mut group) in told.groups {
            found.accepted.extend(accepted);
            // Most of it rises already.
            group.crossings.sort();
            group.crossings.dedup();
            found.findings.push(Finding {
                rule,
                saying: told.saying.clone(),
                crossings: count(group.crossings.len()),
                place: fold(survey.hull, group.crossings),
                fastenings: group.fastenings,
                accepted: accepted.and_then(|at| survey.accepted.get(at)).cloned(),
            });
        }
    }
    found
}

/// The crossings of each acceptance.
fn resolve(survey: &Survey<'_>) -> Vec<Vec<CrossingId>> {
    let crossings =
        |acceptance: &Acceptance| survey.hull.resolve(&acceptance.place).unwrap_or_default();
    survey
        .accepted
        .iter()
        .map(|acceptance| {
            crossings(acceptance)
                .iter()
                .map(|spot| spot.crossing)
                .collect()
        })
        .collect()
}

/// The acceptances of a rule that still hold.
fn holding<'s>(
    survey: &Survey<'_>,
    rule: &Rule,
    accepts: &'s [Vec<CrossingId>],
) -> Vec<Covers<'s>> {
    let all = survey.accepted.iter().zip(accepts).enumerate();
    all.filter(|(_, (acceptance, _))| acceptance.rule == rule && acceptance.holds_on(survey.day))
        .map(|(acceptance, (_, crossings))| Covers {
            acceptance,
            crossings,
        })
        .collect()
}
