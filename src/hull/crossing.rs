//! Where a plank lies on a member.

use super::{Holes, Member, Scantlings, Strake};
use crate::joint::Zone;

/// The number of a crossing in its hull: strake by strake, each from the bow.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct CrossingId(pub(super) u32);

impl CrossingId {
    /// Its place in a list of all crossings.
    pub const fn index(self) -> usize {
        self.0 as usize
    }
}

/// One crossing with what lies there.
#[derive(Clone, Copy, Debug)]
pub struct Crossing<'h> {
    /// Its number.
    pub id: CrossingId,
    /// The strake.
    pub strake: &'h Strake,
    /// The member.
    pub member: Member,
    /// The member's sizes and wood.
    pub scantlings: &'h Scantlings,
    /// How wet it is there.
    pub zone: Zone,
}

/// A crossing and holes in it, as a place names them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Spot {
    /// The crossing.
    pub crossing: CrossingId,
    /// The holes.
    pub holes: Holes,
}
