//! Pictures that entries name: in the boat's folder, and nowhere else.

use std::fs::File;
use std::io::Read;
use std::path::Path;
use std::str::FromStr;

use super::Folder;
use crate::record::{Book, Entry};
use crate::text::Misread;

/// The path of a picture as an entry names it: from the boat's folder downward, with `/` between
/// folders, so that it is right on every machine.
pub(super) struct PhotoPath(pub(super) String);

impl FromStr for PhotoPath {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        const FORM: &str = "name it from the boat's folder: photos/s4-f14.jpg";
        let path = text.trim();
        let drive = path.get(1..2) == Some(":");
        let says = if path.contains('\\') {
            "a backslash stands between the folders"
        } else if path.starts_with('/') || drive || path.starts_with('~') {
            "the path does not begin in the boat's folder"
        } else if path.split('/').any(|part| part == "..") {
            "the path leads upward with `..`"
        } else if path.split('/').any(|part| matches!(part, "" | ".")) {
            "a part of the path has no name"
        } else {
            return Ok(Self(path.to_owned()));
        };
        Err(Misread::new(says).help(FORM))
    }
}

/// What is wrong with where an entry's picture should be; nothing where it is there, or where the
/// entry has none. Links are followed: what they lead to must be in the folder too.
pub(super) fn missing(folder: &Path, entry: &Entry) -> Option<Misread> {
    let photo = entry.photo.as_deref()?;
    let Ok(path) = folder.join(photo).canonicalize() else {
        let misread = Misread::new(format!("there is no {photo} in the boat's folder"));
        return Some(misread.help("put the picture there first; its path begins in that folder"));
    };
    if !folder
        .canonicalize()
        .is_ok_and(|folder| path.starts_with(folder))
    {
        let misread = Misread::new(format!("{photo} leads out of the boat's folder"));
        return Some(misread.help("put the picture itself there, and not a link to it"));
    }
    let misread = Misread::new(format!("{photo} is not a file"));
    (!path.is_file()).then(|| misread.help("name the picture itself"))
}

/// The most bytes of a picture that are read: a page is to be sent by mail.
const MOST_BYTES: u64 = 2 * 1024 * 1024;

impl Folder {
    /// The bytes of the picture that an entry names, or why they cannot be had; `None` where it
    /// names none.
    pub fn photo(&self, entry: &Entry) -> Option<Result<Vec<u8>, String>> {
        let photo = entry.photo.as_deref()?;
        if let Some(misread) = missing(self.path(), entry) {
            return Some(Err(misread.says));
        }
        let mut bytes = Vec::new();
        let read = File::open(self.path().join(photo))
            .and_then(|file| file.take(MOST_BYTES + 1).read_to_end(&mut bytes));
        Some(match read {
            Err(error) => Err(error.to_string()),
            Ok(_) if bytes.len() as u64 > MOST_BYTES => {
                Err("it is larger than 2 MiB; make it smaller first".to_owned())
            }
            Ok(_) => Ok(bytes),
        })
    }

    /// The entries whose pictures are not in the folder, each with what is wrong. No fault of the
    /// record: what was done stands, whatever became of a picture of it.
    pub fn missing_photos<'b>(&self, book: &'b Book) -> Vec<(&'b Entry, String)> {
        let counts = |at: &usize| book.struck_by(*at).is_none();
        let entries = book.entries().iter().enumerate();
        let entries = entries.filter(|(at, _)| counts(at)).map(|(_, entry)| entry);
        entries
            .filter_map(|entry| Some((entry, missing(self.path(), entry)?.says)))
            .collect()
    }
}
