//! The tables as they are shown: every cell as printed, with what it rests on.

use super::{Basis, names};
use crate::text::Misread;

/// A reference table.
#[derive(Debug, PartialEq, Eq)]
pub struct Table {
    /// Its name, one word.
    pub name: &'static str,
    /// What it is.
    pub title: &'static str,
    /// Its columns.
    pub columns: &'static [Column],
    /// Its rows, a cell for every column.
    pub rows: &'static [&'static [Cell]],
    /// What to know about it as a whole.
    pub notes: &'static [&'static str],
}

/// A column of a table.
#[derive(Debug, PartialEq, Eq)]
pub struct Column {
    /// Its name.
    pub name: &'static str,
    /// The unit of its figures; may be empty.
    pub unit: &'static str,
    /// Whether it only names or describes the rows and holds no figures.
    pub label: bool,
    /// What its figures rest on unless a cell says otherwise; `None` for labels, and where every
    /// row has its own ground.
    pub basis: Option<&'static Basis>,
}

/// One figure or label.
#[derive(Debug, PartialEq, Eq)]
pub struct Cell {
    /// As printed; empty where the source has no figure.
    pub text: &'static str,
    /// What it rests on; `None` for labels and empty cells.
    pub basis: Option<&'static Basis>,
}

include!(concat!(env!("OUT_DIR"), "/tables.rs"));

impl Table {
    /// All tables, in the order they are listed.
    pub fn all() -> &'static [Self] {
        TABLES
    }

    /// The table of this name; case, blanks and hyphens do not matter.
    ///
    /// # Errors
    /// When there is no such table, with the nearest name.
    pub fn find(name: &str) -> Result<&'static Self, Misread> {
        names::find("one", "", name, TABLES, |table| (table.name, &[]))
    }
}
