//! `refasten check`: is everything in the boat's folder as it should be?

use std::io;

use clap::Args;
use serde_json::{Value, json};

use super::folder::say_waiting;
use super::{Desk, Ended, Format, Globals, Stopped};
use crate::files::{Boat, Folder, Known, LOG_FILE, MENDED_FILE, Mending, Merged};
use crate::show::check as show;

/// Read the boat's files and tell everything that is wrong with them
///
/// Nothing is written but by --repair.
#[derive(Debug, Args)]
pub(super) struct Check {
    /// Mend a log whose last line was cut short, or to which two people added at once: write the
    /// mended one beside it and show what changes. Where numbers are taken, the later entries get
    /// new ones, and strikes name them by those
    #[arg(long)]
    repair: bool,
    /// Put the mended log in its place
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
                show::text(desk.out, desk.layout, &boat.hull, &boat.book)?;
                show::photos(desk.out, &folder.missing_photos(&boat.book), desk.layout)?;
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
                let torn = mended.and_then(|mended| mended.torn.as_ref());
                let torn =
                    torn.map(|torn| json!({"line": torn.line, "keeps_entry": torn.keeps_entry()}));
                let merged = mended.and_then(|mended| mended.merged.as_ref());
                let beside = (mended.is_some() && !replaced).then_some(MENDED_FILE);
                let told = json!({
                    "format": 1, "mended": torn, "merged": merged.map(merged_json),
                    "beside": beside, "replaced": replaced,
                });
                serde_json::to_writer_pretty(&mut *desk.out, &told).map_err(io::Error::from)?;
                writeln!(desk.out)?;
            }
            (Format::Text, None) => {
                writeln!(
                    desk.out,
                    "{LOG_FILE} ends as it should and is in order; nothing is to be mended"
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

/// What was done to a log that two people added to, for other programs.
fn merged_json(merged: &Merged) -> Value {
    let entry =
        |known: &Known| json!({"line": known.line, "entry": known.entry, "words": known.words});
    let renumbered = merged.renumbered.iter().map(|(known, number)| {
        let mut of = entry(known);
        of["is_now"] = json!(number);
        of
    });
    let strikes = merged.strikes.iter().map(|(known, now)| {
        let mut of = entry(known);
        of["strikes_now"] = json!(now);
        of
    });
    json!({
        "marks": merged.marks,
        "twice": merged.twice.iter().map(entry).collect::<Vec<_>>(),
        "moved": merged.moved.iter().map(entry).collect::<Vec<_>>(),
        "renumbered": renumbered.collect::<Vec<_>>(),
        "strikes": strikes.collect::<Vec<_>>(),
    })
}
