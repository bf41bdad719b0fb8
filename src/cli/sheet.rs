//! `refasten sheet`: what is worked from at the boat.

use std::path::PathBuf;

use clap::Args;

use super::drawing::put;
use super::show::{crossings, typed};
use super::{Desk, Ended, Format, Stopped};
use crate::hull::Places;
use crate::show::sheet::{self, MOST_CROSSINGS, Sheet};
use crate::text::Fault;

/// Write the shed sheet, for paper or a phone
///
/// One HTML file that needs no network. Print it, or send it to a phone and open it there; what
/// was put down comes back with `refasten import`. Make a new one when the record has moved on.
#[derive(Debug, Args)]
#[command(after_help = "refasten sheet sheet.html S4-5 F12-20")]
pub(super) struct MakeSheet {
    /// The file to write, anew where it is there
    #[arg(value_name = "FILE.html")]
    file: PathBuf,
    /// Where, as S3-5 F12-20; else the whole boat
    place: Vec<String>,
}

impl MakeSheet {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let is_page = self.file.extension().is_some_and(|end| {
            let end = end.to_ascii_lowercase();
            end == "html" || end == "htm"
        });
        let mut faults = Vec::new();
        if !is_page {
            let says = format!("`{}` does not end in .html", self.file.display());
            faults.push(Fault::new(None, says).help("name the page to write, like sheet.html"));
        }
        let (boat, today) = desk.globals.read_boat()?;
        let crossings = typed("PLACE", crossings(&boat, &self.place), &mut faults);
        let (Some(crossings), []) = (crossings, faults.as_slice()) else {
            return Err(Stopped::Wrong(faults));
        };
        let crossings = crossings.unwrap_or_else(|| boat.hull.crossing_ids().collect());
        if crossings.len() > MOST_CROSSINGS {
            let says = format!(
                "that is {} crossings, and a sheet has {MOST_CROSSINGS} at the most",
                crossings.len()
            );
            return Err(Fault::new(None, says)
                .help("name a place to work at, like S3-5 F12-20")
                .into());
        }
        // It names crossings, so it is a place.
        let place: Option<Places> = self.place.join(" ").parse().ok();
        let state = boat.book.state(&boat.hull, None);
        let sheet = Sheet {
            hull: &boat.hull,
            book: &boat.book,
            state: &state,
            day: today,
            crossings: &crossings,
            place: place.as_ref(),
            units: desk.globals.units_for(&boat),
        };
        let mut page = Vec::new();
        sheet::html(&sheet, &mut page)?;
        put(&self.file, "FILE.html", &page)?;
        let file = self.file.display().to_string();
        desk.done = Some(format!("{file} is written"));
        let holes = state.tally(crossings.iter().copied()).holes;
        match desk.globals.format {
            Format::Text => sheet::told(&sheet, &file, holes, desk.out, desk.layout)?,
            Format::Json => writeln!(desk.out, "{:#}", sheet::told_json(&sheet, &file, holes))?,
        }
        Ok(Ended::Done)
    }
}
