//! A day of the calendar.

use std::fmt;
use std::str::FromStr;

use jiff::civil::Date;

use crate::text::Misread;

/// A day, written year-month-day and no other way: `2026-10-03`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day(Date);

impl Day {
    /// The day, if there is one of that year (1000 to 9999), month and number.
    pub fn new(year: i16, month: i8, day: i8) -> Option<Self> {
        (year >= 1000).then(|| Date::new(year, month, day).ok().map(Self))?
    }

    /// The first day of a month.
    pub(super) fn first_of_month(year: i16, month: i8) -> Option<Self> {
        Self::new(year, month, 1)
    }

    /// The last day of this day's month.
    pub(super) fn last_of_month(self) -> Self {
        Self(self.0.last_of_month())
    }

    /// The year.
    pub fn year(self) -> i16 {
        self.0.year()
    }

    /// Whole years from an earlier day to this one; nought where it is not earlier.
    pub fn years_since(self, earlier: Self) -> u32 {
        let by_then = (self.0.month(), self.0.day()) >= (earlier.0.month(), earlier.0.day());
        let years = i32::from(self.year()) - i32::from(earlier.year()) - i32::from(!by_then);
        u32::try_from(years).unwrap_or(0)
    }

    /// The day so many days later; `None` where the calendar ends before.
    pub(crate) fn days_later(self, days: i32) -> Option<Self> {
        let span = jiff::Span::new().try_days(days).ok()?;
        self.0.checked_add(span).ok().map(Self)
    }

    /// The day before, or the same at the beginning of the calendar.
    #[must_use]
    pub fn eve(self) -> Self {
        self.0.yesterday().map_or(self, Self)
    }
}

impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

impl FromStr for Day {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        let text = text.trim();
        let no = || {
            Misread::new(format!("`{text}` is not a day"))
                .help("write a day year-month-day: 2026-10-03")
        };
        let mut parts = text.splitn(3, '-');
        let (Some(year), Some(month), Some(day)) = (parts.next(), parts.next(), parts.next())
        else {
            return Err(no());
        };
        let number = |part: &str, len: usize| {
            (part.len() == len && part.bytes().all(|b| b.is_ascii_digit()))
                .then(|| part.parse::<i16>().ok())
                .flatten()
        };
        let short = |part: &str| number(part, 2).and_then(|n| i8::try_from(n).ok());
        let (Some(year), Some(month), Some(day)) = (number(year, 4), short(month), short(day))
        else {
            return Err(no());
        };
        Self::new(year, month, day).ok_or_else(|| {
            Misread::new(format!("there is no {text} in the calendar"))
                .help("write a day year-month-day: 2026-10-03")
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_year_is_whole_on_its_day_and_not_before() {
        let day = |text: &str| text.parse::<Day>().unwrap();
        for (earlier, later, years) in [
            ("2016-11-01", "2026-11-01", 10),
            ("2016-11-02", "2026-11-01", 9),
            ("2024-02-29", "2025-02-28", 0),
            ("2024-02-29", "2025-03-01", 1),
            ("2026-11-01", "2026-11-01", 0),
            ("2027-01-01", "2026-11-01", 0),
        ] {
            assert_eq!(day(later).years_since(day(earlier)), years, "{earlier}");
        }
    }
}
