//! Where in the crossing they go, for people and for programs.

use std::io;

use serde::Serialize;

use super::bare;
use crate::joint::limits;
use crate::joint::spacing::Along;
use crate::pick::{Answer, Ask, Spread};
use crate::show::page::Page;
use crate::tables::SpacingOf;
use crate::units::{Length, Units};

/// Prints where they go; nothing where plank or member is not known well enough.
pub(super) fn text(page: &mut Page<'_>, ask: &Ask, answer: &Answer) -> io::Result<()> {
    let Some(spread) = &answer.spread else {
        return Ok(());
    };
    match &spread.places {
        Ok(places) => {
            page.line(&format!("Positions: {}", summed(ask, spread)))?;
            let rows = places.iter().enumerate().map(|(at, place)| {
                let up = bare(marked(place.up, ask.units), ask.units);
                [
                    (at + 1).to_string(),
                    up,
                    along(spread, place.along, ask.units),
                ]
            });
            let unit = match ask.units {
                Units::Inch => "in",
                Units::Metric => "mm",
            };
            page.table(["No.", &format!("Up, {unit}"), "Along the plank"], rows)?;
        }
        Err(cramped) => page.line(&format!(
            "Positions: {} at this crossing have no room: {}; room for {} where nothing is old",
            spread.count,
            cramped.says(&spread.room, ask.on, ask.units),
            spread.most
        ))?,
    }
    if spread.old > 0 {
        page.item(&format!(
            "{} old {} kept clear of; where they lie is not on record, so they are taken to lie on the usual diagonal: look first, and shift along the plank, never up or down (an owners' forum; others set new ones between the old)",
            spread.old,
            if spread.old == 1 { "hole is" } else { "holes are" }
        ))?;
    }
    page.item(&distances(ask, answer, spread))?;
    page.item(&standard(spread, ask.units))?;
    page.gap()
}

fn summed(ask: &Ask, spread: &Spread) -> String {
    let count = match ask.count {
        Some(_) => String::new(),
        None => " (by the plank's width, common practice)".to_owned(),
    };
    let upright = "up from the plank's lower edge, on deck from the inner one";
    match spread.count {
        1 => format!("1{count}, {upright}"),
        many => {
            format!("{many}{count} on a diagonal, so that no two share a line of grain; {upright}")
        }
    }
}

/// A place as it is marked with a rule: to the nearest 1/16 in or millimetre.
fn marked(length: Length, units: Units) -> Length {
    length.nearest(match units {
        Units::Inch => Length::from_64ths(4),
        Units::Metric => Length::from_nm(1_000_000),
    })
}

fn along(spread: &Spread, along: Length, units: Units) -> String {
    let at = marked(along, units);
    let shown = |length: Length| length.shown(units);
    match spread.room.along {
        Along::HoodEnd { .. } => format!("{} from the plank's end", shown(at)),
        Along::Sided(_) if at > Length::ZERO => format!("{} forward of the middle", shown(at)),
        Along::Sided(_) if at < Length::ZERO => format!("{} abaft the middle", shown(-at)),
        Along::Sided(_) => "on the middle line".to_owned(),
    }
}

fn by(ask: &Ask, answer: &Answer, limit: &'static crate::tables::Limit) -> Length {
    answer.diameter.part(ask.limits.bound(limit).diameters())
}

/// The trade's distances, with their limits.
fn distances(ask: &Ask, answer: &Answer, spread: &Spread) -> String {
    let shown = |limit| by(ask, answer, limit).shown(ask.units);
    let member = match spread.room.along {
        Along::Sided(_) => format!("{} to the {}'s", shown(limits::FRAME_EDGE), ask.on),
        Along::HoodEnd { .. } => {
            let end = ask.limits.bound(limits::PLANK_END).length();
            format!("{} to its end", end.shown(ask.units))
        }
    };
    format!(
        "at least {} to the plank's edge, {member}, {} from each other, {} from old holes: common practice and choices, no published figure for carvel planking",
        shown(limits::PLANK_EDGE),
        shown(limits::BETWEEN),
        shown(limits::OLD_HOLES)
    )
}

/// The building standard's distances, which nothing is held against.
fn standard(spread: &Spread, units: Units) -> String {
    let shown = |length: Length| length.shown(units);
    let each = spread.standard.map(|(of, by)| {
        format!(
            "{} {} to an edge, {} to an end, {} in a row along the grain, {} between rows",
            match of {
                SpacingOf::Bored => "bored",
                SpacingOf::Unbored => "not bored",
                SpacingOf::LargeInSoftwood => "in softwood",
                SpacingOf::LargeInHardwood => "in hardwood",
            },
            shown(by.edge),
            shown(by.end),
            shown(by.in_row),
            shown(by.between_rows)
        )
    });
    let source = match spread.standard {
        [(SpacingOf::Bored | SpacingOf::Unbored, _), _] => "NDS Commentary",
        _ => "NDS-2018 Tables 12.5.1A to E",
    };
    format!(
        "for note, the building standard ({source}, public transcription): {}",
        each.join("; ")
    )
}

/// One place.
#[derive(Serialize)]
pub(super) struct Place {
    along_mm: f64,
    up_mm: f64,
    from: &'static str,
}

/// The places; `None` where they are not worked out or do not go in.
pub(super) fn places(answer: &Answer) -> Option<Vec<Place>> {
    let spread = answer.spread.as_ref()?;
    let from = match spread.room.along {
        Along::Sided(_) => "middle of the member",
        Along::HoodEnd { .. } => "end of the plank",
    };
    let places = spread.places.as_ref().ok()?.iter().map(|place| Place {
        along_mm: place.along.mm(),
        up_mm: place.up.mm(),
        from,
    });
    Some(places.collect())
}

/// The distances that places keep, and the building standard's.
#[derive(Serialize)]
pub(super) struct Spacing {
    count: u8,
    room_for: u8,
    old_holes: usize,
    cramped: Option<String>,
    plank_edge_mm: f64,
    frame_edge_mm: f64,
    plank_end_mm: f64,
    between_mm: f64,
    standard: Vec<Standard>,
}

#[derive(Serialize)]
struct Standard {
    of: &'static str,
    edge_mm: f64,
    end_mm: f64,
    in_row_mm: f64,
    between_rows_mm: f64,
}

/// The distances; `None` where plank or member is not known well enough.
pub(super) fn spacing(ask: &Ask, answer: &Answer) -> Option<Spacing> {
    let spread = answer.spread.as_ref()?;
    let by = |limit| by(ask, answer, limit).mm();
    let standard = spread.standard.iter().map(|(of, by)| Standard {
        of: match of {
            SpacingOf::Bored => "bored",
            SpacingOf::Unbored => "not bored",
            SpacingOf::LargeInSoftwood => "softwood",
            SpacingOf::LargeInHardwood => "hardwood",
        },
        edge_mm: by.edge.mm(),
        end_mm: by.end.mm(),
        in_row_mm: by.in_row.mm(),
        between_rows_mm: by.between_rows.mm(),
    });
    let cramped = spread.places.as_ref().err();
    Some(Spacing {
        count: spread.count,
        room_for: spread.most,
        old_holes: spread.old,
        cramped: cramped.map(|cramped| cramped.says(&spread.room, ask.on, ask.units)),
        plank_edge_mm: by(limits::PLANK_EDGE),
        frame_edge_mm: by(limits::FRAME_EDGE),
        plank_end_mm: ask.limits.bound(limits::PLANK_END).length().mm(),
        between_mm: by(limits::BETWEEN),
        standard: standard.collect(),
    })
}
