//! What changed from one day to another: the counts before and after, and what was done.

use std::collections::BTreeMap;
use std::io::{self, Write};

use comfy_table::{Cell, CellAlignment};
use serde_json::{Value, json};

use super::inventory::{By, COUNTS, Key, Stock, counts, tally_json};
use super::layout::Layout;
use super::page::{NONE, Page, quiet};
use super::{known, work};
use crate::record::{Done, Period, Tally};
use crate::text::Clean;

/// A boat on two days, and what was done from the one to the other.
#[derive(Debug)]
pub struct Since<'b> {
    /// The days, the first and the last of them counted.
    pub period: Period,
    /// On the eve of the first.
    pub before: Stock<'b>,
    /// At the end of the last.
    pub after: Stock<'b>,
    /// What was done.
    pub done: &'b Done<'b>,
    /// Sets of the hull file that are counted as there at the end, and were not on the eve.
    pub came: &'b [&'b str],
}

/// A row before and after.
type Pair = (Tally, Tally);

impl Since<'_> {
    /// Every row that there is before or after, in the order of its count.
    fn rows(&self, by: By) -> BTreeMap<Key, Pair> {
        let mut rows: BTreeMap<Key, Pair> = BTreeMap::new();
        for (key, tally) in self.before.count(by) {
            rows.entry(key).or_default().0 = tally;
        }
        for (key, tally) in self.after.count(by) {
            rows.entry(key).or_default().1 = tally;
        }
        rows
    }

    fn total(&self) -> Pair {
        (self.before.total(), self.after.total())
    }
}

/// Prints what changed: of what is counted only the rows that did.
///
/// # Errors
/// When `out` fails.
pub fn text(since: &Since<'_>, by: By, out: &mut dyn Write, layout: Layout) -> io::Result<()> {
    let mut page = Page::new(out, layout);
    let (before, after) = (&since.before, &since.after);
    page.line(&format!(
        "{} from {} to {}: what changed",
        after.hull.boat, since.period.first, since.period.last
    ))?;
    known::text(&mut page, after.book)?;
    for stock in [before, after] {
        for set in stock.uncertain() {
            let driven = stock.book.fastening(set.fastening).driven;
            let name = stock.book.set_name(set.id);
            page.line(&format!(
                "`{name}`: its day is not certain ({driven}); it may or may not have been there on {}",
                stock.day
            ))?;
        }
    }
    page.gap()?;
    table(since, by, &mut page)?;
    page.gap()?;
    for name in since.came {
        page.line(&format!("`{name}` of hull.yaml is counted since then."))?;
    }
    work::text(&mut page, after.hull, after.book, since.done, after.units)
}

fn table(since: &Since<'_>, by: By, page: &mut Page<'_>) -> io::Result<()> {
    let rows = since.rows(by);
    let (changed, same): (Vec<_>, Vec<_>) = rows.iter().partition(|(_, pair)| pair.0 != pair.1);
    let mut table = quiet(page.width());
    let heads = COUNTS.map(|head| Cell::new(head).set_alignment(CellAlignment::Right));
    let first = [Cell::new(by.word()), Cell::new("")];
    table.set_header(first.into_iter().chain(heads));
    let named = |key: &Key| since.after.name(key);
    let total = ("all".to_owned(), since.total());
    let changed = changed.iter().map(|(key, pair)| (named(key), **pair));
    for (name, (before, after)) in changed.chain([total]) {
        table.add_row(row(&name, "was", &before));
        table.add_row(row("", "is", &after));
    }
    page.drawn(&mut table, |column| column > 0)?;
    if !same.is_empty() {
        let names: Vec<String> = same.iter().map(|(key, _)| named(key)).collect();
        page.gap()?;
        page.line(&format!("As before: {}", names.join(", ")))?;
    }
    Ok(())
}

fn row(name: &str, when: &str, tally: &Tally) -> Vec<Cell> {
    let numbers = counts(tally).map(|n| {
        let shown = if n == 0 {
            NONE.to_owned()
        } else {
            n.to_string()
        };
        Cell::new(shown).set_alignment(CellAlignment::Right)
    });
    let first = [Cell::new(Clean(name)), Cell::new(when)];
    first.into_iter().chain(numbers).collect()
}

/// The same for other programs, every row of it.
pub fn json(since: &Since<'_>, by: By) -> Value {
    let pair =
        |(before, after): &Pair| json!({"before": tally_json(before), "after": tally_json(after)});
    let groups: Vec<Value> = since
        .rows(by)
        .iter()
        .map(|(key, counts)| {
            let mut group = pair(counts);
            if let Some(group) = group.as_object_mut() {
                group.insert("name".to_owned(), since.after.name(key).into());
            }
            group
        })
        .collect();
    let done = work::json(since.after.hull, since.after.book, since.done);
    json!({
        "format": 1,
        "boat": since.after.hull.boat,
        "since": since.period.first.to_string(),
        "before": since.before.day.to_string(),
        "as_of": since.after.day.to_string(),
        "as_known": known::json(since.after.book),
        "by": by.word(),
        "groups": groups,
        "all": pair(&since.total()),
        "sets_counted_since": since.came,
        "done": done.get("work"),
        "struck": done.get("struck"),
    })
}
