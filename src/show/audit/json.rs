//! An audit as JSON, format 1.

use std::collections::BTreeMap;
use std::io::{self, Write};

use serde::Serialize;

use super::{Audit, thin};
use crate::audit::{Acceptance, Coverage, Finding, Rule, Survey};
use crate::hull::{Places, fold};
use crate::record::Tally;
use crate::show::known;

#[derive(Serialize)]
struct Report<'a> {
    format: u32,
    boat: &'a str,
    as_of: String,
    as_known: serde_json::Value,
    planned: bool,
    not_carried_out: Option<String>,
    asked: Asked,
    verdict: &'static str,
    too_thin: Vec<TooThin>,
    counts: Counts,
    coverage: Covered,
    findings: Vec<Found<'a>>,
    standing: Standing,
}

/// Null for the whole boat, and for every rule.
#[derive(Serialize)]
struct Asked {
    place: Option<String>,
    rules: Option<Vec<&'static str>>,
}

#[derive(Serialize)]
struct TooThin {
    says: String,
    place: Option<String>,
}

#[derive(Serialize)]
struct Counts {
    stop: u32,
    mend: u32,
    watch: u32,
    accepted: u32,
}

#[derive(Serialize)]
pub(super) struct Covered {
    fastenings: u32,
    looked_at: u32,
    since: Option<String>,
    as_declared: u32,
    planned: u32,
}

#[derive(Serialize)]
struct Found<'a> {
    rule: &'static str,
    severity: &'static str,
    place: String,
    crossings: u32,
    fastenings: u32,
    says: &'a str,
    figures: BTreeMap<&'static str, f64>,
    #[serde(rename = "do")]
    remedy: &'a str,
    sources: Vec<String>,
    accepted: Option<Accepted<'a>>,
}

#[derive(Serialize)]
struct Accepted<'a> {
    by: &'a str,
    why: &'a str,
    until: Option<String>,
}

/// `fastenings` is `relied_on + left_in + broken + unsound`; with `open + plugged` it is `holes`.
#[derive(Serialize)]
pub(super) struct Standing {
    holes: u32,
    fastenings: u32,
    relied_on: u32,
    left_in: u32,
    broken: u32,
    unsound: u32,
    open: u32,
    plugged: u32,
    bungs_missing: u32,
}

/// Prints an audit as JSON.
///
/// # Errors
/// When `out` fails.
pub fn json(out: &mut dyn Write, audit: &Audit<'_>) -> io::Result<()> {
    let (survey, outcome) = (audit.survey, audit.outcome);
    let report = Report {
        format: 1,
        boat: &survey.hull.boat,
        as_of: survey.day.to_string(),
        as_known: known::json(survey.book),
        planned: survey.planned().is_some(),
        not_carried_out: survey
            .planned()
            .filter(|planned| !planned.not_at.is_empty())
            .map(|planned| fold(survey.hull, planned.not_at.iter().copied()).to_string()),
        asked: Asked {
            place: audit.place.map(ToString::to_string),
            rules: (!audit.only.is_empty())
                .then(|| audit.only.iter().map(|rule| rule.name).collect()),
        },
        verdict: outcome.verdict.words(),
        too_thin: outcome.thin.iter().map(too_thin).collect(),
        counts: Counts {
            stop: outcome.counts.stop,
            mend: outcome.counts.mend,
            watch: outcome.counts.watch,
            accepted: outcome.counts.accepted,
        },
        coverage: covered(&outcome.coverage),
        findings: outcome
            .findings
            .iter()
            .map(|finding| found(survey, finding))
            .collect(),
        standing: standing(&outcome.standing),
    };
    serde_json::to_writer_pretty(&mut *out, &report)?;
    writeln!(out)
}

fn too_thin(why: &crate::audit::Thin) -> TooThin {
    let (says, place) = thin(why);
    TooThin {
        says,
        place: place.map(Places::to_string),
    }
}

pub(super) fn covered(coverage: &Coverage) -> Covered {
    Covered {
        fastenings: coverage.fastenings,
        looked_at: coverage.looked_at,
        since: coverage.since.map(|day| day.to_string()),
        as_declared: coverage.as_declared,
        planned: coverage.planned,
    }
}

fn found<'a>(survey: &Survey<'_>, finding: &'a Finding) -> Found<'a> {
    Found {
        rule: finding.rule.name,
        severity: finding.saying.severity.word(),
        place: finding.place.to_string(),
        crossings: finding.crossings,
        fastenings: finding.fastenings,
        says: &finding.saying.says,
        figures: finding.saying.figures.iter().copied().collect(),
        remedy: &finding.saying.remedy,
        sources: sources(survey, finding.rule),
        accepted: finding.accepted.as_ref().map(accepted),
    }
}

/// What a rule rests on, then what its limits rest on as they hold for this boat.
fn sources(survey: &Survey<'_>, rule: &Rule) -> Vec<String> {
    let mut sources: Vec<String> = Vec::new();
    let limits = rule
        .limits
        .iter()
        .map(|limit| survey.limits.bound(limit))
        .map(|bound| {
            format!(
                "limit {}, {}: {}",
                bound.limit.name,
                bound.is,
                bound.basis()
            )
        });
    for source in rule.sources.iter().map(ToString::to_string).chain(limits) {
        if !sources.contains(&source) {
            sources.push(source);
        }
    }
    sources
}

fn accepted(acceptance: &Acceptance) -> Accepted<'_> {
    Accepted {
        by: &acceptance.by,
        why: &acceptance.why,
        until: acceptance.until.map(|day| day.to_string()),
    }
}

pub(super) const fn standing(tally: &Tally) -> Standing {
    Standing {
        holes: tally.holes,
        fastenings: tally.fastenings(),
        relied_on: tally.relied_on,
        left_in: tally.left_in,
        broken: tally.broken,
        unsound: tally.unsound,
        open: tally.open,
        plugged: tally.plugged,
        bungs_missing: tally.bungs_missing,
    }
}
