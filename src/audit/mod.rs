//! What must be put right before she is relaunched.
//!
//! A [`Survey`] is the boat on one day. Each [`Rule`] looks it over and reports to [`Hits`];
//! [`audit`] folds what they say into [`Finding`]s, puts aside what somebody has accepted, and
//! gives a [`Verdict`] with how much of the boat it rests on.

mod accepted;
mod alike;
mod coverage;
mod finding;
mod hits;
mod holding;
mod joints;
mod lengthwise;
mod limits;
mod lots;
mod rule;
mod rules;
mod sisters;
mod situation;
mod survey;
mod verdict;
mod wear;

pub use accepted::Acceptance;
pub use coverage::{Coverage, Part};
pub use finding::{Counts, Finding};
pub use hits::{Counted, Hits, Saying, Severity};
pub use holding::Holding;
pub use rule::Rule;
pub use survey::{At, Survey};
pub use verdict::{Thin, Verdict};
pub use wear::WeakShares;

use crate::record::Tally;

/// Everything an audit has to say.
#[derive(Debug)]
pub struct Outcome {
    /// May she be relaunched, as far as this record goes?
    pub verdict: Verdict,
    /// What makes the record too thin, where it is.
    pub thin: Vec<Thin>,
    /// How many findings of each severity.
    pub counts: Counts,
    /// What it rests on.
    pub coverage: Coverage,
    /// Findings, the gravest first.
    pub findings: Vec<Finding>,
    /// Every hole counted by state.
    pub standing: Tally,
}

/// Looks a boat over by some rules.
pub fn audit(survey: &Survey<'_>, rules: &[&'static Rule]) -> Outcome {
    let (findings, coverage) = finding::find(survey, rules, || Coverage::of(survey));
    let counts = Counts::of(&findings);
    let thin = verdict::thin(survey);
    let mut standing = Tally::default();
    for (at, alike) in survey.alike() {
        standing.count_each(at.holes, alike.all.len());
    }
    Outcome {
        verdict: Verdict::of(&counts, &thin),
        thin,
        counts,
        coverage,
        standing,
        findings,
    }
}
