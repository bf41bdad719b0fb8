//! Sizes that a spreadsheet program took for a date: `3/8` that became `03-Aug`.

use super::dates::{Part, parts, serial};
use crate::text::{Clean, Misread};

/// What is wrong with a cell that should hold a length or a size and holds a date, with what it
/// probably was. `None` where it is no date.
pub(super) fn spoiled(text: &str) -> Option<Misread> {
    let text = text.trim();
    let (day, month, year) = date(text)?;
    let says = format!("`{}` is a date", Clean(text));
    Some(match was(day, month, year) {
        Some(was) => Misread::new(format!(
            "{says}: it was probably {was}, which a spreadsheet program took for one"
        ))
        .help(format!(
            "write it with its unit, as {was}in; it then stays as it is"
        )),
        None => Misread::new(format!(
            "{says}, which a spreadsheet program may have made of it"
        ))
        .help("write the size with its unit, as 3/8in; it then stays as it is"),
    })
}

/// The day of the month, where it is told, the month and the year of what looks like a date and
/// like no size: `03-Aug`, `8-Mar`, `Mar-64`, `3/8/2024`, `2024-03-08`, `45359`.
fn date(text: &str) -> Option<(Option<i16>, i16, Option<i16>)> {
    if let Some(day) = serial(text) {
        return date(&day.to_string());
    }
    // `1-3/4` has three numbers too, and is a size.
    let bare = text.split([' ', 'T']).next().unwrap_or_default();
    let mut signs = bare.chars().filter(|c| "/-.".contains(*c));
    let first = signs.next();
    let one_sign = signs.all(|sign| Some(sign) == first);
    match parts(text)?.as_slice() {
        [Part::Number(day, 1 | 2), Part::Month(month)] => {
            Some((Some(*day), i16::from(*month), None))
        }
        // `Mar-64` is the month of a year, and `Mar 8` a day of it: both are tried.
        [Part::Month(month), Part::Number(other, 1 | 2)] => {
            Some((Some(*other), i16::from(*month), None))
        }
        [Part::Month(month), Part::Number(year, 4)] => Some((None, i16::from(*month), Some(*year))),
        [
            Part::Number(day, 1 | 2),
            Part::Month(month),
            Part::Number(year, 2 | 4),
        ]
        | [
            Part::Month(month),
            Part::Number(day, 1 | 2),
            Part::Number(year, 2 | 4),
        ]
        | [
            Part::Number(year, 4),
            Part::Month(month),
            Part::Number(day, 1 | 2),
        ] => Some((Some(*day), i16::from(*month), Some(*year))),
        [
            Part::Number(year, 4),
            Part::Number(month, 1 | 2),
            Part::Number(day, 1 | 2),
        ]
        | [
            Part::Number(day, 1 | 2),
            Part::Number(month, 1 | 2),
            Part::Number(year, 4),
        ] if one_sign => Some((Some(*day), *month, Some(*year))),
        _ => None,
    }
}

/// The fraction of a rule, or the whole number with one, that a date is made of: 3/8 of the third
/// of August or the eighth of March, 1-3/4 of a third of January 2004, 3/64 of March 1964.
fn was(day: Option<i16>, month: i16, year: Option<i16>) -> Option<String> {
    let fraction = |above: i16, below: i16| {
        let is_of_rule =
            matches!(below, 2 | 4 | 8 | 16 | 32 | 64) && above % 2 == 1 && above < below;
        is_of_rule.then(|| format!("{above}/{below}"))
    };
    let short = year.map(|year| year % 100);
    let Some(day) = day else {
        return fraction(month, short?);
    };
    if let Some(plain) = fraction(day, month).or_else(|| fraction(month, day)) {
        return Some(plain);
    }
    let short = short?;
    // No day has the number 32, so a program takes 1/32 for the first of a month of that year.
    if day == 1 && short > 31 {
        return fraction(month, short);
    }
    let mixed = |whole: i16, above: i16| Some(format!("{whole}-{}", fraction(above, short)?));
    mixed(month, day).or_else(|| mixed(day, month))
}

#[cfg(test)]
mod tests {
    use super::spoiled;

    #[test]
    fn a_date_says_what_it_probably_was() {
        for (date, was) in [
            ("03-Aug", "3/8"),
            ("8-Mar", "3/8"),
            ("Mar 8", "3/8"),
            ("2024-03-08", "3/8"),
            ("03/08/2024", "3/8"),
            ("2024-08-03 00:00:00", "3/8"),
            ("45359", "3/8"),
            ("16-May", "5/16"),
            ("Mar-64", "3/64"),
            ("1932-01-01", "1/32"),
            ("2004-01-03", "1-3/4"),
            ("3/1/2004", "1-3/4"),
        ] {
            let says = spoiled(date).unwrap_or_else(|| panic!("{date}")).says;
            let probably = format!("`{date}` is a date: it was probably {was}, ");
            assert!(says.starts_with(&probably), "{says}");
        }
        let says = spoiled("2024-09-07").map(|misread| misread.says);
        assert_eq!(
            says.as_deref(),
            Some("`2024-09-07` is a date, which a spreadsheet program may have made of it")
        );
    }

    #[test]
    fn no_size_is_taken_for_a_date() {
        for size in [
            "3/8",
            "3/8in",
            "1-3/4",
            "1 3/4",
            "1-3/4in",
            "14 x 2in",
            "8 SWG x 3in",
            "22mm",
            "22.5mm",
            "1/4in x 2-1/4in",
            "unknown",
            "stopping",
            "5ft 3in",
            "0.16",
            "14",
            "2 in",
        ] {
            assert_eq!(spoiled(size), None, "{size}");
        }
    }
}
