//! A boat folder read whole.

use std::io;
use std::path::{Path, PathBuf};

use super::decode::known;
use super::hull::{HullFile, read_hull};
use super::log::read_log;
use super::plan::{PLAN_HEADER, read_plan};
use super::seen::Seen;
use super::{Decoded, FolderLock, LOG_HEADER, NotAdded, append, load, torn};
use crate::audit::Acceptance;
use crate::hull::Hull;
use crate::joint::{Bound, Limits};
use crate::record::{Book, Entry, PlanLine};
use crate::refit::buy::Stores;
use crate::text::{Fault, FileId, Texts};
use crate::units::Day;

/// The file that makes a folder a boat's.
pub const HULL_FILE: &str = "hull.yaml";
/// The file of what was done.
pub const LOG_FILE: &str = "log.yaml";
/// The file of what is meant to be done.
pub const PLAN_FILE: &str = "plan.yaml";

/// The texts of a boat folder.
#[derive(Clone, Debug)]
pub struct Folder {
    path: PathBuf,
    hull: Decoded,
    log: Decoded,
    plan: Decoded,
    /// How the log and the plan stood before they were read.
    seen: [Seen; 2],
    /// The name and text of a file of entries that are to be added.
    added: Option<(String, String)>,
    /// What was wrong with the bytes of any.
    faults: Vec<Fault>,
}

/// A boat: her hull, her book, and what she is judged by.
#[derive(Debug)]
pub struct Boat {
    /// Her hull.
    pub hull: Hull,
    /// Her sets and entries.
    pub book: Book,
    /// The limits that hold for her.
    pub limits: Limits,
    /// Findings that somebody has accepted.
    pub accepted: Vec<Acceptance>,
    /// What her owner has, and what his dealer sells things by.
    pub stores: Stores,
}

impl Folder {
    /// Whether there is a boat's folder: one with a hull file. Nothing of it is read.
    ///
    /// # Errors
    /// What the machine says; [`io::ErrorKind::NotFound`] where there is no hull file.
    pub fn look(path: &Path) -> io::Result<()> {
        known(&path.join(HULL_FILE)).map(drop)
    }

    /// Reads the files of a boat folder. A folder without a log or a plan has an empty one.
    ///
    /// # Errors
    /// What the machine says; [`io::ErrorKind::NotFound`] where there is no hull file.
    pub fn open(path: &Path) -> io::Result<Self> {
        let mut faults = Vec::new();
        let hull = load(&path.join(HULL_FILE), FileId::Hull, &mut faults)?;
        let seen = [
            Seen::at(&path.join(LOG_FILE))?,
            Seen::at(&path.join(PLAN_FILE))?,
        ];
        let mut kept = |name: &str, file| match load(&path.join(name), file, &mut faults) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(Decoded {
                text: String::new(),
                sound: true,
            }),
            decoded => decoded,
        };
        let (log, plan) = (kept(LOG_FILE, FileId::Log)?, kept(PLAN_FILE, FileId::Plan)?);
        Ok(Self {
            path: path.to_owned(),
            hull,
            log,
            plan,
            seen,
            added: None,
            faults,
        })
    }

    /// Adds lines to the log, as it stood when it was read. The lock is that of the folder.
    ///
    /// # Errors
    /// Why nothing was added, and to which file.
    pub fn add_to_log(&self, lock: &FolderLock, lines: &[&str]) -> Result<(), NotAdded> {
        let [seen, _] = &self.seen;
        self.add(lock, LOG_FILE, LOG_HEADER, seen, lines)
    }

    /// Adds a line to the plan, as it stood when it was read. The lock is that of the folder.
    ///
    /// # Errors
    /// Why nothing was added, and to which file.
    pub fn add_to_plan(&self, lock: &FolderLock, line: &str) -> Result<(), NotAdded> {
        let [_, seen] = &self.seen;
        self.add(lock, PLAN_FILE, PLAN_HEADER, seen, &[line])
    }

    fn add(
        &self,
        lock: &FolderLock,
        name: &str,
        header: &str,
        seen: &Seen,
        lines: &[&str],
    ) -> Result<(), NotAdded> {
        let path = self.path.join(name);
        append(lock, &path, header, seen, lines).map_err(|error| NotAdded { path, error })
    }

    /// The texts that faults are shown in.
    pub fn texts(&self) -> Texts<'_> {
        let texts = Texts::default()
            .with(FileId::Hull, HULL_FILE, &self.hull.text)
            .with(FileId::Log, LOG_FILE, &self.log.text)
            .with(FileId::Plan, PLAN_FILE, &self.plan.text);
        match &self.added {
            Some((name, text)) => texts.with(FileId::Added, name, text),
            None => texts,
        }
    }

    /// The boat that the files tell of.
    ///
    /// # Errors
    /// Every fault of its files.
    pub fn boat(&self, today: Day) -> Result<Boat, Vec<Fault>> {
        let (boat, faults) = self.read(today, |_, _, _| {});
        if faults.is_empty() {
            Ok(boat)
        } else {
            Err(faults)
        }
    }

    /// The path of the folder.
    pub(super) fn path(&self) -> &Path {
        &self.path
    }

    /// The same folder with a file of entries that are to be added, so that faults of it can be
    /// shown: the name to show it by, and its text.
    #[must_use]
    pub fn reading(self, name: String, text: String) -> Self {
        Self {
            added: Some((name, text)),
            ..self
        }
    }

    /// Reads the files, with entries put behind those of the log by `add`.
    pub(super) fn read(
        &self,
        today: Day,
        add: impl FnOnce(&mut HullFile, &mut Vec<Entry>, &mut Vec<Fault>),
    ) -> (Boat, Vec<Fault>) {
        self.read_and_plan(today, add, |_, _, _| {})
    }

    /// The same, with lines put behind those of the plan by `plan`.
    pub(super) fn read_and_plan(
        &self,
        today: Day,
        add: impl FnOnce(&mut HullFile, &mut Vec<Entry>, &mut Vec<Fault>),
        plan: impl FnOnce(&HullFile, &mut Vec<PlanLine>, &mut Vec<Fault>),
    ) -> (Boat, Vec<Fault>) {
        let mut faults = self.faults.clone();
        let mut file = if self.hull.sound {
            read_hull(&self.hull.text, &mut faults)
        } else {
            HullFile::default()
        };
        file.hull.incomplete |= !self.hull.sound;
        let mut entries = Vec::new();
        if self.log.sound {
            let before = faults.len();
            entries = read_log(
                &self.log.text,
                file.hull.gauges,
                &mut file.unread,
                &mut faults,
            );
            tell_torn(FileId::Log, &self.log.text, before, &mut faults);
        }
        add(&mut file, &mut entries, &mut faults);
        let (mut lines, before) = (Vec::new(), faults.len());
        if self.plan.sound {
            lines = read_plan(&self.plan.text, file.hull.gauges, &mut faults);
            tell_torn(FileId::Plan, &self.plan.text, before, &mut faults);
        }
        let whole_plan = self.plan.sound && faults.len() == before;
        plan(&file, &mut lines, &mut faults);
        let HullFile {
            hull,
            sets,
            limits,
            accepted,
            stores,
            unread,
        } = file;
        let hull = Hull::build(hull, &mut faults);
        let before = faults.len();
        let mut book = Book::build(&hull, sets, entries, &unread, today, &mut faults);
        // What is missing where a whole file could not be read proves nothing.
        if !self.hull.sound {
            faults.truncate(before);
        }
        let before = faults.len();
        book.take_plans(&hull, lines, whole_plan, &unread, today, &mut faults);
        if !self.hull.sound || !self.log.sound {
            faults.truncate(before);
        }
        for acceptance in &accepted {
            if let Err(misread) = hull.resolve(&acceptance.place) {
                faults.extend(hull.not_there(acceptance.origin, "place", misread));
            }
        }
        let limits = Limits::with(
            limits
                .into_iter()
                .map(|(limit, is)| Bound { limit, is })
                .collect(),
        );
        (
            Boat {
                hull,
                book,
                limits,
                accepted,
                stores,
            },
            faults,
        )
    }

    /// The fault of a log or a plan whose last line has no end: it can be read, but nothing is
    /// written after it.
    pub fn torn(&self) -> Vec<Fault> {
        [(FileId::Log, &self.log), (FileId::Plan, &self.plan)]
            .into_iter()
            .filter_map(|(file, decoded)| torn(file, &decoded.text))
            .collect()
    }
}

/// Where the last line has no end and cannot be read, it was cut short: that is its fault, and not
/// what the reader stumbled over.
fn tell_torn(file: FileId, text: &str, before: usize, faults: &mut Vec<Fault>) {
    let Some(fault) = torn(file, text) else {
        return;
    };
    let start = fault.origin.map_or(0, |origin| origin.byte);
    let in_tail = |fault: &Fault| {
        fault
            .origin
            .is_some_and(|o| o.file == file && o.byte >= start)
    };
    let of_tail: Vec<Fault> = faults.drain(before..).collect();
    let (tail, rest): (Vec<Fault>, Vec<Fault>) = of_tail.into_iter().partition(in_tail);
    faults.extend(rest);
    if !tail.is_empty() {
        faults.push(fault);
    }
}
