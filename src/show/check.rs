//! What checking a boat's files came to.

use std::io::{self, Write};

use serde_json::{Value, json};

use crate::hull::Hull;
use crate::record::{Book, Entry};
use crate::show::layout::Layout;
use crate::show::numbers::grouped;
use crate::show::page::Page;
use crate::text::{Fault, Texts, in_order};

/// A boat whose files hold no fault.
#[derive(Clone, Copy, Debug)]
pub struct Sound<'b> {
    /// Her hull.
    pub hull: &'b Hull,
    /// Her sets and entries.
    pub book: &'b Book,
    /// Entries whose pictures are not in the folder, with what is wrong.
    pub missing: &'b [(&'b Entry, String)],
}

/// One line for a boat whose files hold no fault: her name, and what there is of her.
///
/// # Errors
///
/// What the writer gives.
pub fn text(out: &mut dyn Write, layout: Layout, hull: &Hull, book: &Book) -> io::Result<()> {
    let counts = counts(hull, book).map(|(one, many, count)| match count {
        1 => format!("1 {one}"),
        count => format!(
            "{} {many}",
            grouped(u32::try_from(count).unwrap_or(u32::MAX))
        ),
    });
    let line = format!("{}: no faults; {}", hull.boat, counts.join(", "));
    Page::new(out, layout).line(&line)
}

/// One line for each entry whose picture is not in the folder. That is no fault: what was done
/// stands, whatever became of a picture of it.
///
/// # Errors
///
/// What the writer gives.
pub fn photos(out: &mut dyn Write, missing: &[(&Entry, String)], layout: Layout) -> io::Result<()> {
    let mut page = Page::new(out, layout);
    for (entry, says) in missing {
        page.line(&format!(
            "no fault, but look: entry {}: {says}",
            entry.number
        ))?;
    }
    Ok(())
}

/// What there is of a boat: the word for one, the word for many, and how many.
fn counts(hull: &Hull, book: &Book) -> [(&'static str, &'static str, usize); 4] {
    [
        ("strake", "strakes", hull.strakes().len()),
        ("crossing", "crossings", hull.crossing_count()),
        ("set", "sets", book.sets().len()),
        ("entry", "entries", book.entries().len()),
    ]
}

/// Faults with their places, for other programs.
pub fn faults_json(faults: &[Fault], texts: &Texts<'_>) -> Vec<Value> {
    let faults = in_order(faults, texts).into_iter();
    faults
        .map(|(fault, spot)| {
            json!({
                "file": spot.as_ref().map(|spot| spot.file),
                "line": spot.as_ref().map(|spot| spot.line),
                "column": spot.as_ref().map(|spot| spot.column),
                "end": spot.as_ref().map(|spot| spot.end),
                "says": fault.says,
                "help": fault.help,
            })
        })
        .collect()
}

/// Every fault with its place, or the boat and what there is of her.
///
/// # Errors
///
/// What the writer gives.
pub fn json(
    out: &mut dyn Write,
    boat: Result<Sound<'_>, (&[Fault], &Texts<'_>)>,
) -> io::Result<()> {
    let checked = match boat {
        Ok(Sound {
            hull,
            book,
            missing,
        }) => {
            let counts: serde_json::Map<String, Value> = counts(hull, book)
                .into_iter()
                .map(|(_, what, count)| (what.to_owned(), count.into()))
                .collect();
            let photo = |(entry, says): &(&Entry, String)| json!({"entry": entry.number, "photo": entry.photo, "says": says});
            let missing: Vec<Value> = missing.iter().map(photo).collect();
            json!({
                "format": 1, "faults": [], "boat": hull.boat, "counts": counts,
                "missing_photos": missing,
            })
        }
        Err((faults, texts)) => {
            let faults = faults_json(faults, texts);
            json!({"format": 1, "faults": faults, "boat": null, "counts": null, "missing_photos": null})
        }
    };
    serde_json::to_writer_pretty(&mut *out, &checked)?;
    writeln!(out)
}
