//! `refasten check`: is everything in the boat's folder as it should be?

use clap::Args;
use serde_json::{Value, json};

use super::folder::say_waiting;
use super::{Desk, Ended, Format, Globals, Stopped};
use crate::files::{Boat, Folder, Known, LOG_FILE, MendedFile, Mending, Merged, PLAN_FILE};
use crate::show::check as show;

/// Tell everything that is wrong with the boat's files
///
/// Nothing is written but by --repair.
#[derive(Debug, Args)]
#[command(after_help = "refasten check")]
pub(super) struct Check {
    /// Mend a log or plan that was cut short, or added to by two
    ///
    /// Writes the mended one beside it and shows what changes. Where numbers are taken, the later
    /// entries get new ones, and strikes name them by those.
    #[arg(long)]
    repair: bool,
    /// With --repair: put what is mended in its place
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
        let files = mending.as_ref().map_or(&[][..], Mending::files);
        let replaced = self.replace && !files.is_empty();
        match desk.globals.format {
            Format::Json => {
                let of = |name: &str| {
                    let file = files.iter().find(|file| file.name == name);
                    file.map(|file| mended_json(file, replaced))
                };
                let log = of(LOG_FILE);
                let log = |key| log.as_ref().and_then(|log| log.get(key));
                let told = json!({
                    "format": 1,
                    "mended": log("mended"),
                    "merged": log("merged"),
                    "beside": log("beside"),
                    "plan": of(PLAN_FILE),
                    "replaced": replaced,
                });
                writeln!(desk.out, "{told:#}")?;
            }
            Format::Text if files.is_empty() => {
                writeln!(
                    desk.out,
                    "{LOG_FILE} ends as it should and is in order; nothing is to be mended"
                )?;
            }
            Format::Text => {
                for file in files {
                    write!(desk.out, "{}: ", file.name)?;
                    file.mended.show(desk.out)?;
                }
            }
        }
        // Whoever is to see what changes has seen it before anything does.
        desk.out.flush()?;
        let Some(mending) = &mending else {
            return Ok(Ended::Done);
        };
        if replaced {
            mending.put_in_place()?;
            desk.done = Some("what was mended is in its place".to_owned());
        }
        if desk.globals.format == Format::Json {
            return Ok(Ended::Done);
        }
        for file in files {
            let (name, beside) = (file.name, file.beside);
            match replaced {
                true => writeln!(desk.out, "{name} is replaced by the mended one")?,
                false => writeln!(
                    desk.out,
                    "the mended one is in {beside}, and {name} is as it was"
                )?,
            }
        }
        if !replaced {
            writeln!(
                desk.out,
                "to replace what is mended:\n  refasten check --repair --replace"
            )?;
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

/// What was mended of a file, for other programs.
fn mended_json(file: &MendedFile, replaced: bool) -> Value {
    let torn = file.mended.torn.as_ref();
    json!({
        "mended": torn.map(|torn| json!({"line": torn.line, "keeps_entry": torn.keeps_entry()})),
        "merged": file.mended.merged.as_ref().map(merged_json),
        "beside": (!replaced).then_some(file.beside),
    })
}

/// What was done to a log that two people added to, for other programs.
fn merged_json(merged: &Merged) -> Value {
    let entry = |Known { line, entry, words }: &Known| json!({"line": line, "entry": entry, "words": words});
    let renumbered = merged.renumbered.iter().map(|(known, number)| {
        let Known { line, entry, words } = known;
        json!({"line": line, "entry": entry, "words": words, "is_now": number})
    });
    let strikes = merged.strikes.iter().map(|(known, now)| {
        let Known { line, entry, words } = known;
        json!({"line": line, "entry": entry, "words": words, "strikes_now": now})
    });
    json!({
        "marks": merged.marks,
        "twice": merged.twice.iter().map(entry).collect::<Vec<_>>(),
        "moved": merged.moved.iter().map(entry).collect::<Vec<_>>(),
        "renumbered": renumbered.collect::<Vec<_>>(),
        "strikes": strikes.collect::<Vec<_>>(),
    })
}
