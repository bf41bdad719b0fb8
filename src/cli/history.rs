//! `refasten history`: everything that ever happened at a place.

use clap::Args;

use super::show::{spots, typed};
use super::{Desk, Ended, Format, Stopped};
use crate::hull::{Hull, Spot};
use crate::record::{self, State};
use crate::show::history;
use crate::text::Fault;
use crate::units::Day;

/// Tell everything that ever happened at a place
///
/// Sets built there, and every entry that touched it, struck ones too.
#[derive(Debug, Args)]
pub struct History {
    /// Where: planks, members and perhaps a hole, as S4 F14 or S4 F14.2
    #[arg(required = true)]
    place: Vec<String>,
    /// Only up to this day, as 2026-10-03
    #[arg(long, value_name = "DAY")]
    as_of: Option<String>,
}

impl History {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let mut faults = Vec::new();
        let day = self
            .as_of
            .and_then(|day| typed("--as-of", day.parse::<Day>(), &mut faults));
        let (boat, today) = desk.globals.read_boat()?;
        let spots = typed("PLACE", spots(&boat, &self.place), &mut faults).flatten();
        let (Some(spots), []) = (spots, faults.as_slice()) else {
            return Err(Stopped::Wrong(faults));
        };
        let (hull, book) = (&boat.hull, &boat.book);
        there(hull, &book.state(hull, None), &spots)?;
        let events = record::history(book, hull, &spots, Some(day.unwrap_or(today)));
        match desk.globals.format {
            Format::Text => history::text(
                hull,
                book,
                &events,
                desk.globals.units_for(&boat),
                desk.out,
                desk.width,
            )?,
            Format::Json => writeln!(
                desk.out,
                "{:#}",
                history::json(hull, book, &events, &self.place.join(" "))
            )?,
        }
        Ok(Ended::Done)
    }
}

/// Refuses holes that there never were.
fn there(hull: &Hull, state: &State, spots: &[Spot]) -> Result<(), Stopped> {
    let never = |spot: &&Spot| {
        spot.holes
            .numbers()
            .any(|hole| hole.index() >= state.holes(spot.crossing).len())
    };
    let Some(spot) = spots.iter().find(never) else {
        return Ok(());
    };
    let crossing = hull.crossing(spot.crossing);
    let count = state.holes(spot.crossing).len();
    let says = format!(
        "PLACE: there is no hole {} at {} {}",
        spot.holes, crossing.strake.id, crossing.member
    );
    Err(Fault::new(None, says)
        .help(format!(
            "there are {count} holes; leave the number out for all of them"
        ))
        .into())
}
