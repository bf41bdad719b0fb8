//! A date as well as it is known.

use std::fmt;
use std::str::FromStr;

use super::Day;
use crate::text::Misread;

/// A date that may be uncertain: a day, a month, a year, a decade, some time before one of them,
/// or unknown. It is kept as what was written and read as an interval of days.
///
/// ```
/// use refasten::units::When;
/// let driven: When = "before 1980".parse()?;
/// assert_eq!(driven.latest().unwrap().to_string(), "1979-12-31");
/// assert_eq!(driven.to_string(), "before 1980");
/// # Ok::<(), refasten::text::Misread>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum When {
    /// This stretch of the calendar: a day, a month, a year or a decade.
    During(Span),
    /// Some day before the first of this stretch.
    Before(Span),
    /// Not known.
    Unknown,
}

/// A stretch of the calendar with a name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Span {
    /// One day.
    Day(Day),
    /// A month, by its first day.
    Month(Day),
    /// A year, by its first day.
    Year(Day),
    /// Ten years, by their first day.
    Decade(Day),
}

impl Span {
    fn first(self) -> Day {
        match self {
            Self::Day(d) | Self::Month(d) | Self::Year(d) | Self::Decade(d) => d,
        }
    }

    fn last(self) -> Day {
        match self {
            Self::Day(d) => d,
            Self::Month(d) => d.last_of_month(),
            Self::Year(d) => Day::new(d.year(), 12, 31).unwrap_or(d),
            Self::Decade(d) => Day::new(d.year() + 9, 12, 31).unwrap_or(d),
        }
    }
}

impl When {
    /// The first day it can have been; `None` where nothing says.
    pub fn earliest(self) -> Option<Day> {
        match self {
            Self::During(span) => Some(span.first()),
            Self::Before(_) | Self::Unknown => None,
        }
    }

    /// The last day it can have been; `None` where nothing says.
    pub fn latest(self) -> Option<Day> {
        match self {
            Self::During(span) => Some(span.last()),
            Self::Before(span) => Some(span.first().eve()),
            Self::Unknown => None,
        }
    }

    /// Whether it is certain that it had not happened by the end of this day.
    pub fn surely_after(self, day: Day) -> bool {
        self.earliest().is_some_and(|earliest| earliest > day)
    }
}

impl From<Day> for When {
    fn from(day: Day) -> Self {
        Self::During(Span::Day(day))
    }
}

impl fmt::Display for Span {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Day(d) => write!(f, "{d}"),
            Self::Month(d) => f.write_str(d.to_string().get(..7).unwrap_or_default()),
            Self::Year(d) => write!(f, "{}", d.year()),
            Self::Decade(d) => write!(f, "{}s", d.year()),
        }
    }
}

impl fmt::Display for When {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::During(span) => write!(f, "{span}"),
            Self::Before(span) => write!(f, "before {span}"),
            Self::Unknown => f.write_str("unknown"),
        }
    }
}

const HELP: &str = "write 2026-10-03, 2026-10, 2026, 1990s, before 2001 or unknown";

impl FromStr for Span {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        let no = || Misread::new(format!("`{text}` is not a date")).help(HELP);
        let numeric = |part: &str| part.bytes().all(|b| b.is_ascii_digit());
        let span = match text.len() {
            4 if numeric(text) => text
                .parse()
                .ok()
                .and_then(|y| Day::new(y, 1, 1))
                .map(Self::Year),
            5 => text
                .strip_suffix('s')
                .filter(|year| year.ends_with('0') && numeric(year))
                .and_then(|year| Day::new(year.parse().ok()?, 1, 1))
                .map(Self::Decade),
            7 => text
                .split_once('-')
                .filter(|(year, month)| year.len() == 4 && numeric(year) && numeric(month))
                .and_then(|(y, m)| Day::first_of_month(y.parse().ok()?, m.parse().ok()?))
                .map(Self::Month),
            10 => return text.parse().map(Self::Day),
            _ => None,
        };
        span.ok_or_else(no)
    }
}

impl FromStr for When {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        let start = text.len() - text.trim_start().len();
        let text = text.trim();
        if !text.is_ascii() {
            return Err(Misread::new(format!("`{text}` is not a date")).help(HELP));
        }
        if text.eq_ignore_ascii_case("unknown") {
            return Ok(Self::Unknown);
        }
        match text.strip_prefix("before ") {
            Some(rest) => {
                let rest = rest.trim();
                let at = start + text.len() - rest.len();
                let misread = |misread: Misread| misread.shifted(at, rest.len());
                rest.parse().map(Self::Before).map_err(misread)
            }
            None => text.parse().map(Self::During),
        }
        .map_err(|misread: Misread| misread.help(HELP))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_date_is_an_interval() {
        for (text, first, last) in [
            ("2026-10-03", Some("2026-10-03"), Some("2026-10-03")),
            ("2024-02", Some("2024-02-01"), Some("2024-02-29")),
            ("1958", Some("1958-01-01"), Some("1958-12-31")),
            ("1990s", Some("1990-01-01"), Some("1999-12-31")),
            ("before 1980", None, Some("1979-12-31")),
            ("before 1980-03", None, Some("1980-02-29")),
            ("unknown", None, None),
        ] {
            let when: When = text.parse().unwrap();
            assert_eq!(when.to_string(), text);
            assert_eq!(
                when.earliest().map(|d| d.to_string()).as_deref(),
                first,
                "{text}"
            );
            assert_eq!(
                when.latest().map(|d| d.to_string()).as_deref(),
                last,
                "{text}"
            );
        }
    }

    #[test]
    fn no_other_way_of_writing_a_date() {
        for text in [
            "3/10/2026",
            "2026-02-30",
            "Oct 2026",
            "1985s",
            "26-10-03",
            "2026-1-3",
            "",
            "０２６-10-03",
            "0999",
            "before",
            "9990s0",
        ] {
            assert!(text.parse::<When>().is_err(), "{text}");
        }
    }
}
