//! Tables of a boat for other programs: her sets, and her fastenings hole by hole.
//!
//! Each is made row by row into a [`Table`], so that a boat of millions of holes takes no memory.

use std::io::{self, Write};

use serde_json::{Map, Value, json};

use super::csv::{Cell, Csv};
use super::inventory::{Stock, bung};
use super::known;
use crate::hull::{HoleNumber, Holes, Hull, Spot, fold, fold_holes};
use crate::record::{Book, Found, Set, SetId};
use crate::units::{Units, When};

/// How a table is written.
pub enum Table<'o> {
    /// For spreadsheet programs.
    Csv(Box<Csv<'o>>),
    /// For other programs: one object, its `rows` one object each.
    Json {
        /// Where it is written.
        out: &'o mut dyn Write,
        /// The keys of a row.
        keys: Vec<String>,
        /// Whether a row was written.
        begun: bool,
    },
}

impl<'o> Table<'o> {
    /// Begins a table for spreadsheet programs.
    ///
    /// # Errors
    /// What the writer gives, here and below.
    pub fn csv(out: &'o mut dyn Write, columns: &[&str]) -> io::Result<Self> {
        Ok(Self::Csv(Box::new(Csv::begin(out, columns)?)))
    }

    /// Begins a table for other programs, of a boat.
    ///
    /// # Errors
    /// What the writer gives.
    pub fn json(
        out: &'o mut dyn Write,
        columns: &[&str],
        boat: &str,
        book: &Book,
    ) -> io::Result<Self> {
        let keys = columns.iter().map(|column| column.replace(' ', "_"));
        let keys: Vec<String> = keys.collect();
        let head = json!({
            "format": 1, "boat": boat, "as_known": known::json(book), "columns": keys,
        });
        let head = head.to_string();
        // The rows follow as they come, and the object is closed after them.
        write!(out, "{},\"rows\":[", head.trim_end_matches('}'))?;
        Ok(Self::Json {
            out,
            keys,
            begun: false,
        })
    }

    /// Adds a row, a cell for each column.
    ///
    /// # Errors
    /// What the writer gives.
    pub fn row(&mut self, cells: &[Cell]) -> io::Result<()> {
        match self {
            Self::Csv(csv) => csv.row(cells),
            Self::Json { out, keys, begun } => {
                let values = cells.iter().map(|cell| match cell {
                    Cell::Empty => Value::Null,
                    Cell::Number(number) => Value::from(*number),
                    Cell::Day(text) | Cell::Text(text) => Value::from(text.as_str()),
                });
                let row: Map<String, Value> = keys.iter().cloned().zip(values).collect();
                let comma = if *begun { "," } else { "" };
                *begun = true;
                write!(out, "{comma}\n{}", Value::Object(row))
            }
        }
    }

    /// Ends the table.
    ///
    /// # Errors
    /// What the writer gives.
    pub fn end(self) -> io::Result<()> {
        match self {
            Self::Csv(csv) => csv.end(),
            Self::Json { out, .. } => writeln!(out, "\n]}}"),
        }
    }
}

/// The columns of [`sets`]: the keys of a set in the hull file.
pub const SETS: [&str; 12] = [
    "set",
    "place",
    "per crossing",
    "kind",
    "metal",
    "size",
    "bung",
    "driven",
    "how",
    "replaces",
    "leaves in",
    "adds to",
];

/// Writes the sets of the hull file, a row each, in its order.
///
/// # Errors
/// What the table gives.
pub fn sets(hull: &Hull, book: &Book, units: Units, table: &mut Table<'_>) -> io::Result<()> {
    for set in book.sets() {
        let fastening = book.fastening(set.fastening);
        let names = |sets: &[SetId]| {
            let names: Vec<&str> = sets.iter().map(|id| book.set_name(*id)).collect();
            Cell::text((!names.is_empty()).then(|| names.join(", ")))
        };
        let size = fastening.size.map(|size| size.written(hull.gauges, units));
        table.row(&[
            Cell::Text(book.set_name(set.id).to_owned()),
            Cell::Text(place(hull, set)),
            set.per_crossing()
                .map_or(Cell::Empty, |count| Cell::Number(count.into())),
            Cell::text(Some(fastening.kind)),
            Cell::text(Some(fastening.metal.map_or("unknown", |metal| metal.name))),
            Cell::Text(size.unwrap_or_else(|| "unknown".to_owned())),
            Cell::Text(fastening.plug.written(units)),
            when(fastening.driven),
            Cell::text(Some(set.how)),
            names(set.replaces()),
            names(set.leaves_in()),
            names(set.adds_to()),
        ])?;
    }
    Ok(())
}

/// Where a set is.
fn place(hull: &Hull, set: &Set) -> String {
    let spots = set.spots.iter();
    if set.spots.iter().all(|spot| spot.holes.is_any()) {
        return fold(hull, spots.map(|spot| spot.crossing)).to_string();
    }
    let numbers = |spot: &Spot| {
        let (crossing, holes) = (spot.crossing, spot.holes);
        let all = (1..=usize::from(Holes::MOST)).filter_map(HoleNumber::new);
        all.filter(move |number| holes.has(*number))
            .map(move |number| (crossing, number))
    };
    fold_holes(hull, spots.flat_map(numbers)).to_string()
}

/// A date as it is known: a program makes a day of a whole one and a number of a year, and of
/// anything else nothing.
fn when(when: When) -> Cell {
    let text = when.to_string();
    match text.parse::<crate::units::Day>().is_ok() || text.parse::<u16>().is_ok() {
        true => Cell::Day(text),
        false => Cell::Text(text),
    }
}

/// The columns of [`fastenings`]: what `show --each` tells of a hole.
pub const FASTENINGS: [&str; 11] = [
    "place",
    "set",
    "kind",
    "metal",
    "size",
    "driven",
    "state",
    "plank side",
    "frame side",
    "bung",
    "found",
];

/// Writes every hole on the day, a row each, with what is or was last in it.
///
/// # Errors
/// What the table gives.
pub fn fastenings(stock: &Stock<'_>, table: &mut Table<'_>) -> io::Result<()> {
    for id in stock.crossings {
        for (number, hole) in stock.state.numbered(*id) {
            let fastening = stock.book.fastening(hole.fastening);
            let size = fastening
                .size
                .map(|size| size.written(stock.hull.gauges, stock.units));
            let found: Vec<&str> = hole.found.each().map(Found::word).collect();
            table.row(&[
                Cell::Text(fold_holes(stock.hull, [(*id, number)]).to_string()),
                Cell::Text(stock.book.set_name(fastening.set).to_owned()),
                Cell::text(Some(fastening.kind)),
                Cell::text(Some(fastening.metal.map_or("unknown", |metal| metal.name))),
                Cell::Text(size.unwrap_or_else(|| "unknown".to_owned())),
                when(fastening.driven),
                Cell::text(Some(hole.state())),
                Cell::text(Some(hole.content.plank_side())),
                Cell::text(Some(hole.content.frame_side())),
                Cell::text(bung(hole, fastening.plug)),
                Cell::text((!found.is_empty()).then(|| found.join(", "))),
            ])?;
        }
    }
    Ok(())
}
