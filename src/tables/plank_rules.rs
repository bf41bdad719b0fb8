//! Which screw for which plank.

use super::{Basis, names};
use crate::text::Misread;
use crate::units::Length;

/// One thickness of a planking table.
#[derive(Debug, PartialEq, Eq)]
pub struct PlankRow {
    /// Thickness of the plank.
    pub plank: Length,
    /// Diameter of the screw as printed, a fraction near the gauge's shank.
    pub screw_diameter: Length,
    /// American gauge of the screw.
    pub gauge: u8,
    /// Length of the screw.
    pub length: Length,
    /// Bungs as printed, smaller first.
    pub bungs: &'static [Length],
    /// The bung to use: the first printed that covers the head.
    pub bung: Length,
}

/// A rule that gives a screw for a plank: a table, or a share of the thickness.
#[derive(Debug, PartialEq, Eq)]
pub struct PlankRule {
    /// Its name.
    pub name: &'static str,
    /// Other names of it.
    pub aliases: &'static [&'static str],
    /// What it is, in a line.
    pub title: &'static str,
    /// Rows by rising plank; empty for a rule that is only a ratio.
    pub rows: &'static [PlankRow],
    /// The least length of the screw over the thickness of the plank, as a fraction.
    pub least_ratio: Option<(i64, i64)>,
    /// The most.
    pub most_ratio: Option<(i64, i64)>,
    /// What it rests on.
    pub basis: &'static Basis,
}

/// The row of a planking table that answers for a plank.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Nearest {
    /// The row.
    pub row: &'static PlankRow,
    /// Whether the plank is exactly the row's.
    pub exact: bool,
}

include!(concat!(env!("OUT_DIR"), "/plank_rules.rs"));

static FIRST: &PlankRule = names::first(RULES);

impl PlankRule {
    /// The rule used unless another is asked for: the Herreshoff table, the first row.
    #[expect(
        clippy::should_implement_trait,
        reason = "a reference to a row, not a new value"
    )]
    pub fn default() -> &'static Self {
        FIRST
    }

    /// The rule of this name.
    ///
    /// # Errors
    /// When the table has no such row, with the nearest name.
    pub fn find(name: &str) -> Result<&'static Self, Misread> {
        names::find("a planking rule", "plank-rules", name, RULES, |row| {
            (row.name, row.aliases)
        })
    }

    /// The row nearest in thickness, of two as near the thicker. `None` for a rule without rows,
    /// and for a plank beyond either end of the table by more than half the step at that end.
    pub fn row(&self, plank: Length) -> Option<Nearest> {
        let [first, second, ..] = self.rows else {
            return None;
        };
        let [.., next, last] = self.rows else {
            return None;
        };
        let beyond_first = first.plank - plank > (second.plank - first.plank).share(1, 2);
        let beyond_last = plank - last.plank > (last.plank - next.plank).share(1, 2);
        if beyond_first || beyond_last {
            return None;
        }
        let off = |row: &&PlankRow| (row.plank.nm().abs_diff(plank.nm()), row.plank < plank);
        let row = self.rows.iter().min_by_key(off)?;
        let exact = row.plank == plank;
        Some(Nearest { row, exact })
    }
}
