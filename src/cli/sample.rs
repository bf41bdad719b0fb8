//! `sample`: which to draw for a look, and what those drawn say of the rest.

use clap::Args;

use super::days::{Days, Point, past_day};
use super::typed::Reading;
use super::working::Working;
use super::{Desk, Ended, Format, Stopped};
use crate::audit::Survey;
use crate::hull::Places;
use crate::sample::{self, Amount};
use crate::show::sample as show;
use crate::tables::Quantity;
use crate::text::{Fault, Misread, digits};
use crate::units::Day;

/// Say which to draw by lot for a look, and what those drawn prove
///
/// Draws by lot from each zone and metal, in rounds that keep to the limit `open frames at once`,
/// and lists apart from it where bad ones are likeliest. Log what came out with
/// `log pulled PLACE --sample random --found …`, and what went back.
#[derive(Debug, Args)]
#[command(after_help = "refasten sample S4-7 F12-24")]
pub(super) struct Sample {
    /// Where, as S4-7 F12-24; else the whole boat
    #[arg(value_name = "PLACE")]
    place: Vec<String>,
    /// Tell what those drawn say
    #[arg(long, conflicts_with_all = ["seed", "count", "full"])]
    read: bool,
    /// Draw the lot of this number again
    ///
    /// Else it is made of the boat's name and the day.
    #[arg(long, value_name = "N")]
    seed: Option<String>,
    /// Draw so many of each zone and metal
    ///
    /// Else as many as the limit `fastenings to draw by lot`.
    #[arg(long, value_name = "N", conflicts_with = "prove")]
    count: Option<String>,
    /// Draw as many as show that no more than this share is bad
    ///
    /// If all are good, and with a share like 10%. With --read, how many more that would take.
    #[arg(long, value_name = "SHARE")]
    prove: Option<String>,
    /// Count only what was drawn since this day
    ///
    /// A later look is a sample of its own.
    #[arg(long, value_name = "DAY")]
    since: Option<String>,
    #[command(flatten)]
    days: Days,
    /// Tell every round, however many
    #[arg(long)]
    full: bool,
}

/// What was typed, read.
struct Asked {
    place: Option<Places>,
    seed: Option<u32>,
    count: Option<u32>,
    share: Option<f64>,
    since: Option<Day>,
    point: Point,
}

impl Sample {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let today = desk.globals.today()?;
        let asked = self.asked(today).map_err(Stopped::Wrong)?;
        let working = Working::begin(desk, &["reading", "judging"]);
        let boat = asked.point.boat(desk.globals)?;
        working.now(1);
        let wrong = |misread| Fault::misread(None, Vec::new(), misread);
        let confidence = sample::confidence(&boat.limits).map_err(wrong)?;
        let mut survey = Survey::new(
            &boat.hull,
            &boat.book,
            &boat.limits,
            &boat.accepted,
            asked.point.as_of,
            desk.globals.units_for(&boat),
        );
        if let Some(place) = &asked.place {
            let spots = boat.hull.resolve(place).map_err(wrong)?;
            survey = survey.within(spots.into_iter().map(|spot| spot.crossing));
        }
        let reading = sample::read(&survey, asked.since);
        let shown = show::Sample {
            survey: &survey,
            reading: &reading,
            place: asked.place.as_ref(),
            confidence,
            share: asked
                .share
                .unwrap_or_else(|| sample::share_to_show(&boat.limits).share()),
        };
        drop(working);
        if self.read {
            match desk.globals.format {
                Format::Text => show::read(desk.out, desk.layout, &shown)?,
                Format::Json => show::read_json(desk.out, &shown)?,
            }
            return Ok(Ended::Done);
        }
        let seed = asked
            .seed
            .unwrap_or_else(|| sample::default_seed(&boat.hull.boat, survey.day));
        let amount = match (asked.share, asked.count) {
            (Some(share), _) => Amount::Show(share),
            (None, Some(count)) => Amount::Count(count),
            (None, None) => Amount::Count(sample::draw_by_lot(&boat.limits).count()),
        };
        let proposal = sample::propose(&survey, &reading, amount, confidence, seed);
        match desk.globals.format {
            Format::Text => {
                show::draw(desk.out, desk.layout, &shown, &proposal, seed, self.full)?;
            }
            Format::Json => show::draw_json(desk.out, &shown, &proposal, seed)?,
        }
        Ok(Ended::Done)
    }

    /// What was typed, read; or everything that cannot be.
    fn asked(&self, today: Day) -> Result<Asked, Vec<Fault>> {
        let mut reading = Reading::default();
        let typed = self.place.join(" ");
        let place = reading.option("PLACE", (!self.place.is_empty()).then_some(&typed));
        let seed = reading.with("--seed", self.seed.as_ref(), whole);
        let count = reading.with("--count", self.count.as_ref(), whole);
        let share = reading.with("--prove", self.prove.as_ref(), share);
        let since = reading.with("--since", self.since.as_ref(), |typed| {
            past_day(typed, today)
        });
        let point = self.days.read(&mut reading, today);
        reading.done(Some(Asked {
            place,
            seed,
            count,
            share,
            since,
            point,
        }))
    }
}

fn whole(text: &str) -> Result<u32, Misread> {
    digits(text.trim()).ok_or_else(|| {
        Misread::new(format!("`{text}` is not a whole number"))
            .help(format!("a whole number to {}", u32::MAX))
    })
}

fn share(text: &str) -> Result<f64, Misread> {
    match Quantity::Share(0.0).parse_like(text)? {
        Quantity::Share(share) => Ok(share),
        _ => Err(Misread::new(format!("`{text}` is not a share"))),
    }
}
