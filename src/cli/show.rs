//! `refasten show`: what is in the hull.

use clap::Args;

use super::{Desk, Ended, Format, Stopped};
use crate::files::Boat;
use crate::hull::{CrossingId, Places, Spot};
use crate::show::inventory::{self, By, Stock};
use crate::text::{Fault, Misread};
use crate::units::Day;

/// Show what is in the hull: every hole counted once, by set unless asked otherwise
#[derive(Debug, Args)]
pub struct Show {
    /// Where: planks and members, as P1-4 F12; the whole boat where it is not given
    place: Vec<String>,
    /// Count by frame, strake, metal, set, state or zone
    #[arg(long, default_value = "set")]
    by: String,
    /// The day to look at, as 2026-10-03; today where it is not given
    #[arg(long, value_name = "DAY")]
    as_of: Option<String>,
    /// One row a hole
    #[arg(long)]
    each: bool,
}

impl Show {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let mut faults = Vec::new();
        let by = typed("--by", self.by.parse::<By>(), &mut faults);
        let day = self
            .as_of
            .and_then(|day| typed("--as-of", day.parse::<Day>(), &mut faults));
        let (boat, today) = desk.globals.read_boat()?;
        let crossings = typed("PLACE", crossings(&boat, &self.place), &mut faults);
        let (Some(by), Some(crossings), []) = (by, crossings, faults.as_slice()) else {
            return Err(Stopped::Wrong(faults));
        };
        let day = day.unwrap_or(today);
        let crossings = crossings.unwrap_or_else(|| boat.hull.crossing_ids().collect());
        let state = boat.book.state(&boat.hull, Some(day));
        let stock = Stock {
            hull: &boat.hull,
            book: &boat.book,
            state: &state,
            day,
            crossings: &crossings,
            units: desk.globals.units_for(&boat),
        };
        match (desk.globals.format, self.each) {
            (Format::Text, false) => inventory::text(&stock, by, desk.out, desk.width)?,
            (Format::Text, true) => inventory::each_text(&stock, desk.out, desk.width)?,
            (Format::Json, false) => writeln!(desk.out, "{:#}", inventory::json(&stock, by))?,
            (Format::Json, true) => writeln!(desk.out, "{:#}", inventory::each_json(&stock))?,
        }
        Ok(Ended::Done)
    }
}

/// The crossings that words of the command line name; `None` where there are no words.
pub(super) fn spots(boat: &Boat, words: &[String]) -> Result<Option<Vec<Spot>>, Misread> {
    if words.is_empty() {
        return Ok(None);
    }
    let places: Places = words.join(" ").parse()?;
    boat.hull.resolve(&places).map(Some)
}

/// The same for a question that is about crossings whole; a hole named in them is a fault.
pub(super) fn crossings(boat: &Boat, words: &[String]) -> Result<Option<Vec<CrossingId>>, Misread> {
    let Some(spots) = spots(boat, words)? else {
        return Ok(None);
    };
    if spots.iter().any(|spot| !spot.holes.is_any()) {
        let misread = Misread::new("a hole is named, and the question is about whole crossings");
        return Err(misread.help("leave its number out; `refasten history` tells of one hole"));
    }
    Ok(Some(spots.iter().map(|spot| spot.crossing).collect()))
}

/// A value that was typed, its fault kept with the name it was typed for.
pub(super) fn typed<T>(
    name: &str,
    value: Result<T, Misread>,
    faults: &mut Vec<Fault>,
) -> Option<T> {
    value
        .map_err(|misread| {
            let fault = Fault::new(None, format!("{name}: {}", misread.says));
            faults.push(Fault {
                help: misread.help,
                ..fault
            });
        })
        .ok()
}
