//! The last entries of the log, in the order they were written.

use std::io::{self, Write};

use serde_json::{Value, json};

use super::history;
use super::layout::Layout;
use super::page::Page;
use crate::hull::Hull;
use crate::record::{Book, Entry, What};
use crate::units::Units;

/// The last entries, the newest last, each with the entry that strikes it out.
fn last(book: &Book, most: usize) -> impl Iterator<Item = (&Entry, Option<&Entry>)> {
    let first = book.entries().len().saturating_sub(most);
    let entries = book.entries().iter().enumerate().skip(first);
    entries.map(|(at, entry)| (entry, book.struck_by(at)))
}

/// Prints them, one a line; those struck out between brackets.
///
/// # Errors
///
/// What the writer gives.
pub fn text(
    hull: &Hull,
    book: &Book,
    most: usize,
    units: Units,
    out: &mut dyn Write,
    layout: Layout,
) -> io::Result<()> {
    let mut page = Page::new(out, layout);
    if book.entries().is_empty() {
        return page.line("the log has no entry yet");
    }
    for (entry, struck) in last(book, most) {
        let told = match (struck, &entry.what) {
            (Some(by), _) => history::struck(entry, by),
            (None, What::Done { place, .. }) => history::done(entry, place, hull, units),
            (None, What::Struck { strike, .. }) => {
                let told = history::told(entry, hull, units);
                format!("entry {}: struck out [{strike}]{told}", entry.number)
            }
        };
        page.wrapped(&history::on(entry), &told)?;
    }
    let count = book.entries().len();
    if count <= most {
        return Ok(());
    }
    let shown = match most {
        1 => "The last".to_owned(),
        most => format!("The last {most}"),
    };
    page.line(&format!(
        "{shown} of {count} entries; `--last {count}` shows them all."
    ))
}

/// The same for other programs.
pub fn json(hull: &Hull, book: &Book, most: usize) -> Value {
    let entries: Vec<Value> = last(book, most)
        .map(|(entry, struck)| {
            let strikes = match &entry.what {
                What::Struck { strike, .. } => Some(strike.number),
                What::Done { .. } => None,
            };
            json!({
                "entry": entry.number,
                "date": entry.date.to_string(),
                "did": entry.did().word(),
                "place": entry.place().map(ToString::to_string),
                "strikes": strikes,
                "told": history::told(entry, hull, hull.units).trim_start_matches(": "),
                "by": entry.by,
                "note": entry.note,
                "written": entry.written.map(|day| day.to_string()),
                "from": entry.from,
                "struck_by": struck.map(|entry| entry.number),
            })
        })
        .collect();
    json!({"format": 1, "boat": hull.boat, "of": book.entries().len(), "entries": entries})
}
