//! `refasten import`: a spreadsheet's rows, written to the log.

use std::collections::BTreeMap;
use std::io::ErrorKind;
use std::path::PathBuf;

use clap::{Args, ValueEnum};

use super::folder::say_waiting;
use super::log::{in_the_log, refused};
use super::{Desk, Ended, Format, Stopped};
use crate::files::sheet::{Asked, DateOrder, Imported, Sheet, import};
use crate::files::{FolderLock, line};
use crate::show::imported::{self, Told};
use crate::text::Fault;

/// Add the rows of a spreadsheet (CSV) to the log, all or none
///
/// The first row names the columns, in any order: date, did and place are needed, and any other key
/// of the log may stand beside them. Everything wrong is told at once, by cell. A row that is in
/// the log already is refused.
#[derive(Debug, Args)]
#[command(after_help = "refasten import week.csv --dry-run")]
pub struct Import {
    /// The spreadsheet, saved as CSV in UTF-8
    file: PathBuf,
    /// Say what would be added, and write nothing
    #[arg(long)]
    dry_run: bool,
    /// How unclear dates stand
    #[arg(long, value_name = "ORDER", value_enum)]
    dates: Option<Order>,
    /// Heading of a column to pass over; several, given again
    #[arg(long, value_name = "HEADING")]
    ignore: Vec<String>,
    /// Pass over the rows that are in the log already
    #[arg(long)]
    new_rows: bool,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
enum Order {
    DayMonthYear,
    MonthDayYear,
    YearMonthDay,
}

impl From<Order> for DateOrder {
    fn from(order: Order) -> Self {
        match order {
            Order::DayMonthYear => Self::DayMonthYear,
            Order::MonthDayYear => Self::MonthDayYear,
            Order::YearMonthDay => Self::YearMonthDay,
        }
    }
}

impl Import {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let today = desk.globals.today()?;
        let sheet = Sheet::load(&self.file).map_err(|error| {
            let file = self.file.display();
            let says = match error.kind() {
                ErrorKind::NotFound => format!("there is no file {file}"),
                ErrorKind::IsADirectory => format!("{file} is a folder"),
                _ => return Stopped::Machine(error),
            };
            let help = "name the file that the spreadsheet was saved to as CSV";
            Fault::new(None, says).help(help).into()
        })?;
        let asked = Asked {
            dates: self.dates.map(DateOrder::from),
            ignore: &self.ignore,
            new_rows: self.new_rows,
        };
        // Numbers hang on the last entry, so the lock is taken before reading; looking needs none.
        let path = desk.globals.folder_path()?;
        desk.globals.folder()?;
        let lock = match self.dry_run {
            true => None,
            false => Some(FolderLock::take(&path, &mut say_waiting)?),
        };
        let folder = desk.globals.folder()?;
        let imported = match import(&folder, &sheet, &asked, today) {
            Ok(imported) => imported,
            Err(faults) => return Err(Stopped::Faulty(Box::new(sheet.beside(folder)), faults)),
        };
        if let Some(lock) = lock.filter(|_| !imported.added.is_empty()) {
            let hull = &imported.boat.hull;
            let entries = imported.added.iter();
            let lines: Vec<String> = entries
                .map(|(_, entry)| line(entry, hull.gauges, hull.units))
                .collect();
            let lines: Vec<&str> = lines.iter().map(String::as_str).collect();
            folder.add_to_log(&lock, &lines).map_err(refused)?;
            let added = imported.added.iter().map(|(_, entry)| entry);
            desk.done = Some(in_the_log(added));
        }
        self.tell(&imported, &sheet, desk)
    }

    fn tell(
        &self,
        imported: &Imported,
        sheet: &Sheet,
        desk: &mut Desk<'_>,
    ) -> Result<Ended, Stopped> {
        let boat = &imported.boat;
        let mut holes: BTreeMap<u32, usize> = BTreeMap::new();
        for touch in boat.book.touched() {
            *holes.entry(touch.entry).or_default() += 1;
        }
        let state = boat.book.state(&boat.hull, None);
        let told = Told {
            hull: &boat.hull,
            state: &state,
            sheet: sheet.name(),
            hash: sheet.hash(),
            dry_run: self.dry_run,
            added: &imported.added,
            holes: &holes,
            known: &imported.known,
            columns: imported
                .columns
                .iter()
                .map(|column| (column.heading.as_str(), column.key))
                .collect(),
            ignored: &imported.ignored,
            blank: imported.blank,
            grown: imported.grown.as_deref(),
        };
        match desk.globals.format {
            Format::Text => imported::text(&told, desk.out, desk.layout)?,
            Format::Json => writeln!(desk.out, "{:#}", imported::json(&told))?,
        }
        Ok(Ended::Done)
    }
}
