//! A log whose last line was cut short, mended without losing a byte.

use std::io::{self, Write};

use serde::Deserialize;
use serde::de::IgnoredAny;

use super::decode::utf16;
use super::{guard, split_log};
use crate::text::outline::{Node, Shape};
use crate::text::{Clean, Fault, FileId, Origin};

/// What mending a torn log would make of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Torn {
    /// The whole file, mended.
    pub(super) bytes: Vec<u8>,
    /// The number of the first line that changes, from 1.
    pub line: usize,
    old: Vec<String>,
    new: Vec<String>,
}

impl Torn {
    /// Whether the last entry is kept: only its line end was missing.
    pub fn keeps_entry(&self) -> bool {
        self.old == self.new
    }

    /// Shows the lines that change, old ones with `-` and new ones with `+` before them.
    ///
    /// # Errors
    ///
    /// What the writer gives.
    pub fn show(&self, out: &mut dyn Write) -> io::Result<()> {
        if self.keeps_entry() {
            return writeln!(
                out,
                "line {} is whole but for its line end, which is added",
                self.line
            );
        }
        writeln!(
            out,
            "line {} was cut short; it is kept as a comment",
            self.line
        )?;
        for line in &self.old {
            writeln!(out, "- {}", Clean(line))?;
        }
        for line in &self.new {
            writeln!(out, "+ {}", Clean(line))?;
        }
        Ok(())
    }
}

/// The fault of a log, or of a plan, whose last line has no end.
pub fn torn(file: FileId, text: &str) -> Option<Fault> {
    let start = tail_start(text.as_bytes())?;
    let before = text.get(..start).unwrap_or_default();
    let lines = before.bytes().filter(|byte| *byte == b'\n').count();
    let origin = Origin {
        file,
        byte: start,
        line: u32::try_from(lines + 1).unwrap_or(u32::MAX),
    };
    let fault = Fault {
        bytes: Some(start..text.len()),
        ..Fault::new(
            Some(origin),
            format!("the last line of the {} has no end", word(file)),
        )
    };
    Some(fault.help("a write was cut short; `check --repair` mends it"))
}

/// What a file is called in a sentence.
const fn word(file: FileId) -> &'static str {
    match file {
        FileId::Hull => "hull file",
        FileId::Log => "log",
        FileId::Plan => "plan",
        FileId::Typed | FileId::Added => "file of entries",
    }
}

/// What mending makes of a log whose last line has no end; `None` where it has one, or was saved as
/// UTF-16.
///
/// An entry that is whole gets its line end. One that is not becomes a comment: each of its lines
/// after `# torn: `, what is not text in it written out as `\x00`.
pub(super) fn sewn(bytes: &[u8]) -> Option<Torn> {
    // Its line ends are no bytes to look for.
    if utf16(bytes) {
        return None;
    }
    let tail = tail_start(bytes)?;
    let mut start = tail;
    // The lines of an entry after its first are indented: go back to where it began.
    while start > 0 && continues(bytes.get(start..).unwrap_or_default()) {
        let before = bytes.get(..start.saturating_sub(1)).unwrap_or_default();
        start = line_start(before);
    }
    let kept = bytes.get(..start).unwrap_or_default();
    let end: &[u8] = match kept.ends_with(b"\r\n") {
        true => b"\r\n",
        false => b"\n",
    };
    let last = bytes.get(start..).unwrap_or_default();
    // The write may have been cut between the two bytes of a line end.
    let last = last.strip_suffix(b"\r").unwrap_or(last);
    let old: Vec<String> = last.split(|byte| *byte == b'\n').map(shown).collect();
    let mut mended = kept.to_vec();
    let new = if whole(last) {
        mended.extend_from_slice(last);
        mended.extend_from_slice(end);
        old.clone()
    } else {
        let new: Vec<String> = old.iter().map(|line| format!("# torn: {line}")).collect();
        for line in &new {
            mended.extend_from_slice(line.as_bytes());
            mended.extend_from_slice(end);
        }
        new
    };
    Some(Torn {
        bytes: mended,
        line: 1 + kept.iter().filter(|byte| **byte == b'\n').count(),
        old,
        new,
    })
}

/// Where the last line begins, if it has no end.
fn tail_start(bytes: &[u8]) -> Option<usize> {
    let start = line_start(bytes);
    (start < bytes.len()).then_some(start)
}

fn line_start(bytes: &[u8]) -> usize {
    let end = bytes.iter().rposition(|byte| *byte == b'\n');
    end.map_or(0, |end| end + 1)
}

/// Whether a line is one of those after the first of an entry, or may stand among them.
fn continues(line: &[u8]) -> bool {
    matches!(
        line.first(),
        None | Some(b' ' | b'\t' | b'\r' | b'\n' | b'}' | b']')
    )
}

/// Whether the lines are a comment, or one entry that can be read.
fn whole(lines: &[u8]) -> bool {
    let Ok(text) = std::str::from_utf8(lines) else {
        return false;
    };
    if text
        .chars()
        .any(|c| c.is_control() && !"\t\r\n".contains(c))
    {
        return false;
    }
    let mut faults = Vec::new();
    let pieces = split_log(text, &mut faults);
    if !faults.is_empty() {
        return false;
    }
    let [piece] = pieces.as_slice() else {
        return pieces.is_empty();
    };
    let full = match guard::guard(piece, &mut faults).map(|root| root.shape) {
        Some(Shape::List(items)) => items
            .first()
            .is_some_and(|item| matches!(item.shape, Shape::Map(_)) && !ends_early(item)),
        _ => false,
    };
    let from = serde_yaml::Deserializer::from_str(piece.text);
    full && IgnoredAny::deserialize(from).is_ok()
}

/// Whether a value is missing anywhere, as after a colon that was the last to be written.
fn ends_early(node: &Node) -> bool {
    match &node.shape {
        Shape::Nothing => true,
        Shape::Plain | Shape::Quoted => false,
        Shape::Map(pairs) => pairs.iter().any(|pair| ends_early(&pair.value)),
        Shape::List(items) => items.iter().any(ends_early),
    }
}

/// A line as text, what is no text written out.
fn shown(line: &[u8]) -> String {
    use std::fmt::Write;
    let line = line.strip_suffix(b"\r").unwrap_or(line);
    let mut out = String::new();
    for chunk in line.utf8_chunks() {
        for c in chunk.valid().chars() {
            if c.is_control() && c != '\t' || matches!(c, '\u{2028}' | '\u{2029}' | '\u{feff}') {
                // Writing to a string cannot fail.
                let _ = write!(out, "{}", c.escape_unicode());
            } else {
                out.push(c);
            }
        }
        for byte in chunk.invalid() {
            let _ = write!(out, "\\x{byte:02x}");
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mended(bytes: &[u8]) -> (String, String) {
        let mended = sewn(bytes).expect("it is torn");
        let mut shown = Vec::new();
        mended.show(&mut shown).unwrap();
        assert_eq!(sewn(&mended.bytes), None);
        (
            String::from_utf8(mended.bytes).unwrap(),
            String::from_utf8(shown).unwrap(),
        )
    }

    #[test]
    fn a_whole_entry_gets_its_line_end() {
        for (torn, whole) in [
            ("- {a: 1}\n- {a: 2}", "- {a: 1}\n- {a: 2}\n"),
            ("- {a: 1}\r\n- {a: 2}\r", "- {a: 1}\r\n- {a: 2}\r\n"),
            ("- {a: 1}\n# so far", "- {a: 1}\n# so far\n"),
            ("- a: 1\n  b: 2", "- a: 1\n  b: 2\n"),
            ("- {a: 1}\n  ", "- {a: 1}\n  \n"),
        ] {
            let (text, shown) = mended(torn.as_bytes());
            assert_eq!(text, whole);
            assert!(shown.contains("which is added"), "{shown}");
        }
    }

    #[test]
    fn a_torn_entry_is_kept_as_a_comment() {
        let (text, shown) = mended(b"- {a: 1}\n- {a: 2, b");
        assert_eq!(text, "- {a: 1}\n# torn: - {a: 2, b\n");
        assert_eq!(
            shown,
            "line 2 was cut short; it is kept as a comment\n- - {a: 2, b\n+ # torn: - {a: 2, b\n"
        );
        let (text, _) = mended(b"# c\r\n- {a: 2,\r\n   b: \"x");
        assert_eq!(text, "# c\r\n# torn: - {a: 2,\r\n# torn:    b: \"x\r\n");
        let (text, _) = mended(b"- {a: 1}\n- {n: \"\xc3\0");
        assert_eq!(text, "- {a: 1}\n# torn: - {n: \"\\xc3\\u{0}\n");
        let (text, _) = mended(b"- {a: 1}\n-");
        assert_eq!(text, "- {a: 1}\n# torn: -\n");
    }

    #[test]
    fn a_log_that_ends_well_is_left_alone() {
        assert_eq!(sewn(b""), None);
        assert_eq!(sewn(b"- {a: 1}\n"), None);
        assert_eq!(sewn(b"\xff\xfe-\0 \0"), None);
        assert_eq!(torn(FileId::Log, "- {a: 1}\n"), None);
        let fault = torn(FileId::Plan, "- {a: 1}\n- {a").expect("it is torn");
        assert_eq!(fault.origin.map(|origin| origin.line), Some(2));
    }
}
