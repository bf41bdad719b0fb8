//! What is not the same in two states of one boat.

use super::{Hole, State};
use crate::hull::{CrossingId, HoleNumber, Hull};
use crate::units::Length;

/// A hole that is not as it was.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Changed {
    /// The crossing.
    pub crossing: CrossingId,
    /// The hole.
    pub number: HoleNumber,
    /// What stood there; `None` where there was no hole.
    pub before: Option<Stands>,
    /// What stands there now; `None` where there is no hole any more.
    pub after: Option<Stands>,
}

/// What stands in a hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stands {
    /// The hole.
    pub hole: Hole,
    /// What was measured of the fastening in it, at its thinnest.
    pub diameter: Option<Length>,
}

/// Every hole that is not the same in two states, which are of books that begin alike.
pub fn changes(hull: &Hull, before: &State, after: &State) -> Vec<Changed> {
    let mut changed = Vec::new();
    for crossing in hull.crossing_ids() {
        let count = before
            .holes(crossing)
            .len()
            .max(after.holes(crossing).len());
        for number in (1..=count).filter_map(HoleNumber::new) {
            let stands = |state: &State| {
                let hole = *state.holes(crossing).get(number.index())?;
                let diameter = state.diameter(crossing, number);
                Some(Stands { hole, diameter })
            };
            let (before, after) = (stands(before), stands(after));
            if before != after {
                changed.push(Changed {
                    crossing,
                    number,
                    before,
                    after,
                });
            }
        }
    }
    changed
}
