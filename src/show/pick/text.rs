//! The answer of `pick` for someone standing at the hull with a drill.

use std::io::{self, Write};

use super::bit_name;
use crate::joint::{Bit, Hole, Plug, Timber, Verdict};
use crate::pick::{Alternative, Answer, Ask};
use crate::show::page::Page;
use crate::show::{AID, WORK};
use crate::tables::Series;
use crate::units::{Length, Units};

/// Prints an answer as text.
///
/// # Errors
/// When `out` fails.
pub fn text(out: &mut dyn Write, width: u16, ask: &Ask, answer: &Answer) -> io::Result<()> {
    let mut page = Page::new(out, width);
    first_lines(&mut page, ask, answer)?;
    page.gap()?;
    holes(&mut page, ask, answer)?;
    page.gap()?;
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
    Ok(())
}

fn first_lines(page: &mut Page<'_>, ask: &Ask, answer: &Answer) -> io::Result<()> {
    let shown = |length: Length| length.shown(ask.units);
    let metal = ask.metal.map_or("metal not settled", |metal| metal.name);
    page.line(&format!("{} flat-head wood screw, {metal}", answer.label()))?;
    let wood =
        |wood: Option<Timber>| wood.map_or_else(String::new, |wood| format!(" of {}", wood.name()));
    let depth = ask.member.map_or_else(
        || "of unknown depth".to_owned(),
        |depth| format!("{} deep", shown(depth)),
    );
    page.line(&format!(
        "For a plank {}{}, a frame {depth}{}; {}",
        shown(ask.plank),
        wood(ask.plank_wood),
        wood(ask.member_wood),
        ask.zone
    ))?;
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

fn holes(page: &mut Page<'_>, ask: &Ask, answer: &Answer) -> io::Result<()> {
    let holes = &answer.holes;
    let pilot = holes.pilot.map(|pilot| pilot.hole);
    let rows = if ask.taper {
        // One bit, one stop.
        [
            ("counterbore", holes.counterbore),
            ("shank and pilot", Some(holes.shank)),
            ("", None),
        ]
    } else {
        [
            ("counterbore", holes.counterbore),
            ("shank", Some(holes.shank)),
            ("pilot", pilot),
        ]
    };
    let unit = match ask.units {
        Units::Inch => "in",
        Units::Metric => "mm",
    };
    let rows = rows
        .into_iter()
        .filter_map(|(name, hole)| Some(row(name, hole?, ask.units)));
    page.table(
        [
            "Hole",
            "Bore with",
            &format!("Exact, {unit}"),
            "The bit is",
            &format!("Stop, {unit}"),
        ],
        rows,
    )?;
    let mut note = "Stops are from the face of the plank.".to_owned();
    match &holes.pilot {
        Some(pilot) => {
            note.push_str(&format!(
                " Pilot {} % of the thread root, for {} wood.",
                pilot.percent,
                if pilot.dense { "dense" } else { "lighter" }
            ));
            let chosen = pilot.hole.bit.map(|bit| bit_name(bit, ask.units));
            if let Some(chart) = pilot
                .chart
                .filter(|chart| Some(*chart) != chosen.as_deref())
            {
                note.push_str(&format!(" Charts differ: Plate 6B prints drill {chart}."));
            }
        }
        None => note.push_str(" Name the frame's wood for the pilot."),
    }
    page.line(&note)
}

/// One row of the table of holes.
fn row(name: &str, hole: Hole, units: Units) -> [String; 5] {
    let with = match hole.bit {
        Some(bit) => tool(bit, units),
        None => "no drill in these sets".to_owned(),
    };
    let rounded = match hole.bit {
        Some(Bit::Taper(_)) => "tapered".to_owned(),
        Some(bit) => bit
            .diameter()
            .map_or_else(String::new, |bit| against(bit - hole.exact, units)),
        None => String::new(),
    };
    let thousandths = match units {
        Units::Inch => format!("{:.3}", hole.exact.inches()),
        Units::Metric => bare(hole.exact, units),
    };
    [
        name.to_owned(),
        with,
        thousandths,
        rounded,
        bare(hole.depth, units),
    ]
}

/// What to pick up. A drill's number is no screw's gauge, so a drill is always called one.
fn tool(bit: Bit, units: Units) -> String {
    let name = bit_name(bit, units);
    match bit {
        Bit::Drill(drill) if drill.series == Series::Fraction => format!("drill {name} in"),
        Bit::Drill(_) => format!("drill {name}"),
        Bit::Counterbore(_) => format!("bit {name}"),
        Bit::Taper(_) => format!("{name} bit"),
    }
}

/// How a bit differs from what was asked for.
fn against(over: Length, units: Units) -> String {
    let (way, by) = match over {
        over if over > Length::ZERO => ("larger", over),
        over if over < Length::ZERO => ("smaller", -over),
        _ => return "exact".to_owned(),
    };
    match units {
        Units::Inch => format!("{:.3} {way}", by.inches()),
        Units::Metric => format!("{:.2} {way}", by.mm()),
    }
}

/// A length without its unit, which stands in the head of the column.
fn bare(length: Length, units: Units) -> String {
    let shown = length.shown(units);
    match shown.rsplit_once(' ') {
        Some((number, _)) => number.to_owned(),
        None => shown,
    }
}

fn fit_and_hold(page: &mut Page<'_>, ask: &Ask, answer: &Answer) -> io::Result<()> {
    let shown = |length: Length| length.shown(ask.units);
    let seat = &answer.seat;
    let mut fit = format!(
        "Fit: {} in the frame ({} of it thread); {} of plank under the head",
        shown(seat.embedment()),
        shown(seat.thread_in_member()),
        shown(seat.wood_under_head())
    );
    if let Some(cover) = seat.point_cover() {
        if cover < Length::ZERO {
            fit.push_str(&format!("; it comes through by {}", shown(-cover)));
        } else {
            fit.push_str(&format!("; {} of frame beyond the point", shown(cover)));
        }
    }
    page.line(&fit)?;
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
    if figures.is_empty() {
        figures.push("no figure".to_owned());
    }
    page.line(&format!("Hold: {}", figures.join("; ")))?;
    for note in &hold.notes {
        page.item(note)?;
    }
    Ok(())
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
            &format!("In frame, {length}"),
            &format!("Design pull, {force}"),
            "Then",
        ],
        rows,
    )
}

fn alternative(other: &Alternative, units: Units) -> [String; 4] {
    let mut then: Vec<String> = other
        .fails
        .iter()
        .map(|check| format!("{}: {}", check.verdict.name(), check.check))
        .collect();
    if other.fits() {
        then.insert(0, "fits".to_owned());
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
        other.label(),
        bare(other.embedment, units),
        pull,
        then.join(", "),
    ]
}
