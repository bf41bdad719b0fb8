//! `refasten show --season`: a season summed up.

use super::{Desk, Ended, Format, Stopped};
use crate::audit::{self, Rule, Survey};
use crate::files::Boat;
use crate::hull::{CrossingId, Places};
use crate::record::{self, Period};
use crate::sample;
use crate::show::sample::Sample;
use crate::show::season::{self, Judged, Summary};
use crate::text::{Fault, Misread};
use crate::units::{Day, Season, Units};

/// A season that has begun on `day`.
pub(super) fn begun(typed: &str, day: Day) -> Result<Season, Misread> {
    let season: Season = typed.parse()?;
    if season.first() > day {
        let misread = Misread::new(format!("the season {season} has not begun on {day}"));
        return Err(misread.help(format!("it begins on {}", season.first())));
    }
    Ok(season)
}

/// Sums a season up, as far as `day`.
///
/// # Errors
/// When nothing can be printed, or a limit of the boat is none.
pub(super) fn run(
    desk: &mut Desk<'_>,
    boat: &Boat,
    season: Season,
    day: Day,
    crossings: Option<&[CrossingId]>,
    place: Option<&str>,
) -> Result<Ended, Stopped> {
    let units = desk.globals.units_for(boat);
    summed(boat, season, day, crossings, place, units, |summary| {
        match desk.globals.format {
            Format::Text => season::text(desk.out, desk.layout, summary)?,
            Format::Json => writeln!(desk.out, "{:#}", season::json(summary))?,
        }
        Ok(Ended::Done)
    })
}

/// Sums a season up, as far as `day`, and hands it to `tell`.
///
/// # Errors
/// When `tell` fails, or a limit of the boat is none.
pub(super) fn summed<T>(
    boat: &Boat,
    season: Season,
    day: Day,
    crossings: Option<&[CrossingId]>,
    place: Option<&str>,
    units: Units,
    tell: impl FnOnce(&Summary<'_>) -> Result<T, Stopped>,
) -> Result<T, Stopped> {
    let wrong = |misread| Fault::misread(None, Vec::new(), misread);
    let (hull, book) = (&boat.hull, &boat.book);
    let period = Period {
        first: season.first(),
        last: season.last().min(day),
    };
    let here = |id: CrossingId| crossings.is_none_or(|asked| asked.binary_search(&id).is_ok());
    let survey = |day| {
        let survey = Survey::new(hull, book, &boat.limits, &boat.accepted, day, units);
        match &crossings {
            Some(crossings) => survey.within(crossings.iter().copied()),
            None => survey,
        }
    };
    let (first, last) = (survey(period.first), survey(period.last));
    let outcomes = [&first, &last].map(|survey| audit::audit(survey, Rule::all()));
    let [on_first, on_last] = &outcomes;
    let place: Option<Places> = place.map(str::parse).transpose().map_err(wrong)?;
    let summary = Summary {
        season,
        place: place.as_ref(),
        done: &record::done(book, hull, period, &here),
        first: Judged {
            survey: &first,
            outcome: on_first,
        },
        last: Judged {
            survey: &last,
            outcome: on_last,
        },
        sample: Sample {
            survey: &last,
            reading: &sample::read(&last, Some(period.first)),
            place: place.as_ref(),
            confidence: sample::confidence(&boat.limits).map_err(wrong)?,
            share: sample::share_to_show(&boat.limits).share(),
        },
    };
    tell(&summary)
}
