//! Which record a sheet was made from: `Hesper Lass after entry 53 on 2024-11-25`.

use std::str::FromStr;

use super::headings::SHEET;
use super::rows::Written;
use crate::text::{Clean, Fault, Misread, Step, digits};
use crate::units::Day;

/// A record as it stood when a sheet was made from it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct MadeFrom {
    boat: String,
    /// The last entry there was; 0 where there was none.
    entry: u32,
    day: Day,
}

impl FromStr for MadeFrom {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        let no = || {
            Misread::new(format!(
                "`{}` does not say what the sheet was made from",
                text.trim()
            ))
            .help("like Hesper Lass after entry 53 on 2024-11-25; or leave the column empty")
        };
        // A boat's name may hold the same words; the last of them count.
        let (boat, rest) = text.trim().rsplit_once(" after entry ").ok_or_else(no)?;
        let (entry, day) = rest.split_once(" on ").ok_or_else(no)?;
        Ok(Self {
            boat: boat.to_owned(),
            entry: digits(entry).ok_or_else(no)?,
            day: day.parse().map_err(|_| no())?,
        })
    }
}

impl MadeFrom {
    /// Tells rows that were made from another boat's record, and gives how far the log has grown
    /// since, where it has.
    pub(super) fn check(
        rows: &[Written],
        boat: &str,
        last: u32,
        faults: &mut Vec<Fault>,
    ) -> Option<String> {
        let mut told: Vec<&str> = Vec::new();
        let mut oldest: Option<Self> = None;
        for row in rows {
            let Some(text) = row.sheet.as_deref().filter(|text| !told.contains(text)) else {
                continue;
            };
            told.push(text);
            let misread = match text.parse::<Self>() {
                Err(misread) => misread,
                Ok(made) if made.boat != boat => Misread::new(format!(
                    "the sheet was made from the record of {}, and this is {}",
                    Clean(&made.boat),
                    Clean(boat)
                ))
                .help("name her folder with --boat DIR"),
                Ok(made) => {
                    let is_older = oldest.as_ref().is_none_or(|old| made.entry < old.entry);
                    if is_older {
                        oldest = Some(made);
                    }
                    continue;
                }
            };
            faults.push(Fault::misread(
                Some(row.row.origin),
                vec![Step::Key(SHEET)],
                misread,
            ));
        }
        let made = oldest.filter(|made| made.entry < last)?;
        Some(format!(
            "the sheet was made on {} after entry {}, and the log has grown to entry {last} since",
            made.day, made.entry
        ))
    }
}

#[cfg(test)]
mod tests {
    use super::MadeFrom;

    #[test]
    fn a_record_is_named_by_boat_entry_and_day() {
        let made = |text: &str| text.parse::<MadeFrom>().map(|made| (made.boat, made.entry));
        assert_eq!(
            made("Day after entry 1 after entry 53 on 2024-11-25"),
            Ok(("Day after entry 1".to_owned(), 53))
        );
        for text in [
            "Hesper Lass",
            "Hesper Lass after entry x on 2024-11-25",
            "A after entry 1 on May",
        ] {
            assert!(made(text).is_err(), "{text}");
        }
    }
}
