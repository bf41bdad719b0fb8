//! Where in the crossing the fastenings go.

use super::Ask;
use crate::joint::spacing::{self, ByStandard, Cramped, Position, Room};
use crate::tables::SpacingOf;
use crate::units::Length;

/// Where in the crossing the fastenings go, and what the building standard says of it.
#[derive(Clone, Debug)]
pub struct Spread {
    /// The crossing.
    pub room: Room,
    /// How many.
    pub count: u8,
    /// How many old holes are kept clear of.
    pub old: usize,
    /// Where they go, or why they do not all go in.
    pub places: Result<Vec<Position>, Cramped>,
    /// The most that go in where nothing is old.
    pub most: u8,
    /// The building standard's distances.
    pub standard: [(SpacingOf, ByStandard); 2],
}

impl Spread {
    /// For a fastening of this diameter; `None` where the plank's width, or what the crossing has
    /// along it, is not known.
    pub(super) fn of(ask: &Ask, diameter: Length) -> Option<Self> {
        let room = Room {
            width: ask.width?,
            along: ask.along?,
        };
        let limits = &ask.limits;
        let count = ask
            .count
            .unwrap_or_else(|| spacing::count(room.width, limits));
        let old: Vec<Length> = ask.old.iter().map(|old| old.unwrap_or(diameter)).collect();
        Some(Self {
            room,
            count,
            old: old.len(),
            places: spacing::place(&room, diameter, count, &old, limits),
            most: spacing::most(&room, diameter, limits),
            standard: ByStandard::both(diameter),
        })
    }
}
