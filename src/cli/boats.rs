//! `refasten audit --boats`: several boats, side by side on the cores there are.

use std::io::{self, Write};
use std::num::NonZero;
use std::path::{Path, PathBuf};
use std::sync::OnceLock;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

use super::days::Point;
use super::{Desk, Ended, Format, Stopped, tell_to};
use crate::audit::{self, Outcome, Rule, Survey};
use crate::files::{Folder, HULL_FILE};
use crate::show::Layout;
use crate::show::audit::{Boats, Row, Told, boats, boats_json};
use crate::show::check::faults_json;
use crate::text::{Clean, Fault};
use crate::units::Day;

/// What is asked of every boat.
pub(super) struct Asked<'a> {
    pub today: Day,
    pub point: Point,
    pub planned: bool,
    /// By which rules, if not by all.
    pub only: &'a [&'static Rule],
}

/// A boat's row, and what is wrong with her files as it is drawn for a person.
struct Done {
    row: Row,
    faults: Vec<u8>,
}

/// Audits the boats of some folders, each a boat's own or a folder of such; `judge` says how the
/// run would end for one of them. The worst of these ends the run.
///
/// # Errors
/// When a folder is no boat's and holds none, or the machine fails.
pub(super) fn run(
    desk: &mut Desk<'_>,
    paths: &[PathBuf],
    asked: &Asked<'_>,
    judge: impl Fn(&Outcome) -> Ended,
) -> Result<Ended, Stopped> {
    let folders = folders(paths)?;
    let layout = desk.globals.layout(&io::stderr());
    let done = side_by_side(&folders, |folder| one(folder, asked, layout));
    let (rows, faults): (Vec<Row>, Vec<Vec<u8>>) =
        done.into_iter().map(|done| (done.row, done.faults)).unzip();
    let shown = Boats {
        rows: &rows,
        day: asked.point.as_of,
        as_known: asked.point.as_known(),
        planned: asked.planned,
        only: asked.only,
    };
    match desk.globals.format {
        Format::Text => boats(desk.out, desk.layout, &shown)?,
        Format::Json => writeln!(desk.out, "{:#}", boats_json(&shown))?,
    }
    desk.out.flush()?;
    let mut worst = Ended::Done;
    let mut failed = None;
    for (row, faults) in rows.iter().zip(&faults) {
        let ended = match &row.told {
            Told::Audited { outcome, .. } => judge(outcome),
            Told::Faulty(_) => {
                // For programs the faults are in the row. With stderr gone there is nobody to tell.
                if desk.globals.format == Format::Text {
                    let mut to = io::stderr().lock();
                    let _ = writeln!(to, "\n{}:\n", Clean(&row.folder));
                    let _ = to.write_all(faults);
                }
                Ended::Faulty
            }
            Told::Failed(error) => {
                failed.get_or_insert_with(|| format!("{}: {error}", row.folder));
                continue;
            }
        };
        worst = worst.worse(ended);
    }
    match failed {
        Some(error) => Err(Stopped::Machine(io::Error::other(error))),
        None => Ok(worst),
    }
}

/// The boats' folders that paths name, in the order they are named; those of a folder of boats in
/// the order of their names. One that is named twice is there once.
fn folders(paths: &[PathBuf]) -> Result<Vec<PathBuf>, Stopped> {
    const WHICH: &str = "name a boat's folder, or a folder of boats";
    let is_boat = |path: &Path| path.join(HULL_FILE).is_file();
    let mut found: Vec<PathBuf> = Vec::new();
    let mut faults = Vec::new();
    for path in paths {
        if is_boat(path) {
            found.push(path.clone());
            continue;
        }
        let mut inside = Vec::new();
        match path.read_dir() {
            Ok(entries) => {
                for entry in entries {
                    inside.push(entry?.path());
                }
            }
            Err(error) => {
                let path = path.display();
                let says = match error.kind() {
                    io::ErrorKind::NotFound => format!("--boats: there is no folder {path}"),
                    io::ErrorKind::NotADirectory => format!("--boats: {path} is not a folder"),
                    _ => format!("--boats: {path} cannot be read: {error}"),
                };
                faults.push(Fault::new(None, says).help(WHICH));
                continue;
            }
        }
        inside.retain(|path| is_boat(path));
        inside.sort();
        if inside.is_empty() {
            let says = format!(
                "--boats: there is no {HULL_FILE} in {} or in a folder of it",
                path.display()
            );
            let fault = Fault::new(None, says);
            faults.push(fault.help(WHICH));
        }
        found.extend(inside);
    }
    if !faults.is_empty() {
        return Err(Stopped::Wrong(faults));
    }
    let mut seen = std::collections::HashSet::new();
    found.retain(|path| seen.insert(path.canonicalize().unwrap_or_else(|_| path.clone())));
    Ok(found)
}

/// Each thing's answer in the order of the things, worked out on as many cores as there are.
fn side_by_side<T: Sync, A: Send + Sync>(things: &[T], answer: impl Fn(&T) -> A + Sync) -> Vec<A> {
    let cores = thread::available_parallelism().map_or(1, NonZero::get);
    let answers: Vec<OnceLock<A>> = things.iter().map(|_| OnceLock::new()).collect();
    let next = AtomicUsize::new(0);
    let work = || {
        loop {
            let at = next.fetch_add(1, Ordering::Relaxed);
            let (Some(thing), Some(slot)) = (things.get(at), answers.get(at)) else {
                break;
            };
            slot.get_or_init(|| answer(thing));
        }
    };
    thread::scope(|scope| {
        for _ in 1..cores.min(things.len()) {
            scope.spawn(work);
        }
        work();
    });
    answers
        .into_iter()
        .filter_map(OnceLock::into_inner)
        .collect()
}

/// One boat audited, or what is wrong with her files.
fn one(path: &Path, asked: &Asked<'_>, layout: Layout) -> Done {
    let done = |told, faults| Done {
        row: Row {
            folder: path.display().to_string(),
            told,
        },
        faults,
    };
    let folder = match Folder::open(path) {
        Ok(folder) => folder,
        Err(error) => return done(Told::Failed(error.to_string()), Vec::new()),
    };
    let boat = match folder.boat(asked.today) {
        Ok(boat) => asked.point.turn(boat),
        Err(faults) => {
            let texts = folder.texts();
            let mut drawn = Vec::new();
            let told = Told::Faulty(faults_json(&faults, &texts));
            return match tell_to(&mut drawn, &faults, &texts, layout) {
                Ok(()) => done(told, drawn),
                Err(error) => done(Told::Failed(error.to_string()), Vec::new()),
            };
        }
    };
    let (hull, book) = (&boat.hull, &boat.book);
    let day = asked.point.as_of;
    let mut survey = Survey::new(hull, book, &boat.limits, &boat.accepted, day, hull.units);
    if asked.planned {
        survey = survey.as_planned();
    }
    let rules = match asked.only {
        [] => Rule::all(),
        only => only,
    };
    let outcome = audit::audit(&survey, rules);
    let told = Told::Audited {
        boat: hull.boat.clone(),
        outcome: Box::new(outcome),
        known: book.known().cloned(),
    };
    done(told, Vec::new())
}
