//! The bytes of a file made into text, or refused in words that say what was saved wrongly.

use std::fs::{File, Metadata};
use std::io::{self, Read};
use std::path::Path;

use super::replace::leads_nowhere;
use crate::text::{Fault, FileId, Origin};

/// The longest file that is read, in bytes. A log of a million entries is a quarter of it.
pub const LARGEST: u64 = 64 * 1024 * 1024;

/// More faults than this in one file's bytes are not told.
const MOST: usize = 20;

/// A file's text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Decoded {
    /// The text without a byte-order mark, line ends as they are. Bytes that are not text stand
    /// as U+FFFD, so that a fault can be shown at its place.
    pub text: String,
    /// Whether the text is to be read further. Where it is not, the faults say why.
    pub sound: bool,
}

/// Reads a file that is one of a boat folder. What is wrong with its bytes is told as faults.
///
/// # Errors
///
/// Where the system cannot read it.
pub fn load(path: &Path, file: FileId, faults: &mut Vec<Fault>) -> io::Result<Decoded> {
    let Some(bytes) = whole(path)? else {
        let says = format!("the file is longer than {} MiB", LARGEST / 1024 / 1024);
        let help = "a log of a million entries is a quarter of that; is it the right file?";
        faults.push(Fault::new(Some(start_of(file)), says).help(help));
        return Ok(Decoded {
            text: String::new(),
            sound: false,
        });
    };
    Ok(decode(file, bytes, faults))
}

/// The bytes of a file; `None` where there are more than are read.
///
/// # Errors
///
/// What the system says, with the name of the file.
pub(super) fn whole(path: &Path) -> io::Result<Option<Vec<u8>>> {
    if known(path)?.len() > LARGEST {
        return Ok(None);
    }
    whole_of(path).map_err(|error| named(path, &error))
}

fn whole_of(path: &Path) -> io::Result<Option<Vec<u8>>> {
    let mut bytes = Vec::new();
    // It may have grown since; one byte more than is allowed shows it.
    File::open(path)?
        .take(LARGEST + 1)
        .read_to_end(&mut bytes)?;
    Ok((bytes.len() as u64 <= LARGEST).then_some(bytes))
}

/// What is known of a file before it is opened: what is no file might never be read to its end.
///
/// # Errors
///
/// Where it is no file, leads to none, or is not there, with its name.
pub(super) fn known(path: &Path) -> io::Result<Metadata> {
    let known = path.metadata().and_then(|known| match known.is_file() {
        true => Ok(known),
        false => Err(io::Error::other("it is not a file")),
    });
    known.map_err(|error| match error.kind() {
        io::ErrorKind::NotFound => named(path, &leads_nowhere(path).err().unwrap_or(error)),
        _ => named(path, &error),
    })
}

fn named(path: &Path, error: &io::Error) -> io::Error {
    io::Error::new(error.kind(), format!("{}: {error}", path.display()))
}

/// What some programs put at the head of a file in UTF-8.
const BYTE_ORDER_MARK: &[u8] = b"\xef\xbb\xbf";

/// Makes text of the bytes of a file. Text in UTF-16, bytes that are not UTF-8, control
/// characters and marks left by a merge are told as faults, and then the text is not sound.
pub fn decode(file: FileId, mut bytes: Vec<u8>, faults: &mut Vec<Fault>) -> Decoded {
    let before = faults.len();
    if utf16(&bytes) {
        let fault = Fault::new(Some(start_of(file)), "this file was saved as UTF-16");
        faults.push(fault.help("save it as UTF-8"));
        return Decoded {
            text: String::new(),
            sound: false,
        };
    }
    if bytes.starts_with(BYTE_ORDER_MARK) {
        bytes.drain(..BYTE_ORDER_MARK.len());
    }
    let mut told = Told {
        file,
        left: MOST,
        faults,
    };
    // The bytes of a long log become its text where they lie.
    let text = String::from_utf8(bytes).unwrap_or_else(|error| marked(error.as_bytes(), &mut told));
    characters(&text, &mut told);
    merge_marks(&text, &mut told);
    let sound = faults.len() == before;
    Decoded { text, sound }
}

/// The text of bytes of which some are no text: those are told, and a mark stands in their place.
fn marked(bytes: &[u8], told: &mut Told<'_>) -> String {
    let mut text = String::with_capacity(bytes.len());
    for chunk in bytes.utf8_chunks() {
        text.push_str(chunk.valid());
        if let Some(byte) = chunk.invalid().first() {
            let says = format!("the byte {byte:02X} is not UTF-8 text");
            told.push(&text, text.len(), 3, says, "save the file as UTF-8");
            text.push(char::REPLACEMENT_CHARACTER);
        }
    }
    text
}

/// By its byte-order mark, or by every other byte of its beginning being nought.
pub(super) fn utf16(bytes: &[u8]) -> bool {
    let head = bytes.get(..64.min(bytes.len())).unwrap_or_default();
    let nought = |of: usize| {
        let mut pairs = head.chunks_exact(2);
        pairs.all(|pair| pair.iter().position(|byte| *byte == 0) == Some(of))
    };
    bytes.starts_with(b"\xff\xfe")
        || bytes.starts_with(b"\xfe\xff")
        || head.len() >= 4 && (nought(0) || nought(1))
}

fn start_of(file: FileId) -> Origin {
    Origin {
        file,
        byte: 0,
        line: 1,
    }
}

/// Faults of a text, up to so many.
struct Told<'f> {
    file: FileId,
    left: usize,
    faults: &'f mut Vec<Fault>,
}

impl Told<'_> {
    fn push(&mut self, text: &str, at: usize, len: usize, says: impl Into<String>, help: &str) {
        let Some(left) = self.left.checked_sub(1) else {
            return;
        };
        self.left = left;
        let before = text.get(..at).unwrap_or_default();
        let lines = before.bytes().filter(|byte| *byte == b'\n').count();
        let origin = Origin {
            file: self.file,
            byte: before.rfind('\n').map_or(0, |end| end + 1),
            line: u32::try_from(lines + 1).unwrap_or(u32::MAX),
        };
        let fault = Fault {
            bytes: Some(at..at + len),
            ..Fault::new(Some(origin), says)
        };
        self.faults.push(fault.help(help));
    }
}

/// Characters that have no place in a file written by hand, and hide in most editors.
fn characters(text: &str, told: &mut Told<'_>) {
    /// So many bytes at a time are looked over for anything but plain letters and line ends.
    const BLOCK: usize = 64;
    let is_plain = |byte: &u8| matches!(byte, b' '..=b'~' | b'\n' | b'\t');
    let mut lone_return = false;
    let mut from = 0;
    for (number, block) in text.as_bytes().chunks(BLOCK).enumerate() {
        let end = number * BLOCK + block.len();
        // No early end, so that the whole block is compared at once.
        if block.iter().fold(true, |all, byte| all & is_plain(byte)) {
            from = end;
            continue;
        }
        for (at, c) in text.get(from..).unwrap_or_default().char_indices() {
            if from + at >= end {
                from += at;
                break;
            }
            character(text, from + at, c, &mut lone_return, told);
            if told.left == 0 {
                return;
            }
        }
    }
}

fn character(text: &str, at: usize, c: char, lone_return: &mut bool, told: &mut Told<'_>) {
    match c {
        '\t' | '\n' => {}
        '\r' => {
            let ends = text
                .get(at + 1..)
                .is_some_and(|rest| rest.starts_with('\n'));
            if !ends && !*lone_return {
                *lone_return = true;
                let says = "a carriage return stands here without a line feed";
                let help = "save the file with line ends of Linux or of Windows";
                told.push(text, at, 1, says, help);
            }
        }
        _ if c.is_control() => {
            let says = format!("the control character U+{:04X} stands here", u32::from(c));
            told.push(text, at, c.len_utf8(), says, "take it out");
        }
        _ if hidden(c) => {
            let says = format!("the hidden character U+{:04X} stands here", u32::from(c));
            told.push(text, at, c.len_utf8(), says, "take it out");
        }
        _ => {}
    }
}

/// Characters that are no control characters, and yet may not stand in a file as they are: line
/// ends that no editor shows, byte-order marks, and what is no character at all.
pub(super) const fn hidden(c: char) -> bool {
    matches!(
        c,
        '\u{2028}' | '\u{2029}' | '\u{feff}' | '\u{fffe}' | '\u{ffff}'
    )
}

/// The marks that version control leaves where two people changed the same lines.
fn merge_marks(text: &str, told: &mut Told<'_>) {
    let (mut at, mut open) = (0, false);
    for line in text.split_inclusive('\n') {
        if !line.starts_with(['<', '>', '=', '|']) {
            at += line.len();
            continue;
        }
        let words = line.trim_end();
        let opens = is_mark(words, "<<<<<<<");
        let closes = is_mark(words, ">>>>>>>");
        let between = words == "=======" || is_mark(words, "|||||||");
        if opens || !open && (closes || between) {
            let says = "a merge was left unfinished here";
            let help = match told.file {
                FileId::Log => {
                    "`check --repair` keeps the entries of both sides, takes the marks out and \
                     numbers anew what needs it"
                }
                FileId::Plan => {
                    "`check --repair` keeps the lines of both sides and takes the marks out"
                }
                FileId::Hull | FileId::Typed | FileId::Added => {
                    "keep the lines that are right and take out the lines that begin with \
                     `<<<<<<<`, `=======` and `>>>>>>>`"
                }
            };
            told.push(text, at, words.len(), says, help);
        }
        open = (open || opens) && !closes;
        at += line.len();
    }
}

fn is_mark(line: &str, mark: &str) -> bool {
    line.strip_prefix(mark)
        .is_some_and(|rest| rest.is_empty() || rest.starts_with(' '))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The text, and each fault's line and pointed bytes.
    fn told(bytes: &[u8]) -> (Decoded, Vec<(u32, String, String)>) {
        let mut faults = Vec::new();
        let decoded = decode(FileId::Log, bytes.to_vec(), &mut faults);
        let told = faults.iter().map(|fault| {
            let at = fault.bytes.clone().and_then(|at| decoded.text.get(at));
            let line = fault.origin.map_or(0, |origin| origin.line);
            (line, at.unwrap_or_default().to_owned(), fault.says.clone())
        });
        let told = told.collect();
        (decoded, told)
    }

    #[test]
    fn windows_files_are_read_as_they_are() {
        let (decoded, faults) = told(b"\xef\xbb\xbf# a\r\n- {b: \t1}\r\n");
        assert_eq!(faults, []);
        assert_eq!(decoded.text, "# a\r\n- {b: \t1}\r\n");
        assert!(decoded.sound);
    }

    #[test]
    fn what_is_no_text_is_refused_at_its_place() {
        for (bytes, line, at, says) in [
            (&b"\xff\xfe-\0 \0"[..], 1, "", "UTF-16"),
            (b"-\0 \0{\0a\0", 1, "", "UTF-16"),
            (b"a\n- n\xe9e\n", 2, "\u{fffd}", "byte E9"),
            (b"a\n- \0\n", 2, "\0", "U+0000"),
            (b"a\n- \x1b[31m\n", 2, "\x1b", "U+001B"),
            (b"a\rb\rc", 1, "\r", "carriage return"),
            ("a\n\u{2028}".as_bytes(), 2, "\u{2028}", "hidden"),
        ] {
            let (decoded, faults) = told(bytes);
            assert!(!decoded.sound);
            assert_eq!(faults.len(), 1, "{faults:?}");
            assert_eq!((faults[0].0, faults[0].1.as_str()), (line, at));
            assert!(faults[0].2.contains(says), "{faults:?}");
        }
    }

    #[test]
    fn each_unfinished_merge_is_told_once() {
        let text = b"- {a: 1}\n<<<<<<< HEAD\n- {a: 2}\n=======\n- {a: 3}\n>>>>>>> other\n- {n: \"\n =======\n\"}\n=======\n";
        let (_, faults) = told(text);
        let at: Vec<_> = faults
            .iter()
            .map(|(line, at, _)| (*line, at.as_str()))
            .collect();
        assert_eq!(at, [(2, "<<<<<<< HEAD"), (10, "=======")]);
    }

    #[test]
    fn a_file_full_of_rubbish_gives_few_faults() {
        let (_, faults) = told(&vec![1; 100_000]);
        assert_eq!(faults.len(), MOST);
    }
}
