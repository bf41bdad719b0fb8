//! A season of work on a boat.

use std::fmt;
use std::str::FromStr;

use super::Day;
use crate::text::{Misread, digits};

/// A season: a year of the calendar, or a winter with the summer after it, from 1 September to 31
/// August, for boats are laid up over a winter.
///
/// ```
/// use refasten::units::Season;
/// let season: Season = "2024-25".parse()?;
/// assert_eq!(season.first().to_string(), "2024-09-01");
/// assert_eq!(season.last().to_string(), "2025-08-31");
/// # Ok::<(), refasten::text::Misread>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Season {
    first: Day,
    last: Day,
}

impl Season {
    /// The winter and the summer after it that a day is in; the day itself where the calendar
    /// ends within it.
    pub fn of(day: Day) -> Self {
        let year = day.year();
        let begins = |year| Day::new(year, 9, 1).filter(|first| *first <= day);
        let first = begins(year).or_else(|| begins(year.checked_sub(1)?));
        let whole = first.and_then(|first| {
            let last = Day::new(first.year().checked_add(1)?, 8, 31)?;
            Some(Self { first, last })
        });
        whole.unwrap_or(Self {
            first: day,
            last: day,
        })
    }

    /// Its first day.
    pub const fn first(self) -> Day {
        self.first
    }

    /// Its last day.
    pub const fn last(self) -> Day {
        self.last
    }

    /// What stretch it is, in words.
    pub fn words(self) -> &'static str {
        if self.first.year() == self.last.year() {
            "the calendar year"
        } else {
            "a winter and the summer after it"
        }
    }
}

/// As it is asked for: `2024`, `2024-25`.
impl fmt::Display for Season {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (first, last) = (self.first.year(), self.last.year());
        match first == last {
            true => write!(f, "{first}"),
            false => write!(f, "{first}-{:02}", last % 100),
        }
    }
}

impl FromStr for Season {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        let text = text.trim();
        let no = || {
            Misread::new(format!("`{text}` is not a season")).help(
                "write 2024 for the calendar year, or 2024-25 for 1 September 2024 to 31 August 2025",
            )
        };
        let year = |part: &str| match part.len() {
            4 => digits::<i16>(part),
            _ => None,
        };
        let (first, last) = match text.split_once('-') {
            None => {
                let year = year(text).ok_or_else(no)?;
                (Day::new(year, 1, 1), Day::new(year, 12, 31))
            }
            Some((first, last)) => {
                let first = year(first).ok_or_else(no)?;
                let next = first.checked_add(1).ok_or_else(no)?;
                if last != next.to_string() && last != format!("{:02}", next % 100) {
                    return Err(no());
                }
                (Day::new(first, 9, 1), Day::new(next, 8, 31))
            }
        };
        let (first, last) = first.zip(last).ok_or_else(no)?;
        Ok(Self { first, last })
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn a_day_is_in_the_winter_it_lies_in() {
        for (day, season) in [
            ("2024-08-31", "2023-24"),
            ("2024-09-01", "2024-25"),
            ("2024-11-25", "2024-25"),
            ("2025-01-01", "2024-25"),
        ] {
            assert_eq!(super::Season::of(day.parse().unwrap()).to_string(), season);
        }
    }

    use super::*;

    #[test]
    fn a_season_is_a_year_or_a_winter() {
        for (text, first, last, shown) in [
            ("2024", "2024-01-01", "2024-12-31", "2024"),
            ("2024-25", "2024-09-01", "2025-08-31", "2024-25"),
            ("1999-2000", "1999-09-01", "2000-08-31", "1999-00"),
            ("1999-00", "1999-09-01", "2000-08-31", "1999-00"),
        ] {
            let season: Season = text.parse().unwrap();
            let days = [season.first(), season.last()].map(|day| day.to_string());
            assert_eq!(days, [first, last], "{text}");
            assert_eq!(season.to_string(), shown);
        }
        for text in [
            "", "24", "2024-11", "2024-26", "2024-", "9999-00", "-2024", "0999",
        ] {
            assert!(text.parse::<Season>().is_err(), "{text}");
        }
    }
}
