//! Sisters: lettered frames beside a frame of the same number.

use std::collections::{BTreeMap, BTreeSet};

use super::Survey;
use crate::hull::{CrossingId, Member, Number, Side};

/// The strakes, by their place among all, that a frame or its sister lies under, with the crossing.
pub(super) type Lies = BTreeMap<usize, CrossingId>;

/// The frames of one side that are sistered on the day.
#[derive(Debug, Default)]
pub(super) struct Sistered {
    /// Where the frame itself lies.
    pub(super) frame: Lies,
    /// Each sister, and where it lies.
    pub(super) sisters: BTreeMap<Number, Lies>,
}

impl Survey<'_> {
    /// Every sistered frame of the shell, by side and number.
    pub(super) fn sistered(&self) -> BTreeMap<(Side, u16), Sistered> {
        let mut frames: BTreeMap<(Side, u16), Sistered> = BTreeMap::new();
        let lettered: BTreeSet<(Side, u16)> = self
            .frames(|_, number| !number.is_plain())
            .map(|(_, key, ..)| key)
            .collect();
        if lettered.is_empty() {
            return frames;
        }
        for (strake, key, number, id) in self.frames(|key, _| lettered.contains(&key)) {
            let frame = frames.entry(key).or_default();
            match number.is_plain() {
                true => frame.frame.insert(strake, id),
                false => frame.sisters.entry(number).or_default().insert(strake, id),
            };
        }
        frames
    }

    /// Where planks of the shell lie on those frames that `asked` says, by side and number and by
    /// the number with its letter: the strake's place among all, these, and the crossing.
    fn frames(
        &self,
        asked: impl Fn((Side, u16), Number) -> bool + Copy,
    ) -> impl Iterator<Item = (usize, (Side, u16), Number, CrossingId)> {
        let strakes = self.hull.strakes().iter().enumerate();
        strakes
            .filter(|(_, strake)| !strake.id.side.is_deck())
            .flat_map(move |(at, strake)| {
                strake.crossings().filter_map(move |(id, member)| {
                    let Member::Frame(number) = member else {
                        return None;
                    };
                    let key = (strake.id.side, number.value());
                    let is_asked = asked(key, number) && self.is_there(id);
                    is_asked.then_some((at, key, number, id))
                })
            })
    }
}
