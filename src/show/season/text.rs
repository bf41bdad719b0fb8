//! A season of work, to be pasted into a log book or sent to an insurer.

use std::io::{self, Write};

use super::{Judged, Moved, Summary};
use crate::hull::{CrossingId, fold};
use crate::show::layout::Layout;
use crate::show::numbers::{counted, grouped};
use crate::show::page::{NONE, Page};
use crate::show::places::in_short_words;
use crate::show::sample::said;
use crate::show::{AID, known, work};

/// Prints the summary of a season.
///
/// # Errors
/// When `out` fails.
pub fn text(out: &mut dyn Write, layout: Layout, summary: &Summary<'_>) -> io::Result<()> {
    let mut page = Page::new(out, layout);
    head(&mut page, summary)?;
    hands(&mut page, summary)?;
    moved(&mut page, summary)?;
    page.gap()?;
    let survey = summary.last.survey;
    work::text(
        &mut page,
        survey.hull,
        survey.book,
        summary.done,
        survey.units,
    )?;
    found(&mut page, summary)?;
    samples(&mut page, summary)?;
    open(&mut page, summary)?;
    page.gap()?;
    page.line("What the audit says")?;
    judged(&mut page, &summary.first)?;
    judged(&mut page, &summary.last)?;
    page.line(AID)
}

fn head(page: &mut Page<'_>, summary: &Summary<'_>) -> io::Result<()> {
    let (season, survey) = (summary.season, summary.last.survey);
    page.line(&format!(
        "{}, season {season}: {}, {} to {}",
        survey.hull.boat,
        season.words(),
        season.first(),
        season.last()
    ))?;
    if summary.until() < season.last() {
        page.line(&format!("Told up to {}.", summary.until()))?;
    }
    known::text(page, survey.book)?;
    if let Some(place) = summary.place {
        page.line(&format!("Asked about {place} only."))?;
    }
    page.gap()
}

fn numbers(moved: Moved) -> [String; 3] {
    [moved.pulled, moved.broken, moved.driven].map(|count| match count {
        0 => NONE.to_owned(),
        count => grouped(count),
    })
}

fn hands(page: &mut Page<'_>, summary: &Summary<'_>) -> io::Result<()> {
    let entries = &summary.done.entries;
    if entries.is_empty() {
        return page.line("No day of work is logged.");
    }
    page.line(&format!(
        "{} on {}",
        counted(entries.len(), "entry", "entries"),
        counted(summary.days(), "day", "days")
    ))?;
    page.gap()?;
    let hands = summary.hands();
    let rows = hands.iter().map(|(name, hand)| {
        let name = name.unwrap_or("nobody named").to_owned();
        let [pulled, broken, driven] = numbers(hand.moved);
        [
            name,
            grouped(hand.days.len()),
            grouped(hand.entries),
            pulled,
            broken,
            driven,
        ]
    });
    page.table(
        ["by", "days", "entries", "pulled", "broken", "driven"],
        rows,
    )
}

fn moved(page: &mut Page<'_>, summary: &Summary<'_>) -> io::Result<()> {
    let moved = summary.moved();
    if moved.is_empty() {
        return Ok(());
    }
    page.gap()?;
    let rows = moved.iter().map(|([metal, kind, size], moved)| {
        let [pulled, broken, driven] = numbers(*moved);
        [
            metal.clone(),
            kind.clone(),
            size.clone(),
            pulled,
            broken,
            driven,
        ]
    });
    page.table(
        ["metal", "kind", "size", "pulled", "broken", "driven"],
        rows,
    )
}

fn found(page: &mut Page<'_>, summary: &Summary<'_>) -> io::Result<()> {
    let found = summary.found();
    if found.is_empty() {
        return Ok(());
    }
    let words: Vec<String> = found
        .iter()
        .map(|(found, count)| format!("{found} {}", grouped(*count)))
        .collect();
    page.gap()?;
    page.line(&format!(
        "Found, each time one was looked at: {}.",
        words.join(", ")
    ))
}

fn samples(page: &mut Page<'_>, summary: &Summary<'_>) -> io::Result<()> {
    let groups = summary.sample.reading.groups.iter();
    let drawn = groups.filter(|group| group.first.is_some() || group.targeted.pulled > 0);
    page.gap()?;
    let mut none = true;
    for group in drawn {
        if none {
            page.line(&format!(
                "What those drawn in it say, at {} confidence",
                summary.sample.sure()
            ))?;
        }
        none = false;
        said(page, &summary.sample, group)?;
    }
    match none {
        true => page.line("None was drawn for a sample."),
        false => page.line("Each of one zone and one metal alone; `refasten sample --read` tells what that does not say."),
    }
}

fn open(page: &mut Page<'_>, summary: &Summary<'_>) -> io::Result<()> {
    let survey = summary.last.survey;
    let place = |crossings: Vec<CrossingId>| in_short_words(&fold(survey.hull, crossings));
    let (open, off) = (summary.open(), summary.off());
    let bare = summary.last.outcome.standing.bungs_missing;
    page.gap()?;
    page.line(&format!("Open at the end of {}", summary.until()))?;
    if open.is_empty() && off.is_empty() && bare == 0 {
        return page.item("no hole stands open, no plank is off and no head is bare");
    }
    if !open.is_empty() {
        let count = counted(open.len(), "crossing", "crossings");
        page.item(&format!("holes in the plank at {count}: {}", place(open)))?;
    }
    if !off.is_empty() {
        page.item(&format!("planks off: {}", place(off)))?;
    }
    if bare > 0 {
        page.item(&counted(bare, "bare head", "bare heads"))?;
    }
    Ok(())
}

fn judged(page: &mut Page<'_>, judged: &Judged<'_>) -> io::Result<()> {
    let (day, outcome) = (judged.survey.day, judged.outcome);
    let (counts, coverage) = (&outcome.counts, &outcome.coverage);
    page.item(&format!(
        "at the end of {day}: {}; {} stop, {} mend, {} watch, {} accepted; {} of {} looked at",
        outcome.verdict.words(),
        counts.stop,
        counts.mend,
        counts.watch,
        counts.accepted,
        grouped(coverage.looked_at),
        counted(coverage.fastenings, "fastening", "fastenings"),
    ))
}
