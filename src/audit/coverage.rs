//! How much of the boat a record rests on.

use super::Survey;
use crate::units::Day;

/// How many fastenings somebody has looked at, and how many are only as declared.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Coverage {
    /// Pieces of metal in the wood.
    pub fastenings: u32,
    /// Of these, how many an entry looked at or drove.
    pub looked_at: u32,
    /// The day of the first of these looks.
    pub since: Option<Day>,
    /// How many are known only from the hull file.
    pub as_declared: u32,
}

impl Coverage {
    pub(super) fn of(survey: &Survey<'_>) -> Self {
        let mut coverage = Self::default();
        let holes = survey.crossings().flat_map(|at| at.holes);
        for hole in holes.filter(|hole| hole.has_metal()) {
            coverage.fastenings += 1;
            match survey.book.last_look(hole) {
                None => coverage.as_declared += 1,
                Some(entry) => {
                    coverage.looked_at += 1;
                    coverage.since = Some(
                        coverage
                            .since
                            .map_or(entry.date, |since| since.min(entry.date)),
                    );
                }
            }
        }
        coverage
    }
}
