//! What every table must keep.

use std::collections::HashMap;

use super::Fault;
use super::read::{Ground, Row, Status, Table};
use super::value::{self, Kind, Value};

/// Checks all tables and adds what is wrong to `faults`.
pub fn check(tables: &[Table], faults: &mut Vec<Fault>) {
    let sources: Vec<&str> = tables
        .iter()
        .filter(|table| table.name == "sources")
        .flat_map(|table| table.rows.iter().filter_map(|row| key(table, row)))
        .collect();
    let mut names: HashMap<&str, &Table> = HashMap::new();
    for table in tables {
        if table.name.is_empty() || table.title.is_empty() {
            faults.push(Fault::new(
                &table.file,
                table.line,
                "a table has a name and a title",
            ));
        }
        if names.insert(&table.name, table).is_some() {
            let says = format!("a second table `{}`", table.name);
            faults.push(Fault::new(&table.file, table.line, says));
        }
        grounded(table, &sources, faults);
        named_once(table, faults);
        rising(table, faults);
        own_law(table, faults);
        refers(table, tables, faults);
    }
}

fn key<'a>(table: &Table, row: &'a Row) -> Option<&'a str> {
    match table.value(row, "key")? {
        Value::Text(text) => Some(text),
        _ => None,
    }
}

/// Every figure has a status, and a source that is in the list unless it is common practice.
fn grounded(table: &Table, sources: &[&str], faults: &mut Vec<Fault>) {
    let wrong = |ground: &Ground| match (&ground.source, ground.status) {
        (Some(_), Status::Practice) => Some("common practice has no source".to_owned()),
        (None, Status::Read | Status::Transcribed) => {
            Some("what was read or transcribed has a source".to_owned())
        }
        (None, Status::Derived | Status::Memory) if ground.note.is_empty() => {
            Some("what is derived or from memory has a source or a note".to_owned())
        }
        (Some(key), _) if !sources.contains(&key.as_str()) => {
            Some(format!("there is no source `{key}`"))
        }
        _ => None,
    };
    for column in &table.columns {
        if let Some(says) = column.ground().as_ref().and_then(wrong) {
            let says = format!("column `{}`: {says}", column.name);
            faults.push(Fault::new(&table.file, table.line, says));
        }
    }
    for row in &table.rows {
        if let Some(says) = row.ground.as_ref().and_then(wrong) {
            faults.push(table.fault(row, says));
        }
        for (column, cell) in table.columns.iter().zip(&row.cells) {
            let Some(cell) = cell else { continue };
            match &cell.ground {
                None if !column.kind.is_label() => {
                    let says = format!("`{}` has neither source nor status", column.name);
                    faults.push(table.fault(row, says));
                }
                Some(ground) => {
                    if let Some(says) =
                        wrong(ground).filter(|_| Some(ground) != row.ground.as_ref())
                        && column.ground().as_ref() != Some(ground)
                    {
                        faults.push(table.fault(row, format!("`{}`: {says}", column.name)));
                    }
                }
                None => {}
            }
        }
    }
}

/// A name or alias, folded, means one row.
fn named_once(table: &Table, faults: &mut Vec<Fault>) {
    let mut seen: HashMap<String, usize> = HashMap::new();
    for row in &table.rows {
        for (column, cell) in table.columns.iter().zip(&row.cells) {
            let Some(cell) = cell else { continue };
            let names: &[String] = match (&cell.value, column.kind) {
                (Value::Text(name), Kind::Name) => std::slice::from_ref(name),
                (Value::List(names), _) => names,
                _ => continue,
            };
            for name in names {
                let folded = value::folded(name);
                if folded.is_empty() {
                    faults.push(table.fault(row, "an empty name"));
                } else if let Some(line) = seen.insert(folded, row.line) {
                    let says = format!("`{name}` already names the row of line {line}");
                    faults.push(table.fault(row, says));
                }
            }
        }
    }
}

/// Columns that must rise, do.
fn rising(table: &Table, faults: &mut Vec<Fault>) {
    for (at, column) in table.columns.iter().enumerate() {
        if !column.rising {
            continue;
        }
        let mut last = f64::NEG_INFINITY;
        for row in &table.rows {
            let Some(Some(cell)) = row.cells.get(at) else {
                continue;
            };
            let Some(now) = magnitude(&cell.value) else {
                continue;
            };
            if now <= last {
                let says = format!("`{}` does not rise: {}", column.name, cell.text);
                faults.push(table.fault(row, says));
            }
            last = now;
        }
    }
}

fn magnitude(value: &Value) -> Option<f64> {
    Some(match value {
        Value::Length(nm) => *nm as f64,
        Value::Number(n) => *n,
        Value::Whole(n) | Value::Volts(n) => *n as f64,
        _ => return None,
    })
}

/// Words that must stand in a column of another table.
fn refers(table: &Table, tables: &[Table], faults: &mut Vec<Fault>) {
    const REFERS: [(&str, &str, &str, &str); 5] = [
        ("strengths", "metal", "metals", "name"),
        ("metals", "fits", "metal-fits", "metals"),
        ("metal-rates", "metal", "metals", "name"),
        ("metal-rates-steel", "metals", "metals", "name"),
        ("metal-couples", "stands for", "metals", "name"),
    ];
    for (_, from, to, column) in REFERS.iter().filter(|law| law.0 == table.name) {
        let known: Vec<&str> = tables
            .iter()
            .filter(|other| other.name == *to)
            .flat_map(|other| other.rows.iter().map(move |row| other.cell(row, column)))
            .flatten()
            .map(|cell| cell.text.as_str())
            .collect();
        for row in &table.rows {
            let words = table.cell(row, from).map(|cell| cell.text.split("; "));
            for word in words.into_iter().flatten() {
                if known.contains(&word) {
                    continue;
                }
                let says = format!("`{from}`: there is no `{word}` in the table {to}");
                faults.push(table.fault(row, says));
            }
        }
    }
}

/// Laws that only some tables have: pairs of columns in order, and figures that another figure of
/// the same row must agree with.
fn own_law(table: &Table, faults: &mut Vec<Fault>) {
    const NOT_OVER: [(&str, &str, &str); 16] = [
        ("screws", "head smallest", "head largest"),
        ("screws", "root", "standard root"),
        ("screws", "standard root", "shank"),
        ("screws", "standard head", "head largest"),
        ("screws", "head smallest", "standard head"),
        ("screws", "shortest", "longest"),
        ("screws-metric", "root", "shank"),
        ("screws-metric", "shortest", "longest"),
        ("metals", "active", "noble"),
        ("metals", "passive active", "passive noble"),
        ("metals", "coating active", "coating noble"),
        ("woods", "green", "dry"),
        ("lead-holes", "soft", "hard"),
        ("strengths", "yield", "tensile"),
        ("bending-yield-steel", "from", "to"),
        ("coatings", "any one", "average"),
    ];
    /// Where two printings of one hole stand side by side, they are one drill step apart at most.
    const NEAR: [(&str, &str, &str); 3] = [
        ("lead-holes-plate", "hard", "hard fraction"),
        ("lead-holes-plate", "soft", "soft fraction"),
        ("lead-holes-plate", "shank", "shank fraction"),
    ];
    const STEP: f64 = 25_400_000.0 / 64.0;
    for row in &table.rows {
        let pair = |left: &str, right: &str| {
            let (left, right) = (table.value(row, left)?, table.value(row, right)?);
            Some((magnitude(left)?, magnitude(right)?))
        };
        for (_, low, high) in NOT_OVER.iter().filter(|law| law.0 == table.name) {
            if pair(low, high).is_some_and(|(low, high)| low > high) {
                faults.push(table.fault(row, format!("`{low}` is over `{high}`")));
            }
        }
        for (_, left, right) in NEAR.iter().filter(|law| law.0 == table.name) {
            if pair(left, right).is_some_and(|(left, right)| (left - right).abs() > STEP) {
                let says = format!("`{left}` and `{right}` are not the same hole");
                faults.push(table.fault(row, says));
            }
        }
        if table.name == "strengths" {
            let bends = table.value(row, "bending yield").and_then(magnitude);
            let mean = pair("yield", "tensile").map(|(yields, breaks)| (yields + breaks) / 2.0);
            if bends != mean {
                let says = "`bending yield` is not halfway from yield to tensile";
                faults.push(table.fault(row, says));
            }
        }
        if table.name == "metals" {
            let middle = table.value(row, "midpoint").and_then(magnitude);
            let ends = pair("active", "noble").map(|(active, noble)| (active + noble) / 2.0);
            if middle != ends {
                faults.push(table.fault(row, "`midpoint` is not halfway from active to noble"));
            }
        }
    }
}
