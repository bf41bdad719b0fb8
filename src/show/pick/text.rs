//! The answer of `pick` for someone standing at the hull with a drill.

use std::io::{self, Write};

use super::{bare, holes, positions};
use crate::joint::{Kind, Plug, Timber, Verdict};
use crate::pick::{Alternative, Answer, Ask};
use crate::show::layout::Layout;
use crate::show::page::Page;
use crate::show::section;
use crate::show::{AID, WORK};
use crate::units::{Length, Units};

/// Prints an answer as text.
///
/// # Errors
/// When `out` fails.
pub fn text(out: &mut dyn Write, layout: Layout, ask: &Ask, answer: &Answer) -> io::Result<()> {
    let mut page = Page::new(out, layout);
    first_lines(&mut page, ask, answer)?;
    page.gap()?;
    holes::table(&mut page, ask, answer)?;
    page.gap()?;
    positions::text(&mut page, ask, answer)?;
    fit_and_hold(&mut page, ask, answer)?;
    page.gap()?;
    checks(&mut page, answer)?;
    page.gap()?;
    alternatives(&mut page, ask, answer)?;
    page.gap()?;
    page.line("Before you start")?;
    for caution in WORK {
        page.item(caution)?;
    }
    page.item(AID)?;
    page.gap()?;
    page.line("Sources")?;
    for source in &answer.sources {
        page.item(source)?;
    }
    if page.is_plain() {
        return Ok(());
    }
    page.gap()?;
    section::text(&mut page, ask, answer)
}

/// What was picked, in a line.
pub(in crate::show) fn called(ask: &Ask, answer: &Answer) -> String {
    let metal = ask.metal.map_or("metal not settled", |metal| metal.name);
    match ask.kind {
        Kind::WoodScrew => format!("{} flat-head wood screw, {metal}", answer.label),
        Kind::Trunnel => format!("{} trunnel", answer.label),
        kind => format!("{} {kind}, {metal}", answer.label),
    }
}

/// What it was picked for, in a line.
pub(in crate::show) fn asked(ask: &Ask) -> String {
    let shown = |length: Length| length.shown(ask.units);
    let wood =
        |wood: Option<Timber>| wood.map_or_else(String::new, |wood| format!(" of {}", wood.name()));
    let depth = ask.member.map_or_else(
        || "of unknown depth".to_owned(),
        |depth| format!("{} deep", shown(depth)),
    );
    format!(
        "For a plank {}{}, a {} {depth}{}; {}",
        shown(ask.plank),
        wood(ask.plank_wood),
        ask.on,
        wood(ask.member_wood),
        ask.zone
    )
}

fn first_lines(page: &mut Page<'_>, ask: &Ask, answer: &Answer) -> io::Result<()> {
    let shown = |length: Length| length.shown(ask.units);
    page.line(&called(ask, answer))?;
    page.line(&asked(ask))?;
    page.line(&match &answer.plug {
        Plug::Bung(bung) => format!(
            "Bung {}, {} deep",
            shown(bung.diameter),
            shown(answer.seat.head_depth)
        ),
        Plug::Unknown => format!(
            "Bung {} deep; no head is published to size it by",
            shown(answer.seat.head_depth)
        ),
        Plug::Stopping => format!(
            "Stopping over the head, {} under the face; no bung",
            shown(answer.seat.head_depth)
        ),
        Plug::None => "Head flush with the face; no bung".to_owned(),
    })?;
    for remark in &answer.remarks {
        page.line(&format!("Note: {remark}"))?;
    }
    Ok(())
}

fn fit_and_hold(page: &mut Page<'_>, ask: &Ask, answer: &Answer) -> io::Result<()> {
    let shown = |length: Length| length.shown(ask.units);
    let seat = &answer.seat;
    let thread = match ask.kind {
        Kind::WoodScrew => format!(" ({} of it thread)", shown(seat.thread_in_member())),
        _ => String::new(),
    };
    let mut fit = format!(
        "Fit: {} in the {}{thread}; {} of plank under the head",
        shown(seat.embedment()),
        ask.on,
        shown(seat.wood_under_head())
    );
    if let Some(cover) = seat.point_cover() {
        if cover < Length::ZERO {
            fit.push_str(&format!("; it comes through by {}", shown(-cover)));
        } else {
            fit.push_str(&format!(
                "; {} of {} beyond the point",
                shown(cover),
                ask.on
            ));
        }
    }
    page.line(&fit)?;
    let (hold, lateral) = (&answer.hold, &answer.lateral);
    let figures = hold_figures(ask, answer);
    page.line(&format!("Hold: {}", figures.join("; ")))?;
    for note in hold.notes.iter().chain(&lateral.notes) {
        page.item(note)?;
    }
    Ok(())
}

/// What it holds, in figures.
pub(in crate::show) fn hold_figures(ask: &Ask, answer: &Answer) -> Vec<String> {
    let hold = &answer.hold;
    let mut figures = Vec::new();
    if let Some(design) = hold.design {
        let service = if hold.wet { "wet" } else { "dry" };
        figures.push(format!(
            "{} straight pull by the building standard ({service} service)",
            design.shown(ask.units)
        ));
    }
    if let Some(ultimate) = hold.ultimate {
        figures.push(format!(
            "{} to failure in tests of dry wood",
            ultimate.shown(ask.units)
        ));
    }
    let lateral = &answer.lateral;
    if let Some((mode, force)) = lateral.governing() {
        let valid = if lateral.valid { "" } else { ", not valid" };
        figures.push(format!(
            "{} sideways by the building standard (mode {}{valid})",
            force.shown(ask.units),
            mode.name()
        ));
    }
    if figures.is_empty() {
        figures.push("no figure".to_owned());
    }
    figures
}

fn checks(page: &mut Page<'_>, answer: &Answer) -> io::Result<()> {
    let mut told: Vec<_> = answer
        .checks
        .iter()
        .filter(|check| check.verdict > Verdict::Ok)
        .collect();
    told.sort_by_key(|check| std::cmp::Reverse(check.verdict));
    let ok = answer.checks.len() - told.len();
    page.line(&format!("Checks: {ok} of {} are ok", answer.checks.len()))?;
    for check in told {
        let limit = match &check.limit {
            Some(limit) => format!(" [limit {limit}; {}]", check.basis),
            None => format!(" [{}]", check.basis),
        };
        page.item(&format!(
            "{}, {}: {}{limit}",
            check.verdict.name(),
            check.check,
            check.says
        ))?;
    }
    Ok(())
}

fn alternatives(page: &mut Page<'_>, ask: &Ask, answer: &Answer) -> io::Result<()> {
    if answer.alternatives.is_empty() {
        return page.line("No other gauge or length is published.");
    }
    let (length, force) = match ask.units {
        Units::Inch => ("in", "lb"),
        Units::Metric => ("mm", "N"),
    };
    let rows = answer
        .alternatives
        .iter()
        .map(|other| alternative(other, ask.units));
    page.table(
        [
            "Instead",
            &format!("In {}, {length}", ask.on),
            &format!("Design pull, {force}"),
            "Then",
        ],
        rows,
    )
}

fn alternative(other: &Alternative, units: Units) -> [String; 4] {
    let mut then = Vec::new();
    if other.fits() {
        then.push("fits".to_owned());
    }
    for verdict in [Verdict::Stop, Verdict::Mend, Verdict::Watch] {
        let missed: Vec<_> = other
            .fails
            .iter()
            .filter(|check| check.verdict == verdict)
            .map(|check| check.check)
            .collect();
        if !missed.is_empty() {
            then.push(format!("{}: {}", verdict.name(), missed.join(", ")));
        }
    }
    match other.stock {
        Some(true) => {}
        Some(false) => then.push("not in stock".to_owned()),
        None => then.push("no published length".to_owned()),
    }
    let pull = match (other.design, units) {
        (None, _) => "-".to_owned(),
        (Some(force), Units::Inch) => format!("{:.0}", force.pounds()),
        (Some(force), Units::Metric) => format!("{:.0}", force.newtons()),
    };
    [
        other.label.clone(),
        bare(other.embedment, units),
        pull,
        then.join("; "),
    ]
}
