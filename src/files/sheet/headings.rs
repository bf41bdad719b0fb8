//! Which column of a sheet is which key of the log.

use super::called::{all, key_of, near, plain};
use super::grid::{Row, letters};
use crate::text::{Clean, Fault, nearest, unguard};

/// The heading of the column that says what record a sheet was made from.
pub(super) const SHEET: &str = "sheet";

/// Keys without which nothing can be read.
const NEEDED: [&str; 3] = ["date", "did", "place"];

/// A column that is read: its heading as it is written, and the key it is taken for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Column {
    /// Its place, from 0.
    pub(super) at: usize,
    /// What stands over it.
    pub heading: String,
    /// The key of the log, or `sheet`.
    pub key: &'static str,
}

/// The columns of a sheet.
#[derive(Clone, Debug, Default)]
pub(super) struct Columns {
    /// Those that are read.
    pub(super) read: Vec<Column>,
    /// The headings of those that are passed over because it was asked for.
    pub(super) ignored: Vec<String>,
    /// The places of all that have a heading.
    known: Vec<usize>,
}

impl Columns {
    /// The place of the column of a key.
    pub(super) fn of(&self, key: &str) -> Option<usize> {
        let column = self.read.iter().find(|column| column.key == key);
        column.map(|column| column.at)
    }

    /// Whether something stands over a column.
    pub(super) fn has_heading(&self, column: usize) -> bool {
        self.known.contains(&column)
    }

    /// Reads the row of headings. Everything wrong with it is told; the columns that are clear are
    /// read all the same.
    pub(super) fn read(row: &Row, ignore: &[String], faults: &mut Vec<Fault>) -> Self {
        let mut columns = Self::default();
        let mut unknown = Vec::new();
        let mut to_ignore: Vec<(&String, bool)> = ignore.iter().map(|word| (word, false)).collect();
        for cell in &row.cells {
            let heading = unguard(&cell.text).trim().to_owned();
            let words = plain(&heading);
            columns.known.push(cell.column);
            let mut asked = to_ignore
                .iter_mut()
                .filter(|(word, _)| plain(word) == words);
            if let Some((_, seen)) = asked.next() {
                *seen = true;
                columns.ignored.push(heading);
                continue;
            }
            let told = |says: String| Fault {
                bytes: Some(cell.at.clone()),
                ..Fault::new(
                    Some(row.origin),
                    format!("cell {}{}: {says}", letters(cell.column), row.number),
                )
            };
            let Some(key) = key_of(&words) else {
                let help = format!(
                    "{}; or leave the column out with --ignore \"{}\"",
                    near(&words),
                    Clean(&heading)
                );
                unknown.push(
                    told(format!("`{}` is no heading that is known", Clean(&heading))).help(help),
                );
                continue;
            };
            match columns.read.iter().find(|column| column.key == key) {
                Some(first) => faults.push(
                    told(format!("`{}` is `{key}` a second time", Clean(&heading))).help(format!(
                        "`{}` in column {} is that already; leave one out with --ignore",
                        Clean(&first.heading),
                        letters(first.at)
                    )),
                ),
                None => columns.read.push(Column {
                    at: cell.column,
                    heading,
                    key,
                }),
            }
        }
        if columns.read.is_empty() {
            let says = format!(
                "row {}: none of its cells is a heading that is known",
                row.number
            );
            let fault = Fault::new(Some(row.origin), says);
            let all = fault.help(format!(
                "the first row that is not blank names the columns: {}",
                all()
            ));
            let bytes = row.cells.first().map(|cell| cell.at.clone());
            faults.push(Fault { bytes, ..all });
            return columns;
        }
        faults.append(&mut unknown);
        columns.tell_missing(row, faults);
        for (word, _) in to_ignore.iter().filter(|(_, seen)| !seen) {
            let headings = columns.read.iter().map(|column| column.heading.as_str());
            let fault = Fault::new(
                None,
                format!("--ignore: no column is headed `{}`", Clean(word)),
            );
            faults.push(match nearest(word, headings) {
                Some(near) => fault.help(format!("did you mean `{}`?", Clean(near))),
                None => fault.help("write the heading as the sheet has it"),
            });
        }
        columns
    }

    fn tell_missing(&self, row: &Row, faults: &mut Vec<Fault>) {
        for key in self.missing() {
            let says = format!("row {}: there is no column `{key}`", row.number);
            let fault = Fault::new(Some(row.origin), says);
            let bytes = row.cells.first().map(|cell| cell.at.clone());
            faults.push(Fault {
                bytes,
                ..fault.help("`date`, `did` and `place` are needed, in any order")
            });
        }
    }

    /// The keys that no column is of, and that every row needs.
    pub(super) fn missing(&self) -> impl Iterator<Item = &'static str> + '_ {
        // A sheet of nothing but strikes has no places.
        let strikes = self.of("strikes").is_some();
        let missing = move |key: &&str| self.of(key).is_none() && !(strikes && *key == "place");
        NEEDED.into_iter().filter(missing)
    }
}

#[cfg(test)]
mod tests {
    use super::Columns;
    use crate::files::sheet::grid::{Rows, separator};
    use crate::text::Fault;

    fn faults(text: &str, ignore: &[&str]) -> Vec<String> {
        let row = Rows::of(text, separator(text)).next_row().unwrap().unwrap();
        let ignore: Vec<String> = ignore.iter().map(|word| (*word).to_owned()).collect();
        let mut faults: Vec<Fault> = Vec::new();
        Columns::read(&row, &ignore, &mut faults);
        faults.into_iter().map(|fault| fault.says).collect()
    }

    #[test]
    fn everything_wrong_with_the_headings_is_told() {
        assert_eq!(
            faults("Day,Date,Weather,Where", &["Tide"]),
            [
                "cell B1: `Date` is `date` a second time",
                "cell C1: `Weather` is no heading that is known",
                "row 1: there is no column `did`",
                "--ignore: no column is headed `Tide`",
            ]
        );
        assert_eq!(
            faults("Hesper Lass,,winter", &[]),
            ["row 1: none of its cells is a heading that is known"]
        );
        assert_eq!(faults("date;did;place;Weather", &["weather"]), [""; 0]);
        assert_eq!(faults("date,did,strikes", &[]), [""; 0]);
    }
}
