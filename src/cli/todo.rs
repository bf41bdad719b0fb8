//! `todo`: what is left to do, in which order and at which pace.

use clap::Args;

use super::days::Days;
use super::show::crossings;
use super::typed::Reading;
use super::{Desk, Ended, Format, Stopped};
use crate::audit::Survey;
use crate::refit::Order;
use crate::show::todo::{self as show, Todo as Shown};
use crate::text::Fault;

/// Say what is left to do, in which order, and how long it takes
///
/// Takes what the plan has waiting: never more open than the limit `open frames at once`, no ends
/// of planks side by side, every third frame, port and starboard evenly, hood ends and garboards
/// last and in halves. What stands open is closed first. How long is told at the log's own pace.
#[derive(Debug, Args)]
#[command(after_help = "refasten todo S3 F12-20")]
pub(super) struct Todo {
    /// Where, as S4-7 F12-24; else the whole boat
    #[arg(value_name = "PLACE")]
    place: Vec<String>,
    #[command(flatten)]
    days: Days,
    /// Tell every round, however many
    #[arg(long)]
    full: bool,
}

impl Todo {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let today = desk.globals.today()?;
        let mut reading = Reading::default();
        let point = self.days.read(&mut reading, today);
        let point = reading.done(Some(point)).map_err(Stopped::Wrong)?;
        let boat = point.boat(desk.globals)?;
        let within = crossings(&boat, &self.place).map_err(|misread| {
            let fault = Fault::new(None, format!("PLACE: {}", misread.says));
            Stopped::Wrong(vec![Fault {
                help: misread.help,
                ..fault
            }])
        })?;
        let survey = || {
            let survey = Survey::new(
                &boat.hull,
                &boat.book,
                &boat.limits,
                &boat.accepted,
                point.as_of,
                desk.globals.units_for(&boat),
            );
            match &within {
                Some(within) => survey.within(within.iter().copied()),
                None => survey,
            }
        };
        let (now, planned) = (survey(), survey().as_planned());
        let order = Order::of(&now, &planned);
        let typed = self.place.join(" ");
        let shown = Shown {
            survey: &now,
            order: &order,
            place: within.is_some().then_some(typed.as_str()),
        };
        match desk.globals.format {
            Format::Text => show::text(desk.out, desk.layout, &shown, self.full)?,
            Format::Json => show::json(desk.out, &shown)?,
        }
        Ok(Ended::Done)
    }
}
