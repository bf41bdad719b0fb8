//! What a book that was turned back to an earlier day rests on.

use std::io;

use serde_json::{Value, json};

use super::numbers::counted;
use super::page::Page;
use crate::record::{Book, Known};

/// Says it, where the book was turned back.
pub(super) fn text(page: &mut Page<'_>, book: &Book) -> io::Result<()> {
    let Some(known) = book.known() else {
        return Ok(());
    };
    page.line(&format!(
        "As known on {}: {} of {} in the log. {} hull.yaml has no history and is taken as it is now.",
        known.day,
        known.entries,
        counted(known.of, "entry", "entries"),
        rests_on(known)
    ))?;
    if known.left_out.is_empty() {
        return Ok(());
    }
    let numbers: Vec<String> = known.left_out.iter().map(u32::to_string).collect();
    let word = if numbers.len() == 1 {
        "entry"
    } else {
        "entries"
    };
    page.line(&format!(
        "Left out, as it cannot be done with what was written down by then: {word} {}.",
        numbers.join(", ")
    ))
}

/// On what it rests that an entry had been written down.
fn rests_on(known: &Known) -> String {
    let told = match known.told {
        0 => "none of them says so".to_owned(),
        1 => "one says so".to_owned(),
        told => format!("{told} say so"),
    };
    format!(
        "Each counts as written on its own day, or later where it or one above it says so; {told}."
    )
}

/// The same for other programs; null where the book is as it is now.
pub(super) fn json(book: &Book) -> Value {
    known_json(book.known())
}

/// The same of what is known of a book.
pub(super) fn known_json(known: Option<&Known>) -> Value {
    known.map_or(Value::Null, |known| {
        json!({
            "day": known.day.to_string(),
            "entries": known.entries,
            "of_entries": known.of,
            "say_when_written": known.told,
            "left_out": known.left_out,
        })
    })
}
