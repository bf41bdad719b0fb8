//! Money, exact.

use std::fmt;
use std::str::FromStr;

use crate::text::Misread;

/// An amount in hundredths of whatever the owner pays in; never rounded.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Money(u64);

impl Money {
    /// The highest price that is read: ten million.
    const MOST: u64 = 10_000_000 * 100;

    /// In hundredths.
    pub const fn hundredths(self) -> u64 {
        self.0
    }

    /// So many times the amount; `None` where that is beyond all counting.
    pub fn times(self, count: u64) -> Option<Self> {
        self.0.checked_mul(count).map(Self)
    }

    /// Both together; `None` where that is beyond all counting.
    pub fn and(self, other: Self) -> Option<Self> {
        self.0.checked_add(other.0).map(Self)
    }
}

/// `38.50`.
impl fmt::Display for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}.{:02}", self.0 / 100, self.0 % 100)
    }
}

impl FromStr for Money {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        let wrong = || {
            Misread::new(format!("`{}` is not a price", text.trim()))
                .help("a number with at most two decimals after a point: 38.50")
        };
        let (whole, part) = match text.trim().split_once('.') {
            Some((whole, part)) => (whole, part),
            None => (text.trim(), "0"),
        };
        let digits = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
        if !digits(whole) || !digits(part) || part.len() > 2 {
            return Err(wrong());
        }
        let whole: u64 = whole.parse().map_err(|_| wrong())?;
        let tens = if part.len() == 1 { 10 } else { 1 };
        let part: u64 = part.parse().map_err(|_| wrong())?;
        let amount = whole
            .checked_mul(100)
            .and_then(|w| w.checked_add(part * tens));
        amount
            .filter(|amount| *amount <= Self::MOST)
            .map(Self)
            .ok_or_else(|| {
                Misread::new(format!("`{}` is not to be believed", text.trim()))
                    .help("at most 10 million for a box")
            })
    }
}

#[cfg(test)]
mod tests {
    use super::Money;

    #[test]
    fn amounts_are_read_and_printed_exactly() {
        for (text, is) in [
            ("38.50", 3850),
            ("38.5", 3850),
            ("38", 3800),
            ("0.07", 7),
            ("0", 0),
            ("10000000", 1_000_000_000),
        ] {
            let money: Money = text.parse().unwrap();
            assert_eq!(money.hundredths(), is);
            assert_eq!(money.to_string().parse(), Ok(money));
        }
        for text in [
            "",
            ".",
            "1.",
            ".5",
            "1.234",
            "1,50",
            "-1",
            "1e3",
            "NaN",
            "10000000.01",
            "99999999999999999999",
        ] {
            assert!(text.parse::<Money>().is_err(), "{text}");
        }
        let most: Money = "10000000".parse().unwrap();
        assert_eq!(most.times(u64::MAX), None);
        assert_eq!(
            most.times(3).map(|m| m.to_string()),
            Some("30000000.00".to_owned())
        );
    }
}
