//! `audit`: what must be put right before she is relaunched?

use clap::{Args, ValueEnum};

use super::show::{crossings, typed};
use super::typed::Reading;
use super::{Desk, Ended, Format, Stopped};
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
pub(super) struct Audit {
    /// Ask about this place only (S4-7 F12-24); else the whole boat
    #[arg(value_name = "PLACE")]
    place: Vec<String>,
    /// Audit her as she was at the end of this day (2026-10-03); else today
    #[arg(long, value_name = "DAY")]
    as_of: Option<String>,
    /// Ask only this rule; several with commas, or given again
    #[arg(long, value_name = "RULE", value_delimiter = ',')]
    only: Vec<String>,
    /// What makes the exit code 1
    #[arg(long, value_enum, default_value_t = FailOn::Stop)]
    fail_on: FailOn,
    /// Tell every place, however many
    #[arg(long)]
    full: bool,
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
    as_of: Option<Day>,
    only: Vec<&'static Rule>,
}

impl Audit {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let asked = self.asked().map_err(Stopped::Wrong)?;
        let (boat, today) = desk.globals.read_boat()?;
        let mut survey = Survey::new(
            &boat.hull,
            &boat.book,
            &boat.limits,
            &boat.accepted,
            asked.as_of.unwrap_or(today),
            desk.globals.units().unwrap_or(boat.hull.units),
        );
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
        let shown = show::audit::Audit {
            survey: &survey,
            outcome: &outcome,
            place: asked.place.as_ref(),
            only: &asked.only,
        };
        match desk.globals.format {
            Format::Text => show::audit::text(desk.out, desk.width, &shown, self.full)?,
            Format::Json => show::audit::json(desk.out, &shown)?,
        }
        Ok(self.fail_on.judge(&outcome))
    }

    /// What was typed, read; or everything that cannot be.
    fn asked(&self) -> Result<Asked, Vec<Fault>> {
        let mut reading = Reading::default();
        let typed = self.place.join(" ");
        let place = reading.option("PLACE", (!self.place.is_empty()).then_some(&typed));
        let as_of = reading.option("--as-of", self.as_of.as_ref());
        let only = self
            .only
            .iter()
            .filter_map(|name| reading.with("--only", Some(name), Rule::find))
            .collect();
        reading.done(Some(Asked { place, as_of, only }))
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
