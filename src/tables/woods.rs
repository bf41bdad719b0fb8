//! Woods and their specific gravity.

use super::{Basis, names};
use crate::text::Misread;

/// Oven-dry specific gravity of a wood: weight and volume both oven-dry.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gravity {
    /// The figure.
    pub value: f64,
    /// What it rests on; a converted figure says how it was converted.
    pub basis: &'static Basis,
    /// Whether it lies where the withdrawal rule holds, 0.31 to 0.73.
    pub in_range: bool,
}

/// A wood, or a group of woods that the building standard names.
#[derive(Debug, PartialEq)]
pub struct Wood {
    /// Its name.
    pub name: &'static str,
    /// Other names of it; each names this row alone.
    pub aliases: &'static [&'static str],
    /// Botanically a hardwood: a broad-leaved tree.
    pub hardwood: bool,
    /// The building standard's assigned specific gravity, oven-dry.
    pub assigned: Option<f64>,
    /// What that rests on.
    pub assigned_basis: Option<&'static Basis>,
    /// Specific gravity on oven-dry weight and green volume.
    pub green: Option<f64>,
    /// What that rests on.
    pub green_basis: Option<&'static Basis>,
    /// Specific gravity on oven-dry weight and volume at 12 % moisture.
    pub dry: Option<f64>,
    /// What that rests on.
    pub dry_basis: Option<&'static Basis>,
    /// The assigned figure where there is one, else the green one converted.
    gravity: (f64, &'static Basis),
    /// What to know about the row; may be empty.
    pub note: &'static str,
}

include!(concat!(env!("OUT_DIR"), "/woods.rs"));

impl Wood {
    /// All woods and groups.
    pub fn all() -> &'static [Self] {
        WOODS
    }

    /// The wood of this name or alias; case, blanks and hyphens do not matter.
    ///
    /// # Errors
    /// When the table has no such row, or several that may be meant, with the nearest names.
    pub fn find(name: &str) -> Result<&'static Self, Misread> {
        names::find("a wood", "woods", name, WOODS, |wood| {
            (wood.name, wood.aliases)
        })
    }

    /// Its oven-dry specific gravity: the assigned one where the building standard has the wood,
    /// else `g / (1 - 0.265 g)` of the green one (Wood Handbook ch. 4, from memory).
    pub fn gravity(&self) -> Gravity {
        let (value, basis) = self.gravity;
        let in_range = (0.31..=0.73).contains(&value);
        Gravity {
            value,
            basis,
            in_range,
        }
    }
}
