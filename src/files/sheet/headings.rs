//! Which column of a sheet is which key of the log.

use std::collections::BTreeMap;

use super::super::{Keys, RawEntry};
use super::grid::{Row, letters};
use crate::text::{Clean, Fault, nearest, unguard};

/// The heading of the column that says what record a sheet was made from.
pub(super) const SHEET: &str = "sheet";

/// Other headings that people give the columns, in small letters and without signs.
const ALSO: [(&str, &[&str]); 27] = [
    ("entry", &["entry number", "entry no", "log entry"]),
    (
        "date",
        &[
            "day",
            "date done",
            "day done",
            "done on",
            "when",
            "date of work",
        ],
    ),
    (
        "did",
        &[
            "what was done",
            "done",
            "action",
            "work",
            "work done",
            "what",
            "task",
        ],
    ),
    (
        "place",
        &[
            "plank frame",
            "plank and frame",
            "planks and frames",
            "strake frame",
            "plank member",
            "planks members",
            "where",
            "location",
            "position",
            "places",
        ],
    ),
    (
        "set",
        &["set name", "name of set", "which set", "generation"],
    ),
    (
        "count",
        &["how many", "quantity", "qty", "number of fastenings"],
    ),
    (
        "found",
        &[
            "condition",
            "what was found",
            "finding",
            "findings",
            "found as",
        ],
    ),
    ("stub", &["stub in", "where the stub is"]),
    ("sample", &["sampling", "sampled"]),
    (
        "diameter",
        &[
            "dia",
            "diam",
            "shank",
            "shank diameter",
            "thinnest",
            "measured",
        ],
    ),
    (
        "per crossing",
        &["each crossing", "number per crossing", "no per crossing"],
    ),
    (
        "kind",
        &[
            "type",
            "fastening",
            "kind of fastening",
            "fastening kind",
            "fastening type",
            "type of fastening",
        ],
    ),
    ("metal", &["material", "alloy"]),
    (
        "size",
        &[
            "fastening size",
            "screw size",
            "gauge and length",
            "gauge x length",
        ],
    ),
    ("bung", &["bungs", "bung size"]),
    ("hole", &["holes", "same or new"]),
    ("temporary", &["temp"]),
    ("thickness", &["plank thickness", "thick"]),
    ("wood", &["timber", "species"]),
    ("off", &["taken off", "planed off"]),
    ("moulding", &["molding", "moulded"]),
    ("why", &["reason"]),
    ("by", &["who", "by whom", "done by", "initials"]),
    (
        "note",
        &["notes", "remark", "remarks", "comment", "comments"],
    ),
    ("photo", &["photos", "picture", "pictures", "image"]),
    (
        "written",
        &[
            "written on",
            "written down",
            "date written",
            "entered on",
            "date entered",
        ],
    ),
    ("from", &["came from", "taken from", "source"]),
];

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
                None => fault,
            });
        }
        columns
    }

    fn tell_missing(&self, row: &Row, faults: &mut Vec<Fault>) {
        for key in NEEDED {
            // A sheet of nothing but strikes has no places.
            let can_be_without = key == "place" && self.of("strikes").is_some();
            if self.of(key).is_none() && !can_be_without {
                let says = format!("row {}: there is no column `{key}`", row.number);
                let fault = Fault::new(Some(row.origin), says);
                let bytes = row.cells.first().map(|cell| cell.at.clone());
                faults.push(Fault {
                    bytes,
                    ..fault.help("`date`, `did` and `place` are needed, in any order")
                });
            }
        }
    }
}

fn keys() -> impl Iterator<Item = &'static str> {
    RawEntry::KEYS.iter().copied().chain([SHEET])
}

fn all() -> String {
    keys().collect::<Vec<_>>().join(", ")
}

/// Every heading that is known, with its key.
fn known() -> impl Iterator<Item = (&'static str, &'static str)> {
    let also = ALSO
        .iter()
        .flat_map(|(key, names)| names.iter().map(move |name| (*name, *key)));
    keys().map(|key| (key, key)).chain(also)
}

/// A heading in small letters, signs taken for blanks: `Plank/frame` is `plank frame`.
fn plain(heading: &str) -> String {
    let words = heading.split(|c: char| !c.is_alphanumeric());
    let words: Vec<String> = words
        .filter(|word| !word.is_empty())
        .map(str::to_lowercase)
        .collect();
    words.join(" ")
}

/// The key of a heading: by its name, by another that people give it, or with one slip of the pen
/// in a word so long that it cannot be another.
fn key_of(words: &str) -> Option<&'static str> {
    const LONG: usize = 6;
    if let Some((_, key)) = known().find(|(name, _)| *name == words) {
        return Some(key);
    }
    if words.chars().count() < LONG {
        return None;
    }
    let mut near = known().filter(|(name, _)| strsim::osa_distance(name, words) == 1);
    let (_, key) = near.next()?;
    near.all(|(_, other)| other == key).then_some(key)
}

/// The keys that are nearest to a heading: those it shares a word with, or is a slip away from.
fn near(words: &str) -> String {
    const MOST: usize = 3;
    const LONGEST: usize = 100;
    let mut by_key: BTreeMap<&str, usize> = BTreeMap::new();
    if words.chars().nth(LONGEST).is_none() {
        for (name, key) in known() {
            let shared = name.split(' ').any(|word| {
                words
                    .split(' ')
                    .any(|other| other == word && word.chars().count() > 1)
            });
            let longer = words.chars().count().max(name.chars().count());
            let distance = strsim::osa_distance(name, words);
            let far = if shared { 1 } else { distance };
            if shared || distance <= (longer / 3).max(1) {
                let nearest = by_key.entry(key).or_insert(far);
                *nearest = far.min(*nearest);
            }
        }
    }
    let mut keys: Vec<(usize, &str)> = by_key.into_iter().map(|(key, far)| (far, key)).collect();
    keys.sort_unstable();
    let named: Vec<String> = keys
        .iter()
        .take(MOST)
        .map(|(_, key)| format!("`{key}`"))
        .collect();
    match named.as_slice() {
        [] => format!("the headings are {}", all()),
        [one] => format!("near to it is {one}"),
        [some @ .., last] => format!("near to it are {} and {last}", some.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::{Columns, key_of, keys, known, near, plain};
    use crate::files::sheet::grid::{Rows, separator};
    use crate::text::Fault;

    #[test]
    fn no_heading_means_two_things_and_every_one_is_plain() {
        let mut names: Vec<_> = known().collect();
        names.sort_unstable();
        for two in names.windows(2) {
            assert_ne!(two[0].0, two[1].0);
        }
        for (name, key) in names {
            assert_eq!(plain(name), name);
            assert!(keys().any(|known| known == key), "{key}");
        }
    }

    #[test]
    fn headings_are_known_as_people_write_them() {
        for (heading, key) in [
            ("Plank/frame", "place"),
            ("Dia.", "diameter"),
            ("what was done", "did"),
            ("Date done", "date"),
            (" PER_CROSSING ", "per crossing"),
            ("Remarks:", "note"),
            ("Diametre", "diameter"),
        ] {
            assert_eq!(key_of(&plain(heading)), Some(key), "{heading}");
        }
        for (heading, help) in [
            ("Frame", "near to it is `place`"),
            ("Side", "near to it is `size`"),
            ("No.", "near to it are `entry` and `per crossing`"),
        ] {
            assert_eq!(key_of(&plain(heading)), None, "{heading}");
            assert!(
                near(&plain(heading)).starts_with(help),
                "{heading}: {}",
                near(&plain(heading))
            );
        }
        assert!(near("weather").starts_with("the headings are entry, date, did"));
    }

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
