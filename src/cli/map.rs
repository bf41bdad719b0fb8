//! `refasten map`: where what is in the planking.

use std::io;
use std::path::PathBuf;

use clap::Args;

use super::show::{crossings, typed};
use super::typed::Reading;
use super::{Desk, Ended, Format, Stopped};
use crate::audit::{self, Rule, Survey};
use crate::files::replace;
use crate::show::map::{self, Ask, By, Dress};
use crate::units::Day;

/// Map the planking laid flat: what is where, strakes by frames
///
/// In the terminal a page holds as many frames as there is room for. With --drawing it is written
/// as a picture to pin to the wall, every fastening a mark.
#[derive(Debug, Args)]
pub(super) struct Map {
    /// Map this place only (S4-7 F12-24); else the whole boat
    #[arg(value_name = "PLACE")]
    place: Vec<String>,
    /// What to show: metal, state, age, hold or findings
    #[arg(long, default_value = "state")]
    by: String,
    /// Map her as she was at the end of this day (2026-10-03); else today
    #[arg(long, value_name = "DAY")]
    as_of: Option<String>,
    /// Write a drawing to this SVG file, replacing it; `-` for standard output
    #[arg(long, value_name = "FILE.svg")]
    drawing: Option<PathBuf>,
}

impl Map {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let mut reading = Reading::default();
        let by: Option<By> = reading.option("--by", Some(&self.by));
        let as_of: Option<Day> = reading.option("--as-of", self.as_of.as_ref());
        let (boat, today) = desk.globals.read_boat()?;
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
            as_of.unwrap_or(today),
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
        let Some(path) = self.drawing else {
            match desk.globals.format {
                Format::Text => map::text(&map, desk.out, desk.layout)?,
                Format::Json => writeln!(desk.out, "{:#}", map::json(&map))?,
            }
            return Ok(Ended::Done);
        };
        if path.as_os_str() == "-" {
            map::drawing(&map, Dress::Alone, desk.out)?;
            return Ok(Ended::Done);
        }
        let mut drawn = Vec::new();
        map::drawing(&map, Dress::Alone, &mut drawn)?;
        let shown = path.display().to_string();
        replace(&path, &drawn)
            .map_err(|error| io::Error::new(error.kind(), format!("{shown}: {error}")))?;
        match desk.globals.format {
            Format::Text => writeln!(desk.out, "wrote {}", crate::text::Clean(&shown))?,
            Format::Json => {
                let wrote = serde_json::json!({"format": 1, "wrote": shown, "bytes": drawn.len()});
                writeln!(desk.out, "{wrote:#}")?;
            }
        }
        Ok(Ended::Done)
    }
}
