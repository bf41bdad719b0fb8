//! Where members lie along the boat, in millimetres from the forward one, aft growing.

use std::collections::BTreeMap;

use crate::hull::{FramesFrom, Hull, Member, Number};
use crate::units::Length;

/// A space where nobody says how far frames lie apart, in millimetres: only for drawing.
const UNKNOWN_SPACE: f64 = 250.0;
/// How far a sister lies beside her frame where no siding is known, in spaces.
const BESIDE: f64 = 0.2;
/// How far the halves of a butt block lie from its joint, in spaces.
const HALF_BLOCK: f64 = 0.17;

/// How well spacings are known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Spacings {
    /// Each of them.
    Known,
    /// Some; the others are drawn as the middling of those.
    Some,
    /// None; all are drawn alike.
    Unknown,
}

/// Members of one kind that are numbered along the boat.
#[derive(Clone, Debug)]
struct Row {
    lowest: u16,
    /// From the lowest number on, one for each number, whether there or not.
    at: Vec<f64>,
    space: f64,
    spacings: Spacings,
}

/// Where members lie along the boat.
#[derive(Clone, Debug)]
pub(super) struct Along {
    frames: Row,
    beams: Row,
    from_stern: bool,
    /// Of each sister or lettered beam: how far beside its number.
    beside: BTreeMap<Member, f64>,
}

impl Row {
    /// Members by number, each with the spacing to the next where it is known.
    fn new(spacings: &BTreeMap<u16, Option<f64>>, from_stern: bool) -> Self {
        let known: Vec<f64> = spacings.values().copied().flatten().collect();
        let space = match known.len() {
            0 => UNKNOWN_SPACE,
            count => known.iter().sum::<f64>() / count as f64,
        };
        let lowest = spacings.keys().next().copied().unwrap_or(1);
        let highest = spacings.keys().next_back().copied().unwrap_or(lowest);
        let (mut here, mut last, mut at) = (0.0, space, Vec::new());
        for number in lowest..=highest {
            at.push(here);
            // A number left out is as far from the next as the one before it.
            if let Some(spacing) = spacings.get(&number) {
                last = spacing.unwrap_or(space);
            }
            here += last;
        }
        if from_stern {
            let end = at.last().copied().unwrap_or_default();
            at.iter_mut().for_each(|x| *x = end - *x);
        }
        let before_last = spacings.iter().rev().skip(1);
        let spacings = match before_last.clone().filter(|(_, s)| s.is_none()).count() {
            _ if known.is_empty() => Spacings::Unknown,
            0 => Spacings::Known,
            _ => Spacings::Some,
        };
        Self {
            lowest,
            at,
            space,
            spacings,
        }
    }

    /// Where a number lies; beyond the last one, as many spaces further.
    fn at(&self, number: u16, from_stern: bool) -> f64 {
        let steps = i32::from(number) - i32::from(self.lowest);
        let last = self.at.len().saturating_sub(1);
        let within = usize::try_from(steps).unwrap_or(0).min(last);
        let beyond = f64::from(steps) - within as f64;
        let sign = if from_stern { -1.0 } else { 1.0 };
        self.at.get(within).copied().unwrap_or_default() + sign * beyond * self.space
    }
}

impl Along {
    /// Of a hull.
    pub(super) fn of(hull: &Hull) -> Self {
        let from_stern = hull.numbering.frames == FramesFrom::Stern;
        let (mut frames, mut beams) = (BTreeMap::new(), BTreeMap::new());
        let (mut sidings, mut lettered) = (BTreeMap::new(), BTreeMap::new());
        for strake in hull.strakes() {
            for (id, member) in strake.crossings() {
                let row = match member {
                    Member::Frame(_) => &mut frames,
                    Member::Beam(_) => &mut beams,
                    _ => continue,
                };
                let scantlings = hull.crossing(id).scantlings;
                let siding = scantlings.siding.map(Length::mm);
                match member.number() {
                    Some(number) if number.is_plain() => {
                        let spacing = scantlings.spacing.map(Length::mm);
                        row.insert(number.value(), spacing);
                        sidings.insert((member.kind(), number.value()), siding);
                    }
                    Some(_) => _ = lettered.insert(member, siding),
                    None => {}
                }
            }
        }
        let mut along = Self {
            frames: Row::new(&frames, from_stern),
            beams: Row::new(&beams, from_stern),
            from_stern,
            beside: BTreeMap::new(),
        };
        for (member, siding) in lettered {
            let number = member.number().map_or(0, Number::value);
            let first = sidings.get(&(member.kind(), number)).copied().flatten();
            let space = along.row(member).space;
            let touching = first.zip(siding).map(|(a, b)| (a + b) / 2.0);
            let beside = touching.unwrap_or(BESIDE * space).min(0.45 * space);
            along.beside.insert(member, beside);
        }
        along
    }

    fn row(&self, member: Member) -> &Row {
        match member {
            Member::Beam(_) => &self.beams,
            _ => &self.frames,
        }
    }

    /// Where a member of a strake that crosses these lies. An end lies one space beyond the
    /// strake's last numbered member; where it has none, at either end of all frames.
    pub(super) fn at(&self, member: Member, strake: &[Member]) -> f64 {
        if let Some(number) = member.number() {
            // Where a deck has butts, the strake's own beams say where they are.
            let beams = || strake.iter().any(|m| matches!(m, Member::Beam(_)));
            let row = match member {
                Member::Butt(..) if beams() => &self.beams,
                _ => self.row(member),
            };
            let sign = if self.from_stern { -1.0 } else { 1.0 };
            let here = row.at(number.value(), self.from_stern);
            return match member {
                Member::Butt(_, end) => {
                    let next = row.at(number.value().saturating_add(1), self.from_stern);
                    let forward = end == crate::hull::End::Fwd;
                    let half = HALF_BLOCK * (next - here).abs();
                    (here + next) / 2.0 + if forward { -half } else { half }
                }
                _ => {
                    let (_, hundredths) = member.along(false);
                    let letter = f64::from(hundredths % 100);
                    let beside = self.beside.get(&member).copied().unwrap_or_default();
                    here + sign * letter * beside
                }
            };
        }
        let numbered = || strake.iter().filter(|m| m.number().is_some());
        let row = numbered().next().map_or(&self.frames, |m| self.row(*m));
        let at = numbered().map(|m| self.at(*m, strake));
        let beyond = |step: f64| step * row.space;
        match member {
            Member::Stem => {
                let first = at.fold(f64::INFINITY, f64::min);
                beyond(-1.0) + if first.is_finite() { first } else { 0.0 }
            }
            _ => {
                let last = at.fold(f64::NEG_INFINITY, f64::max);
                let end = row.at.iter().copied().fold(0.0, f64::max);
                beyond(1.0) + if last.is_finite() { last } else { end }
            }
        }
    }

    /// The middling space of the members that a strake crosses.
    pub(super) fn space(&self, strake: &[Member]) -> f64 {
        let numbered = strake.iter().find(|m| m.number().is_some());
        numbered.map_or(&self.frames, |m| self.row(*m)).space
    }

    /// How well the spacings of a kind of member are known.
    pub(super) fn spacings(&self, deck: bool) -> Spacings {
        if deck { &self.beams } else { &self.frames }.spacings
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(spacings: &[(u16, Option<f64>)], from_stern: bool) -> Row {
        Row::new(&spacings.iter().copied().collect(), from_stern)
    }

    #[test]
    fn a_member_lies_at_the_sum_of_the_spaces_before_it() {
        let spacings = [
            (3, Some(200.0)),
            (4, Some(250.0)),
            (6, Some(100.0)),
            (7, None),
        ];
        let row_ = row(&spacings, false);
        let at: Vec<f64> = (3..=8).map(|n| row_.at(n, false)).collect();
        // F5 is not there, and stands for a space all the same.
        let mean = 550.0 / 3.0;
        assert_eq!(at, [0.0, 200.0, 450.0, 700.0, 800.0, 800.0 + mean]);
        assert_eq!(row_.spacings, Spacings::Known);
        let stern = row(&spacings, true);
        let at: Vec<f64> = [7, 6, 4, 3].map(|n| stern.at(n, true)).to_vec();
        assert_eq!(at, [0.0, 100.0, 600.0, 800.0]);
    }

    #[test]
    fn unknown_spaces_are_drawn_alike() {
        let none = row(&[(1, None), (2, None), (3, None)], false);
        assert_eq!(none.spacings, Spacings::Unknown);
        assert_eq!(none.at(3, false), 2.0 * UNKNOWN_SPACE);
        let some = row(&[(1, Some(300.0)), (2, None), (3, None)], false);
        assert_eq!(some.spacings, Spacings::Some);
        assert_eq!(some.at(3, false), 600.0);
    }
}
