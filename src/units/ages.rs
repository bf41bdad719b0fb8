//! How old a thing is, as well as its date is known.

use std::fmt;

use super::{Day, When};

/// An age in whole years, from the least it can be to the most.
///
/// ```
/// use refasten::units::{Ages, When};
/// let driven: When = "1970s".parse()?;
/// let ages = Ages::of(driven, None, "2024-11-25".parse()?);
/// assert_eq!(ages.unwrap().to_string(), "44 to 54 years");
/// # Ok::<(), refasten::text::Misread>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ages {
    /// The least.
    pub least: u32,
    /// The most; `None` where nothing bounds it.
    pub most: Option<u32>,
}

impl Ages {
    /// The age on a day of what was made on an uncertain date, and not before `bound` where that is
    /// given; `None` where neither says anything.
    pub fn of(made: When, bound: Option<Day>, on: Day) -> Option<Self> {
        let (latest, earliest) = (made.latest(), made.earliest().max(bound));
        if latest.is_none() && earliest.is_none() {
            return None;
        }
        let age = |day: Day| on.years_since(day);
        Some(Self {
            least: latest.map_or(0, age),
            most: earliest.map(age),
        })
    }

    /// The ages of both.
    #[must_use]
    pub fn with(self, other: Self) -> Self {
        Self {
            least: self.least.min(other.least),
            most: self.most.zip(other.most).map(|(one, two)| one.max(two)),
        }
    }
}

/// In words: `24 to 33 years`, `at least 44 years`, `under a year`.
impl fmt::Display for Ages {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.least, self.most) {
            (_, Some(0)) => f.write_str("under a year"),
            (0, Some(1)) => f.write_str("under 2 years"),
            (0, Some(most)) => write!(f, "up to {most} years"),
            (least, Some(most)) if most > least => write!(f, "{least} to {most} years"),
            (1, Some(_)) => f.write_str("1 year"),
            (least, Some(_)) => write!(f, "{least} years"),
            (1, None) => f.write_str("at least 1 year"),
            (least, None) => write!(f, "at least {least} years"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_age_is_as_wide_as_its_date() {
        let of = |made: &str, bound: Option<&str>| {
            let bound = bound.map(|day| day.parse().unwrap());
            let on = "2024-11-25".parse().unwrap();
            let ages = Ages::of(made.parse().unwrap(), bound, on);
            ages.map_or("not known".to_owned(), |ages| ages.to_string())
        };
        for (made, bound, words) in [
            ("2024-11-01", None, "under a year"),
            ("2024", None, "under a year"),
            ("2023", None, "under 2 years"),
            ("2020s", None, "up to 4 years"),
            ("2023-11-25", None, "1 year"),
            ("1990s", None, "24 to 34 years"),
            ("1951", Some("1951-01-01"), "72 to 73 years"),
            ("before 1980", None, "at least 44 years"),
            ("before 1980", Some("1951-01-01"), "44 to 73 years"),
            ("unknown", None, "not known"),
            ("unknown", Some("1951-01-01"), "up to 73 years"),
        ] {
            assert_eq!(of(made, bound), words, "{made}");
        }
    }

    #[test]
    fn ages_together_span_both() {
        let of = |least, most| Ages { least, most };
        assert_eq!(of(3, Some(5)).with(of(1, Some(4))), of(1, Some(5)));
        assert_eq!(of(3, Some(5)).with(of(9, None)), of(3, None));
    }
}
