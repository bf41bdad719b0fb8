//! The head of the report: verdict, what it rests on, particulars and counts.

use std::collections::BTreeMap;
use std::io;

use super::Report;
use super::cells::{list, pairs, table};
use crate::audit::{Outcome, Survey, Verdict};
use crate::record::Did;
use crate::show::audit::Audit;
use crate::show::html::Html;
use crate::show::numbers::grouped;
use crate::units::Day;

/// What this record never holds.
const OUTSIDE: &str = "Outside this record, whatever stands in it: keel bolts, chainplates and their bolts, \
    engine beds, floors and their fastenings, rudder and stern gear, and the wood itself where nobody wrote of it.";

pub(super) fn write(report: &Report<'_>, html: &mut Html<'_>) -> io::Result<()> {
    let last = &report.season.last;
    let (survey, outcome) = (last.survey, last.outcome);
    let audit = Audit {
        survey,
        outcome,
        place: None,
        only: &[],
    };
    html.within("header", &[], |html| {
        html.put(
            "h1",
            &[],
            &format!("{}: fastening record", survey.hull.boat),
        )?;
        let class = match outcome.verdict {
            Verdict::StopsOpen => "verdict stop",
            Verdict::TooThin => "verdict mend",
            Verdict::NoStops => "verdict good",
        };
        let mut head = audit.head()?.into_iter();
        html.put("p", &[("class", class)], &head.next().unwrap_or_default())?;
        head.try_for_each(|line| html.put("p", &[], line.trim_start_matches("- ")))
    })?;
    looked_at(survey, outcome, html)?;
    html.put("p", &[("class", "quiet")], OUTSIDE)?;
    particulars(survey, html)?;
    counts(report, html)
}

/// How and when the fastenings that are there were last looked at.
fn looked_at(survey: &Survey<'_>, outcome: &Outcome, html: &mut Html<'_>) -> io::Result<()> {
    let mut by: BTreeMap<Did, (u32, Day, Day)> = BTreeMap::new();
    for at in survey.crossings() {
        for hole in at.holes.iter().filter(|hole| hole.has_metal()) {
            let Some(entry) = survey.book.last_look(hole) else {
                continue;
            };
            let day = entry.date;
            let (count, first, last) = by.entry(entry.did()).or_insert((0, day, day));
            *count += 1;
            (*first, *last) = ((*first).min(day), (*last).max(day));
        }
    }
    html.put("h2", &[], "What was looked at, and how")?;
    if by.is_empty() {
        return html.put("p", &[], "Nothing: all of it is as declared.");
    }
    let rows = by.into_iter().map(|(did, (count, first, last))| {
        let days = if first == last {
            first.to_string()
        } else {
            format!("{first} to {last}")
        };
        [did.to_string(), grouped(count), days]
    });
    table(
        html,
        "Fastenings that are in her, by what was last done to them",
        ["Last", "Fastenings", "On"],
        [false, true, false],
        rows,
    )?;
    let unseen = outcome.coverage.unseen.iter();
    list(
        html,
        unseen.map(|part| format!("Not one looked at: {part}; all there is as declared.")),
    )
}

fn particulars(survey: &Survey<'_>, html: &mut Html<'_>) -> io::Result<()> {
    html.put("h2", &[], "Particulars")?;
    let particulars = &survey.hull.particulars;
    let launched = ("launched", particulars.launched.to_string());
    let water = ("water", survey.hull.water.to_string());
    let rest = particulars.rest.iter().cloned();
    pairs(html, [launched, water].into_iter().chain(rest))
}

fn counts(report: &Report<'_>, html: &mut Html<'_>) -> io::Result<()> {
    let (counts, standing) = (
        &report.season.last.outcome.counts,
        &report.season.last.outcome.standing,
    );
    html.put("h2", &[], "Counts")?;
    pairs(
        html,
        [
            ("not before relaunch", grouped(counts.stop)),
            ("this haul-out", grouped(counts.mend)),
            ("worth an eye", grouped(counts.watch)),
            ("accepted", grouped(counts.accepted)),
            ("fastenings", grouped(standing.fastenings())),
            ("relied on", grouped(standing.relied_on)),
            ("unsound", grouped(standing.unsound)),
            ("left in", grouped(standing.left_in)),
            ("broken", grouped(standing.broken)),
            ("holes open", grouped(standing.open)),
            ("holes plugged", grouped(standing.plugged)),
            ("bungs missing", grouped(standing.bungs_missing)),
        ],
    )
}
