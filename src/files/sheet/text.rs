//! The bytes of a sheet made into text, or refused in words that say how to save it.

use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

use super::super::Folder;
use super::super::decode::utf16;
use crate::text::{Fault, FileId, Origin};

/// The largest sheet that is read, in bytes.
pub(super) const LARGEST: u64 = 16 * 1024 * 1024;

const SAVE: &str = "save it from the spreadsheet program as CSV in UTF-8";

/// A sheet: its name, its text, and what it is known by.
#[derive(Clone, Debug)]
pub struct Sheet {
    name: String,
    pub(super) text: String,
    pub(super) hash: String,
    /// What keeps it from being read at all.
    pub(super) fault: Option<Fault>,
}

impl Sheet {
    /// Reads a sheet from a file. One that is no sheet is told when it is imported.
    ///
    /// # Errors
    /// What the machine says, with the name of the file.
    pub fn load(path: &Path) -> io::Result<Self> {
        let name = path.display().to_string();
        let named = |error: io::Error| io::Error::new(error.kind(), format!("{name}: {error}"));
        let mut bytes = Vec::new();
        // A pipe has no length; one byte more than is allowed shows that there is too much.
        let file = File::open(path).map_err(named)?;
        file.take(LARGEST + 1)
            .read_to_end(&mut bytes)
            .map_err(named)?;
        Ok(Self::of(name.clone(), &bytes))
    }

    /// The sheet of these bytes.
    pub fn of(name: String, bytes: &[u8]) -> Self {
        let hash = hash(bytes);
        let (text, fault) = match refused(bytes) {
            Some(fault) => (String::new(), Some(fault)),
            None => decoded(bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes)),
        };
        Self {
            name,
            text,
            hash,
            fault,
        }
    }

    /// The same folder with the sheet beside it, so that faults of it can be shown.
    #[must_use]
    pub fn beside(self, folder: Folder) -> Folder {
        folder.reading(self.name, self.text)
    }

    /// Its name, as it was given.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// What it is known by in the log: eight digits that change with its content.
    pub fn hash(&self) -> &str {
        &self.hash
    }
}

/// The hash that is written to the log: FNV-1a of 64 bits, its halves folded into one, in hex.
/// These few lines stay the same for good, as what is in a log must; nobody gains by a collision.
fn hash(bytes: &[u8]) -> String {
    const START: u64 = 0xcbf2_9ce4_8422_2325;
    const PRIME: u64 = 0x0000_0100_0000_01b3;
    let hash = bytes.iter().fold(START, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(PRIME)
    });
    format!("{:08x}", (hash >> 32) ^ (hash & 0xffff_ffff))
}

/// Why bytes are no sheet at all.
fn refused(bytes: &[u8]) -> Option<Fault> {
    let says = if bytes.len() as u64 > LARGEST {
        format!("the sheet is larger than {} MiB", LARGEST / 1024 / 1024)
    } else if bytes.starts_with(b"PK\x03\x04") || bytes.starts_with(b"\xd0\xcf\x11\xe0") {
        "this is a spreadsheet program's own file, not CSV".to_owned()
    } else if utf16(bytes) {
        "the sheet was saved as UTF-16".to_owned()
    } else {
        return None;
    };
    let help = match bytes.len() as u64 > LARGEST {
        true => "a log of a hundred thousand rows is smaller; is it the right file?",
        false => SAVE,
    };
    Some(Fault::new(Some(START), says).help(help))
}

/// Where a sheet begins.
pub(super) const START: Origin = Origin {
    file: FileId::Added,
    byte: 0,
    line: 1,
};

/// The text, and the fault of the first byte that is none.
fn decoded(bytes: &[u8]) -> (String, Option<Fault>) {
    let (mut text, mut bad, mut first) = (String::with_capacity(bytes.len()), 0_u32, None);
    for chunk in bytes.utf8_chunks() {
        text.push_str(chunk.valid());
        if let Some(byte) = chunk.invalid().first() {
            bad = bad.saturating_add(1);
            first = first.or(Some((text.len(), *byte)));
            text.push(char::REPLACEMENT_CHARACTER);
        }
    }
    let fault = first.map(|(at, byte)| {
        let lines = text.bytes().take(at).filter(|byte| *byte == b'\n').count();
        let origin = Origin {
            byte: text
                .get(..at)
                .and_then(|text| text.rfind('\n'))
                .map_or(0, |end| end + 1),
            line: u32::try_from(lines + 1).unwrap_or(u32::MAX),
            ..START
        };
        let more = match bad {
            1 => String::new(),
            2 => ", nor is 1 more".to_owned(),
            n => format!(", nor are {} more", n - 1),
        };
        let says = format!("the byte {byte:02X} is not UTF-8 text{more}");
        Fault {
            bytes: Some(at..at + char::REPLACEMENT_CHARACTER.len_utf8()),
            ..Fault::new(Some(origin), says).help(format!(
                "the sheet was saved in an older way of writing letters, as Latin-1; {SAVE}"
            ))
        }
    });
    (text, fault)
}

#[cfg(test)]
mod tests {
    use super::{LARGEST, Sheet};

    fn says(bytes: &[u8]) -> String {
        let sheet = Sheet::of("a.csv".to_owned(), bytes);
        sheet.fault.map_or_else(String::new, |fault| fault.says)
    }

    #[test]
    fn what_is_no_text_in_utf_8_says_so() {
        assert_eq!(says("\u{feff}date;did\r\n".as_bytes()), "");
        assert_eq!(
            says(b"date,note\n,caf\xe9\n"),
            "the byte E9 is not UTF-8 text"
        );
        assert!(says(b"\xbd\xbd").ends_with(", nor is 1 more"));
        assert_eq!(
            says(b"\xff\xfed\0a\0t\0e\0"),
            "the sheet was saved as UTF-16"
        );
        assert!(says(b"PK\x03\x04\x14").contains("own file"));
        let large = vec![b'a'; usize::try_from(LARGEST).unwrap() + 1];
        assert_eq!(says(&large), "the sheet is larger than 16 MiB");
    }

    /// A log keeps hashes: they may never change.
    #[test]
    fn a_hash_is_the_same_for_good() {
        let hash = |text: &str| Sheet::of(String::new(), text.as_bytes()).hash;
        // The published FNV-1a of 64 bits: cbf29ce484222325, and af63dc4c8601ec8c of "a".
        assert_eq!(hash(""), "4fd0bfc1");
        assert_eq!(hash("a"), "296230c0");
        assert_ne!(hash("date,did\n"), hash("date,did"));
    }
}
