//! The order of the work, for someone with a bar in hand.

use std::io::{self, Write};

use super::{Todo, covered, driving, turn, word};
use crate::hull::{CrossingId, fold};
use crate::record::HoleChoice;
use crate::refit::{Pace, Round, Step, Work};
use crate::show::inventory::describe;
use crate::show::layout::Layout;
use crate::show::numbers::{counted, grouped};
use crate::show::page::Page;
use crate::show::places::in_short_words;
use crate::show::{AID, WORK, known};

/// Rounds told before the rest are only counted.
const MOST_ROUNDS: usize = 4;

/// Findings told before the rest are only counted.
const MOST_FINDINGS: usize = 8;

/// How many places a line names before it only counts them.
const MOST_PLACES: usize = 8;

/// Prints what is left to do, in order; `full` tells every round.
///
/// # Errors
/// When `out` fails.
pub fn text(out: &mut dyn Write, layout: Layout, todo: &Todo<'_>, full: bool) -> io::Result<()> {
    let mut page = Page::new(out, layout);
    head(&mut page, todo)?;
    decide(&mut page, todo, full)?;
    let order = todo.order;
    if !order.at_once.is_empty() {
        page.gap()?;
        page.line("At once, for it opens nothing")?;
        steps(&mut page, todo, &order.at_once)?;
    }
    let most = if full { usize::MAX } else { MOST_ROUNDS };
    for (number, round) in order.rounds.iter().enumerate().take(most) {
        page.gap()?;
        page.line(&title(number + 1, round))?;
        steps(&mut page, todo, &round.steps)?;
    }
    if let more @ 1.. = order.rounds.len().saturating_sub(most) {
        page.gap()?;
        page.line(&format!(
            "and {}: `--full` tells all",
            counted(more, "more round", "more rounds")
        ))?;
    }
    if !order.rounds.is_empty() {
        page.gap()?;
        page.line("A round is closed and logged before the next is opened. Days are days of the round: what is glued waits a night, in the cold longer, before it is bored or trimmed. Where one breaks or spins, log it and ask again. Which may stand open together is common practice, no source; the number of frames is your limit `open frames at once`.")?;
    }
    pace(&mut page, todo)?;
    if order.rounds.is_empty() && order.at_once.is_empty() {
        return page.line(AID);
    }
    page.gap()?;
    page.line("Before you start")?;
    for caution in WORK.into_iter().chain([AID]) {
        page.item(caution)?;
    }
    Ok(())
}

fn head(page: &mut Page<'_>, todo: &Todo<'_>) -> io::Result<()> {
    let (survey, order) = (todo.survey, todo.order);
    let left = match order.rounds.len() {
        0 => "nothing planned is left to do".to_owned(),
        rounds => format!(
            "{} to draw and {} to drive, in {}",
            grouped(order.to_draw()),
            grouped(order.to_drive()),
            counted(rounds, "round", "rounds")
        ),
    };
    page.line(&format!("{} on {}: {left}", survey.hull.boat, survey.day))?;
    known::text(page, survey.book)?;
    if let Some(place) = todo.place {
        page.line(&format!("Asked about {place} only."))?;
    }
    let open = match order.open_sites {
        0 => "none stands open now".to_owned(),
        1 => format!("1 stands open now, at {}", place(todo, &order.open_now)),
        n => format!("{n} stand open now, at {}", place(todo, &order.open_now)),
    };
    page.line(&format!(
        "At most {} may stand open at once; {open}.",
        counted(order.limit, "frame", "frames")
    ))
}

/// What no plan takes care of.
fn decide(page: &mut Page<'_>, todo: &Todo<'_>, full: bool) -> io::Result<()> {
    let order = todo.order;
    if order.unplanned.is_empty() && order.in_the_way.is_empty() && order.must_wait.is_empty() {
        return Ok(());
    }
    page.gap()?;
    page.line("To be decided, for no plan sees to it (`pick --into-plan PLACE`)")?;
    if !order.unplanned.is_empty() {
        page.item(&format!(
            "holes stand open at {}, and nothing is planned there",
            place(todo, &order.unplanned)
        ))?;
    }
    if !order.must_wait.is_empty() {
        page.item(&format!(
            "until some of these are closed nothing more may be opened; what is planned at {} must wait",
            place(todo, &order.must_wait)
        ))?;
    }
    let most = if full { usize::MAX } else { MOST_FINDINGS };
    for finding in order.in_the_way.iter().take(most) {
        page.item(&format!(
            "not before relaunch, {}: {} {}",
            finding.rule.name,
            finding.place.shown(MOST_PLACES),
            finding.saying.says
        ))?;
    }
    match order.in_the_way.len().saturating_sub(most) {
        0 => Ok(()),
        more => page.item(&format!("and {more} more: `audit --planned` tells all")),
    }
}

fn title(number: usize, round: &Round) -> String {
    let blocks = if round.blocks {
        "; she cannot be launched before it is done"
    } else {
        ""
    };
    format!("Round {number}, {}{blocks}", turn(round.turn))
}

fn steps(page: &mut Page<'_>, todo: &Todo<'_>, steps: &[Step]) -> io::Result<()> {
    page.table(
        ["Day", "Do", "How many", "Where"],
        steps.iter().map(|step| {
            let what = driving(todo, step).map_or_else(String::new, |driving| {
                let what = what(todo, step);
                let plan = driving.plan.unwrap_or_default();
                format!(": {what}; log with --plan \"{plan}\"")
            });
            let count = match step.count {
                0 => String::new(),
                count => grouped(count),
            };
            [
                step.day.to_string(),
                word(step.work).to_owned(),
                count,
                format!("{}{what}", in_short_words(&step.place)),
            ]
        }),
    )
}

/// What a step drives, and into which holes.
fn what(todo: &Todo<'_>, step: &Step) -> String {
    let Work::Drive {
        fastening, hole, ..
    } = step.work
    else {
        return String::new();
    };
    let fastening = todo.survey.book.fastening(fastening);
    let described = describe(fastening, todo.survey.hull, todo.survey.units);
    let plug = covered(fastening.plug, todo).map_or_else(String::new, |plug| format!(", {plug}"));
    let holes = match hole {
        HoleChoice::Same => "the same holes",
        HoleChoice::New => "new holes",
    };
    format!("{described}{plug}, {holes}")
}

fn pace(page: &mut Page<'_>, todo: &Todo<'_>) -> io::Result<()> {
    let order = todo.order;
    if order.rounds.is_empty() {
        return Ok(());
    }
    page.gap()?;
    let (Some(pace), Some((quick, slow))) = (&order.pace, order.days()) else {
        return page.line(
            "How long: the log has fewer than five days with anything drawn or driven, too little to go on.",
        );
    };
    let days = if quick == slow {
        counted(quick, "working day", "working days")
    } else {
        format!("{} to {} working days", grouped(quick), grouped(slow))
    };
    page.line(&format!(
        "How long: {days}, at the pace of the last {} days with work in the log, {} to {}: {} to {} drawn or driven a day in the middle half of them, and never fewer than the {} that the rounds wait for glue.",
        pace.days, pace.from, pace.to, pace.slow, pace.quick, order.fewest_days()
    ))?;
    broken(page, pace, order.to_draw())
}

/// What breaks is told apart: each takes its own time, which the log does not show.
fn broken(page: &mut Page<'_>, pace: &Pace, to_draw: u32) -> io::Result<()> {
    let Some(will) = pace.will_break(to_draw).filter(|_| to_draw > 0) else {
        return Ok(());
    };
    page.line(&format!(
        "Broken ones come on top: of {} drawn on those days {} broke; at that share {} more of {} would.",
        grouped(pace.drawn),
        grouped(pace.broken),
        grouped(will),
        grouped(to_draw)
    ))
}

fn place(todo: &Todo<'_>, crossings: &[CrossingId]) -> String {
    let hull = todo.survey.hull;
    fold(hull, crossings.iter().copied()).shown(MOST_PLACES)
}
