//! What the YAML reader says of a record it cannot read, at its place and in plain words.

use super::Piece;
use crate::text::{Clean, Fault};

/// The fault of a record that the YAML reader could not read.
pub fn unreadable(piece: &Piece<'_>, error: &serde_yaml::Error) -> Fault {
    let said = error.to_string();
    let plain = said.split(" at line ").next().unwrap_or_default();
    let says = match plain {
        "did not find expected ',' or '}'" => "a comma or `}` is missing here".to_owned(),
        "did not find expected ',' or ']'" => "a comma or `]` is missing here".to_owned(),
        "mapping values are not allowed in this context" => {
            "a colon is not allowed here".to_owned()
        }
        "could not find expected ':'" => "a key without a colon".to_owned(),
        _ => format!("this record cannot be read: {}", Clean(plain)),
    };
    let at = error.location().map_or(0..1, |place| {
        let line = place.line().saturating_sub(1);
        let mut lines = piece.text.split_inclusive('\n');
        let before: usize = lines.clone().take(line).map(str::len).sum();
        let words = lines.nth(line).unwrap_or_default();
        let column = place.column().saturating_sub(1);
        let start = words.char_indices().nth(column);
        let start = before + start.map_or(words.trim_end().len(), |(at, _)| at);
        start..start + 1
    });
    let help = "a text with `: ` or ` #`, or with a comma or bracket between braces, needs quotes";
    piece.fault(at, says).help(help)
}
