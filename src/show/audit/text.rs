//! An audit for someone who must decide whether she may be relaunched: the verdict first, then
//! what to do, as a surveyor would list it.

use std::io::{self, Write};

use super::{Audit, thin};
use crate::audit::{Acceptance, Finding, Severity, Verdict};
use crate::hull::{Place, Places};
use crate::joint::Zone;
use crate::show::AID;
use crate::show::numbers::{counted, grouped};
use crate::show::page::Page;

/// Places told of one finding before the rest is only counted.
const MOST_PLACES: usize = 8;
/// Runs of numbers in one word of a place, so that no word is wider than a narrow page.
const MOST_RUNS: usize = 6;
/// What stands under a finding's rule is indented so far.
const INDENT: &str = "       ";

/// Prints an audit as text; `full` tells every place.
///
/// # Errors
/// When `out` fails.
pub fn text(out: &mut dyn Write, width: u16, audit: &Audit<'_>, full: bool) -> io::Result<()> {
    let mut sheet = Sheet {
        page: Page::new(out, width),
        audit,
        full,
    };
    sheet.verdict()?;
    sheet.rests_on()?;
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

/// The page being written, and of what.
struct Sheet<'a, 'p> {
    page: Page<'p>,
    audit: &'a Audit<'a>,
    full: bool,
}

impl Sheet<'_, '_> {
    fn verdict(&mut self) -> io::Result<()> {
        let (survey, outcome) = (self.audit.survey, self.audit.outcome);
        self.page.line(&format!(
            "{} on {}: {}",
            survey.hull.boat,
            survey.day,
            outcome.verdict.words()
        ))?;
        let accepted_a_stop = outcome
            .findings
            .iter()
            .any(|finding| finding.accepted.is_some() && finding.saying.severity == Severity::Stop);
        self.page.line(match outcome.verdict {
            Verdict::NoStops if accepted_a_stop => {
                "The record shows nothing that must be put right first but what somebody has accepted. It does not say that she is sound."
            }
            Verdict::StopsOpen => "What is under `Not before relaunch` must be put right first.",
            Verdict::NoStops => {
                "The record shows nothing that must be put right first. It does not say that she is sound."
            }
            Verdict::TooThin => {
                "Too little is recorded to say whether anything must be put right first."
            }
        })?;
        for why in &outcome.thin {
            let (says, place) = thin(why);
            let place = self.place(place);
            self.page.item(&format!("Too thin: {says}: {place}"))?;
        }
        Ok(())
    }

    /// What the verdict rests on, and what it was asked about.
    fn rests_on(&mut self) -> io::Result<()> {
        let (survey, coverage) = (self.audit.survey, &self.audit.outcome.coverage);
        let fastenings = counted(coverage.fastenings, "fastening", "fastenings");
        let mut looked = match coverage.since {
            Some(since) => format!(
                "Looked at {} of {fastenings} since {since}; {} only as declared.",
                grouped(coverage.looked_at),
                grouped(coverage.as_declared)
            ),
            None => format!("None of {fastenings} was ever looked at; all are only as declared."),
        };
        if coverage.looked_at > 0 && !coverage.unseen.is_empty() {
            let unseen: Vec<String> = coverage.unseen.iter().map(ToString::to_string).collect();
            looked.push_str(&format!(" None was looked at: {}.", unseen.join(", ")));
        }
        self.page.line(&looked)?;
        if let Some(place) = self.audit.place {
            self.page.line(&format!("Asked about {place} only."))?;
        }
        if !self.audit.only.is_empty() {
            let names: Vec<&str> = self.audit.only.iter().map(|rule| rule.name).collect();
            self.page
                .line(&format!("Asked by {} only.", names.join(", ")))?;
        }
        if survey.hull.has_no_waterline() {
            let told_apart = survey.hull.crossing_ids().any(|id| {
                let crossing = survey.hull.crossing(id);
                !crossing.strake.id.side.is_deck() && crossing.zone != Zone::Underwater
            });
            self.page.line(if told_apart {
                "No waterline given: the shell is judged as underwater, but where `zones` in hull.yaml says otherwise."
            } else {
                "No waterline given: the whole shell is judged as underwater."
            })?;
        }
        self.uncertain_sets()
    }

    /// Sets of which it is not certain that they were there on the day. Those of unknown date are
    /// left to the rule `undated`.
    fn uncertain_sets(&mut self) -> io::Result<()> {
        let survey = self.audit.survey;
        for set in survey.book.uncertain_on(survey.hull, survey.day) {
            let driven = survey.book.fastening(set.fastening).driven;
            if driven.latest().is_none() {
                continue;
            }
            let counted = set.spots.iter().any(|spot| {
                let holes = survey.state.holes(spot.crossing);
                holes.iter().any(|hole| hole.fastening == set.fastening)
            });
            self.page.line(&format!(
                "It is not certain that `{}`, driven {driven}, was there on this day; it is counted as {}.",
                survey.book.set_name(set.id),
                if counted { "there" } else { "not yet there" }
            ))?;
        }
        Ok(())
    }

    /// Findings under a title; those of one rule with one remedy share a head.
    fn section(&mut self, title: &str, findings: &[&Finding]) -> io::Result<()> {
        if findings.is_empty() {
            return Ok(());
        }
        self.page.gap()?;
        self.page.line(title)?;
        let alike = |one: &&Finding, other: &&Finding| {
            one.rule == other.rule
                && one.saying.severity == other.saying.severity
                && one.saying.remedy == other.saying.remedy
        };
        for group in findings.chunk_by(alike) {
            let Some(first) = group.first() else { continue };
            let severity = format!("{:<7}", first.saying.severity.word());
            self.page.wrapped(&severity, first.rule.name)?;
            for finding in group {
                self.finding(finding)?;
            }
            self.under(&format!("Do: {}", first.saying.remedy))?;
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
        let many = match (finding.crossings, finding.fastenings) {
            (0, _) => String::new(),
            (crossings, 0) => format!(" ({})", counted(crossings, "crossing", "crossings")),
            (crossings, fastenings) => format!(
                " ({}, {})",
                counted(crossings, "crossing", "crossings"),
                counted(fastenings, "fastening", "fastenings")
            ),
        };
        text.push_str(&many);
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

    fn place(&self, places: &Places) -> String {
        let places = in_short_words(places);
        if self.full {
            places.to_string()
        } else {
            places.shown(MOST_PLACES)
        }
    }
}

fn accepted(acceptance: &Acceptance) -> String {
    let until = match acceptance.until {
        Some(day) => format!("until {day}"),
        None => "without an end".to_owned(),
    };
    format!("Accepted by {}, {until}: {}", acceptance.by, acceptance.why)
}

/// The same places with no more than a few runs of numbers in a word. They can still be pasted
/// back: members of a kind may be named in several words, and strakes in several places.
fn in_short_words(places: &Places) -> Places {
    let mut short = Vec::new();
    for place in &places.0 {
        let mut members = Vec::new();
        for pick in &place.members {
            if pick.runs.len() <= MOST_RUNS {
                members.push(pick.clone());
                continue;
            }
            members.extend(pick.runs.chunks(MOST_RUNS).map(|runs| {
                let mut pick = pick.clone();
                pick.runs = runs.to_vec();
                pick
            }));
        }
        // No strakes named is all of them, in one part.
        let parts = place.strakes.len().div_ceil(MOST_RUNS).max(1);
        short.extend((0..parts).map(|part| {
            Place {
                sides: place.sides,
                strakes: place
                    .strakes
                    .iter()
                    .skip(part * MOST_RUNS)
                    .take(MOST_RUNS)
                    .copied()
                    .collect(),
                members: members.clone(),
            }
        }));
    }
    Places(short)
}
