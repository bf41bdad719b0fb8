//! The files of a new boat folder.

use std::borrow::Cow;
use std::cmp::Reverse;
use std::fs::{self, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use super::folder::{HULL_FILE, LOG_FILE, PLAN_FILE};
use super::log_line::quote;
use super::replace::sync_folder;
use super::{LOCK_FILE, LOG_HEADER};
use crate::hull::Mark;

/// A plain invented boat with every key told.
const HULL: &str = include_str!("starter.yaml");

/// Lines that two people add to the log or the plan at once are all kept when their folders are merged.
const ATTRIBUTES: &str = "log.yaml merge=union\nplan.yaml merge=union\n";

/// A file of a new boat folder: its path there, parted by `/`, and what is in it.
pub type NewFile = (&'static str, Cow<'static, [u8]>);

/// Why a boat folder was not begun.
#[derive(Debug)]
pub enum NotBegun {
    /// These files are there already; nothing was written.
    Exist(Vec<&'static str>),
    /// The system refused; what had been written is taken away again.
    Refused(io::Error),
}

impl From<io::Error> for NotBegun {
    fn from(error: io::Error) -> Self {
        Self::Refused(error)
    }
}

/// The text of a new hull file, for a boat of this name with these marks of the waterline.
pub fn starter(name: &str, marks: &[Mark]) -> Vec<NewFile> {
    let waterline = match marks {
        [] => "# waterline: [F1 6, F12 5, F24 6]".to_owned(),
        marks => {
            let marks: Vec<String> = marks.iter().map(Mark::to_string).collect();
            format!("waterline: [{}]", marks.join(", "))
        }
    };
    let hull = HULL
        .replace("{{waterline}}", &waterline)
        .replace("{{boat}}", &quote(name));
    vec![
        (".gitattributes", ATTRIBUTES.as_bytes().into()),
        (".gitignore", format!("{LOCK_FILE}\n").into_bytes().into()),
        (LOG_FILE, format!("{LOG_HEADER}\n").into_bytes().into()),
        (HULL_FILE, hull.into_bytes().into()),
    ]
}

/// The files of the invented boat, half way through a refit, that comes with the program.
pub fn demo() -> Vec<NewFile> {
    vec![
        (".gitattributes", ATTRIBUTES.as_bytes().into()),
        (".gitignore", format!("{LOCK_FILE}\n").into_bytes().into()),
        (
            "photos/s4-f14.png",
            include_bytes!("../../demo/photos/s4-f14.png").into(),
        ),
        (PLAN_FILE, include_bytes!("../../demo/plan.yaml").into()),
        (LOG_FILE, include_bytes!("../../demo/log.yaml").into()),
        (HULL_FILE, include_bytes!("../../demo/hull.yaml").into()),
    ]
}

/// Begins a boat folder with these files: makes the folder where there is none and writes all of
/// them in their order, or none. A folder is a boat's only when its hull file, the last, is there.
///
/// # Errors
///
/// When one of the files is there already, or the system refuses one.
pub fn begin(folder: &Path, files: &[NewFile]) -> Result<(), NotBegun> {
    let there: Vec<&str> = files
        .iter()
        .map(|(name, _)| *name)
        .filter(|name| folder.join(name).symlink_metadata().is_ok())
        .collect();
    if !there.is_empty() {
        return Err(NotBegun::Exist(there));
    }
    // The folders that have to be made, the lowest first.
    let paths: Vec<PathBuf> = files.iter().map(|(name, _)| folder.join(name)).collect();
    let mut made: Vec<&Path> = paths
        .iter()
        .flat_map(|path| path.ancestors().skip(1))
        .filter(|above| !above.as_os_str().is_empty() && above.symlink_metadata().is_err())
        .collect();
    made.sort_by_key(|folder| (Reverse(folder.components().count()), *folder));
    made.dedup();
    let mut written = Vec::new();
    if let Err(error) = write_all(folder, files, &made, &mut written) {
        for path in written {
            let _ = fs::remove_file(path);
        }
        for made in made {
            let _ = fs::remove_dir(made);
        }
        return Err(NotBegun::Refused(error));
    }
    Ok(())
}

/// Makes the folders and writes the files, all of it on the disk when this returns.
fn write_all(
    folder: &Path,
    files: &[NewFile],
    made: &[&Path],
    written: &mut Vec<PathBuf>,
) -> io::Result<()> {
    let named = |path: &Path, error: io::Error| {
        io::Error::new(
            error.kind(),
            format!("{} cannot be made: {error}", path.display()),
        )
    };
    for lowest in std::iter::once(&folder).chain(made) {
        fs::create_dir_all(lowest).map_err(|error| named(folder, error))?;
    }
    for (name, bytes) in files {
        let path = folder.join(name);
        write(&path, bytes, written).map_err(|error| named(&path, error))?;
    }
    let hull = folder.join(HULL_FILE);
    let names = std::iter::once(hull.as_path()).chain(made.iter().copied());
    names
        .into_iter()
        .try_for_each(|name| sync_folder(name).map_err(|error| named(folder, error)))
}

/// Writes a file that must not be there yet.
fn write(path: &Path, bytes: &[u8], written: &mut Vec<PathBuf>) -> io::Result<()> {
    let mut file = OpenOptions::new().write(true).create_new(true).open(path)?;
    written.push(path.to_owned());
    file.write_all(bytes)?;
    file.sync_all()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::files::Folder;

    fn begun(name: &str, marks: &[Mark]) -> Result<String, NotBegun> {
        let folder = tempfile::tempdir()?;
        begin(folder.path(), &starter(name, marks))?;
        let read = Folder::open(folder.path())?;
        let boat = read.boat("2026-10-20".parse().unwrap());
        Ok(boat.unwrap_or_else(|faults| panic!("{faults:?}")).hull.boat)
    }

    #[test]
    fn it_can_be_checked_as_it_stands_whatever_she_is_called() {
        for name in [
            "Tern",
            "a: \"b\" # c, {{waterline}}",
            "née\t\u{1b}[31m",
            "~",
        ] {
            assert_eq!(begun(name, &[]).unwrap(), name);
        }
        let marks = ["F1 9", "F12 7"].map(|mark| mark.parse().unwrap());
        assert_eq!(begun("Tern", &marks).unwrap(), "Tern");
        let (_, hull) = starter("Tern", &marks).pop().unwrap();
        let hull = String::from_utf8_lossy(&hull).into_owned();
        assert!(hull.contains("\nwaterline: [F1 9, F12 7]\n"));
    }

    #[test]
    fn a_folder_that_has_one_of_its_files_is_left_as_it_is() {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join(LOG_FILE), "mine\n").unwrap();
        let Err(NotBegun::Exist(there)) = begin(folder.path(), &starter("Tern", &[])) else {
            panic!("it was written over");
        };
        assert_eq!(there, [LOG_FILE]);
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }

    #[test]
    fn what_cannot_be_finished_is_taken_away() {
        let folder = tempfile::tempdir().unwrap();
        // Nothing can be made in a folder that is a file.
        let blocked = folder.path().join("file");
        fs::write(&blocked, "").unwrap();
        assert!(matches!(
            begin(&blocked.join("boat"), &demo()),
            Err(NotBegun::Refused(_))
        ));
        // Nor one whose name is too long, below one that could be.
        let long = folder.path().join("yard").join("x".repeat(1000));
        assert!(matches!(begin(&long, &demo()), Err(NotBegun::Refused(_))));
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }
}
