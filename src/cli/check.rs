//! `refasten check`: is everything in the boat's folder as it should be?

use std::io;

use clap::Args;
use serde_json::json;

use super::folder::say_waiting;
use super::{Desk, Ended, Format, Globals, Stopped};
use crate::files::{Boat, Folder, LOG_FILE, MENDED_FILE, Mending};
use crate::show::check as show;

/// Read the boat's files and tell everything that is wrong with them
///
/// Nothing is written but by --repair.
#[derive(Debug, Args)]
pub(super) struct Check {
    /// Mend a log whose last line was cut short: write the mended one beside it and show what
    /// changes
    #[arg(long)]
    repair: bool,
    /// Put the mended log in the place of the torn one
    #[arg(long, requires = "repair")]
    replace: bool,
}

impl Check {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        if self.repair {
            return self.repair(desk);
        }
        match desk.globals.format {
            Format::Text => {
                let (boat, folder) = whole_boat(desk.globals)?;
                show::text(desk.out, &boat.hull, &boat.book)?;
                show::photos(desk.out, &folder.missing_photos(&boat.book), desk.width)?;
                Ok(Ended::Done)
            }
            Format::Json => match whole_boat(desk.globals) {
                Ok((boat, folder)) => {
                    let missing = folder.missing_photos(&boat.book);
                    let sound = show::Sound {
                        hull: &boat.hull,
                        book: &boat.book,
                        missing: &missing,
                    };
                    show::json(desk.out, Ok(sound))?;
                    Ok(Ended::Done)
                }
                Err(Stopped::Faulty(folder, faults)) => {
                    show::json(desk.out, Err((&faults, &folder.texts())))?;
                    Ok(Ended::Faulty)
                }
                Err(stopped) => Err(stopped),
            },
        }
    }

    fn repair(&self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        // Where there is no boat, that is what is to be said.
        desk.globals.folder()?;
        let mending = Mending::begin(&desk.globals.folder_path()?, &mut say_waiting)?;
        let mended = mending.as_ref().map(Mending::mended);
        let replaced = self.replace && mended.is_some();
        match (desk.globals.format, mended) {
            (Format::Json, mended) => {
                let mended = mended.map(
                    |mended| json!({"line": mended.line, "keeps_entry": mended.keeps_entry()}),
                );
                let beside = (mended.is_some() && !replaced).then_some(MENDED_FILE);
                let told = json!({
                    "format": 1, "mended": mended, "beside": beside, "replaced": replaced,
                });
                serde_json::to_writer_pretty(&mut *desk.out, &told).map_err(io::Error::from)?;
                writeln!(desk.out)?;
            }
            (Format::Text, None) => {
                writeln!(
                    desk.out,
                    "{LOG_FILE} ends as it should; nothing is to be mended"
                )?;
            }
            (Format::Text, Some(mended)) => {
                write!(desk.out, "{LOG_FILE}: ")?;
                mended.show(desk.out)?;
                match replaced {
                    true => writeln!(desk.out, "{LOG_FILE} is replaced by the mended one")?,
                    false => writeln!(
                        desk.out,
                        "the mended log is in {MENDED_FILE}, and {LOG_FILE} is as it was; to \
                         replace it:\n  refasten check --repair --replace"
                    )?,
                }
            }
        }
        // Whoever is to see what changes has seen it before anything does.
        desk.out.flush()?;
        if let Some(mending) = mending.filter(|_| replaced) {
            mending.put_in_place()?;
        }
        Ok(Ended::Done)
    }
}

/// The boat, where nothing at all is wrong with her files: a log that only wants its last line end
/// can be read, but not written to.
fn whole_boat(globals: &Globals) -> Result<(Boat, Folder), Stopped> {
    let (boat, _) = globals.read_boat()?;
    let folder = globals.folder()?;
    match folder.torn() {
        faults if faults.is_empty() => Ok((boat, folder)),
        faults => Err(Stopped::Faulty(Box::new(folder), faults)),
    }
}
