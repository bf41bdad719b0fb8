//! The files of a new boat folder.

use std::fs::{self, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use super::folder::{HULL_FILE, LOG_FILE};
use super::log_line::quote;
use super::replace::sync_folder;
use super::{LOCK_FILE, LOG_HEADER};
use crate::hull::Mark;

/// A plain invented boat with every key told.
const HULL: &str = include_str!("starter.yaml");

/// Lines that two people add to the log or the plan at once are all kept when their folders are merged.
const ATTRIBUTES: &str = "log.yaml merge=union\nplan.yaml merge=union\n";

/// The files of a new boat folder, in the order they are written: a folder is a boat's only when
/// the last is there.
pub const STARTER_FILES: [&str; 4] = [".gitattributes", ".gitignore", LOG_FILE, HULL_FILE];

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
pub fn starter(name: &str, marks: &[Mark]) -> String {
    let waterline = match marks {
        [] => "# waterline: [F1 6, F12 5, F24 6]".to_owned(),
        marks => {
            let marks: Vec<String> = marks.iter().map(Mark::to_string).collect();
            format!("waterline: [{}]", marks.join(", "))
        }
    };
    HULL.replace("{{waterline}}", &waterline)
        .replace("{{boat}}", &quote(name))
}

/// Begins a boat folder with this text as its hull file: makes the folder where there is none and
/// writes all its files, or none of them.
///
/// # Errors
///
/// When one of the files is there already, or the system refuses one.
pub fn begin(folder: &Path, hull: &str) -> Result<(), NotBegun> {
    let there: Vec<&str> = STARTER_FILES
        .into_iter()
        .filter(|name| folder.join(name).symlink_metadata().is_ok())
        .collect();
    if !there.is_empty() {
        return Err(NotBegun::Exist(there));
    }
    // The folder and those above it that have to be made, the lowest first.
    let made: Vec<&Path> = folder
        .ancestors()
        .take_while(|above| !above.as_os_str().is_empty() && above.symlink_metadata().is_err())
        .collect();
    let mut written = Vec::new();
    if let Err(error) = write_all(folder, hull, &made, &mut written) {
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
    hull: &str,
    made: &[&Path],
    written: &mut Vec<PathBuf>,
) -> io::Result<()> {
    let named = |path: &Path, error: io::Error| {
        io::Error::new(error.kind(), format!("{}: {error}", path.display()))
    };
    fs::create_dir_all(folder).map_err(|error| named(folder, error))?;
    for name in STARTER_FILES {
        let text = match name {
            HULL_FILE => hull.to_owned(),
            LOG_FILE => format!("{LOG_HEADER}\n"),
            ".gitignore" => format!("{LOCK_FILE}\n"),
            _ => ATTRIBUTES.to_owned(),
        };
        let path = folder.join(name);
        write(&path, &text, written).map_err(|error| named(&path, error))?;
    }
    let hull = folder.join(HULL_FILE);
    let names = std::iter::once(hull.as_path()).chain(made.iter().copied());
    names
        .into_iter()
        .try_for_each(|name| sync_folder(name).map_err(|error| named(folder, error)))
}

/// Writes a file that must not be there yet.
fn write(path: &Path, text: &str, written: &mut Vec<PathBuf>) -> io::Result<()> {
    let mut file = OpenOptions::new().write(true).create_new(true).open(path)?;
    written.push(path.to_owned());
    file.write_all(text.as_bytes())?;
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
        assert!(starter("Tern", &marks).contains("\nwaterline: [F1 9, F12 7]\n"));
    }

    #[test]
    fn a_folder_that_has_one_of_its_files_is_left_as_it_is() {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join(LOG_FILE), "mine\n").unwrap();
        let Err(NotBegun::Exist(there)) = begin(folder.path(), "") else {
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
            begin(&blocked.join("boat"), ""),
            Err(NotBegun::Refused(_))
        ));
        // Nor one whose name is too long, below one that could be.
        let long = folder.path().join("yard").join("x".repeat(1000));
        assert!(matches!(begin(&long, ""), Err(NotBegun::Refused(_))));
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }
}
