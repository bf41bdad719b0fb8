//! The numbers that the rules judge by.

use std::fmt;

use super::basis::same;
use super::{Basis, names};
use crate::text::Misread;
use crate::units::{self, Length, Potential};

/// A number with its dimension.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Quantity {
    /// A length.
    Length(Length),
    /// A share of something, 0 to 1.
    Share(f64),
    /// A difference of potential.
    Volts(Potential),
    /// So many things.
    Count(u32),
    /// So many sizes of screw.
    Gauges(u32),
    /// So many diameters of the fastening.
    Diameters(f64),
    /// So many years.
    Years(u32),
}

/// A number that a rule judges by; the user can change it.
#[derive(Debug, PartialEq)]
pub struct Limit {
    /// Its name, in plain words.
    pub name: &'static str,
    /// The number.
    pub is: Quantity,
    /// What it rests on.
    pub basis: &'static Basis,
    /// What is judged by it, in a line.
    pub says: &'static str,
}

include!(concat!(env!("OUT_DIR"), "/limits.rs"));

impl Limit {
    /// All limits.
    pub fn all() -> &'static [Self] {
        LIMITS
    }

    /// The limit of this name; case, blanks and hyphens do not matter.
    ///
    /// # Errors
    /// When the table has no such row, with the nearest name.
    pub fn find(name: &str) -> Result<&'static Self, Misread> {
        names::find("a limit", "limits", name, LIMITS, |limit| (limit.name, &[]))
    }
}

impl Limit {
    /// The limit of exactly this name, for code. To be called in a `const` block.
    ///
    /// # Panics
    /// Where the table has no such name, which fails the build.
    #[expect(
        clippy::indexing_slicing,
        clippy::panic,
        reason = "the compiler runs it, and a panic there fails the build"
    )]
    pub const fn get(name: &'static str) -> &'static Self {
        let mut at = 0;
        while at < LIMITS.len() {
            if same(LIMITS[at].name.as_bytes(), name.as_bytes()) {
                return &LIMITS[at];
            }
            at += 1;
        }
        panic!("there is no limit of this name in tables/limits.yaml")
    }
}

impl Quantity {
    /// Reads a user's own number of the same dimension as this one.
    ///
    /// # Errors
    /// When it is of another dimension, or out of the range of its kind.
    pub fn parse_like(&self, text: &str) -> Result<Self, Misread> {
        let text = text.trim();
        match self {
            Self::Length(_) => Ok(Self::Length(text.parse()?)),
            Self::Share(_) => share(text).map(Self::Share),
            Self::Volts(_) => volts(text).map(Self::Volts),
            Self::Count(_) => whole(text, &[]).map(Self::Count),
            Self::Gauges(_) => whole(text, &["gauges", "gauge", "sizes", "size"]).map(Self::Gauges),
            Self::Years(_) => whole(text, &["years", "year"]).map(Self::Years),
            Self::Diameters(_) => {
                let number = without(text, &["diameters", "diameter", "D"]);
                let read = decimal(number).filter(|n| *n <= 100.0);
                read.map(Self::Diameters).ok_or_else(|| {
                    Misread::new(format!("`{text}` is not a number of diameters"))
                        .help("a number from 0 to 100, like 3 or 1.5")
                })
            }
        }
    }
}

fn without<'a>(text: &'a str, units: &[&str]) -> &'a str {
    let stripped = units.iter().find_map(|unit| text.strip_suffix(unit));
    stripped.map_or(text, str::trim_end)
}

/// A plain decimal, not negative; no exponent, no infinity.
fn decimal(text: &str) -> Option<f64> {
    let plain = !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    text.parse().ok().filter(|_| plain)
}

fn share(text: &str) -> Result<f64, Misread> {
    let read = if let Some(percent) = text.strip_suffix('%') {
        decimal(percent.trim_end()).map(|n| n / 100.0)
    } else if let Some((above, below)) = text.split_once('/') {
        match (decimal(above.trim_end()), decimal(below.trim_start())) {
            (Some(above), Some(below)) if below > 0.0 => Some(above / below),
            _ => None,
        }
    } else {
        decimal(text)
    };
    read.filter(|share| *share <= 1.0).ok_or_else(|| {
        Misread::new(format!("`{text}` is not a share"))
            .help("a share from 0 to 1: 20%, 0.2 or 1/5")
    })
}

fn volts(text: &str) -> Result<Potential, Misread> {
    let (number, tenths) = match (text.strip_suffix("mV"), text.strip_suffix('V')) {
        (Some(millivolts), _) => (millivolts, 10.0),
        (None, Some(volts)) => (volts, 10_000.0),
        (None, None) => (text, 0.0),
    };
    let read = decimal(number.trim_end()).map(|n| (n * tenths).round());
    match read {
        Some(n) if tenths > 0.0 && n <= 100_000.0 => {
            let tenths = i32::try_from(units::whole(n)).unwrap_or(i32::MAX);
            Ok(Potential::from_tenths_mv(tenths))
        }
        _ => Err(
            Misread::new(format!("`{text}` is not a difference of potential"))
                .help("volts with their unit, to 10 V: 0.2 V or 200 mV"),
        ),
    }
}

fn whole(text: &str, units: &[&str]) -> Result<u32, Misread> {
    let number = without(text, units);
    number
        .parse()
        .ok()
        .filter(|n| *n <= 1000)
        .ok_or_else(|| Misread::new(format!("`{text}` is not a whole number")).help("at most 1000"))
}

impl fmt::Display for Quantity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Length(length) => f.write_str(&length.shown(crate::units::Units::Inch)),
            Self::Share(share) => {
                let percent = (share * 1000.0).round() / 10.0;
                write!(f, "{percent} %")
            }
            Self::Volts(volts) => volts.fmt(f),
            Self::Count(n) => n.fmt(f),
            Self::Gauges(1) => f.write_str("1 size"),
            Self::Gauges(n) => write!(f, "{n} sizes"),
            Self::Diameters(n) => write!(f, "{n} diameters"),
            Self::Years(1) => f.write_str("1 year"),
            Self::Years(n) => write!(f, "{n} years"),
        }
    }
}
