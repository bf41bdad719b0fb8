//! An audit for someone who must decide whether she may be relaunched: the verdict first, then
//! what to do, as a surveyor would list it.

use std::borrow::Cow;
use std::io::{self, Write};

use super::Audit;
use crate::audit::{Acceptance, Counted, Finding, Severity};
use crate::hull::Places;
use crate::show::AID;
use crate::show::layout::{Layout, Tint};
use crate::show::numbers::{counted, grouped};
use crate::show::page::Page;
use crate::show::places::{are_short, in_short_words};

/// Places told of one finding before the rest is only counted.
const MOST_PLACES: usize = 8;
/// What stands under a finding's rule is indented so far.
const INDENT: &str = "       ";

/// Prints an audit as text; `full` tells every place.
///
/// # Errors
/// When `out` fails.
pub fn text(out: &mut dyn Write, layout: Layout, audit: &Audit<'_>, full: bool) -> io::Result<()> {
    let mut sheet = Sheet {
        page: Page::new(out, layout),
        audit,
        full,
    };
    sheet.head()?;
    let (accepted, open): (Vec<&Finding>, Vec<&Finding>) = audit
        .outcome
        .findings
        .iter()
        .partition(|finding| finding.accepted.is_some());
    let (accepted_stops, also_accepted): (Vec<&Finding>, Vec<&Finding>) = accepted
        .into_iter()
        .partition(|finding| finding.saying.severity == Severity::Stop);
    sheet.section("Accepted stops", &accepted_stops)?;
    for (severity, title) in [
        (Severity::Stop, "Not before relaunch"),
        (
            Severity::Mend,
            "This haul-out, or by the date the surveyor sets",
        ),
        (Severity::Watch, "Worth an eye"),
    ] {
        let of_it: Vec<&Finding> = open
            .iter()
            .copied()
            .filter(|finding| finding.saying.severity == severity)
            .collect();
        sheet.section(title, &of_it)?;
    }
    sheet.section("Also accepted", &also_accepted)?;
    sheet.counts()?;
    sheet.page.line(AID)
}

/// Prints the verdict and what it rests on.
pub(super) fn head(page: Page<'_>, audit: &Audit<'_>) -> io::Result<()> {
    let full = false;
    Sheet { page, audit, full }.head()
}

/// The page being written, and of what.
pub(super) struct Sheet<'a, 'p> {
    pub(super) page: Page<'p>,
    pub(super) audit: &'a Audit<'a>,
    full: bool,
}

impl Sheet<'_, '_> {
    /// Findings under a title; those of one rule share a head, those with one remedy share that.
    fn section(&mut self, title: &str, findings: &[&Finding]) -> io::Result<()> {
        if findings.is_empty() {
            return Ok(());
        }
        self.page.gap()?;
        self.page.headline(Tint::Bold, title)?;
        let one_rule = |one: &&Finding, other: &&Finding| {
            one.rule == other.rule && one.saying.severity == other.saying.severity
        };
        let one_remedy =
            |one: &&Finding, other: &&Finding| one.saying.remedy == other.saying.remedy;
        for of_rule in findings.chunk_by(one_rule) {
            let Some(first) = of_rule.first() else {
                continue;
            };
            let severity = first.saying.severity;
            let tint = match severity {
                Severity::Stop => Tint::Stop,
                Severity::Mend => Tint::Mend,
                Severity::Watch => Tint::Watch,
            };
            let indent = INDENT.len();
            self.page
                .told(tint, severity.word(), indent, first.rule.name)?;
            for alike in of_rule.chunk_by(one_remedy) {
                for finding in alike {
                    self.finding(finding)?;
                }
                if let Some(last) = alike.last() {
                    self.under(&format!("Do: {}", last.saying.remedy))?;
                }
            }
        }
        Ok(())
    }

    fn finding(&mut self, finding: &Finding) -> io::Result<()> {
        let says = &finding.saying.says;
        let mut text = if finding.place.0.is_empty() {
            says.clone()
        } else {
            format!("{}: {says}", self.place(&finding.place))
        };
        text.push_str(&many(finding));
        self.under(&text)?;
        match &finding.accepted {
            Some(acceptance) => self.under(&accepted(acceptance)),
            None => Ok(()),
        }
    }

    fn counts(&mut self) -> io::Result<()> {
        let (counts, standing) = (&self.audit.outcome.counts, &self.audit.outcome.standing);
        self.page.gap()?;
        self.page.line(&format!(
            "Findings: {} stop, {} mend, {} watch, {} accepted.",
            grouped(counts.stop),
            grouped(counts.mend),
            grouped(counts.watch),
            grouped(counts.accepted)
        ))?;
        self.page.line(&format!(
            "Standing: {} and {}: {} relied on, {} left in, {} broken, {} unsound, {} open, {} plugged; {} missing.",
            counted(standing.holes, "hole", "holes"),
            counted(standing.fastenings(), "fastening", "fastenings"),
            grouped(standing.relied_on),
            grouped(standing.left_in),
            grouped(standing.broken),
            grouped(standing.unsound),
            grouped(standing.open),
            grouped(standing.plugged),
            counted(standing.bungs_missing, "bung", "bungs")
        ))
    }

    /// A line under the head of a finding.
    fn under(&mut self, text: &str) -> io::Result<()> {
        self.page.indented(INDENT, text)
    }

    pub(super) fn place(&self, places: &Places) -> String {
        let places = match are_short(places) {
            true => Cow::Borrowed(places),
            false => Cow::Owned(in_short_words(places)),
        };
        if self.full {
            places.to_string()
        } else {
            places.shown(MOST_PLACES)
        }
    }
}

/// Who answers for it, until when and why.
pub(in crate::show) fn accepted(acceptance: &Acceptance) -> String {
    let until = match acceptance.until {
        Some(day) => format!("until {day}"),
        None => "without an end".to_owned(),
    };
    format!("Accepted by {}, {until}: {}", acceptance.by, acceptance.why)
}

/// At how many crossings, and how many fastenings or holes.
pub(in crate::show) fn many(finding: &Finding) -> String {
    match (finding.crossings, finding.fastenings) {
        (0, _) => String::new(),
        (crossings, 0) => format!(" ({})", counted(crossings, "crossing", "crossings")),
        (crossings, fastenings) => {
            let (one, many) = match finding.saying.counted {
                Counted::Fastenings => ("fastening", "fastenings"),
                Counted::Holes => ("hole", "holes"),
                Counted::Short => ("short", "short"),
                Counted::Wanted => ("to drive", "to drive"),
            };
            format!(
                " ({}, {})",
                counted(crossings, "crossing", "crossings"),
                counted(fastenings, one, many)
            )
        }
    }
}
