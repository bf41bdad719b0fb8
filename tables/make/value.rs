//! What stands in a cell, read by the kind of its column.

use serde::Deserialize;

/// What a column holds. The first three are labels: they name a row and need no source.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// The name of the row.
    Name,
    /// Other names of the row, parted by semicolons.
    Aliases,
    /// Words about the row.
    Words,
    /// A figure that is kept as it is printed.
    Text,
    /// A length; the column's unit is `in` or `mm`.
    Length,
    /// Lengths parted by ` or `.
    Lengths,
    /// A number or a fraction.
    Number,
    /// A whole number, not negative.
    Whole,
    /// A potential in volts.
    Volts,
    /// `yes` or `no`.
    YesNo,
}

impl Kind {
    /// Whether the column only names, and so needs no source.
    pub fn is_label(self) -> bool {
        matches!(self, Self::Name | Self::Aliases | Self::Words)
    }
}

/// A cell, read.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    Text(String),
    List(Vec<String>),
    /// Nanometres.
    Length(i64),
    Lengths(Vec<i64>),
    Number(f64),
    Whole(i64),
    /// Tenths of a millivolt.
    Volts(i64),
    Yes(bool),
}

/// A decimal of at most six places, or a fraction of whole numbers as near as a float comes: a
/// third is not cut off at six places.
fn number(text: &str) -> Option<f64> {
    if let Some((over, under)) = text.split_once('/')
        && let (Ok(over), Ok(under)) = (over.parse::<u32>(), under.parse::<u32>())
    {
        return (under > 0).then(|| f64::from(over) / f64::from(under));
    }
    Some(scaled(text, 1_000_000)? as f64 / 1e6)
}

/// Reads a cell, or says what is wrong with it.
pub fn read(kind: Kind, unit: &str, text: &str) -> Result<Value, String> {
    let wrong = |what: &str| format!("`{text}` is not {what}");
    Ok(match kind {
        Kind::Name | Kind::Words | Kind::Text => Value::Text(text.to_owned()),
        Kind::Aliases => Value::List(text.split(';').map(|s| s.trim().to_owned()).collect()),
        Kind::Length => Value::Length(
            length(unit, text).ok_or_else(|| wrong("a length in the column's unit, in or mm"))?,
        ),
        Kind::Lengths => Value::Lengths(
            text.split(" or ")
                .map(|part| length(unit, part))
                .collect::<Option<_>>()
                .ok_or_else(|| wrong("lengths in the column's unit, parted by `or`"))?,
        ),
        Kind::Number => {
            Value::Number(number(text).ok_or_else(|| wrong("a number of at most six decimals"))?)
        }
        Kind::Whole => Value::Whole(
            text.parse()
                .ok()
                .filter(|n| *n >= 0)
                .ok_or_else(|| wrong("a whole number"))?,
        ),
        Kind::Volts => {
            Value::Volts(scaled(text, 10_000).ok_or_else(|| wrong("a potential in volts"))?)
        }
        Kind::YesNo => Value::Yes(match text {
            "yes" => true,
            "no" => false,
            _ => return Err(wrong("yes or no")),
        }),
    })
}

/// The nearest whole number; the end of the range where it lies beyond.
#[expect(
    clippy::cast_possible_truncation,
    reason = "such a cast keeps to the ends of the range"
)]
pub fn whole(of: f64) -> i64 {
    of.round() as i64
}

/// Nanometres of a length printed in inches or millimetres.
pub fn length(unit: &str, text: &str) -> Option<i64> {
    match unit {
        "in" => scaled(text, 25_400_000),
        "mm" => scaled(text, 1_000_000),
        _ => None,
    }
    .filter(|nm| *nm >= 0)
}

/// A decimal (`-0.35`, `.138`), fraction (`7/8`) or mixed number (`1-3/4`), times `scale`,
/// to the nearest whole.
fn scaled(text: &str, scale: i128) -> Option<i64> {
    let (sign, text) = match text.strip_prefix('-') {
        Some(rest) => (-1, rest),
        None => (1, text.strip_prefix('+').unwrap_or(text)),
    };
    let (above, below) = if let Some((head, bottom)) = text.split_once('/') {
        let (whole, top) = head.split_once('-').unwrap_or(("0", head));
        let bottom: i128 = bottom.parse().ok().filter(|n| *n > 0)?;
        let (whole, top): (i128, i128) = (whole.parse().ok()?, top.parse().ok()?);
        (whole * bottom + top, bottom)
    } else {
        let (whole, part) = text.split_once('.').unwrap_or((text, ""));
        let digits = format!("{whole}{part}");
        if digits.len() > 15 || part.len() > 6 || digits.bytes().any(|b| !b.is_ascii_digit()) {
            return None;
        }
        (
            digits.parse().ok()?,
            10_i128.pow(u32::try_from(part.len()).ok()?),
        )
    };
    let nearest = (2 * above * scale + below).div_euclid(2 * below);
    i64::try_from(sign * nearest).ok()
}

/// A name as it is looked up: letters and digits only, in lower case. The library folds names the
/// same way.
pub fn folded(name: &str) -> String {
    name.chars()
        .filter(|c| c.is_alphanumeric())
        .flat_map(char::to_lowercase)
        .collect()
}
