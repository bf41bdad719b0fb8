//! How a crossing is held, against what was built there.

use super::Survey;
use crate::hull::CrossingId;
use crate::units::count;

/// What holds at a crossing on the day, and what was built to hold there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Holding {
    /// Fastenings counted on.
    pub relied_on: u32,
    /// How many were built there; nought where nobody says.
    pub expected: u32,
    /// Holes, whatever is in them.
    pub holes: u32,
}

impl Holding {
    /// Fewer counted on than were built there by so many.
    pub const fn missing(&self) -> u32 {
        self.expected.saturating_sub(self.relied_on)
    }

    /// What share of those built there is counted on; more than 1 where some were added, and
    /// where nothing is expected.
    pub fn share_relied_on(&self) -> f64 {
        f64::from(self.relied_on) / f64::from(self.expected)
    }

    /// Whether the record knows of anything there.
    pub const fn is_recorded(&self) -> bool {
        self.holes > 0
    }

    /// Whether it is bare or short: something is recorded there, and nothing holds or less than
    /// was built.
    pub const fn is_loose(&self) -> bool {
        self.is_recorded() && (self.relied_on == 0 || self.missing() > 0)
    }
}

impl Survey<'_> {
    /// How a crossing is held, asked about or not.
    pub fn holding(&self, id: CrossingId) -> Holding {
        let holes = self.state.holes(id);
        Holding {
            relied_on: count(holes.iter().filter(|hole| hole.is_relied_on()).count()),
            expected: self.state.expected(id).into(),
            holes: count(holes.len()),
        }
    }
}
