//! Table files into columns and rows, each row with the line it stands on.
//!
//! A file is one or more tables parted by `---`. Its sections (`columns`, `grounds`, `notes`,
//! `rows`) are lists whose items begin with two blanks and a dash; every item is read alone, so
//! that every fault has its line.

use serde::Deserialize;

use super::Fault;
use super::value::{self, Kind, Value};
use super::written::Written;

/// How well a figure is known; the words of the table files.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Status {
    Read,
    Transcribed,
    Derived,
    Memory,
    Practice,
}

/// What a figure stands on.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Ground {
    /// Key of the source; `None` for common practice.
    pub source: Option<String>,
    pub status: Status,
    pub note: String,
}

/// A column, as written.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Column {
    pub name: String,
    pub kind: Kind,
    #[serde(default)]
    pub unit: String,
    source: Option<String>,
    status: Option<Status>,
    #[serde(default)]
    note: String,
    /// Every row has it.
    #[serde(default)]
    pub needed: bool,
    /// Every row has more than the one before.
    #[serde(default)]
    pub rising: bool,
}

impl Column {
    /// What the column's figures stand on, unless row or cell says otherwise.
    pub fn ground(&self) -> Option<Ground> {
        Some(Ground {
            source: self.source.clone(),
            status: self.status?,
            note: self.note.clone(),
        })
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Named {
    name: String,
    source: Option<String>,
    status: Status,
    #[serde(default)]
    note: String,
}

/// One figure or label.
pub struct Cell {
    pub text: String,
    pub value: Value,
    /// `None` for labels only.
    pub ground: Option<Ground>,
}

/// One row: a cell or nothing for every column.
pub struct Row {
    pub line: usize,
    pub cells: Vec<Option<Cell>>,
    pub ground: Option<Ground>,
}

/// One table.
pub struct Table {
    pub file: String,
    pub line: usize,
    pub name: String,
    pub title: String,
    pub columns: Vec<Column>,
    pub rows: Vec<Row>,
    pub notes: Vec<String>,
}

impl Table {
    /// A fault at a row of this table.
    pub fn fault(&self, row: &Row, says: impl Into<String>) -> Fault {
        Fault::new(&self.file, row.line, says)
    }

    /// The row's value in the named column.
    pub fn value<'a>(&self, row: &'a Row, column: &str) -> Option<&'a Value> {
        self.cell(row, column).map(|cell| &cell.value)
    }

    /// The row's cell in the named column.
    pub fn cell<'a>(&self, row: &'a Row, column: &str) -> Option<&'a Cell> {
        let at = self.columns.iter().position(|c| c.name == column)?;
        row.cells.get(at)?.as_ref()
    }
}

/// All tables of a file.
pub fn file(name: &str, text: &str, faults: &mut Vec<Fault>) -> Vec<Table> {
    let mut tables = Vec::new();
    let mut part = Vec::new();
    for (at, line) in text.lines().enumerate() {
        if line == "---" {
            tables.extend(table(name, &part, faults));
            part.clear();
        } else if !line.trim().is_empty() && !line.trim_start().starts_with('#') {
            part.push((at + 1, line));
        }
    }
    tables.extend(table(name, &part, faults));
    tables
}

fn table(file: &str, lines: &[(usize, &str)], faults: &mut Vec<Fault>) -> Option<Table> {
    let mut table = Table {
        file: file.to_owned(),
        line: lines.first()?.0,
        name: String::new(),
        title: String::new(),
        columns: Vec::new(),
        rows: Vec::new(),
        notes: Vec::new(),
    };
    let mut grounds: Vec<Named> = Vec::new();
    let mut section = "";
    let before = faults.len();
    let mut at = 0;
    while let Some((number, line)) = lines.get(at).copied() {
        at += 1;
        let Some(first) = line.strip_prefix("  - ") else {
            match line.split_once(':') {
                Some(("table", rest)) => rest.trim().clone_into(&mut table.name),
                Some(("title", rest)) => rest.trim().clone_into(&mut table.title),
                // Rows of columns that could not be read would all be wrong for one reason.
                Some(("rows", "")) if faults.len() > before => return None,
                Some((key @ ("columns" | "grounds" | "notes" | "rows"), "")) => section = key,
                _ => faults.push(Fault::new(
                    file,
                    number,
                    "this is not a key of a table: table, title, columns, grounds, notes or rows",
                )),
            }
            continue;
        };
        let mut item = format!("    {first}\n");
        while let Some((_, more)) = lines.get(at).filter(|(_, l)| l.starts_with("    ")) {
            item.push_str(more);
            item.push('\n');
            at += 1;
        }
        let done = match section {
            "columns" => serde_yaml::from_str(&item).map(|c| table.columns.push(c)),
            "grounds" => serde_yaml::from_str(&item).map(|g| grounds.push(g)),
            "notes" => serde_yaml::from_str(&item).map(|n| table.notes.push(n)),
            "rows" => serde_yaml::from_str::<Written>(&item).map(|written| {
                if let Some(row) = row(&table, number, &written, &grounds, faults) {
                    table.rows.push(row);
                }
            }),
            _ => {
                faults.push(Fault::new(file, number, "an item outside columns and rows"));
                Ok(())
            }
        };
        if let Err(error) = done {
            let line = error.location().map_or(0, |l| l.line().saturating_sub(1));
            let says = error.to_string();
            let says = says.split(" at line ").next().unwrap_or_default();
            faults.push(Fault::new(file, number + line, says));
        }
    }
    Some(table)
}

fn row(
    table: &Table,
    line: usize,
    written: &Written,
    grounds: &[Named],
    faults: &mut Vec<Fault>,
) -> Option<Row> {
    let before = faults.len();
    let mut fault = |says: String| faults.push(Fault::new(&table.file, line, says));
    let take = |key: &str| {
        let found = written.cells.iter().find(|(k, _)| k == key);
        found.map(|(_, text)| text.clone())
    };
    let status = take("status").map(|word| serde_yaml::from_str::<Status>(&word));
    let own = match status {
        Some(Ok(status)) => Some(Ground {
            source: take("source"),
            status,
            note: take("note").unwrap_or_default(),
        }),
        Some(Err(_)) => {
            fault("status is read, transcribed, derived, memory or practice".to_owned());
            None
        }
        None if take("source").is_some() => {
            fault("a source without a status".to_owned());
            None
        }
        None => None,
    };
    for (key, _) in &written.cells {
        let known = table.columns.iter().any(|c| c.name == *key);
        if !known && !["source", "status", "note"].contains(&key.as_str()) {
            fault(format!("there is no column `{key}`"));
        }
    }
    for (key, _) in &written.except {
        if take(key).is_none() {
            fault(format!(
                "`except` names `{key}`, which the row does not have"
            ));
        }
    }
    let mut cells = Vec::new();
    for column in &table.columns {
        let Some(text) = take(&column.name) else {
            if column.needed {
                fault(format!("`{}` is missing", column.name));
            }
            cells.push(None);
            continue;
        };
        let excepted = written.except.iter().find(|(key, _)| *key == column.name);
        let ground = match excepted {
            _ if column.kind.is_label() => None,
            Some((_, name)) => match grounds.iter().find(|g| g.name == *name) {
                Some(named) => Some(Ground {
                    source: named.source.clone(),
                    status: named.status,
                    note: named.note.clone(),
                }),
                None => {
                    fault(format!("there is no ground `{name}`"));
                    None
                }
            },
            None => column.ground().or_else(|| own.clone()),
        };
        match value::read(column.kind, &column.unit, &text) {
            Ok(value) => cells.push(Some(Cell {
                text,
                value,
                ground,
            })),
            Err(says) => fault(format!("`{}`: {says}", column.name)),
        }
    }
    (faults.len() == before).then_some(Row {
        line,
        cells,
        ground: own,
    })
}
