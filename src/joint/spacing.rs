//! Where in a crossing the fastenings go: clear of edges, of each other and of old holes.
//!
//! The trade sets them on a diagonal, so that no two stand in one grain line of the plank, or in
//! one of the frame, and either splits. The distances are limits, and common practice; no
//! published figure for carvel planking is known.

use super::limits::{self, Limits};
use super::yield_limit::LARGE;
use crate::tables::{Limit, SpacingOf, spacing};
use crate::units::{Length, Units};

/// The room that a crossing has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Room {
    /// Width of the plank.
    pub width: Length,
    /// What it has along the plank.
    pub along: Along,
}

/// The room along the plank.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Along {
    /// On a frame or beam sided so much.
    Sided(Length),
    /// At a hood end: from the end of the plank on, and on the starboard side between the heights
    /// of the port side, so that the two do not meet in the stem.
    HoodEnd {
        /// Whether it is the starboard side.
        starboard: bool,
    },
}

/// Where one fastening goes, at the face of the plank.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Position {
    /// Along the plank: forward of the middle of the member, less than nothing abaft it; at a hood
    /// end, from the end of the plank.
    pub along: Length,
    /// Up from the plank's lower edge (on deck, from the edge nearer the centreline).
    pub up: Length,
}

/// Why so many do not go in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cramped {
    /// The plank is narrower than this.
    Plank(Length),
    /// The member is narrower than this.
    Member(Length),
    /// They would stand this far apart, which is too near.
    Between(Length),
    /// There is no place clear of the old holes.
    Old,
}

impl Cramped {
    /// In words; `on` is what the plank lies on, as it is called.
    pub fn says(self, room: &Room, on: &str, units: Units) -> String {
        let shown = |length: Length| length.shown(units);
        match self {
            Self::Plank(needs) => format!(
                "the plank is {} wide and should be {}",
                shown(room.width),
                shown(needs)
            ),
            Self::Member(needs) => match room.along {
                Along::Sided(siding) => format!(
                    "the {on} is {} wide and should be {}",
                    shown(siding),
                    shown(needs)
                ),
                Along::HoodEnd { .. } => "no room at the end of the plank".to_owned(),
            },
            Self::Between(apart) => format!("they would stand {} apart", shown(apart)),
            Self::Old => "no place is clear of the old holes".to_owned(),
        }
    }
}

/// How many at a crossing by the width of the plank: two under 6 in, three to 8 in, four above.
/// A choice among common practice; no published number for carvel planking is known.
pub fn count(width: Length, limits: &Limits) -> u8 {
    if width < limits.bound(limits::TWO_TO).length() {
        2
    } else if width <= limits.bound(limits::THREE_TO).length() {
        3
    } else {
        4
    }
}

/// So many diameters by a limit.
fn by(limit: &'static Limit, diameter: Length, limits: &Limits) -> Length {
    diameter.part(limits.bound(limit).diameters())
}

/// Where `count` fastenings of a diameter go, the first nearest the plank's lower edge.
///
/// They lie on a diagonal from edge to edge, in even steps, the first forward; at a hood end the
/// first nearest the plank's end. Old holes, given by their diameters, are taken to lie on the
/// same diagonal, since their places are not on record; a new one comes no nearer to them than
/// the limit allows and is shifted along the plank for it, never up or down.
///
/// # Errors
/// Why so many do not go in; a count of none always does.
pub fn place(
    room: &Room,
    diameter: Length,
    count: u8,
    old: &[Length],
    limits: &Limits,
) -> Result<Vec<Position>, Cramped> {
    let field = Field::of(room, diameter, count, limits)?;
    let first = field.diagonal(count);
    let apart = by(limits::BETWEEN, diameter, limits);
    for (one, next) in first.iter().zip(first.iter().skip(1)) {
        if !is_apart(*one, *next, apart) {
            return Err(Cramped::Between(distance(*one, *next)));
        }
    }
    if old.is_empty() {
        return Ok(first);
    }
    let holes = u8::try_from(old.len()).unwrap_or(u8::MAX);
    let places = Field::roughly(room, diameter, holes, limits).diagonal(holes);
    let old = places.into_iter().zip(old).map(|(at, old)| {
        let mean = (diameter + *old).share(1, 2);
        (at, by(limits::OLD_HOLES, mean, limits))
    });
    Search {
        field,
        apart,
        diameter,
        old: old.collect(),
        steps: 50_000,
    }
    .from(&first)
    .ok_or(Cramped::Old)
}

/// The most of a diameter that go in, with nothing old to keep clear of.
pub fn most(room: &Room, diameter: Length, limits: &Limits) -> u8 {
    (1..=16)
        .rev()
        .find(|count| place(room, diameter, *count, &[], limits).is_ok())
        .unwrap_or(0)
}

/// The part of a crossing in which fastenings may stand.
#[derive(Clone, Copy, Debug)]
struct Field {
    lowest: Length,
    highest: Length,
    /// Along the plank, where the lowest stands and where the highest does.
    from: Length,
    to: Length,
}

impl Field {
    /// The field for so many, wide enough that no two share a grain line.
    fn of(room: &Room, diameter: Length, count: u8, limits: &Limits) -> Result<Self, Cramped> {
        let lines = diameter * i64::from(count.saturating_sub(1));
        let edges = by(limits::PLANK_EDGE, diameter, limits) * 2;
        let needs = match room.along {
            Along::Sided(_) => edges + lines,
            // A diameter between each of the one side and its neighbours of the other.
            Along::HoodEnd { .. } => edges + diameter * halves(count),
        };
        if room.width < needs {
            return Err(Cramped::Plank(needs));
        }
        if let Along::Sided(siding) = room.along {
            let needs = by(limits::FRAME_EDGE, diameter, limits) * 2 + lines;
            if siding < needs {
                return Err(Cramped::Member(needs));
            }
        }
        Ok(Self::roughly(room, diameter, count, limits))
    }

    /// The same without asking whether they all have room.
    fn roughly(room: &Room, diameter: Length, count: u8, limits: &Limits) -> Self {
        let edge = by(limits::PLANK_EDGE, diameter, limits).min(room.width.share(1, 2));
        let (lowest, highest) = (edge, room.width - edge);
        match room.along {
            Along::Sided(siding) => {
                let half = siding.share(1, 2) - by(limits::FRAME_EDGE, diameter, limits);
                let half = half.max(Length::ZERO);
                Self {
                    lowest,
                    highest,
                    from: half,
                    to: -half,
                }
            }
            Along::HoodEnd { starboard } => {
                let end = limits.bound(limits::PLANK_END).length();
                let gaps = i64::from(count.saturating_sub(1));
                // Half a step is left at the bottom on the one side, at the top on the other.
                let stagger = (highest - lowest).share(1, halves(count));
                let (lower, upper) = match starboard {
                    true => (stagger, Length::ZERO),
                    false => (Length::ZERO, stagger),
                };
                let band = Length::from_64ths(32).max(diameter.share(3, 2) * gaps);
                Self {
                    lowest: lowest + lower,
                    highest: highest - upper,
                    from: end,
                    to: end + band,
                }
            }
        }
    }

    /// So many in even steps from corner to corner; one alone stands in the middle.
    fn diagonal(&self, count: u8) -> Vec<Position> {
        let gaps = i64::from(count.saturating_sub(1));
        let between = |from: Length, to: Length, i: i64| match gaps {
            0 => from + (to - from).share(1, 2),
            gaps => from + (to - from).share(i, gaps),
        };
        (0..i64::from(count))
            .map(|i| Position {
                along: between(self.from, self.to, i),
                up: between(self.lowest, self.highest, i),
            })
            .collect()
    }

    fn ends(&self) -> (Length, Length) {
        (self.from.min(self.to), self.from.max(self.to))
    }
}

/// Looks for places clear of old holes, each as near to its place on the diagonal as may be.
struct Search {
    field: Field,
    apart: Length,
    diameter: Length,
    old: Vec<(Position, Length)>,
    /// How many more places are tried before it is given up, so that an answer always comes soon.
    steps: u32,
}

impl Search {
    fn from(mut self, first: &[Position]) -> Option<Vec<Position>> {
        let mut found = Vec::with_capacity(first.len());
        self.next(first, &mut found).then_some(found)
    }

    fn next(&mut self, left: &[Position], found: &mut Vec<Position>) -> bool {
        let Some((at, left)) = left.split_first() else {
            return true;
        };
        for along in self.shifts(at.along) {
            self.steps = match self.steps.checked_sub(1) {
                Some(steps) => steps,
                None => return false,
            };
            let new = Position { along, up: at.up };
            if self.is_clear(new, found) {
                found.push(new);
                if self.next(left, found) {
                    return true;
                }
                found.pop();
            }
        }
        false
    }

    /// Places along the plank by a thirty-second of an inch, the nearest first.
    fn shifts(&self, along: Length) -> Vec<Length> {
        const STEP: Length = Length::from_64ths(2);
        let (least, most) = self.field.ends();
        let steps = (most - least).nm() / STEP.nm();
        let mut shifts: Vec<Length> = (0..=steps.min(512)).map(|i| least + STEP * i).collect();
        shifts.extend([most, along]);
        shifts.sort_by_key(|at| ((*at - along).nm().abs(), at.nm()));
        shifts.dedup();
        shifts
    }

    fn is_clear(&self, new: Position, found: &[Position]) -> bool {
        let off_grain = |other: &Position| {
            let lined = |a: Length, b: Length| (a - b).nm().abs() < self.diameter.nm();
            !lined(new.along, other.along) && !lined(new.up, other.up)
        };
        found
            .iter()
            .all(|other| off_grain(other) && is_apart(new, *other, self.apart))
            && self
                .old
                .iter()
                .all(|(at, clear)| is_apart(new, *at, *clear))
    }
}

/// How many half steps there are over the height of a hood end, both sides taken together.
fn halves(count: u8) -> i64 {
    (2 * i64::from(count) - 1).max(2)
}

fn distance(a: Position, b: Position) -> Length {
    let (along, up) = (a.along - b.along, a.up - b.up);
    Length::from_inches(along.inches().hypot(up.inches()))
}

/// Whether two are at least so far apart, to the nanometre that lengths are whole in.
fn is_apart(a: Position, b: Position, least: Length) -> bool {
    distance(a, b) + Length::from_nm(2) >= least
}

/// The building standard's distances for a fastening, in lengths.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ByStandard {
    /// To the edge of a piece.
    pub edge: Length,
    /// To its end.
    pub end: Length,
    /// In a row along the grain.
    pub in_row: Length,
    /// Between rows.
    pub between_rows: Length,
}

impl ByStandard {
    /// The distances by the standard, for nominal diameters: NDS Commentary Tables C12.1.5.7 and
    /// C12.1.6.6 under 1/4 in, NDS-2018 Tables 12.5.1A to E from there (public transcriptions). Of
    /// the end the greater is taken: pulled along the grain.
    pub fn of(diameter: Length, of: SpacingOf) -> Self {
        let distance = |name| {
            spacing(of, name).map_or(Length::ZERO, |(diameters, _)| diameter.part(diameters))
        };
        Self {
            edge: distance("edge"),
            end: distance("end"),
            in_row: distance("in a row along the grain"),
            between_rows: distance("between rows"),
        }
    }

    /// Which of the standard's spacings there are for a diameter: bored and not bored under 1/4
    /// in, in softwood and in hardwood from there.
    pub fn both(diameter: Length) -> [(SpacingOf, Self); 2] {
        let kinds = if diameter < LARGE {
            [SpacingOf::Bored, SpacingOf::Unbored]
        } else {
            [SpacingOf::LargeInSoftwood, SpacingOf::LargeInHardwood]
        };
        kinds.map(|kind| (kind, Self::of(diameter, kind)))
    }
}

#[cfg(test)]
mod tests;
