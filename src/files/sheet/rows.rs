//! The rows of a sheet, each as an entry of the log would be written.

use std::collections::BTreeMap;

use super::super::log_line::quote;
use super::super::{Given, RawEntry, read, split_log};
use super::dates::{DateOrder, NoDay};
use super::grid::{Cell, Row, Rows, letters, separator};
use super::headings::{Columns, SHEET};
use super::import::Asked;
use super::text::Sheet;
use super::values::value;
use crate::text::{Clean, Fault, Misread, Step};
use crate::units::Day;

/// With as many faults as this no more rows are read.
const MOST: usize = 1000;

/// A sheet as it was read.
#[derive(Debug, Default)]
pub(super) struct Grid {
    pub(super) columns: Columns,
    pub(super) rows: Vec<Written>,
    /// How many blank rows stand between others.
    pub(super) blank: u32,
}

/// A row, with what it says.
#[derive(Debug)]
pub(super) struct Written {
    pub(super) row: Row,
    /// The entry as it would be written; `None` where that could not be read at all.
    pub(super) raw: Option<RawEntry>,
    /// Whether something is wrong with a cell of it.
    pub(super) faulty: bool,
    /// The number that it has in the sheet.
    pub(super) own: Option<u32>,
    /// The record that it was made from.
    pub(super) sheet: Option<String>,
}

/// Reads all rows. What is wrong with a cell is told, and the rest of its row is read.
pub(super) fn rows(sheet: &Sheet, asked: &Asked<'_>, today: Day, faults: &mut Vec<Fault>) -> Grid {
    let mut text = Rows::of(&sheet.text, separator(&sheet.text));
    if let Some(sign) = named_separator(&sheet.text) {
        text = Rows::of(&sheet.text, sign);
        text.skip_line();
    }
    let heads = match text.next_row() {
        None => {
            let fault = Fault::new(Some(super::text::START), "the sheet is empty");
            faults.push(fault.help("is it the right file?"));
            return Grid::default();
        }
        Some(Err(fault)) => {
            faults.push(*fault);
            return Grid::default();
        }
        Some(Ok(row)) => row,
    };
    let mut reading = Reading {
        columns: Columns::read(&heads, asked.ignore, faults),
        order: asked.dates,
        today,
        ambiguous: None,
        bare: BTreeMap::new(),
    };
    let mut rows = Vec::new();
    while !reading.columns.read.is_empty() && faults.len() < MOST {
        match text.next_row() {
            None => break,
            Some(Err(fault)) => faults.push(*fault),
            Some(Ok(row)) => rows.push(reading.written(row, faults)),
        }
    }
    let none = rows.is_empty() && faults.is_empty();
    faults.extend(none.then(|| {
        Fault::new(
            Some(super::text::START),
            "the sheet has headings and no row under them",
        )
        .help("is it the right file?")
    }));
    let (columns, blank) = (reading.told(faults), text.blank);
    Grid {
        columns,
        rows,
        blank,
    }
}

/// The sign that a first line `sep=;` names.
fn named_separator(text: &str) -> Option<u8> {
    let line = text.lines().next()?.trim_matches('"');
    let sign = line.strip_prefix("sep=")?;
    match sign.as_bytes() {
        [sign @ (b',' | b';' | b'\t')] => Some(*sign),
        _ => None,
    }
}

struct Reading {
    columns: Columns,
    order: Option<DateOrder>,
    today: Day,
    /// The first date that can be read in more ways than one, and how many there are.
    ambiguous: Option<(Fault, u32)>,
    /// Of each column without a heading the first cell that says something, and how many do.
    bare: BTreeMap<usize, (Fault, u32)>,
}

impl Reading {
    fn written(&mut self, row: Row, faults: &mut Vec<Fault>) -> Written {
        let mut record = Vec::new();
        let (mut own, mut sheet, mut faulty) = (None, None, false);
        for cell in &row.cells {
            let column = self
                .columns
                .read
                .iter()
                .find(|column| column.at == cell.column);
            let Some(key) = column.map(|column| column.key) else {
                self.without_heading(&row, cell);
                continue;
            };
            let said = match value(key, &cell.text, self.order, self.today) {
                Ok(said) => said.ok_or(()),
                Err(wrong) => {
                    self.wrong(&row, cell, key, wrong, faults);
                    faulty = true;
                    // A key without a value is known to be faulty, and not told as missing.
                    if key != SHEET && key != "entry" {
                        record.push(format!("{key}: "));
                    }
                    continue;
                }
            };
            match (key, said) {
                (_, Err(())) => {}
                (SHEET, Ok(said)) => sheet = Some(said),
                ("entry", Ok(said)) => match said.parse().ok().filter(|number| *number > 0) {
                    Some(number) => own = Some(number),
                    None => {
                        let says = format!("`{}` is not the number of an entry", Clean(&said));
                        let wrong = Misread::new(says).help("leave the cell of a new one empty");
                        faults.push(misread(&row, cell, key, wrong));
                    }
                },
                (_, Ok(said)) => record.push(format!("{key}: {}", quote(&said))),
            }
        }
        // That there is no such column is told.
        record.extend(self.columns.missing().map(|key| format!("{key}: ")));
        let raw = raw(&row, &record, faults);
        Written {
            row,
            raw,
            faulty,
            own,
            sheet,
        }
    }

    fn wrong(
        &mut self,
        row: &Row,
        cell: &Cell,
        key: &'static str,
        wrong: NoDay,
        faults: &mut Vec<Fault>,
    ) {
        let read = match wrong {
            NoDay::Misread(wrong) => {
                faults.push(misread(row, cell, key, wrong));
                return;
            }
            NoDay::Ambiguous(read) => read,
        };
        if let Some((_, more)) = &mut self.ambiguous {
            *more = more.saturating_add(1);
            return;
        }
        let days: Vec<String> = read.iter().map(|(_, day)| day.to_string()).collect();
        let orders: Vec<String> = read
            .iter()
            .map(|(order, _)| format!("--dates {}", order.typed()))
            .collect();
        let says = format!("`{}` may be {}", cell.text.trim(), days.join(" or "));
        let help = format!("say which: {}", orders.join(" or "));
        self.ambiguous = Some((misread(row, cell, key, Misread::new(says).help(help)), 0));
    }

    fn without_heading(&mut self, row: &Row, cell: &Cell) {
        if self.columns.has_heading(cell.column) {
            return;
        }
        if let Some((_, more)) = self.bare.get_mut(&cell.column) {
            *more = more.saturating_add(1);
            return;
        }
        let name = format!("cell {}{}", letters(cell.column), row.number);
        let fault = Fault {
            bytes: Some(cell.at.clone()),
            ..Fault::new(
                Some(row.origin),
                format!("{name}: no heading stands over it"),
            )
        };
        let help = "give the column a heading; or is there a comma in a cell of this row that has \
                    no quotes round it?";
        self.bare.insert(cell.column, (fault.help(help), 0));
    }

    /// Tells what was counted, and gives the columns.
    fn told(self, faults: &mut Vec<Fault>) -> Columns {
        for (mut fault, more) in self.ambiguous.into_iter().chain(self.bare.into_values()) {
            match more {
                0 => {}
                1 => fault.says += ", and 1 more cell of that kind",
                more => fault.says += &format!(", and {more} more cells of that kind"),
            }
            faults.push(fault);
        }
        self.columns
    }
}

/// The fault of a cell.
fn misread(row: &Row, cell: &Cell, key: &'static str, wrong: Misread) -> Fault {
    let says = format!("{}: {}", named(row, cell, key), wrong.says);
    Fault {
        bytes: Some(cell.at.clone()),
        help: wrong.help,
        ..Fault::new(Some(row.origin), says)
    }
}

/// A cell as a person finds it: `cell F7 (row 7, diameter)`.
pub(super) fn named(row: &Row, cell: &Cell, key: &str) -> String {
    format!(
        "cell {}{} (row {}, {key})",
        letters(cell.column),
        row.number,
        row.number
    )
}

/// A row read as if it were a line of the log. Where a key has no value, its fault is told.
fn raw(row: &Row, record: &[String], faults: &mut Vec<Fault>) -> Option<RawEntry> {
    let line = format!("- {{{}}}\n", record.join(", "));
    let mut wrong = Vec::new();
    let pieces = split_log(&line, &mut wrong);
    let raw = pieces
        .first()
        .map(|piece| read::<RawEntry>(piece, &mut wrong));
    // What is said of a key is that it is empty.
    let is_told = |fault: &Fault| fault.says.ends_with("` is empty");
    faults.extend(
        wrong
            .into_iter()
            .filter(|fault| !is_told(fault))
            .map(|fault| Fault {
                origin: Some(row.origin),
                bytes: None,
                ..fault
            }),
    );
    match raw {
        Some(Given::Is(raw)) => Some(raw),
        _ => None,
    }
}

impl Written {
    /// Puts a fault of this row on its cell, where it is of one.
    pub(super) fn locate(&self, columns: &Columns, fault: Fault) -> Fault {
        let key = match fault.path.first() {
            Some(Step::Key(key)) => Some(*key),
            Some(Step::Name(name)) => Some(name.as_str()),
            _ => None,
        };
        let cell = key.and_then(|key| Some((key, self.row.cell(columns.of(key)?)?)));
        let (at, name) = match cell {
            Some((key, cell)) => (Some(cell.at.clone()), named(&self.row, cell, key)),
            None => {
                let (first, last) = (self.row.cells.first(), self.row.cells.last());
                let all = first
                    .zip(last)
                    .map(|(first, last)| first.at.start..last.at.end);
                (all, format!("row {}", self.row.number))
            }
        };
        Fault {
            bytes: at,
            within: None,
            says: format!("{name}: {}", fault.says),
            ..fault
        }
    }
}
