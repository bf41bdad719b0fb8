//! Pilot holes as shares of the thread root.

use super::{Basis, names};
use crate::text::Misread;

/// A rule for the pilot hole of a wood screw.
#[derive(Debug, PartialEq)]
pub struct LeadHole {
    /// Its name.
    pub name: &'static str,
    /// Share of the thread root in dense wood, in percent.
    pub hard_percent: u8,
    /// Share of the thread root in other wood, in percent.
    pub soft_percent: u8,
    /// Oven-dry specific gravity from which a wood is dense; the figure itself counts as dense.
    pub dense_from: f64,
    /// What it rests on.
    pub basis: &'static Basis,
}

include!(concat!(env!("OUT_DIR"), "/lead_holes.rs"));

/// The handbook's rule, the first row of the table.
static FIRST: &LeadHole = names::first(LEAD_HOLES);

impl LeadHole {
    /// The rule used unless another is asked for: 90 % of the root in dense wood, 70 % in other.
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
        names::find("a lead-hole rule", "lead-holes", name, LEAD_HOLES, |row| {
            (row.name, &[])
        })
    }

    /// Share of the thread root for a wood of this oven-dry specific gravity, in percent.
    pub fn percent(&self, gravity: f64) -> u8 {
        if gravity >= self.dense_from {
            self.hard_percent
        } else {
            self.soft_percent
        }
    }
}
