//! The wood of a day: planks hung and planed, members sistered and renewed.

use std::collections::BTreeMap;

use super::{Deed, Entry, NewMember, NewPlank, State, What};
use crate::hull::{CrossingId, Hull, Scantlings};
use crate::tables::Wood;
use crate::units::{Day, Length};

/// What was done to the wood at a crossing since the hull file was written.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Fabric {
    /// The plank that is there now, where it is not the one of the hull file.
    pub(super) plank: Plank,
    /// By how much that plank was made thinner.
    pub(super) faired: Length,
    /// The member that is there now, where it is not the one of the hull file, and its day.
    pub(super) member: Option<(NewMember, Day)>,
}

/// The plank at a crossing.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) enum Plank {
    /// As the hull file has it.
    #[default]
    AsFound,
    /// Off.
    Off,
    /// Hung on a day.
    Hung(NewPlank, Day),
}

impl State {
    /// Whether the plank at a crossing is off.
    pub fn is_off(&self, id: CrossingId) -> bool {
        self.fabric(id)
            .is_some_and(|fabric| fabric.plank == Plank::Off)
    }

    /// The day the plank at a crossing was hung; `None` where it is as the hull file has it.
    pub fn hung(&self, id: CrossingId) -> Option<Day> {
        match self.fabric(id)?.plank {
            Plank::Hung(_, day) => Some(day),
            Plank::AsFound | Plank::Off => None,
        }
    }

    /// The day the member at a crossing was sistered there or renewed; `None` where it is as the
    /// hull file has it.
    pub fn renewed(&self, id: CrossingId) -> Option<Day> {
        Some(self.fabric(id)?.member?.1)
    }

    /// Thickness of the plank at a crossing; `None` where it is not known or there is none.
    pub fn thickness(&self, hull: &Hull, id: CrossingId) -> Option<Length> {
        let as_found = hull.crossing(id).strake.thickness;
        let Some(fabric) = self.fabric(id) else {
            return as_found;
        };
        let thickness = match &fabric.plank {
            Plank::AsFound => as_found,
            Plank::Off => None,
            Plank::Hung(plank, _) => plank.thickness,
        };
        Some(thickness? - fabric.faired)
    }

    /// Wood of the plank at a crossing; `None` where it is not known or there is none.
    pub fn plank_wood(&self, hull: &Hull, id: CrossingId) -> Option<&'static Wood> {
        match self.fabric(id).map(|fabric| &fabric.plank) {
            None | Some(Plank::AsFound) => hull.crossing(id).strake.wood,
            Some(Plank::Off) => None,
            Some(Plank::Hung(plank, _)) => plank.wood,
        }
    }

    /// Sizes and wood of the member at a crossing.
    pub fn scantlings(&self, hull: &Hull, id: CrossingId) -> Scantlings {
        let as_found = *hull.crossing(id).scantlings;
        let Some((new, _)) = self.fabric(id).and_then(|fabric| fabric.member) else {
            return as_found;
        };
        Scantlings {
            siding: new.siding.or(as_found.siding),
            depth: new.depth.or(as_found.depth),
            wood: new.wood.or(as_found.wood),
            ..as_found
        }
    }
}

/// The joints that came with planks hung in the log, and the day of each: until then there was
/// none at its place.
pub(super) fn joints_made<'e>(
    hull: &Hull,
    story: impl Iterator<Item = &'e Entry>,
) -> BTreeMap<usize, Day> {
    let mut made = BTreeMap::new();
    for entry in story {
        let What::Done {
            deed: Deed::PlankHung(plank),
            ..
        } = &entry.what
        else {
            continue;
        };
        let spots = plank
            .joints
            .as_ref()
            .and_then(|places| hull.resolve(places).ok());
        for spot in spots.unwrap_or_default() {
            let joint = hull
                .joints
                .iter()
                .position(|joint| joint.crossings.contains(&spot.crossing));
            if let Some(joint) = joint {
                made.entry(joint).or_insert(entry.date);
            }
        }
    }
    made
}
