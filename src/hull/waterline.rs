//! Where the water comes to on the planking.

use std::fmt;
use std::str::FromStr;

use super::{Member, Number, StrakesFrom};
use crate::joint::Zone;
use crate::text::{Misread, digits};
use crate::units::whole;

/// The strake at the waterline at one frame, as `F22 7`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Mark {
    /// The frame.
    pub frame: Number,
    /// The number of the strake there.
    pub strake: u16,
}

impl fmt::Display for Mark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "F{} {}", self.frame, self.strake)
    }
}

impl FromStr for Mark {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        let no = || {
            Misread::new(format!("`{}` is not a mark of the waterline", text.trim()))
                .help("a frame and the number of the strake at the waterline there: F22 7")
        };
        let words: Vec<&str> = text.split_whitespace().collect();
        let [frame, strake] = words.as_slice() else {
            return Err(no());
        };
        let frame = frame
            .strip_prefix(['F', 'f'])
            .and_then(digits)
            .filter(|n| *n <= Number::HIGHEST_MEMBER);
        let strake = digits(strake).filter(|n| (1..=Number::HIGHEST_STRAKE).contains(n));
        frame
            .zip(strake)
            .map(|(frame, strake)| Self {
                frame: Number::plain(frame),
                strake,
            })
            .ok_or_else(no)
    }
}

/// The waterline through its marks, straight between them and level beyond the last.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Waterline {
    /// Place along the boat and strake number, rising along the boat.
    marks: Vec<(i32, f64)>,
}

impl Waterline {
    /// Through these marks; `frames_from_stern` tells which way frame numbers run.
    pub fn through(marks: &[Mark], frames_from_stern: bool) -> Self {
        let mut marks: Vec<(i32, f64)> = marks
            .iter()
            .map(|mark| {
                (
                    Member::Frame(mark.frame).along(frames_from_stern).1,
                    f64::from(mark.strake),
                )
            })
            .collect();
        marks.sort_by_key(|(along, _)| *along);
        Self { marks }
    }

    /// Whether there is none: then nothing tells dry planking from wet.
    pub fn is_unknown(&self) -> bool {
        self.marks.is_empty()
    }

    /// The zone of a strake at a member of the shell. Without a waterline all of it counts as
    /// underwater, the harder case.
    pub fn zone(&self, strake: Number, along: (u8, i32), strakes_from: StrakesFrom) -> Zone {
        let Some(at) = self.strake_at(along) else {
            return Zone::Underwater;
        };
        let above = match strakes_from {
            StrakesFrom::Keel => i32::from(strake.value()) - at,
            StrakesFrom::Sheer => at - i32::from(strake.value()),
        };
        match above {
            0 => Zone::WindAndWater,
            1.. => Zone::Topsides,
            _ => Zone::Underwater,
        }
    }

    fn strake_at(&self, along: (u8, i32)) -> Option<i32> {
        i32::try_from(whole((self.height_at(along)? + 0.5).floor())).ok()
    }

    /// The number of the strake at the waterline somewhere along the boat, with the share of the
    /// next one where it runs between two; `None` where there is no waterline.
    pub(super) fn height_at(&self, (group, along): (u8, i32)) -> Option<f64> {
        let (first, last) = (self.marks.first()?, self.marks.last()?);
        let height = match group {
            0 => first.1,
            2 => last.1,
            _ => {
                let after = self.marks.partition_point(|(at, _)| *at <= along);
                match (
                    after.checked_sub(1).and_then(|i| self.marks.get(i)),
                    self.marks.get(after),
                ) {
                    (Some(before), Some(after)) => {
                        let share = f64::from(along - before.0) / f64::from(after.0 - before.0);
                        before.1 + share * (after.1 - before.1)
                    }
                    (None, _) => first.1,
                    (_, None) => last.1,
                }
            }
        };
        Some(height)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn straight_between_its_marks_and_level_beyond_them() {
        let marks: Vec<Mark> = ["F1 9", "F21 7", "F41 9"]
            .iter()
            .map(|m| m.parse().unwrap())
            .collect();
        let line = Waterline::through(&marks, false);
        let zone = |strake, n| line.zone(Number::plain(strake), (1, n * 100), StrakesFrom::Keel);
        assert_eq!(zone(8, 1), Zone::Underwater);
        assert_eq!(zone(9, 1), Zone::WindAndWater);
        assert_eq!(zone(8, 11), Zone::WindAndWater);
        assert_eq!(zone(8, 21), Zone::Topsides);
        assert_eq!(zone(9, 50), Zone::WindAndWater);
        assert_eq!(
            line.zone(Number::plain(8), (0, 0), StrakesFrom::Keel),
            Zone::Underwater
        );
        assert_eq!(
            line.zone(Number::plain(8), (0, 0), StrakesFrom::Sheer),
            Zone::Topsides
        );
        assert_eq!(
            Waterline::default().zone(Number::plain(8), (0, 0), StrakesFrom::Keel),
            Zone::Underwater
        );
    }
}
