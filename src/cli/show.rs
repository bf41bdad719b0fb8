//! `refasten show`: what is in the hull, what changed, what was done in a season.

use clap::Args;

use super::days::{Days, Point, past_day};
use super::typed::Reading;
use super::{Desk, Ended, Format, Stopped, season};
use crate::files::Boat;
use crate::hull::{CrossingId, Places, Spot};
use crate::record::{self, Period};
use crate::show::inventory::{self, By, Stock};
use crate::show::since::{self, Since};
use crate::text::{Fault, Misread};
use crate::units::{Day, Season};

/// Show what is in her: every hole counted once
///
/// With --since, what changed from the beginning of that day. With --season, what was done, found
/// and proved in a season, for the log book and the insurer.
#[derive(Debug, Args)]
#[command(after_help = "refasten show S3-5 F14-15 --each")]
pub struct Show {
    /// Where, as P1-4 F12; else the whole boat
    place: Vec<String>,
    /// Count by frame, strake, metal, set, state or zone
    #[arg(long, default_value = "set")]
    by: String,
    /// One row a hole
    #[arg(long)]
    each: bool,
    /// What changed from the beginning of this day (2026-10-03)
    ///
    /// Counts before and after, and what was done.
    #[arg(long, value_name = "DAY", conflicts_with = "each")]
    since: Option<String>,
    /// Sum up a season: 2024, or 2024-25 from September to August
    #[arg(long, conflicts_with_all = ["each", "since", "by"])]
    season: Option<String>,
    #[command(flatten)]
    days: Days,
}

/// What was typed, read.
struct Asked {
    by: By,
    since: Option<Day>,
    season: Option<Season>,
    point: Point,
}

impl Show {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let today = desk.globals.today()?;
        let asked = self.asked(today).map_err(Stopped::Wrong)?;
        let boat = asked.point.boat(desk.globals)?;
        let mut reading = Reading::default();
        let place = self.place.join(" ");
        let crossings = reading.with("PLACE", Some(&place), |_| crossings(&boat, &self.place));
        let crossings = reading.done(crossings).map_err(Stopped::Wrong)?;
        let day = asked.point.as_of;
        if let Some(season) = asked.season {
            let place = crossings.is_some().then_some(place);
            return season::run(
                desk,
                &boat,
                season,
                day,
                crossings.as_deref(),
                place.as_deref(),
            );
        }
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
        if let Some(first) = asked.since {
            return changes(desk, &boat, stock, first, asked.by);
        }
        match (desk.globals.format, self.each) {
            (Format::Text, false) => inventory::text(&stock, asked.by, desk.out, desk.layout)?,
            (Format::Text, true) => inventory::each_text(&stock, desk.out, desk.layout)?,
            (Format::Json, false) => writeln!(desk.out, "{:#}", inventory::json(&stock, asked.by))?,
            (Format::Json, true) => writeln!(desk.out, "{:#}", inventory::each_json(&stock))?,
        }
        Ok(Ended::Done)
    }

    /// What was typed, read; or everything that cannot be.
    fn asked(&self, today: Day) -> Result<Asked, Vec<Fault>> {
        let mut reading = Reading::default();
        let by = reading.option("--by", Some(&self.by));
        let point = self.days.read(&mut reading, today);
        let since = reading.with("--since", self.since.as_ref(), |typed| {
            match past_day(typed, today)? {
                day if day > point.as_of => Err(Misread::new(format!(
                    "{day} is after {}, the day that is looked at",
                    point.as_of
                ))
                .help("give a day before it")),
                day => Ok(day),
            }
        });
        let season = reading.with("--season", self.season.as_ref(), |typed| {
            season::begun(typed, point.as_of)
        });
        let asked = by.map(|by| Asked {
            by,
            since,
            season,
            point,
        });
        reading.done(asked)
    }
}

/// Tells what changed from the beginning of a day to that of a stock.
fn changes(
    desk: &mut Desk<'_>,
    boat: &Boat,
    after: Stock<'_>,
    first: Day,
    by: By,
) -> Result<Ended, Stopped> {
    let (hull, book) = (&boat.hull, &boat.book);
    let eve = first.eve();
    let state = book.state(hull, Some(eve));
    let period = Period {
        first,
        last: after.day,
    };
    let here = |id: CrossingId| after.crossings.binary_search(&id).is_ok();
    let done = record::done(book, hull, period, &here);
    let there = book.counted_on(eve);
    let came: Vec<&str> = book
        .counted_on(after.day)
        .into_iter()
        .filter(|set| there.iter().all(|old| old.id != set.id))
        .filter(|set| set.spots.iter().any(|spot| here(spot.crossing)))
        .map(|set| book.set_name(set.id))
        .collect();
    let told = Since {
        period,
        before: Stock {
            state: &state,
            day: eve,
            ..after
        },
        after,
        done: &done,
        came: &came,
    };
    match desk.globals.format {
        Format::Text => since::text(&told, by, desk.out, desk.layout)?,
        Format::Json => writeln!(desk.out, "{:#}", since::json(&told, by))?,
    }
    Ok(Ended::Done)
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
