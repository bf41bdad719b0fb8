//! What to draw, for someone with a bar in hand: by lot in rounds, and apart from it what is
//! looked at on purpose.

use std::io::{self, Write};

use super::read::still_open;
use super::{SOURCES, Sample, percent, percent_up};
use crate::hull::fold;
use crate::sample::{Aim, Pick, Proposal, Rounds};
use crate::show::known;
use crate::show::layout::Layout;
use crate::show::numbers::{counted, grouped};
use crate::show::page::Page;
use crate::show::{AID, WORK};
use crate::units::count;

/// Rounds told before the rest are only counted.
const MOST_ROUNDS: usize = 12;

/// Prints what to draw; `full` tells every round.
///
/// # Errors
/// When `out` fails.
pub fn draw(
    out: &mut dyn Write,
    layout: Layout,
    sample: &Sample<'_>,
    proposal: &Proposal<'_>,
    seed: u32,
    full: bool,
) -> io::Result<()> {
    let mut page = Page::new(out, layout);
    page.line(&format!(
        "{} on {}: which to draw for a look",
        sample.survey.hull.boat, sample.survey.day
    ))?;
    known::text(&mut page, sample.survey.book)?;
    if let Some(place) = sample.place {
        page.line(&format!("Asked about {place} only."))?;
    }
    page.line(&format!(
        "Drawn by lot with `--seed {seed}`: the same again for as long as the record is the same. Draw once; a lot drawn again until it pleases is none."
    ))?;
    page.gap()?;
    picks(&mut page, sample, proposal)?;
    lifts(&mut page, sample, &proposal.picks)?;
    if proposal.rounds.each.is_empty() {
        page.gap()?;
        page.line("Nothing is to be drawn by lot.")?;
    } else {
        page.gap()?;
        page.line(&format!(
            "By lot, in {}. Log each as `log pulled PLACE --sample random --found …`, or `log broken`:",
            counted(proposal.rounds.each.len(), "round", "rounds")
        ))?;
        rounds(&mut page, sample, &proposal.rounds, full)?;
        room(&mut page, sample, &proposal.rounds)?;
    }
    targeted(&mut page, sample, proposal, full)?;
    still_open(&mut page, sample)?;
    page.gap()?;
    page.line("Before you start")?;
    for caution in WORK.into_iter().chain([AID]) {
        page.item(caution)?;
    }
    page.gap()?;
    page.line("Sources")?;
    for (what, basis) in SOURCES {
        page.item(&format!("{what}: {basis}"))?;
    }
    let alike = |one: &Aim, other: &Aim| one.reason.basis() == other.reason.basis();
    for aims in proposal.targeted.chunk_by(alike) {
        let words: Vec<&str> = aims.iter().map(|aim| aim.reason.words()).collect();
        if let Some(aim) = aims.first() {
            page.item(&format!("{}: {}", words.join(", "), aim.reason.basis()))?;
        }
    }
    Ok(())
}

/// One row a zone and metal: how many stand, how many to draw, and what they would show.
fn picks(page: &mut Page<'_>, sample: &Sample<'_>, proposal: &Proposal<'_>) -> io::Result<()> {
    let share = percent(sample.share);
    let to_show = format!("More for {share}");
    page.table(
        [
            "Zone",
            "Metal",
            "Relied on",
            "Draw",
            "If all are good",
            &to_show,
        ],
        proposal.picks.iter().map(|pick| {
            let group = pick.group;
            let more = group
                .draw
                .more_good_to_show(sample.share, sample.confidence);
            [
                group.zone.to_string(),
                group.metal_name().to_owned(),
                grouped(group.standing.len()),
                grouped(pick.holes.len()),
                pick.would_show.map_or_else(
                    || "nothing".to_owned(),
                    |bad| format!("at most {} bad", percent_up(bad)),
                ),
                more.map_or_else(|| "too many bad".to_owned(), grouped),
            ]
        }),
    )?;
    page.line(&format!(
        "At {} confidence. The last column is how many more good ones would show that no more than {share} are bad.",
        sample.sure()
    ))?;
    for pick in &proposal.picks {
        let Some(wanted) = pick.wanted else { continue };
        let left = pick.holes.len();
        if count(left) < wanted {
            let left = match left {
                0 => "none is left".to_owned(),
                left => format!("only {}", grouped(left)),
            };
            page.item(&format!(
                "{}, {}: {} wanted, and {left} to draw from",
                pick.group.zone,
                pick.group.metal_name(),
                grouped(wanted),
            ))?;
        }
    }
    Ok(())
}

/// Planks to lift where nails and rivets hold.
fn lifts(page: &mut Page<'_>, sample: &Sample<'_>, picks: &[Pick<'_>]) -> io::Result<()> {
    let lifts: Vec<_> = picks
        .iter()
        .filter_map(|pick| Some((pick.group, pick.lift.as_ref()?)))
        .collect();
    if lifts.is_empty() {
        return Ok(());
    }
    page.gap()?;
    page.line("Nails and rivets hurt the plank as they come out, and waste where plank meets frame. Lifting one plank shows more than drawing them singly; by lot:")?;
    for (group, lift) in lifts {
        let place = super::in_short_words(&fold(sample.survey.hull, lift.plank.iter().copied()));
        page.item(&format!(
            "{}, {}: {place}, which shows {}",
            group.zone,
            group.metal_name(),
            grouped(lift.shows)
        ))?;
    }
    page.line("Those of one plank stand and waste together, so log them with `--sample targeted`: no bound is worked from them.")
}

fn rounds(page: &mut Page<'_>, sample: &Sample<'_>, rounds: &Rounds, full: bool) -> io::Result<()> {
    let most = if full { usize::MAX } else { MOST_ROUNDS };
    for (number, holes) in rounds.each.iter().enumerate().take(most) {
        let place = sample.place(holes.iter().copied());
        page.wrapped(&format!("{:>3}. ", number + 1), &place.to_string())?;
    }
    match rounds.each.len().saturating_sub(most) {
        0 => Ok(()),
        more => page.line(&format!(
            "and {}: `--full` tells all",
            counted(more, "more round", "more rounds")
        )),
    }
}

/// How many frames at once, and what stands open already.
fn room(page: &mut Page<'_>, sample: &Sample<'_>, rounds: &Rounds) -> io::Result<()> {
    let limit = counted(rounds.limit, "frame", "frames");
    page.line(&format!(
        "No round opens more than {} of the {limit} that may stand open at once, nor two holes of one crossing. Something goes back into every hole before the next round: log it too.",
        grouped(rounds.at_once)
    ))?;
    if rounds.open.is_empty() {
        return Ok(());
    }
    let place = super::in_short_words(&fold(sample.survey.hull, rounds.open.iter().copied()));
    let open = match rounds.open_frames {
        1 => "1 frame stands open".to_owned(),
        n => format!("{n} frames stand open"),
    };
    page.line(&if rounds.must_close_first() {
        format!("But {open} already, at {place}: close them before any is drawn.")
    } else {
        format!(
            "{open} already, at {place}; with them closed the rounds can be of {}.",
            rounds.limit
        )
    })
}

/// The list of places that are looked at on purpose.
fn targeted(
    page: &mut Page<'_>,
    sample: &Sample<'_>,
    proposal: &Proposal<'_>,
    full: bool,
) -> io::Result<()> {
    if proposal.targeted.is_empty() {
        return Ok(());
    }
    page.gap()?;
    page.line("Apart from the lot, where bad ones are likeliest. They say nothing of the rest; log them with `--sample targeted`:")?;
    for aim in &proposal.targeted {
        page.item(&format!(
            "{} ({} relied on there): {}",
            aim.reason.words(),
            grouped(aim.there),
            sample.place(aim.holes.iter().copied())
        ))?;
    }
    page.line("Shaft logs, planks under an engine and hard bends are looked at too; this record does not know where they are.")?;
    if proposal.targeted_rounds.each.len() > 1 {
        page.line("In rounds, after those by lot:")?;
        rounds(page, sample, &proposal.targeted_rounds, full)?;
    }
    Ok(())
}
