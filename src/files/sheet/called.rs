//! What people call the columns of a sheet, and which key of the log each means.

use std::collections::BTreeMap;

use super::super::{Keys, RawEntry};
use super::headings::SHEET;

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

fn keys() -> impl Iterator<Item = &'static str> {
    RawEntry::KEYS.iter().copied().chain([SHEET])
}

/// Every key, in words.
pub(super) fn all() -> String {
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
pub(super) fn plain(heading: &str) -> String {
    let words = heading.split(|c: char| !c.is_alphanumeric());
    let words: Vec<String> = words
        .filter(|word| !word.is_empty())
        .map(str::to_lowercase)
        .collect();
    words.join(" ")
}

/// The key of a heading: by its name, by another that people give it, or with one slip of the pen
/// in a word so long that it cannot be another.
pub(super) fn key_of(words: &str) -> Option<&'static str> {
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
pub(super) fn near(words: &str) -> String {
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
    use super::{key_of, keys, known, near, plain};

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
}
