//! `audit`: what must be put right before she is relaunched?

use std::path::PathBuf;

use std::mem::ManuallyDrop;

use clap::{Args, ValueEnum};

use super::days::{Days, Point};
use super::show::{crossings, typed};
use super::typed::Reading;
use super::working::Working;
use super::{Desk, Ended, Format, Stopped, boats};
use crate::audit::{self, Outcome, Rule, Severity, Survey, Verdict};
use crate::hull::Places;
use crate::show;
use crate::text::Fault;
use crate::units::Day;

/// Tell what must be put right before she is relaunched
///
/// Ends with exit code 1 where something at or above --fail-on is found, or too little is
/// recorded to say.
#[derive(Debug, Args)]
#[command(after_help = "refasten audit S3 F16-20")]
pub(super) struct Audit {
    /// Where, as S4-7 F12-24; else the whole boat
    #[arg(value_name = "PLACE")]
    place: Vec<String>,
    #[command(flatten)]
    days: Days,
    /// Judge her as she will be once the plan is carried out
    #[arg(long)]
    planned: bool,
    /// Only this rule; several with commas, or given again
    #[arg(long, value_name = "RULE", value_delimiter = ',')]
    only: Vec<String>,
    /// From what on a finding makes the exit code 1
    #[arg(long, value_name = "LEVEL", value_enum, default_value_t = FailOn::Stop)]
    fail_on: FailOn,
    /// Tell every place, however many
    #[arg(long)]
    full: bool,
    /// Several boats, a row each: their folders, or folders of such
    ///
    /// The worst of them makes the exit code.
    #[arg(long, value_name = "DIR", num_args = 1.., conflicts_with_all = ["place", "full"])]
    boats: Vec<PathBuf>,
}

/// From what on a finding makes the exit code 1.
#[derive(Clone, Copy, Debug, ValueEnum)]
enum FailOn {
    Stop,
    Mend,
    Watch,
    Never,
}

/// What was typed, read.
struct Asked {
    place: Option<Places>,
    point: Point,
    only: Vec<&'static Rule>,
}

impl Audit {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let today = desk.globals.today()?;
        let asked = self.asked(today).map_err(Stopped::Wrong)?;
        if !self.boats.is_empty() {
            let of_each = boats::Asked {
                today,
                point: asked.point,
                planned: self.planned,
                only: &asked.only,
            };
            let judge = |outcome: &Outcome| self.fail_on.judge(outcome);
            return boats::run(desk, &self.boats, &of_each, judge);
        }
        let working = Working::begin(desk, &["reading", "judging"]);
        // The program ends with this, and the system takes a boat back quicker than piece by piece.
        let boat = ManuallyDrop::new(asked.point.boat(desk.globals)?);
        working.now(1);
        let mut survey = Survey::new(
            &boat.hull,
            &boat.book,
            &boat.limits,
            &boat.accepted,
            asked.point.as_of,
            desk.globals.units_for(&boat),
        );
        if self.planned {
            survey = survey.as_planned();
        }
        let mut faults = Vec::new();
        let within = typed("PLACE", crossings(&boat, &self.place), &mut faults);
        let Some(within) = within else {
            return Err(Stopped::Wrong(faults));
        };
        if let Some(within) = within {
            survey = survey.within(within);
        }
        let rules: &[&Rule] = if asked.only.is_empty() {
            Rule::all()
        } else {
            &asked.only
        };
        let outcome = audit::audit(&survey, rules);
        drop(working);
        let shown = show::audit::Audit {
            survey: &survey,
            outcome: &outcome,
            place: asked.place.as_ref(),
            only: &asked.only,
        };
        match desk.globals.format {
            Format::Text => show::audit::text(desk.out, desk.layout, &shown, self.full)?,
            Format::Json => show::audit::json(desk.out, &shown)?,
        }
        Ok(self.fail_on.judge(&outcome))
    }

    /// What was typed, read; or everything that cannot be.
    fn asked(&self, today: Day) -> Result<Asked, Vec<Fault>> {
        let mut reading = Reading::default();
        let typed = self.place.join(" ");
        let place = reading.option("PLACE", (!self.place.is_empty()).then_some(&typed));
        let point = self.days.read(&mut reading, today);
        let only = self
            .only
            .iter()
            .filter_map(|name| reading.with("--only", Some(name), Rule::find))
            .collect();
        reading.done(Some(Asked { place, point, only }))
    }
}

impl FailOn {
    /// How the run ends.
    const fn judge(self, outcome: &Outcome) -> Ended {
        let found = match self {
            Self::Never => return Ended::Done,
            Self::Stop => outcome.counts.at_least(Severity::Stop),
            Self::Mend => outcome.counts.at_least(Severity::Mend),
            Self::Watch => outcome.counts.at_least(Severity::Watch),
        };
        match (found, outcome.verdict) {
            (0, Verdict::NoStops | Verdict::StopsOpen) => Ended::Done,
            _ => Ended::Findings,
        }
    }
}
