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
            .frames()
            .filter_map(|(_, key, number, _)| (!number.is_plain()).then_some(key))
            .collect();
        for (strake, key, number, id) in self.frames().filter(|frame| lettered.contains(&frame.1)) {
            let frame = frames.entry(key).or_default();
            match number.is_plain() {
                true => frame.frame.insert(strake, id),
                false => frame.sisters.entry(number).or_default().insert(strake, id),
            };
        }
        frames
    }

    /// Where planks of the shell lie on frames: the strake's place among all, the side and number,
    /// the number with its letter, the crossing.
    fn frames(&self) -> impl Iterator<Item = (usize, (Side, u16), Number, CrossingId)> + '_ {
        let strakes = self.hull.strakes().iter().enumerate();
        strakes
            .filter(|(_, strake)| !strake.id.side.is_deck())
            .flat_map(move |(at, strake)| {
                strake
                    .crossings()
                    .filter_map(move |(id, member)| match member {
                        Member::Frame(number) if self.is_there(id) => {
                            Some((at, (strake.id.side, number.value()), number, id))
                        }
                        _ => None,
                    })
            })
    }
}
