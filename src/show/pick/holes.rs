//! The table of what to bore, with what, and where to stop.

use std::io;

use super::{bare, bit_name};
use crate::joint::{Bit, Hole, Kind};
use crate::pick::{Answer, Ask};
use crate::show::page::Page;
use crate::tables::Series;
use crate::units::{Length, Units};

/// Prints the holes of an answer.
pub(super) fn table(page: &mut Page<'_>, ask: &Ask, answer: &Answer) -> io::Result<()> {
    let holes = &answer.holes;
    let pilot = holes.pilot;
    // A taper bit bores both in one, with one stop.
    let (shank, pilot) = if ask.taper && ask.kind == Kind::WoodScrew {
        ("shank and pilot", None)
    } else {
        (shank_hole(ask.kind), pilot)
    };
    let rows = [
        ("counterbore", holes.counterbore),
        (shank, holes.shank),
        ("pilot", pilot),
    ];
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
    match (&holes.lead, holes.pilot) {
        (Some(lead), Some(pilot)) => {
            note.push_str(&format!(
                " Pilot {} % of the thread root, for {} wood.",
                lead.percent,
                if lead.dense { "dense" } else { "lighter" }
            ));
            let chosen = pilot.bit.map(|bit| bit_name(bit, ask.units));
            if let Some(chart) = lead.chart.filter(|chart| Some(*chart) != chosen.as_deref()) {
                note.push_str(&format!(" Charts differ: Plate 6B prints drill {chart}."));
            }
        }
        (_, None) if ask.kind.is_threaded() => {
            note.push_str(&format!(" Name the {}'s wood for the pilot.", ask.on));
        }
        _ => {}
    }
    page.line(&note)?;
    for choice in &holes.choices {
        page.item(choice)?;
    }
    Ok(())
}

/// What the wider of the two holes is called.
fn shank_hole(kind: Kind) -> &'static str {
    match kind {
        Kind::BoatNail => "plank",
        Kind::Bolt | Kind::Trunnel => "right through",
        _ => "shank",
    }
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
        stop(hole.depth, units),
    ]
}

/// What to pick up. A drill's number is no screw's gauge, so a drill is always called one.
pub(in crate::show) fn tool(bit: Bit, units: Units) -> String {
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

/// A depth as it is set on a drill: to 1/32 in, or a tenth of a millimetre.
pub(in crate::show) fn stop(depth: Length, units: Units) -> String {
    const THIRTY_SECOND: Length = Length::from_64ths(2);
    match units {
        Units::Inch => bare(depth.nearest(THIRTY_SECOND), units),
        Units::Metric => bare(depth, units),
    }
}
