//! What was done over a stretch of days, like work together.

use std::collections::BTreeMap;
use std::io;

use serde_json::{Value, json};

use super::inventory::describe;
use super::numbers::grouped;
use super::page::Page;
use crate::hull::{Hull, Places, fold, fold_holes};
use crate::record::{Book, Did, Done, SetId, Work};
use crate::units::Units;

/// How many places a line names before it only counts them.
const MOST_PLACES: usize = 8;

/// Prints what was done, one line for like work.
pub(super) fn text(
    page: &mut Page<'_>,
    hull: &Hull,
    book: &Book,
    done: &Done<'_>,
    units: Units,
) -> io::Result<()> {
    if done.work.is_empty() {
        page.line("Nothing was done.")?;
    } else {
        page.line("Done")?;
    }
    for work in &done.work {
        page.item(&line(hull, book, work, units))?;
    }
    for (entry, by) in &done.struck {
        page.item(&format!(
            "not counted: [{}], struck out by entry {}",
            entry.title(),
            by.number
        ))?;
    }
    Ok(())
}

/// Like work in a line: what, how many, where, what was found, by which entries.
pub(super) fn line(hull: &Hull, book: &Book, work: &Work<'_>, units: Units) -> String {
    let of = work.fastening.map_or_else(
        || " (crossings)".to_owned(),
        |id| {
            let fastening = book.fastening(id);
            let name = book.set_name(fastening.set);
            // What is new is told; of what was there only where its set is of several kinds.
            if work.did == Did::Driven || is_mixed(hull, book, fastening.set) {
                format!(" of `{name}` ({})", describe(fastening, hull, units))
            } else {
                format!(" of `{name}`")
            }
        },
    );
    let mut line = format!(
        "{} {}{of}: {}",
        work.did,
        grouped(work.count()),
        place(hull, work).shown(MOST_PLACES)
    );
    let found: Vec<String> = found(work)
        .map(|(found, count)| format!("{count} {found}"))
        .collect();
    if !found.is_empty() {
        line += &format!("; found {}", found.join(", "));
    }
    line + &format!("; {}", told_by(work))
}

/// Whether a set has fastenings of more than one kind, metal or size.
fn is_mixed(hull: &Hull, book: &Book, set: SetId) -> bool {
    let of_it = book.fastenings().filter(|fastening| fastening.set == set);
    let mut kinds = of_it.map(|fastening| describe(fastening, hull, hull.units));
    let first = kinds.next();
    kinds.any(|kind| Some(kind) != first)
}

fn place(hull: &Hull, work: &Work<'_>) -> Places {
    match work.holes.is_empty() {
        true => fold(hull, work.crossings.iter().copied()),
        false => fold_holes(hull, work.holes.iter().copied()),
    }
}

fn found(work: &Work<'_>) -> impl Iterator<Item = (&'static str, u32)> {
    work.found
        .iter()
        .map(|(found, count)| (found.word(), *count))
}

/// The entries that tell of it, and the days of the first and the last.
fn told_by(work: &Work<'_>) -> String {
    let numbers: Vec<String> = work.entries.iter().map(|e| e.number.to_string()).collect();
    let word = if numbers.len() == 1 {
        "entry"
    } else {
        "entries"
    };
    let (first, last) = (work.entries.first(), work.entries.last());
    let days = match (first, last) {
        (Some(first), Some(last)) if first.date != last.date => {
            format!("{} to {}", first.date, last.date)
        }
        (Some(first), _) => first.date.to_string(),
        _ => String::new(),
    };
    format!("{word} {}, {days}", numbers.join(", "))
}

/// The same for other programs.
pub(super) fn json(hull: &Hull, book: &Book, done: &Done<'_>) -> Value {
    let work: Vec<Value> = done
        .work
        .iter()
        .map(|work| {
            let fastening = work.fastening.map(|id| book.fastening(id));
            json!({
                "did": work.did.word(),
                "set": fastening.map(|fastening| book.set_name(fastening.set)),
                "fastening": fastening.map(|fastening| describe(fastening, hull, hull.units)),
                "count": work.count(),
                "place": place(hull, work).to_string(),
                "found": found(work).collect::<BTreeMap<_, _>>(),
                "entries": work.entries.iter().map(|entry| entry.number).collect::<Vec<_>>(),
                "first": work.entries.first().map(|entry| entry.date.to_string()),
                "last": work.entries.last().map(|entry| entry.date.to_string()),
            })
        })
        .collect();
    let struck: Vec<Value> = done
        .struck
        .iter()
        .map(|(entry, by)| {
            json!({"entry": entry.number, "title": entry.title().to_string(), "struck_by": by.number})
        })
        .collect();
    json!({"work": work, "struck": struck})
}
