//! Twist drills of the four series.

use std::fmt;
use std::str::FromStr;

use crate::text::{Misread, nearest};
use crate::units::Length;

/// A series of drills.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Series {
    /// Fractions of an inch: by 64ths to 1-3/4, by 32nds to 2-1/4.
    Fraction,
    /// No. 80 to No. 1.
    Number,
    /// A to Z.
    Letter,
    /// Millimetres: by 0.05 to 3, by 0.1 to 13, by 0.5 to 20.
    Metric,
}

impl Series {
    const NAMES: [(&str, Self); 6] = [
        ("fraction", Self::Fraction),
        ("number", Self::Number),
        ("letter", Self::Letter),
        ("metric", Self::Metric),
        ("fractional", Self::Fraction),
        ("inch", Self::Fraction),
    ];
}

impl fmt::Display for Series {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let named = Self::NAMES.iter().find(|(_, series)| series == self);
        f.write_str(named.map_or("", |(name, _)| name))
    }
}

impl FromStr for Series {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        let word = text.trim().to_lowercase();
        let known = Self::NAMES.iter().find(|(name, _)| *name == word);
        known.map(|(_, series)| *series).ok_or_else(|| {
            let near = nearest(&word, Self::NAMES.map(|(name, _)| name));
            Misread::new(format!("`{}` is not a series of drills", text.trim())).help(
                near.map_or_else(
                    || "fraction, number, letter or metric".to_owned(),
                    |name| format!("did you mean `{name}`?"),
                ),
            )
        })
    }
}

/// One drill.
#[derive(Debug, PartialEq, Eq)]
pub struct Drill {
    /// The series it is of.
    pub series: Series,
    /// Its name: `11/64`, `No. 18`, `D`, `4.3 mm`.
    pub name: &'static str,
    /// Its diameter.
    pub diameter: Length,
}

include!(concat!(env!("OUT_DIR"), "/drills.rs"));

impl Drill {
    /// All drills of a series, by rising diameter.
    pub fn all(series: Series) -> &'static [Self] {
        match series {
            Series::Fraction => FRACTIONS,
            Series::Number => NUMBERS,
            Series::Letter => LETTERS,
            Series::Metric => METRICS,
        }
    }

    /// The drill of this name, of whatever series: `1/4in`, `No. 25`, `D`, `4.3 mm`.
    ///
    /// # Errors
    /// Where there is none; the help names the nearest in size, where the name is a length.
    pub fn find(name: &str) -> Result<&'static Self, Misread> {
        const EVERY: [Series; 4] = [
            Series::Fraction,
            Series::Number,
            Series::Letter,
            Series::Metric,
        ];
        let plain = |name: &str| {
            let name = name.to_lowercase().replace([' ', '.', '#'], "");
            name.trim_end_matches("in")
                .trim_start_matches("no")
                .to_owned()
        };
        // The points of metric drills count.
        let same = |drill: &&Self| match drill.series {
            Series::Metric => drill.name.replace(' ', "") == name.to_lowercase().replace(' ', ""),
            Series::Number => !name.contains('/') && plain(drill.name) == plain(name),
            Series::Fraction | Series::Letter => plain(drill.name) == plain(name),
        };
        of(&EVERY).find(same).ok_or_else(|| {
            let misread = Misread::new(format!("there is no drill `{}`", name.trim()));
            let near = name
                .parse()
                .ok()
                .and_then(|size| Self::nearest(&EVERY, size));
            misread.help(near.map_or_else(
                || "as `refasten tables drills` names it: 1/4in, No. 25, D, 4.3 mm".to_owned(),
                |near| format!("the nearest is {}", near.name),
            ))
        })
    }

    /// The drill of these series nearest to `target`; of two as near the larger, of two of one
    /// size the earlier series (fraction, number, letter, metric). `None` without a series.
    pub fn nearest(series: &[Series], target: Length) -> Option<&'static Self> {
        of(series).min_by_key(|drill| {
            let off = drill.diameter.nm().abs_diff(target.nm());
            (off, drill.diameter < target, drill.series)
        })
    }

    /// The smallest drill of these series that is not under `target`.
    pub fn at_least(series: &[Series], target: Length) -> Option<&'static Self> {
        of(series)
            .filter(|drill| drill.diameter >= target)
            .min_by_key(|drill| (drill.diameter, drill.series))
    }

    /// The largest drill of these series that is not over `target`.
    pub fn at_most(series: &[Series], target: Length) -> Option<&'static Self> {
        of(series)
            .filter(|drill| drill.diameter <= target)
            .min_by_key(|drill| (-drill.diameter, drill.series))
    }
}

fn of(series: &[Series]) -> impl Iterator<Item = &'static Drill> {
    series.iter().flat_map(|series| Drill::all(*series))
}
