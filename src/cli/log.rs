//! `refasten log`: what was done, written down.

use std::io::{self, Read};
use std::mem::ManuallyDrop;
use std::path::Path;

use clap::Args;

use super::entry::{Carried, EntryTyped, named};
use super::folder::say_waiting;
use super::{Desk, Ended, Format, Stopped};
use crate::files::{
    AppendError, Boat, Folder, FolderLock, LARGEST, NewEntries, NotAdded, RawEntry, decode, line,
    load,
};
use crate::record::{Did, Entry, changes};
use crate::show::last;
use crate::show::logged::{self, Logged};
use crate::text::{Fault, FileId, digits};
use crate::units::Day;

/// Add entries to the log; alone, show the last ones
///
/// Says what changed and what now stands open. Several entries go into one command with `then`
/// between them; a day and a name hold for those that follow. All are written or none.
///
/// A mistake is struck out, never rubbed out: `log struck 5 driven S5 F16.2`. What stands on it is
/// struck first.
#[derive(Debug, Args)]
#[command(
    after_help = "refasten log pulled S4 F15.1 --found wasted --by \"N. Abara\"\nrefasten log pulled S4 F16 --found necked then doweled S4 F16"
)]
pub struct Log {
    #[command(flatten)]
    entry: EntryTyped,
    /// Those after the first, parted by `then` before the rest is read.
    #[arg(skip)]
    pub(super) more: Vec<EntryTyped>,
    /// Take the entries from a file of log lines; - for standard input
    ///
    /// The lines have no numbers.
    #[arg(
        long,
        value_name = "FILE",
        help_heading = "Options of the whole command"
    )]
    from: Option<String>,
    /// Only say what would change; nothing is written
    #[arg(long, help_heading = "Options of the whole command")]
    pub(super) dry_run: bool,
    /// Show so many of the last entries, not ten
    #[arg(long, value_name = "N", help_heading = "Options of the whole command")]
    last: Option<String>,
}

impl Log {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let tells = !self.more.is_empty() || !self.entry.says_nothing();
        match (&self.last, &self.from) {
            (Some(_), _) if tells || self.from.is_some() || self.dry_run => {
                let says = "--last shows what is in the log, and does not go with anything else";
                let help = "leave out --last, or all but it";
                Err(Fault::new(None, says).help(help).into())
            }
            (_, Some(_)) if tells => {
                let says = "--from: entries are both in a file and in the command";
                Err(Fault::new(None, says)
                    .help("give the one or the other")
                    .into())
            }
            (last, None) if !tells && !self.dry_run => show_last(last.as_deref(), desk),
            (_, Some(from)) => {
                let (name, text, mut faults) = read_from(from)?;
                let sound = faults.is_empty();
                let folder = || Ok(desk.globals.folder()?.reading(name.clone(), text.clone()));
                if !sound {
                    return Err(Stopped::Faulty(Box::new(folder()?), faults));
                }
                let new = NewEntries::read(&text);
                if new.is_empty() {
                    let fault = Fault::new(None, format!("--from: no entry is in {name}"));
                    let help = "its lines are those of a log, without `entry`";
                    faults.push(fault.help(help));
                    return Err(Stopped::Wrong(faults));
                }
                self.add(&new, &folder, desk.globals.today()?, desk)
            }
            (_, None) => {
                let today = desk.globals.today()?;
                let slips: Vec<Fault> = self.each().filter_map(EntryTyped::slip).collect();
                if !slips.is_empty() {
                    return Err(Stopped::Wrong(slips));
                }
                let mut carried = Carried {
                    date: today.to_string(),
                    by: None,
                };
                let raw: Vec<RawEntry> = self.each().map(|entry| entry.raw(&mut carried)).collect();
                let globals = desk.globals;
                self.add(&NewEntries::typed(&raw), &|| globals.folder(), today, desk)
            }
        }
    }

    /// The entries of the command in their order.
    fn each(&self) -> impl Iterator<Item = &EntryTyped> {
        std::iter::once(&self.entry).chain(&self.more)
    }

    /// What each is called.
    pub(super) fn titles(&self) -> Vec<String> {
        self.each().map(EntryTyped::title).collect()
    }

    /// Adds entries to the log of the folder that `open` opens, or says what would change.
    fn add(
        &self,
        new: &NewEntries,
        open: &dyn Fn() -> Result<Folder, Stopped>,
        today: Day,
        desk: &mut Desk<'_>,
    ) -> Result<Ended, Stopped> {
        // The numbers of the entries hang on the last one, so the lock is taken before reading; but
        // not in a folder that is no boat's.
        let lock = match self.dry_run {
            true => None,
            false => {
                let path = desk.globals.boats_path()?;
                Some(FolderLock::take(&path, &mut say_waiting)?)
            }
        };
        let folder = open()?;
        let with_new = folder.boat_with(new, today).map_err(|faults| {
            let faults = named(faults, &self.titles());
            Stopped::Faulty(Box::new(folder.clone()), faults)
        })?;
        // The program ends with this, and the system takes a boat back quicker than piece by piece.
        let with_new = ManuallyDrop::new(with_new);
        let (boat, entries) = &*with_new;
        // What was struck out is told by what it leaves behind; where it was what was wrong with the
        // log, there is nothing to tell it by.
        let strikes = entries.iter().any(|entry| entry.did() == Did::Struck);
        let before = match self.dry_run || strikes {
            true => folder.boat(today).ok(),
            false => None,
        };
        if let Some(lock) = lock {
            let of = |entry| line(entry, boat.hull.gauges, boat.hull.units);
            let lines: Vec<String> = entries.iter().map(of).collect();
            let lines: Vec<&str> = lines.iter().map(String::as_str).collect();
            folder.add_to_log(&lock, &lines).map_err(refused)?;
            desk.done = Some(in_the_log(entries));
        }
        self.tell(boat, before.as_ref(), entries, desk)
    }

    fn tell(
        &self,
        boat: &Boat,
        before: Option<&Boat>,
        entries: &[Entry],
        desk: &mut Desk<'_>,
    ) -> Result<Ended, Stopped> {
        let first = entries.first().map_or(0, |entry| entry.number);
        let mut touched = vec![Vec::new(); entries.len()];
        for touch in boat.book.touched() {
            let at = touch.entry.checked_sub(first);
            if let Some(touched) = at.and_then(|at| touched.get_mut(at as usize)) {
                touched.push((touch.crossing, touch.hole));
            }
        }
        let state = boat.book.state(&boat.hull, None);
        let changed = before.map(|before| {
            let old = before.book.state(&before.hull, None);
            changes(&boat.hull, &old, &state)
        });
        let logged = Logged {
            hull: &boat.hull,
            book: &boat.book,
            entries,
            touched: &touched,
            state: &state,
            changed: changed.as_deref(),
            is_trial: self.dry_run,
            units: desk.globals.units_for(boat),
        };
        match desk.globals.format {
            Format::Text => logged::text(&logged, desk.out, desk.layout)?,
            Format::Json => writeln!(desk.out, "{:#}", logged::json(&logged))?,
        }
        Ok(Ended::Done)
    }
}

/// The name and text of a file of entries, and what is wrong with its bytes.
fn read_from(from: &str) -> Result<(String, String, Vec<Fault>), Stopped> {
    let mut faults = Vec::new();
    if from == "-" {
        let mut bytes = Vec::new();
        io::stdin()
            .lock()
            .take(LARGEST + 1)
            .read_to_end(&mut bytes)?;
        if bytes.len() as u64 > LARGEST {
            let says = format!("--from: there is more than {} MiB", LARGEST / 1024 / 1024);
            let help = "a log of a million entries is a quarter of that";
            return Err(Fault::new(None, says).help(help).into());
        }
        let decoded = decode(FileId::Added, bytes, &mut faults);
        return Ok(("standard input".to_owned(), decoded.text, faults));
    }
    match load(Path::new(from), FileId::Added, &mut faults) {
        Ok(decoded) => Ok((from.to_owned(), decoded.text, faults)),
        Err(error) if error.kind() == io::ErrorKind::NotFound => {
            let says = format!("--from: there is no file {from}");
            let help = "name a file of log lines, or - for standard input";
            Err(Fault::new(None, says).help(help).into())
        }
        Err(error) => Err(error.into()),
    }
}

/// Shows the last entries of the log.
fn show_last(typed: Option<&str>, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
    const SHOWN: usize = 10;
    let most = match typed {
        None => SHOWN,
        Some(typed) => digits(typed.trim())
            .filter(|most| *most > 0)
            .ok_or_else(|| {
                Fault::new(
                    None,
                    format!("--last: `{typed}` is not a whole number above 0"),
                )
            })?,
    };
    let (boat, _) = desk.globals.read_boat()?;
    let units = desk.globals.units_for(&boat);
    match desk.globals.format {
        Format::Text => last::text(&boat.hull, &boat.book, most, units, desk.out, desk.layout)?,
        Format::Json => writeln!(desk.out, "{:#}", last::json(&boat.hull, &boat.book, most))?,
    }
    Ok(Ended::Done)
}

/// What is told of entries that are written, where nothing more can be.
pub(super) fn in_the_log<'e>(entries: impl IntoIterator<Item = &'e Entry>) -> String {
    let mut numbers = entries.into_iter().map(|entry| entry.number);
    let first = numbers.next().unwrap_or(0);
    match numbers.last() {
        None => format!("entry {first} is in the log"),
        Some(last) => format!("entries {first} to {last} are in the log"),
    }
}

pub(super) fn refused(not_added: NotAdded) -> Stopped {
    match not_added.error {
        AppendError::Torn => Fault::new(None, not_added.to_string()).into(),
        AppendError::Changed | AppendError::Refused(_) | AppendError::Left(_) => {
            Stopped::Machine(io::Error::other(not_added))
        }
    }
}
