//! Numbers as people write them: decimals, fractions, mixed numbers, unicode fractions.

use std::ops::Range;

use super::count;
use crate::text::Misread;

/// The most digits taken on either side of a decimal point. Enough for a nanometre in a
/// kilometre, and small enough that nothing below can overflow.
const MOST_DIGITS: usize = 12;

/// An exact non-negative number as it was written: `numerator / denominator`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Ratio {
    pub(super) numerator: i128,
    pub(super) denominator: i128,
}

impl Ratio {
    fn whole(n: i128) -> Self {
        Self {
            numerator: n,
            denominator: 1,
        }
    }

    fn plus(self, other: Self) -> Self {
        Self {
            numerator: self.numerator * other.denominator + other.numerator * self.denominator,
            denominator: self.denominator * other.denominator,
        }
    }

    /// This number of units of `unit`, rounded to a whole number, halves to even.
    pub(super) fn times_rounded(self, unit: i128) -> i128 {
        let product = self.numerator * unit;
        let (quotient, remainder) = (
            product.div_euclid(self.denominator),
            product.rem_euclid(self.denominator),
        );
        match (2 * remainder).cmp(&self.denominator) {
            std::cmp::Ordering::Less => quotient,
            std::cmp::Ordering::Greater => quotient + 1,
            std::cmp::Ordering::Equal => quotient + (quotient & 1),
        }
    }
}

/// Reads a number at the start of `text`; gives it and the bytes it took.
pub(super) fn read(text: &str) -> Result<(Ratio, usize), Misread> {
    let first = read_simple(text, 0)?;
    let at = first.end;
    if !first.joins {
        return Ok((first.value, at));
    }
    // A whole number may be followed by a fraction: `1-3/4`, `1 3/4`, `1¾`.
    let rest = text.get(at..).unwrap_or_default();
    let gap = rest
        .strip_prefix('-')
        .map_or_else(|| rest.len() - rest.trim_start().len(), |_| 1);
    match read_simple(text, at + gap) {
        Ok(second) if second.fraction => Ok((first.value.plus(second.value), second.end)),
        Err(misread) if rest.starts_with('-') => Err(misread),
        Err(misread) if misread.within.is_some() => Err(misread),
        _ => Ok((first.value, at)),
    }
}

struct Simple {
    value: Ratio,
    end: usize,
    fraction: bool,
    joins: bool,
}

fn read_simple(text: &str, start: usize) -> Result<Simple, Misread> {
    let rest = text.get(start..).unwrap_or_default();
    if let Some((ratio, len)) = unicode_fraction(rest) {
        return Ok(Simple {
            value: ratio,
            end: start + len,
            fraction: true,
            joins: false,
        });
    }
    let (whole, after) = digits(rest);
    if let Some(decimals) = after.strip_prefix('.') {
        let (decimals, _) = digits(decimals);
        if whole.len() + decimals.len() == 0 {
            return Err(Misread::new("there is no number here"));
        }
        let end = start + whole.len() + 1 + decimals.len();
        too_long(whole.len().max(decimals.len()), start..end)?;
        let scale = 10_i128.pow(count(decimals.len()));
        let numerator = parse(whole) * scale + parse(decimals);
        return Ok(Simple {
            value: Ratio {
                numerator,
                denominator: scale,
            },
            end,
            fraction: false,
            joins: false,
        });
    }
    if whole.is_empty() {
        return Err(Misread::new("there is no number here"));
    }
    let whole_end = start + whole.len();
    too_long(whole.len(), start..whole_end)?;
    let whole = parse(whole);
    let Some(slash) = after
        .chars()
        .next()
        .filter(|c| matches!(c, '/' | '\u{2044}'))
    else {
        return Ok(Simple {
            value: Ratio::whole(whole),
            end: whole_end,
            fraction: false,
            joins: true,
        });
    };
    let below = after.get(slash.len_utf8()..).unwrap_or_default();
    let (below, _) = digits(below);
    let end = whole_end + slash.len_utf8() + below.len();
    let denominator = if below.len() <= 2 { parse(below) } else { 0 };
    if !matches!(denominator, 2 | 4 | 8 | 16 | 32 | 64) {
        return Err(Misread::new(format!("`{}` is not a fraction of a rule", text.get(start..end).unwrap_or_default()))
            .help("halves, quarters, 8ths, 16ths, 32nds and 64ths are read; write anything else as a decimal: 0.3in")
            .at(start..end));
    }
    Ok(Simple {
        value: Ratio {
            numerator: whole,
            denominator,
        },
        end,
        fraction: true,
        joins: false,
    })
}

/// The digits at the start of a text, and the rest.
fn digits(text: &str) -> (&str, &str) {
    let end = text.find(|c: char| !c.is_ascii_digit());
    text.split_at(end.unwrap_or(text.len()))
}

fn parse(digits: &str) -> i128 {
    digits.bytes().fold(0, |n, b| n * 10 + i128::from(b - b'0'))
}

fn too_long(digits: usize, at: Range<usize>) -> Result<(), Misread> {
    if digits <= MOST_DIGITS {
        return Ok(());
    }
    Err(Misread::new(format!(
        "a number of {digits} digits is more than any boat needs"
    ))
    .help(format!(
        "at most {MOST_DIGITS} digits before and after the point"
    ))
    .at(at))
}

fn unicode_fraction(text: &str) -> Option<(Ratio, usize)> {
    let c = text.chars().next()?;
    let (numerator, denominator) = match c {
        '½' => (1, 2),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        _ => return None,
    };
    Some((
        Ratio {
            numerator,
            denominator,
        },
        c.len_utf8(),
    ))
}
