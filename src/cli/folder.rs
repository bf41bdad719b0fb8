//! Finding the boat's folder and reading it.

use std::io::{self, Write};
use std::path::{Path, PathBuf};

use super::{Globals, Stopped};
use crate::files::{Boat, Folder, HULL_FILE, Holder};
use crate::text::Fault;
use crate::units::{Day, Units};

impl Globals {
    /// The folder of the boat: the one that was named, else the nearest upward that has a hull
    /// file.
    ///
    /// # Errors
    /// When there is none, or the machine cannot read it.
    pub(super) fn folder(&self) -> Result<Folder, Stopped> {
        let path = self.folder_path()?;
        Folder::open(&path).map_err(|error| no_folder(&path, error))
    }

    /// The path of the folder, which is there and has a hull file; nothing of it is read.
    ///
    /// # Errors
    /// When there is none, or the machine cannot look.
    pub(super) fn boats_path(&self) -> Result<PathBuf, Stopped> {
        let path = self.folder_path()?;
        match Folder::look(&path) {
            Ok(()) => Ok(path),
            Err(error) => Err(no_folder(&path, error)),
        }
    }

    /// The path of that folder.
    ///
    /// # Errors
    /// When none is named and there is none upward.
    pub(super) fn folder_path(&self) -> Result<PathBuf, Stopped> {
        if let Some(path) = &self.boat {
            return Ok(path.clone());
        }
        let here = std::env::current_dir().map_err(|error| {
            let says = format!("the folder that refasten was started in: {error}");
            io::Error::new(error.kind(), says)
        })?;
        let found = here
            .ancestors()
            .find(|folder| folder.join(HULL_FILE).is_file());
        found.map(PathBuf::from).ok_or_else(|| {
            Fault::new(
                None,
                format!("there is no {HULL_FILE} in this folder or above it"),
            )
            .help("name the boat's folder with --boat DIR, or begin one with `refasten new DIR`")
            .into()
        })
    }

    /// The boat in her folder, read whole, with the day taken as today.
    ///
    /// # Errors
    /// Every fault of her files.
    pub(super) fn read_boat(&self) -> Result<(Boat, Day), Stopped> {
        let today = self.today()?;
        self.read_folder().map(|(boat, _)| (boat, today))
    }

    /// The boat in her folder, read whole, and the folder.
    ///
    /// # Errors
    /// Every fault of her files.
    pub(super) fn read_folder(&self) -> Result<(Boat, Folder), Stopped> {
        let today = self.today()?;
        let folder = self.folder()?;
        match folder.boat(today) {
            Ok(boat) => Ok((boat, folder)),
            Err(faults) => Err(Stopped::Faulty(Box::new(folder), faults)),
        }
    }

    /// The units to show a boat in: those asked for, else her own.
    pub(super) fn units_for(&self, boat: &Boat) -> Units {
        self.units().unwrap_or(boat.hull.units)
    }
}

/// Why a folder is no boat's, or the machine cannot read it.
fn no_folder(path: &Path, error: io::Error) -> Stopped {
    match error.kind() {
        io::ErrorKind::NotFound => Fault::new(
            None,
            format!("there is no {HULL_FILE} in {}", path.display()),
        )
        .help("`refasten new DIR` begins a boat's folder")
        .into(),
        io::ErrorKind::NotADirectory => {
            Fault::new(None, format!("{} is not a folder", path.display()))
                .help(format!("name the folder that her {HULL_FILE} is in"))
                .into()
        }
        _ => Stopped::Machine(error),
    }
}

/// Says who has the folder, and that this program waits for it.
pub(super) fn say_waiting(holder: Holder) {
    // With stderr gone there is nobody to tell.
    let _ = writeln!(
        io::stderr(),
        "waiting: {holder} is writing to this boat's folder"
    );
}
