//! What must be put right, the gravest first, each with what it rests on.

use std::io;

use super::Report;
use super::cells::list;
use super::sources::Sources;
use crate::audit::{Finding, Severity};
use crate::show::audit::{accepted, many};
use crate::show::html::Html;
use crate::show::places::in_short_words;

pub(super) fn write(
    report: &Report<'_>,
    sources: &mut Sources,
    html: &mut Html<'_>,
) -> io::Result<()> {
    let findings = &report.season.last.outcome.findings;
    let is_stop = |finding: &&Finding| finding.saying.severity == Severity::Stop;
    html.put("h2", &[], "Findings")?;
    if findings.is_empty() {
        return html.put("p", &[], "None.");
    }
    let (taken, open): (Vec<&Finding>, Vec<&Finding>) = findings
        .iter()
        .partition(|finding| finding.accepted.is_some());
    let (stops, others): (Vec<&Finding>, Vec<&Finding>) = taken.into_iter().partition(is_stop);
    section(
        html,
        sources,
        "Accepted, and else not before relaunch",
        &stops,
    )?;
    for (severity, title) in [
        (Severity::Stop, "Not before relaunch"),
        (
            Severity::Mend,
            "This haul-out, or by the date the surveyor sets",
        ),
        (Severity::Watch, "Worth an eye"),
    ] {
        let of_it = |finding: &&&Finding| finding.saying.severity == severity;
        let of_it: Vec<&Finding> = open.iter().filter(of_it).copied().collect();
        section(html, sources, title, &of_it)?;
    }
    section(html, sources, "Also accepted", &others)
}

fn section(
    html: &mut Html<'_>,
    sources: &mut Sources,
    title: &str,
    findings: &[&Finding],
) -> io::Result<()> {
    if findings.is_empty() {
        return Ok(());
    }
    html.put("h3", &[], title)?;
    findings
        .chunk_by(|one, other| one.rule == other.rule)
        .try_for_each(|of_rule| rule(html, sources, of_rule))
}

/// Findings of one rule: where and what, what to do, and what it rests on.
fn rule(html: &mut Html<'_>, sources: &mut Sources, findings: &[&Finding]) -> io::Result<()> {
    let Some(first) = findings.first() else {
        return Ok(());
    };
    let severity = first.saying.severity.word();
    html.within("section", &[("class", "finding")], |html| {
        html.within("h4", &[], |html| {
            let class = format!("severity {severity}");
            html.put("span", &[("class", &class)], severity)?;
            html.text(first.rule.name)
        })?;
        let one_remedy =
            |one: &&Finding, other: &&Finding| one.saying.remedy == other.saying.remedy;
        for alike in findings.chunk_by(one_remedy) {
            list(html, alike.iter().map(|finding| says(finding)))?;
            if let Some(last) = alike.last() {
                html.put("p", &[], &format!("Do: {}.", last.saying.remedy))?;
            }
        }
        let grounds: Vec<String> = first
            .rule
            .sources
            .iter()
            .map(|basis| sources.cite(basis))
            .collect();
        html.put(
            "p",
            &[("class", "quiet")],
            &format!("Rests on {}.", grounds.join(", ")),
        )
    })
}

fn says(finding: &Finding) -> String {
    let says = &finding.saying.says;
    let what = if finding.place.0.is_empty() {
        format!("{says}{}", many(finding))
    } else {
        format!(
            "{}: {says}{}",
            in_short_words(&finding.place),
            many(finding)
        )
    };
    match &finding.accepted {
        Some(acceptance) => format!("{what}. {}", accepted(acceptance)),
        None => what,
    }
}
