//! Figures of the tables that have no type of their own.

use refasten::tables::Table;

/// The rows of a table: the columns asked for, as inches or bare numbers; `None` where empty.
pub fn rows(table: &str, columns: &[&str]) -> Vec<Vec<Option<f64>>> {
    let table = Table::find(table).unwrap();
    let at = columns.iter().map(|name| {
        let place = table.columns.iter().position(|c| c.name == *name);
        place.unwrap_or_else(|| panic!("no column {name}"))
    });
    let at: Vec<usize> = at.collect();
    let row = |row: &&[refasten::tables::Cell]| at.iter().map(|at| number(row[*at].text)).collect();
    table.rows.iter().map(row).collect()
}

/// `1-3/4`, `7/8` or `.138`.
pub fn number(text: &str) -> Option<f64> {
    let (whole, part) = match text.split_once('-') {
        Some((whole, part)) => (whole.parse().ok()?, part),
        None => (0.0, text),
    };
    match part.split_once('/') {
        Some((above, below)) => Some(whole + number(above)? / number(below)?),
        None => part.parse().ok(),
    }
}

/// Fails unless the two agree to `within`.
pub fn near(what: &str, is: f64, expected: f64, within: f64) {
    let off = (is - expected).abs();
    assert!(
        off <= within + 1e-9,
        "{what}: {is} is not {expected} within {within}"
    );
}
