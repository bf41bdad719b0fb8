//! `refasten map`: where what is in the planking.

use std::io::Write;
use std::path::PathBuf;

use clap::Args;

use super::days::Days;
use super::drawing::{self, Target};
use super::show::{crossings, typed};
use super::typed::Reading;
use super::{Desk, Ended, Format, Stopped};
use crate::audit::{self, Rule, Survey};
use crate::show::map::{self, Ask, By, Dress};

/// Map her planking laid flat: strakes by frames
///
/// In the terminal a page holds as many frames as there is room for. With --drawing it is written
/// as a picture to pin to the wall, every fastening a mark.
#[derive(Debug, Args)]
#[command(after_help = "refasten map S3-5 F12-20 --by metal")]
pub(super) struct Map {
    /// Where, as S4-7 F12-24; else the whole boat
    #[arg(value_name = "PLACE")]
    place: Vec<String>,
    /// What to show: metal, state, age, hold or findings
    #[arg(long, default_value = "state")]
    by: String,
    /// Draw it into this file; - to print it alone
    ///
    /// A drawing that is there is replaced.
    #[arg(long, value_name = "FILE.svg")]
    drawing: Option<PathBuf>,
    #[command(flatten)]
    days: Days,
}

impl Map {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let mut reading = Reading::default();
        let by: Option<By> = reading.option("--by", Some(&self.by));
        let today = desk.globals.today()?;
        let point = self.days.read(&mut reading, today);
        let target = Target::of(self.drawing.as_deref(), desk.globals.format)?;
        let boat = point.boat(desk.globals)?;
        let mut faults = reading.faults();
        let within = typed("PLACE", crossings(&boat, &self.place), &mut faults);
        let (Some(by), Some(within), []) = (by, within, faults.as_slice()) else {
            return Err(Stopped::Wrong(faults));
        };
        let mut survey = Survey::new(
            &boat.hull,
            &boat.book,
            &boat.limits,
            &boat.accepted,
            point.as_of,
            desk.globals.units_for(&boat),
        );
        if let Some(within) = within {
            survey = survey.within(within);
        }
        let outcome;
        let ask = match by {
            By::Metal => Ask::Metal,
            By::State => Ask::State,
            By::Age => Ask::Age,
            By::Hold => Ask::Hold,
            By::Findings => {
                outcome = audit::audit(&survey, Rule::all());
                Ask::Findings(&outcome)
            }
        };
        let map = map::Map::new(&survey, ask);
        if let Some(Target::Output) = target {
            map::drawing(&map, Dress::Alone, desk.out)?;
            return Ok(Ended::Done);
        }
        let draw = |out: &mut dyn Write| map::drawing(&map, Dress::Alone, out);
        let drawn = drawing::to_file(target.as_ref(), draw)?;
        if let Some(Target::File(path)) = &target {
            desk.done = Some(format!("{} is written", path.display()));
        }
        match (drawn, desk.globals.format) {
            (Some(says), Format::Text) => writeln!(desk.out, "{says}")?,
            (Some(_), Format::Json) => {
                let wrote = self.drawing.map(|path| path.display().to_string());
                let told = serde_json::json!({"format": 1, "wrote": wrote});
                writeln!(desk.out, "{told:#}")?;
            }
            (None, Format::Text) => map::text(&map, desk.out, desk.layout)?,
            (None, Format::Json) => writeln!(desk.out, "{:#}", map::json(&map))?,
        }
        Ok(Ended::Done)
    }
}
