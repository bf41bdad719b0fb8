//! What a measured fastening has left, and what a crossing has.

use super::{Holding, Survey, limits};
use crate::hull::{CrossingId, HoleNumber};
use crate::joint::wastage::{Duty, Left, Remains, remains};
use crate::record::{Found, Hole};

impl Survey<'_> {
    /// What is left of the fastening in a hole; `None` where it was not measured, or nobody knows
    /// its diameter when new.
    pub(super) fn remains(
        &self,
        id: CrossingId,
        number: HoleNumber,
        hole: &Hole,
    ) -> Option<Remains> {
        let measured = self.state.diameter(id, number)?;
        let fastening = self.fastening(hole);
        let pink = hole.found.each().any(|found| found == Found::Pink);
        let new = fastening.size?.diameter()?;
        remains(fastening.metal, pink, measured, new)
    }

    /// How a crossing is held, with what each fastening counted on there has left of its section:
    /// the square of its share of the diameter, and all of it where nobody measured.
    pub(super) fn bearing(&self, id: CrossingId) -> Bearing {
        let relied_on = self
            .state
            .numbered(id)
            .filter(|(_, hole)| hole.is_relied_on());
        let left = relied_on.map(|(number, hole)| {
            let remains = self.remains(id, number, hole);
            remains.map_or(1.0, |remains| at_most(remains).share(Duty::Section))
        });
        Bearing {
            holding: self.holding(id),
            // A sum of nothing would be less than nought by its sign.
            sections: left.fold(0.0, |sum, left| sum + left),
        }
    }
}

/// Below which shares of what was built there a crossing is weak, as the limits of this boat say.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WeakShares {
    /// For a stop, where its neighbours are like it; 0 to 1.
    pub stop: f64,
    /// For something to mend; 0 to 1.
    pub mend: f64,
}

impl Survey<'_> {
    /// The share of what was built at a crossing that is left to hold there: fastenings counted
    /// on, each by the section it has left where somebody measured. More than 1 where some were
    /// added; `None` where nobody says what was built.
    pub fn share_left(&self, id: CrossingId) -> Option<f64> {
        let bearing = self.bearing(id);
        (bearing.holding.expected > 0).then(|| bearing.share())
    }

    /// The shares below which a crossing is weak.
    pub fn weak_shares(&self) -> WeakShares {
        WeakShares {
            stop: self.limits.bound(limits::CROSSING_STOP).share(),
            mend: self.limits.bound(limits::CROSSING_MEND).share(),
        }
    }
}

/// The most that can be left.
pub(super) const fn at_most(remains: Remains) -> Left {
    match remains {
        Remains::Of(left) | Remains::AtMost(left) => left,
    }
}

/// What still bears at a crossing.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bearing {
    /// The fastenings counted.
    pub(super) holding: Holding,
    /// What is left of their sections together, in new fastenings.
    sections: f64,
}

impl Bearing {
    /// The share of what was built there that is left; 1 where nobody says what was built.
    pub(super) fn share(&self) -> f64 {
        if self.holding.expected == 0 {
            return 1.0;
        }
        self.sections / f64::from(self.holding.expected)
    }

    /// The same, were those counted on as good as new.
    pub(super) fn share_if_new(&self) -> f64 {
        if self.holding.expected == 0 {
            return 1.0;
        }
        self.holding.share_relied_on()
    }
}
