//! `refasten export`: the record as tables.

use clap::{Args, ValueEnum};

use super::days::Days;
use super::typed::Reading;
use super::{Desk, Ended, Format, Stopped};
use crate::files::Boat;
use crate::files::sheet::{ENTRIES, entries};
use crate::hull::CrossingId;
use crate::show::export::{FASTENINGS, SETS, Table, fastenings, sets};
use crate::show::inventory::Stock;
use crate::text::Misread;

/// Print the log, the sets or every fastening for spreadsheets (CSV)
///
/// `refasten import` reads the entries back. A text that a spreadsheet program would run or make a
/// number or a date of has an apostrophe before it, which import takes off.
#[derive(Debug, Args)]
#[command(after_help = "refasten export fastenings --as-of 2024-10-20")]
pub struct Export {
    /// What to print
    #[arg(value_enum, default_value_t = What::Entries)]
    what: What,
    #[command(flatten)]
    days: Days,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum What {
    /// The log, a row an entry
    Entries,
    /// The sets of hull.yaml
    Sets,
    /// A row a hole, as in `show --each`
    Fastenings,
}

impl Export {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let today = desk.globals.today()?;
        let mut reading = Reading::default();
        let point = self.days.read(&mut reading, today);
        if self.days.names_a_day() && self.what != What::Fastenings {
            let misread = Misread::new("it goes with `fastenings` only");
            let help = "the log is printed whole, or with --as-known as far as it was known, and the sets as hull.yaml has them";
            reading.slip("--as-of", misread.help(help));
        }
        let point = reading.done(Some(point)).map_err(Stopped::Wrong)?;
        let boat = point.boat(desk.globals)?;
        let columns: &[&str] = match self.what {
            What::Entries => ENTRIES,
            What::Sets => &SETS,
            What::Fastenings => &FASTENINGS,
        };
        let units = desk.globals.units_for(&boat);
        let mut table = match desk.globals.format {
            Format::Text => Table::csv(desk.out, columns)?,
            Format::Json => Table::json(desk.out, columns, &boat.hull.boat, &boat.book)?,
        };
        match self.what {
            What::Entries => entries(&boat, &mut table)?,
            What::Sets => sets(&boat.hull, &boat.book, units, &mut table)?,
            What::Fastenings => {
                let crossings: Vec<CrossingId> = boat.hull.crossing_ids().collect();
                let day = point.as_of;
                let state = boat.book.state(&boat.hull, Some(day));
                let Boat { hull, book, .. } = &boat;
                let stock = Stock {
                    hull,
                    book,
                    state: &state,
                    day,
                    crossings: &crossings,
                    units,
                };
                fastenings(&stock, &mut table)?;
            }
        }
        table.end()?;
        Ok(Ended::Done)
    }
}
