//! The day a question is asked of, and the day as of which the book is read.

use clap::Args;

use super::typed::Reading;
use super::{Globals, Stopped};
use crate::files::{Boat, Folder};
use crate::text::Misread;
use crate::units::Day;

/// Options of every command that reads a boat's record.
#[derive(Debug, Args)]
pub(super) struct Days {
    /// As she was at the end of this day (2026-10-03); else today
    ///
    /// With --as-known and without this, the day of --as-known.
    #[arg(long, value_name = "DAY")]
    as_of: Option<String>,
    /// As the log had been written down by the end of this day
    ///
    /// An entry counts as written on its own day, or later where `written` or an entry above it
    /// says so; a strike written later does not count. hull.yaml has no history and is taken as it
    /// is now.
    #[arg(long, value_name = "DAY")]
    as_known: Option<String>,
}

/// Those days, read.
#[derive(Clone, Copy, Debug)]
pub(super) struct Point {
    /// The day to look at, at its end.
    pub as_of: Day,
    as_known: Option<Day>,
}

impl Days {
    /// Whether a day to look at was typed.
    pub(super) const fn names_a_day(&self) -> bool {
        self.as_of.is_some()
    }

    /// The days that were typed; a slip is kept in `reading`.
    pub(super) fn read(&self, reading: &mut Reading, today: Day) -> Point {
        let mut past = |name: &str, typed: Option<&String>| {
            reading.with(name, typed, |typed| past_day(typed, today))
        };
        let as_known = past("--as-known", self.as_known.as_ref());
        let as_of = past("--as-of", self.as_of.as_ref());
        Point {
            as_of: as_of.or(as_known).unwrap_or(today),
            as_known,
        }
    }
}

impl Point {
    /// The boat in her folder, her log as it was known then.
    ///
    /// # Errors
    /// Every fault of her files.
    pub(super) fn boat(self, globals: &Globals) -> Result<Boat, Stopped> {
        self.boat_and_folder(globals).map(|(boat, _)| boat)
    }

    /// The same, with the folder.
    ///
    /// # Errors
    /// Every fault of her files.
    pub(super) fn boat_and_folder(self, globals: &Globals) -> Result<(Boat, Folder), Stopped> {
        let (boat, folder) = globals.read_folder()?;
        Ok((self.turn(boat), folder))
    }

    /// The boat with her log as it was known then.
    pub(super) fn turn(self, mut boat: Boat) -> Boat {
        if let Some(day) = self.as_known {
            boat.book = boat.book.as_known(&boat.hull, day);
        }
        boat
    }

    /// The day as of which the log is read, if one was given.
    pub(super) const fn as_known(self) -> Option<Day> {
        self.as_known
    }
}

/// A day that has come: the record tells nothing of a later one.
pub(super) fn past_day(typed: &str, today: Day) -> Result<Day, Misread> {
    let day: Day = typed.parse()?;
    if day > today {
        let misread = Misread::new(format!("{day} has not come yet"));
        return Err(misread.help(format!("today is {today}, and the record ends there")));
    }
    Ok(day)
}
