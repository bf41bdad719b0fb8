//! A cell made into the text that the key of its column would have in the log.

use super::super::decode::hidden;
use super::dates::{DateOrder, NoDay, day};
use super::headings::SHEET;
use super::numbers::{whole, with_hyphens, with_points};
use super::spoiled::spoiled;
use crate::text::{Misread, unguard};
use crate::units::Day;

/// What the cells of a column hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Holds {
    Day,
    /// A whole number.
    Count,
    /// A length, or a size made of them.
    Size,
    /// Yes or no.
    Truth,
    /// A word of a list, or a place.
    Word,
    /// Somebody's own words.
    Free,
}

fn holds(key: &str) -> Holds {
    match key {
        "date" | "written" => Holds::Day,
        "entry" | "count" | "per crossing" => Holds::Count,
        "diameter" | "size" | "bung" | "thickness" | "off" | "siding" | "moulding" => Holds::Size,
        "temporary" => Holds::Truth,
        "set" | "why" | "by" | "note" | "photo" | "plan" | "from" | SHEET => Holds::Free,
        _ => Holds::Word,
    }
}

/// The text of a cell as the log would have it; `None` where the cell says nothing.
pub(super) fn value(
    key: &str,
    cell: &str,
    order: Option<DateOrder>,
    today: Day,
) -> Result<Option<String>, NoDay> {
    seen(cell).map_err(NoDay::Misread)?;
    let holds = holds(key);
    if holds == Holds::Free {
        // A line end in a cell is one, however the program wrote it.
        let cell = cell.replace("\r\n", "\n").replace('\r', "\n");
        return Ok(Some(unguard(&cell).into_owned()));
    }
    let text = with_hyphens(unguard(cell).trim());
    // A dash alone fills a cell that has nothing to say.
    if text.is_empty() || text.bytes().all(|byte| byte == b'-') {
        return Ok(None);
    }
    Ok(Some(match holds {
        Holds::Day => day(&text, order, today)?.to_string(),
        Holds::Count => whole(&text).to_owned(),
        Holds::Size => match spoiled(&text) {
            Some(misread) => return Err(NoDay::Misread(misread)),
            None => with_points(&text).map_err(NoDay::Misread)?,
        },
        Holds::Truth => match text.to_ascii_lowercase().as_str() {
            "true" => "yes".to_owned(),
            "false" => "no".to_owned(),
            _ => text,
        },
        Holds::Word | Holds::Free => text,
    }))
}

/// Refuses a cell with a character in it that nobody types.
fn seen(cell: &str) -> Result<(), Misread> {
    let odd = |c: &char| c.is_control() && !matches!(c, '\n' | '\r' | '\t') || hidden(*c);
    match cell.chars().find(odd) {
        Some(c) => Err(
            Misread::new(format!("the character U+{:04X} stands in it", u32::from(c)))
                .help("nobody types it; empty the cell and write it anew"),
        ),
        None => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::super::super::{Keys, RawEntry};
    use super::{Holds, NoDay, holds, value};

    fn read(key: &str, cell: &str) -> Result<Option<String>, String> {
        let today = "2026-11-01".parse().unwrap();
        value(key, cell, None, today).map_err(|wrong| match wrong {
            NoDay::Misread(misread) => misread.says,
            NoDay::Ambiguous(_) => "ambiguous".to_owned(),
        })
    }

    #[test]
    fn a_cell_is_what_its_key_would_have_in_the_log() {
        for (key, cell, is) in [
            ("date", "25/10/2024", "2024-10-25"),
            ("count", "8.0", "8"),
            ("size", "14 x 1\u{bd}\"", "14 x 1\u{bd}\""),
            ("bung", "12,5mm x 6mm", "12.5mm x 6mm"),
            ("temporary", "TRUE", "yes"),
            ("place", " S4 F14\u{2013}18 ", "S4 F14-18"),
            ("note", "a\r\nb ", "a\nb "),
            ("note", "'=1+1", "=1+1"),
            ("set", "'2009-03", "2009-03"),
        ] {
            assert_eq!(read(key, cell), Ok(Some(is.to_owned())), "{key}");
        }
        assert_eq!(read("found", "\u{2013}"), Ok(None));
        assert_eq!(read("note", "-"), Ok(Some("-".to_owned())));
        assert_eq!(
            read("note", "a\0"),
            Err("the character U+0000 stands in it".to_owned())
        );
        let says = read("diameter", "03-Aug").unwrap_err();
        assert!(says.contains("probably 3/8"), "{says}");
        assert_eq!(read("date", "3/10/24"), Err("ambiguous".to_owned()));
    }

    /// A key that is new to the log is new here too: what its cells hold is to be thought about.
    #[test]
    fn words_are_what_is_left() {
        let words = RawEntry::KEYS
            .iter()
            .filter(|key| holds(key) == Holds::Word);
        assert_eq!(
            words.copied().collect::<Vec<_>>(),
            [
                "did", "place", "found", "stub", "sample", "kind", "metal", "hole", "wood",
                "joints", "strikes"
            ]
        );
    }
}
