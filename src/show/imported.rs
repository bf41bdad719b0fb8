//! What was taken from a spreadsheet, or would be.

use std::collections::BTreeMap;
use std::io::{self, Write};

use serde_json::{Value, json};

use super::layout::Layout;
use super::numbers::counted;
use super::page::Page;
use crate::hull::{CrossingId, Hull, fold};
use crate::record::{Entry, PlankSide, State, What};

/// How many places a line names before it only counts them.
const MOST_PLACES: usize = 8;

/// A sheet that was taken in, or could be.
#[derive(Debug)]
pub struct Told<'b> {
    /// The hull.
    pub hull: &'b Hull,
    /// The boat after the last entry.
    pub state: &'b State,
    /// The name of the sheet.
    pub sheet: &'b str,
    /// What it is known by in the log.
    pub hash: &'b str,
    /// Whether nothing was written.
    pub dry_run: bool,
    /// The entries, by rising number, each with the row it came from.
    pub added: &'b [(u32, Entry)],
    /// How many holes each entry of the log changed, by its number.
    pub holes: &'b BTreeMap<u32, usize>,
    /// Rows that were in the log before, each with the number of its entry.
    pub known: &'b [(u32, u32)],
    /// The columns that were read: what stands over each, and the key it was taken for.
    pub columns: Vec<(&'b str, &'static str)>,
    /// The headings of columns that were passed over.
    pub ignored: &'b [String],
    /// How many blank rows were passed over.
    pub blank: u32,
    /// How far the log has grown since the sheet was made from it.
    pub grown: Option<&'b str>,
}

impl Told<'_> {
    fn holes_of(&self, entry: &Entry) -> usize {
        self.holes.get(&entry.number).copied().unwrap_or(0)
    }

    /// Crossings of the boat where a plank's hole stands open.
    fn open(&self) -> Vec<CrossingId> {
        let is_open = |id: &CrossingId| {
            let mut holes = self.state.holes(*id).iter();
            holes.any(|hole| hole.content.plank_side() == PlankSide::Open)
        };
        self.hull.crossing_ids().filter(is_open).collect()
    }
}

/// Prints how the columns were taken, what was added or would be, and what stands open then.
///
/// # Errors
/// What the writer gives.
pub fn text(told: &Told<'_>, out: &mut dyn Write, layout: Layout) -> io::Result<()> {
    let mut page = Page::new(out, layout);
    let others = told.columns.iter().filter(|(heading, key)| heading != key);
    let others: Vec<String> = others
        .map(|(heading, key)| format!("`{heading}` as `{key}`"))
        .collect();
    if !others.is_empty() {
        page.line(&format!("columns taken: {}", others.join(", ")))?;
    }
    if !told.ignored.is_empty() {
        page.line(&format!("columns left out: {}", told.ignored.join(", ")))?;
    }
    if let Some(grown) = told.grown {
        page.line(&format!("note: {grown}"))?;
    }
    if told.dry_run && !told.added.is_empty() {
        let rows = told.added.iter().map(|(row, entry)| {
            let place = match &entry.what {
                What::Struck { strike, .. } => strike.to_string(),
                What::Done { place, .. } => place.to_string(),
            };
            [
                entry.number.to_string(),
                row.to_string(),
                entry.date.to_string(),
                entry.did().to_string(),
                place,
                told.holes_of(entry).to_string(),
            ]
        });
        page.table(["entry", "row", "date", "did", "place", "holes"], rows)?;
        page.gap()?;
    }
    page.line(&sum(told))?;
    standing(told, &mut page)
}

/// One line: how many rows became which entries.
fn sum(told: &Told<'_>) -> String {
    let rows = |count: usize| counted(count.try_into().unwrap_or(u32::MAX), "row", "rows");
    let mut also = Vec::new();
    match told.known.len() {
        0 => {}
        1 => also.push("1 row is in the log already".to_owned()),
        count => also.push(format!("{} are in the log already", rows(count))),
    }
    match told.blank {
        0 => {}
        1 => also.push("1 row is blank".to_owned()),
        blank => also.push(format!("{} are blank", counted(blank, "row", "rows"))),
    }
    let also = match also.is_empty() {
        true => String::new(),
        false => format!("; {}", also.join(", ")),
    };
    let (Some((_, first)), Some((_, last))) = (told.added.first(), told.added.last()) else {
        return format!("nothing new in {}{also}", told.sheet);
    };
    let entries = match first.number == last.number {
        true => format!("entry {}", first.number),
        false => format!("entries {} to {}", first.number, last.number),
    };
    let would = if told.dry_run { "would add" } else { "added" };
    let end = if told.dry_run {
        "; nothing was written"
    } else {
        ""
    };
    format!(
        "{would} {entries}, from {} of {}{also}{end}",
        rows(told.added.len()),
        told.sheet
    )
}

fn standing(told: &Told<'_>, page: &mut Page<'_>) -> io::Result<()> {
    let open = told.open();
    let then = if told.dry_run { "then" } else { "now" };
    let bare = told.state.tally(told.hull.crossing_ids()).bungs_missing;
    if open.is_empty() && bare == 0 {
        return page.line(&format!("no hole stands open {then}, and no head is bare"));
    }
    if !open.is_empty() {
        let count = u32::try_from(open.len()).unwrap_or(u32::MAX);
        page.line(&format!(
            "open {then}: {}, {}",
            counted(count, "crossing", "crossings"),
            fold(told.hull, open).shown(MOST_PLACES)
        ))?;
    }
    if bare > 0 {
        page.line(&format!("bare heads {then}: {bare}"))?;
    }
    Ok(())
}

/// The same for other programs.
pub fn json(told: &Told<'_>) -> Value {
    let added: Vec<Value> = told
        .added
        .iter()
        .map(|(row, entry)| {
            json!({
                "entry": entry.number,
                "row": row,
                "date": entry.date.to_string(),
                "did": entry.did().word(),
                "place": entry.place().map(ToString::to_string),
                "holes": told.holes_of(entry),
            })
        })
        .collect();
    let known = told
        .known
        .iter()
        .map(|(row, entry)| json!({"row": row, "entry": entry}));
    let columns = told
        .columns
        .iter()
        .map(|(heading, key)| json!({"heading": heading, "key": key}));
    let open = told.open();
    json!({
        "format": 1,
        "boat": told.hull.boat,
        "sheet": told.sheet,
        "hash": told.hash,
        "dry_run": told.dry_run,
        "columns": columns.collect::<Vec<_>>(),
        "ignored": told.ignored,
        "blank_rows": told.blank,
        "added": added,
        "already_in": known.collect::<Vec<_>>(),
        "note": told.grown,
        "standing": {
            "open_crossings": open.len(),
            "open": fold(told.hull, open).to_string(),
            "bungs_missing": told.state.tally(told.hull.crossing_ids()).bungs_missing,
        },
    })
}
