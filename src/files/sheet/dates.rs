//! Days as people and spreadsheet programs write them; what may be read two ways is asked for.

use crate::text::{Misread, month_named};
use crate::units::Day;

/// In which order the parts of a date stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DateOrder {
    /// 3/10/2024 is the third of October.
    DayMonthYear,
    /// 10/3/2024 is the third of October.
    MonthDayYear,
    /// 24/10/3 is the third of October.
    YearMonthDay,
}

impl DateOrder {
    const ALL: [Self; 3] = [Self::DayMonthYear, Self::MonthDayYear, Self::YearMonthDay];

    /// As it is typed.
    pub(super) const fn typed(self) -> &'static str {
        match self {
            Self::DayMonthYear => "day-month-year",
            Self::MonthDayYear => "month-day-year",
            Self::YearMonthDay => "year-month-day",
        }
    }
}

/// Why a date could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoDay {
    /// It is none.
    Misread(Misread),
    /// It is another day in each of these orders.
    Ambiguous(Vec<(DateOrder, Day)>),
}

/// A part of a date.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Part {
    /// A number, and how many digits it has.
    Number(i16, usize),
    /// A month by its name.
    Month(i8),
}

/// Reads a day. `order` says how dates stand that can be read in more ways than one; a year of two
/// digits is the last such year that has begun.
pub(super) fn day(text: &str, order: Option<DateOrder>, today: Day) -> Result<Day, NoDay> {
    const HELP: &str = "write a day year-month-day: 2026-10-03";
    let no = |says: String| NoDay::Misread(Misread::new(says).help(HELP));
    let text = text.trim();
    let Some(found) = parts(text) else {
        return Err(no(format!("`{text}` is not a day")));
    };
    let found: [Part; 3] = match found.as_slice() {
        [Part::Number(..)] if serial(text).is_some() => {
            let day = serial(text).map_or_else(String::new, |day| day.to_string());
            let says = format!("`{text}` is the number that a spreadsheet program keeps a day as");
            let help = format!("{day}, if it counts from 1900; format the column as a date");
            return Err(NoDay::Misread(Misread::new(says).help(help)));
        }
        [Part::Number(_, 4), Part::Month(_)] | [Part::Month(_), Part::Number(_, 4)] => {
            return Err(no(format!("`{text}` does not say which day of the month")));
        }
        [Part::Number(..), Part::Month(_)] | [Part::Month(_), Part::Number(..)] => {
            return Err(no(format!("`{text}` does not say which year")));
        }
        [a, b, c] => [*a, *b, *c],
        _ => return Err(no(format!("`{text}` is not a day"))),
    };
    let mut read: Vec<(DateOrder, Day)> = DateOrder::ALL
        .iter()
        .filter_map(|order| Some((*order, in_order(found, *order, today)?)))
        .collect();
    let is_plain = found.iter().any(|part| matches!(part, Part::Number(_, 4)))
        && (matches!(found, [Part::Number(_, 4), ..])
            || found.iter().any(|part| matches!(part, Part::Month(_))));
    if let Some(order) = order.filter(|_| !is_plain) {
        return match read.iter().find(|(of, _)| *of == order) {
            Some((_, day)) => Ok(*day),
            None => Err(no(format!(
                "`{text}` is no day of the calendar, {}",
                order.typed()
            ))),
        };
    }
    let Some((_, first)) = read.first().copied() else {
        return Err(no(format!("`{text}` is no day of the calendar")));
    };
    if read.iter().all(|(_, day)| *day == first) {
        return Ok(first);
    }
    read.dedup_by_key(|(_, day)| *day);
    Err(NoDay::Ambiguous(read))
}

/// The words and numbers of a date, a time after it and the day of the week left out; `None` where
/// there is anything else.
pub(super) fn parts(text: &str) -> Option<Vec<Part>> {
    const MOST: usize = 40;
    if text.len() > MOST {
        return None;
    }
    let date = match text.split_once(['T', ' ']) {
        Some((date, time)) if is_time(time) => date,
        _ => text
            .rsplit_once(' ')
            .filter(|(_, time)| is_time(time))
            .map_or(text, |(date, _)| date),
    };
    let words = date
        .split(|c: char| "/-. ,".contains(c))
        .filter(|word| !word.is_empty());
    let mut found = Vec::new();
    for (at, word) in words.enumerate() {
        let bare = ["st", "nd", "rd", "th"]
            .iter()
            .find_map(|end| word.strip_suffix(end));
        let digits = bare.unwrap_or(word);
        if digits.bytes().all(|byte| byte.is_ascii_digit()) {
            found.push(Part::Number(
                digits.parse().unwrap_or(i16::MAX),
                digits.len(),
            ));
        } else if let Some(month) = month_named(word) {
            found.push(Part::Month(month));
        } else if at > 0 || !is_day_of_week(word) {
            return None;
        }
    }
    (!found.is_empty()).then_some(found)
}

fn is_time(text: &str) -> bool {
    let time = text.trim_end_matches(['Z', 'z']);
    time.contains(':')
        && time
            .bytes()
            .all(|byte| byte.is_ascii_digit() || b":.".contains(&byte))
}

fn is_day_of_week(word: &str) -> bool {
    const DAYS: [&str; 7] = [
        "monday",
        "tuesday",
        "wednesday",
        "thursday",
        "friday",
        "saturday",
        "sunday",
    ];
    let word = word.to_ascii_lowercase();
    word.len() >= 3 && DAYS.iter().any(|day| day.starts_with(&word))
}

/// The day that three parts are in an order.
fn in_order(found: [Part; 3], order: DateOrder, today: Day) -> Option<Day> {
    let [a, b, c] = found;
    let (year, month, day) = match order {
        DateOrder::DayMonthYear => (c, b, a),
        DateOrder::MonthDayYear => (c, a, b),
        DateOrder::YearMonthDay => (a, b, c),
    };
    let year = match year {
        Part::Number(year, 4) => year,
        Part::Number(year, 2) => {
            let century = today.year() - today.year() % 100;
            let this = century + year;
            if this > today.year() {
                this - 100
            } else {
                this
            }
        }
        _ => return None,
    };
    let month = match month {
        Part::Month(month) => month,
        Part::Number(month, 1 | 2) => i8::try_from(month).ok()?,
        Part::Number(..) => return None,
    };
    let Part::Number(day, 1 | 2) = day else {
        return None;
    };
    Day::new(year, month, i8::try_from(day).ok()?)
}

/// The day that a spreadsheet program keeps as this number, counting from 1900: of some year
/// between 1954 and 2064.
pub(super) fn serial(text: &str) -> Option<Day> {
    const FIRST: i32 = 20_000;
    const LAST: i32 = 60_000;
    let plain = text.bytes().all(|byte| byte.is_ascii_digit());
    let count: i32 = text.parse().ok().filter(|_| plain)?;
    let counted = (FIRST..=LAST).contains(&count);
    Day::new(1899, 12, 30)
        .filter(|_| counted)?
        .days_later(count)
}

#[cfg(test)]
mod tests {
    use super::{DateOrder, NoDay, day};
    use crate::units::Day;

    fn read(text: &str, order: Option<DateOrder>) -> Result<String, String> {
        let today: Day = "2026-11-01".parse().unwrap();
        day(text, order, today)
            .map(|day| day.to_string())
            .map_err(|wrong| match wrong {
                NoDay::Misread(misread) => misread.says,
                NoDay::Ambiguous(read) => {
                    let days: Vec<String> = read.iter().map(|(_, day)| day.to_string()).collect();
                    days.join(" or ")
                }
            })
    }

    #[test]
    fn what_can_be_read_in_one_way_only_is_read() {
        for (text, is) in [
            ("2024-10-03", "2024-10-03"),
            ("2024/10/3", "2024-10-03"),
            ("2024-10-03 14:30", "2024-10-03"),
            ("2024-10-03T00:00:00Z", "2024-10-03"),
            ("25/10/2024", "2024-10-25"),
            ("10/25/2024", "2024-10-25"),
            ("3.3.2024", "2024-03-03"),
            ("3 Oct 2024", "2024-10-03"),
            ("Thu 3rd October, 2024", "2024-10-03"),
            ("Oct 3, 2024", "2024-10-03"),
            ("3-Oct-87", "1987-10-03"),
        ] {
            assert_eq!(read(text, None), Ok(is.to_owned()), "{text}");
        }
    }

    #[test]
    fn what_may_be_two_days_is_asked_for() {
        let both = Err("2024-10-03 or 2024-03-10".to_owned());
        assert_eq!(read("03/10/2024", None), both);
        assert_eq!(
            read("03-Oct-24", None),
            Err("2024-10-03 or 2003-10-24".to_owned())
        );
        for (text, order, is) in [
            ("03/10/2024", DateOrder::DayMonthYear, "2024-10-03"),
            ("10/03/24", DateOrder::MonthDayYear, "2024-10-03"),
            ("24.10.3", DateOrder::YearMonthDay, "2024-10-03"),
            ("2024-10-03", DateOrder::DayMonthYear, "2024-10-03"),
            ("3 Oct 2024", DateOrder::MonthDayYear, "2024-10-03"),
            ("27/10/26", DateOrder::DayMonthYear, "2026-10-27"),
            ("27/10/27", DateOrder::DayMonthYear, "1927-10-27"),
        ] {
            assert_eq!(read(text, Some(order)), Ok(is.to_owned()), "{text}");
        }
        let wrong = read("10/25/2024", Some(DateOrder::DayMonthYear));
        assert_eq!(
            wrong,
            Err("`10/25/2024` is no day of the calendar, day-month-year".to_owned())
        );
    }

    #[test]
    fn what_is_no_day_says_why() {
        for (text, says) in [
            ("03-Oct", "`03-Oct` does not say which year"),
            ("Oct 2024", "`Oct 2024` does not say which day of the month"),
            ("2024-02-30", "`2024-02-30` is no day of the calendar"),
            (
                "45568",
                "`45568` is the number that a spreadsheet program keeps a day as",
            ),
            ("last week", "`last week` is not a day"),
            ("99999/1/1", "`99999/1/1` is no day of the calendar"),
            ("1/1/1/1", "`1/1/1/1` is not a day"),
        ] {
            assert_eq!(read(text, None), Err(says.to_owned()), "{text}");
        }
    }
}
