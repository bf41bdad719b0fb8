//! What the YAML reader says of a record it cannot read, at its place and in plain words.

use std::ops::Range;

use super::Piece;
use crate::text::{Clean, Fault};

/// What would be right where the reader stumbles over a sign within a text.
const QUOTES: &str =
    "a text with `: ` or ` #`, or with a comma or bracket between braces, needs quotes";

/// The fault of a record that the YAML reader could not read.
pub fn unreadable(piece: &Piece<'_>, error: &serde_yaml::Error) -> Fault {
    let said = error.to_string();
    let plain = said.split(" at line ").next().unwrap_or_default();
    let at = place(piece.text, error);
    let (at, says, help) = match plain {
        "did not find expected ',' or '}'" => (at, "a comma or `}` is missing here", QUOTES),
        "did not find expected ',' or ']'" => (at, "a comma or `]` is missing here", QUOTES),
        "mapping values are not allowed in this context" => {
            (at, "a colon is not allowed here", QUOTES)
        }
        // It is told where the next line begins.
        "could not find expected ':'" => (
            line_before(piece.text, at.start),
            "this key has no colon after it",
            "write a colon and a value",
        ),
        "did not find expected '-' indicator" | "did not find expected key" => (
            at,
            "this line stands straight under none of those above it",
            "the keys of a record begin straight under each other",
        ),
        "found unknown escape character" => (
            at,
            "what stands after this backslash is no escape",
            "write the backslash twice, or put the text between single quotes",
        ),
        _ => {
            let says = format!("this record cannot be read: {}", Clean(plain));
            return piece.fault(at, says).help(QUOTES);
        }
    };
    piece.fault(at, says).help(help)
}

/// Where the reader stumbled, in the record; never after its last word.
fn place(text: &str, error: &serde_yaml::Error) -> Range<usize> {
    let last = text.trim_end().len().saturating_sub(1);
    error.location().map_or(0..1, |place| {
        let line = place.line().saturating_sub(1);
        let mut lines = text.split_inclusive('\n');
        let before: usize = lines.clone().take(line).map(str::len).sum();
        let words = lines.nth(line).unwrap_or_default();
        let column = place.column().saturating_sub(1);
        let start = words.char_indices().nth(column);
        let start = before + start.map_or(words.trim_end().len(), |(at, _)| at);
        start.min(last)..start.min(last) + 1
    })
}

/// The words of the last line before a byte that has any; of its own line where it is the first.
fn line_before(text: &str, byte: usize) -> Range<usize> {
    let start_of = |byte| {
        text.get(..byte)
            .and_then(|t| t.rfind('\n'))
            .map_or(0, |end| end + 1)
    };
    let own = start_of(byte);
    let rest = text.get(own..).unwrap_or_default();
    let own_words = rest.lines().next().unwrap_or_default().trim();
    // At the end of the record there is no next line.
    let above = text.get(..own).unwrap_or_default().trim_end().len();
    let end = match own_words.contains(':') && above > 0 {
        true => above,
        false => own + rest.lines().next().unwrap_or_default().trim_end().len(),
    };
    let line = start_of(end)..end;
    let words = text.get(line.clone()).unwrap_or_default();
    let indent = words.len() - words.trim_start().len();
    line.start + indent..end
}
