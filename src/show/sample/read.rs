//! What those drawn say, for someone who must decide how far to trust the rest.

use std::io::{self, Write};

use super::{NOT_SAID, SOURCES, Sample, percent, percent_up};
use crate::sample::Group;
use crate::show::AID;
use crate::show::known;
use crate::show::layout::Layout;
use crate::show::numbers::{counted, grouped};
use crate::show::page::Page;

/// What stands under a group's head is indented so far.
const INDENT: &str = "  ";

/// Prints what the samples of a boat say.
///
/// # Errors
/// When `out` fails.
pub fn read(out: &mut dyn Write, layout: Layout, sample: &Sample<'_>) -> io::Result<()> {
    let mut page = Page::new(out, layout);
    page.line(&format!(
        "{} on {}: what those drawn say, at {} confidence",
        sample.survey.hull.boat,
        sample.survey.day,
        sample.sure()
    ))?;
    known::text(&mut page, sample.survey.book)?;
    if let Some(place) = sample.place {
        page.line(&format!("Asked about {place} only."))?;
    }
    let (drawn, never): (Vec<&Group>, Vec<&Group>) = sample
        .reading
        .groups
        .iter()
        .partition(|group| group.first.is_some() || group.targeted.pulled > 0);
    for group in drawn {
        page.gap()?;
        said(&mut page, sample, group)?;
    }
    if !never.is_empty() {
        page.gap()?;
        page.line("None drawn for a sample, so nothing is known of")?;
        for group in never {
            page.item(&format!(
                "{}, {}: {} relied on",
                group.zone,
                group.metal_name(),
                grouped(group.draw.lot())
            ))?;
        }
    }
    still_open(&mut page, sample)?;
    page.gap()?;
    page.line("What it does not say")?;
    for says in NOT_SAID {
        page.item(says)?;
    }
    page.gap()?;
    page.line("Sources")?;
    for (what, basis) in SOURCES {
        page.item(&format!("{what}: {basis}"))?;
    }
    page.line(AID)
}

/// What is known of one zone and metal.
pub(in crate::show) fn said(
    page: &mut Page<'_>,
    sample: &Sample<'_>,
    group: &Group,
) -> io::Result<()> {
    let draw = group.draw;
    page.line(&format!("{}, {}", group.zone, group.metal_name()))?;
    let mut under = |text: &str| page.indented(INDENT, text);
    match (group.first, draw.most_bad_share(sample.confidence)) {
        (Some(first), Some(share)) => {
            under(&format!(
                "By lot: {} drawn of the {} that were relied on on {}; {} bad. At most {} of the {} were bad: {} (of a lot without end: {}).",
                grouped(draw.drawn()),
                grouped(draw.lot()),
                first.eve(),
                grouped(draw.bad()),
                grouped(draw.most_bad(sample.confidence)),
                grouped(draw.lot()),
                percent_up(share),
                percent_up(draw.most_bad_share_without_end(sample.confidence)),
            ))?;
            under(&lacking(sample, group))?;
        }
        (Some(_), None) => under("By lot: none that counts, so nothing is known of the rest.")?,
        (None, _) => under(&format!(
            "By lot: none of the {} relied on, so nothing is known of the rest.",
            grouped(draw.lot())
        ))?,
    }
    for (count, says) in [
        (
            group.untold,
            "drawn by lot with nothing told of how it was: not counted. Tell it with `log measured`, or strike the entry and log it anew with `--found`",
        ),
        (
            group.outside,
            "drawn by lot but not of that lot, being driven since or not relied on: not counted",
        ),
        (
            group.otherwise,
            "of that lot drawn or lost for another reason meanwhile: if they were chosen for looking bad, those left look better than the lot was",
        ),
    ] {
        if count > 0 {
            under(&format!("{} {says}.", grouped(count)))?;
        }
    }
    if group.targeted.pulled > 0 {
        under(&format!(
            "Aimed at: {} drawn, {} bad. That speaks for them alone.",
            grouped(group.targeted.pulled),
            grouped(group.targeted.bad)
        ))?;
    }
    Ok(())
}

/// How many more good ones would show what is worth showing.
fn lacking(sample: &Sample<'_>, group: &Group) -> String {
    let share = percent(sample.share);
    let draw = group.draw;
    match draw.more_good_to_show(sample.share, sample.confidence) {
        None => format!("More than {share} were bad already: no further draw can show less."),
        Some(0) => format!("That shows that no more than {share} were bad."),
        Some(more) if more as usize > group.standing.len() => format!(
            "Too few of that lot still stand to show that no more than {share} were bad: {} for {}.",
            grouped(group.standing.len()),
            grouped(more)
        ),
        Some(more) => format!(
            "{}, drawn by lot, would show that no more than {share} were bad.",
            counted(more, "more good one", "more good ones")
        ),
    }
}

/// Holes from which one was drawn for a look, with nothing in them yet.
pub(super) fn still_open(page: &mut Page<'_>, sample: &Sample<'_>) -> io::Result<()> {
    if sample.reading.still_open.is_empty() {
        return Ok(());
    }
    let place = sample.place(sample.reading.still_open.iter().copied());
    page.gap()?;
    page.line(&format!(
        "Drawn for a sample and still open: {place}. What went back? Log it with `log driven` and `log bunged`, or `log plugged`."
    ))
}
