//! Lengths, exact to the nanometre.

use std::fmt;
use std::ops::{Add, Mul, Neg, Sub};
use std::str::FromStr;

use super::{number, whole};
use crate::text::Misread;

const NM_PER_INCH: i64 = 25_400_000;
const NM_PER_64TH: i64 = NM_PER_INCH / 64;
const NM_PER_MM: i64 = 1_000_000;

/// Which units a person wants to see.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Units {
    /// Inch fractions, pounds.
    #[default]
    Inch,
    /// Millimetres, newtons.
    Metric,
}

/// A length in whole nanometres. An inch is exactly 25.4 mm, so every fraction of an inch to
/// 1/64 and every decimal of a millimetre to six places is exact.
///
/// Read with its unit, never without: `7/8in`, `1-3/4 in`, `1 3/4"`, `1¾″`, `22mm`, `2.2 cm`,
/// `5ft 3in`. Nothing longer than [`Length::LONGEST`] is read. Differences may be negative; what
/// is read from text never is.
///
/// ```
/// use refasten::units::Length;
/// let plank: Length = "7/8in".parse()?;
/// assert_eq!(plank.nm(), 22_225_000);
/// assert_eq!(plank.to_string(), "7/8in");
/// assert_eq!("22.225mm".parse::<Length>()?, plank);
/// # Ok::<(), refasten::text::Misread>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Length(i64);

impl Length {
    /// No length at all.
    pub const ZERO: Self = Self(0);
    /// The longest length that is read: a kilometre.
    pub const LONGEST: Self = Self(1_000_000_000_000);

    /// A length of whole nanometres.
    pub const fn from_nm(nm: i64) -> Self {
        Self(nm)
    }

    /// A length of whole 64ths of an inch.
    pub const fn from_64ths(n: i64) -> Self {
        Self(n * NM_PER_64TH)
    }

    /// The nearest whole nanometre to so many inches; for results of arithmetic, not for reading.
    pub fn from_inches(inches: f64) -> Self {
        Self(whole((inches * NM_PER_INCH as f64).round()))
    }

    /// In nanometres.
    pub const fn nm(self) -> i64 {
        self.0
    }

    /// In inches, as near as a float comes.
    pub fn inches(self) -> f64 {
        self.0 as f64 / NM_PER_INCH as f64
    }

    /// In millimetres, as near as a float comes.
    pub fn mm(self) -> f64 {
        self.0 as f64 / NM_PER_MM as f64
    }

    /// The share `numerator / denominator` of this length, to the nearest nanometre.
    pub fn share(self, numerator: i64, denominator: i64) -> Self {
        let product = i128::from(self.0) * i128::from(numerator);
        let halved = i128::from(denominator) / 2;
        let nm = (product + halved).div_euclid(i128::from(denominator));
        let end = if nm < 0 { i64::MIN } else { i64::MAX };
        Self(i64::try_from(nm).unwrap_or(end))
    }

    /// A share of this length, to the nearest nanometre.
    pub fn part(self, share: f64) -> Self {
        Self(whole((self.0 as f64 * share).round()))
    }

    /// This length as a share of another; infinite or NaN where the other is nothing.
    pub fn over(self, other: Self) -> f64 {
        self.0 as f64 / other.0 as f64
    }

    /// The nearest multiple of `step`, halves up.
    pub fn nearest(self, step: Self) -> Self {
        Self((self.0 + step.0 / 2).div_euclid(step.0) * step.0)
    }

    /// As a person in a shop wants to read it: `1-3/4 in`, `1.094 in`, `44.5 mm`. Rounded to a
    /// thousandth of an inch or a tenth of a millimetre where it is not a fraction.
    pub fn shown(self, units: Units) -> String {
        match units {
            Units::Inch => match self.as_fraction() {
                Some(fraction) => format!("{fraction} in"),
                None => format!("{} in", trimmed(format!("{:.3}", self.inches()))),
            },
            Units::Metric => format!("{} mm", trimmed(format!("{:.1}", self.mm()))),
        }
    }

    /// As the files carry it, exactly: [`Display`](fmt::Display) in inches, or millimetres.
    pub fn written(self, units: Units) -> String {
        match units {
            Units::Inch => self.to_string(),
            Units::Metric => self.written_mm(),
        }
    }

    fn written_mm(self) -> String {
        let sign = if self.0 < 0 { "-" } else { "" };
        let nm = self.0.unsigned_abs();
        let (whole, part) = (nm / NM_PER_MM as u64, nm % NM_PER_MM as u64);
        if part == 0 {
            format!("{sign}{whole}mm")
        } else {
            format!("{sign}{}mm", trimmed(format!("{whole}.{part:06}")))
        }
    }

    /// `1-3/4`, if it is a whole number of 64ths of an inch.
    fn as_fraction(self) -> Option<String> {
        if self.0 % NM_PER_64TH != 0 {
            return None;
        }
        let sign = if self.0 < 0 { "-" } else { "" };
        let n = (self.0 / NM_PER_64TH).unsigned_abs();
        let (whole, part) = (n / 64, n % 64);
        let halvings = part.trailing_zeros().min(6);
        let (above, below) = (part >> halvings, 64_u64 >> halvings);
        Some(match (whole, part) {
            (_, 0) => format!("{sign}{whole}"),
            (0, _) => format!("{sign}{above}/{below}"),
            _ => format!("{sign}{whole}-{above}/{below}"),
        })
    }
}

/// Drops the noughts at the end of a decimal.
fn trimmed(decimal: String) -> String {
    if decimal.contains('.') {
        decimal
            .trim_end_matches('0')
            .trim_end_matches('.')
            .to_owned()
    } else {
        decimal
    }
}

/// Exact, and read back as the same length: a fraction of an inch where it is one, else a decimal
/// inch of at most five places, else millimetres.
impl fmt::Display for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        const NM_PER_100_000TH: i64 = NM_PER_INCH / 100_000;
        if let Some(fraction) = self.as_fraction() {
            return write!(f, "{fraction}in");
        }
        if self.0 % NM_PER_100_000TH == 0 {
            let sign = if self.0 < 0 { "-" } else { "" };
            let n = (self.0 / NM_PER_100_000TH).unsigned_abs();
            return write!(
                f,
                "{sign}{}in",
                trimmed(format!("{}.{:05}", n / 100_000, n % 100_000))
            );
        }
        f.write_str(&self.written_mm())
    }
}

impl FromStr for Length {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        let mut at = text.len() - text.trim_start().len();
        let end = text.trim_end().len();
        if at >= end {
            return Err(
                Misread::new("a length is missing").help("write it with its unit: 7/8in or 22mm")
            );
        }
        if text.trim_start().starts_with('-') {
            return Err(Misread::new("a length is never negative")
                .help("take the minus sign out")
                .at(at..end));
        }
        let mut total: i128 = 0;
        let mut last = i128::MAX;
        let rest = |at: usize| text.get(at..end).unwrap_or_default();
        while at < end {
            let (ratio, taken) = number::read(rest(at)).map_err(|misread| {
                let len = end - at;
                let help = misread.help.clone();
                let mut misread = misread.shifted(at, len);
                misread.help = help.or_else(|| {
                    Some(
                        "write a length with its unit: 7/8in, 1-3/4 in, 5ft 3in or 22mm".to_owned(),
                    )
                });
                misread
            })?;
            let number = at..at + taken;
            at = number.end;
            at += rest(at).len() - rest(at).trim_start().len();
            let (unit, unit_len) =
                read_unit(rest(at)).ok_or_else(|| no_unit(text, number.clone(), at..end))?;
            if unit >= last {
                return Err(
                    Misread::new("feet come before inches, and each is given once")
                        .help("like 5ft 3in")
                        .at(number.start..at + unit_len),
                );
            }
            last = if unit == FOOT { unit } else { 0 };
            total += ratio.times_rounded(unit);
            at += unit_len;
            at += rest(at).len() - rest(at).trim_start().len();
        }
        match i64::try_from(total) {
            Ok(nm) if nm <= Self::LONGEST.0 => Ok(Self(nm)),
            _ => Err(
                Misread::new("a length over a kilometre is more than any boat needs")
                    .help("is the unit right?"),
            ),
        }
    }
}

const FOOT: i128 = 12 * NM_PER_INCH as i128;

/// Nanometres of the unit at the start of `text`, and the bytes it took.
fn read_unit(text: &str) -> Option<(i128, usize)> {
    const INCH: i128 = NM_PER_INCH as i128;
    const MM: i128 = NM_PER_MM as i128;
    const SIGNS: [(&str, i128); 8] = [
        ("''", INCH),
        ("\"", INCH),
        ("″", INCH),
        ("”", INCH),
        ("′′", INCH),
        ("'", FOOT),
        ("′", FOOT),
        ("’", FOOT),
    ];
    if let Some((sign, nm)) = SIGNS.iter().find(|(sign, _)| text.starts_with(sign)) {
        return Some((*nm, sign.len()));
    }
    let end = text.find(|c: char| !c.is_ascii_alphabetic());
    let (unit, _) = text.split_at(end.unwrap_or(text.len()));
    let nm = match unit.to_ascii_lowercase().as_str() {
        "in" | "inch" | "inches" => INCH,
        "ft" | "foot" | "feet" => FOOT,
        "mm" => MM,
        "cm" => 10 * MM,
        "m" => 1000 * MM,
        _ => return None,
    };
    Some((nm, unit.len()))
}

fn no_unit(text: &str, number: std::ops::Range<usize>, rest: std::ops::Range<usize>) -> Misread {
    let written = text.get(number.clone()).unwrap_or_default().trim_end();
    let after = text.get(rest.clone()).unwrap_or_default();
    if after.is_empty() {
        return Misread::new(format!("`{written}` has no unit"))
            .help(format!("write {written}in or {written}mm"))
            .at(number);
    }
    Misread::new(format!("`{after}` is not a unit of length"))
        .help("inches (in, \"), feet (ft, '), mm, cm or m")
        .at(rest)
}

impl Add for Length {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl Sub for Length {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl Neg for Length {
    type Output = Self;
    fn neg(self) -> Self {
        Self(self.0.saturating_neg())
    }
}

impl Mul<i64> for Length {
    type Output = Self;
    fn mul(self, n: i64) -> Self {
        Self(self.0.saturating_mul(n))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn nm(text: &str) -> i64 {
        text.parse::<Length>()
            .unwrap_or_else(|e| panic!("{text}: {e}"))
            .nm()
    }

    #[test]
    fn every_way_the_shop_writes_an_inch_and_three_quarters() {
        for text in [
            "1-3/4in",
            "1-3/4 in",
            "1 3/4\"",
            "1¾″",
            "1-¾ inch",
            "1.75in",
            "44.45mm",
            "4.445 cm",
            " 1 3/4 in ",
            "0ft 1-3/4in",
            "1 3⁄4 in",
        ] {
            assert_eq!(nm(text), 44_450_000, "{text}");
        }
        assert_eq!(nm("5ft 3in"), 63 * NM_PER_INCH);
        assert_eq!(nm("5' 3-1/2\""), 127 * NM_PER_INCH / 2);
        assert_eq!(nm("5′"), 60 * NM_PER_INCH);
        assert_eq!(nm(".5in"), NM_PER_INCH / 2);
    }

    #[test]
    fn finer_than_a_nanometre_rounds_half_to_even() {
        assert_eq!(nm("0.0000005mm"), 0);
        assert_eq!(nm("0.0000015mm"), 2);
        assert_eq!(nm("0.0000025mm"), 2);
    }

    #[test]
    fn what_is_not_a_length_says_why() {
        for (text, says) in [
            ("7/8", "`7/8` has no unit"),
            ("7/9in", "`7/9` is not a fraction of a rule"),
            ("-1in", "a length is never negative"),
            ("", "a length is missing"),
            ("3 cubits", "`cubits` is not a unit of length"),
            ("3in 5ft", "feet come before inches, and each is given once"),
            ("about 2in", "there is no number here"),
            (
                "2000m",
                "a length over a kilometre is more than any boat needs",
            ),
            (
                "1234567890123in",
                "a number of 13 digits is more than any boat needs",
            ),
            ("2in x", "there is no number here"),
        ] {
            assert_eq!(text.parse::<Length>().unwrap_err().says, says, "{text}");
        }
    }

    #[test]
    fn shown_as_the_shop_reads_it() {
        let shown = |text: &str, units| text.parse::<Length>().unwrap().shown(units);
        assert_eq!(shown("1.75in", Units::Inch), "1-3/4 in");
        assert_eq!(shown("1.094in", Units::Inch), "1.094 in");
        assert_eq!(shown("2in", Units::Metric), "50.8 mm");
        assert_eq!(shown("50mm", Units::Inch), "1.969 in");
    }
}
