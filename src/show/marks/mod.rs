//! The marks by which fastenings are told apart, on a screen, on paper and in a drawing.
//!
//! They follow a few plain reasons, and the shape alone is enough, so that they hold in black and
//! white: filled is what holds, hollow is a hole, crossed is broken, a bar is closed for good; a
//! share is filled so far; each family of metals has its own outline. In writing a state and a
//! severity is its first letter and a metal two letters of its name. Colour is only added.

mod metals;
mod shape;
mod tint;

pub use metals::{metal_code, no_metal_code};
pub use shape::{Fill, Outline, Shape};
pub use tint::Tint;

use crate::audit::Severity;
use crate::joint::Kind;
use crate::record::HoleState;
use crate::tables::Metal;
use crate::text::words;

/// A shape and its colour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mark {
    /// What tells it apart.
    pub shape: Shape,
    /// The colour added to it.
    pub tint: Tint,
}

words! {
    /// What is said of a crossing at the worst.
    Concern, "a concern" {
        /// A finding for before relaunch.
        Stop = "stop",
        /// One for this haul-out.
        Mend = "mend",
        /// One worth an eye.
        Watch = "watch",
        /// Only findings that somebody has accepted.
        Accepted = "accepted",
        /// No finding; that is all it says.
        Nothing = "nothing found",
    }
}

impl From<Severity> for Concern {
    fn from(severity: Severity) -> Self {
        match severity {
            Severity::Stop => Self::Stop,
            Severity::Mend => Self::Mend,
            Severity::Watch => Self::Watch,
        }
    }
}

words! {
    /// How long a fastening has been in, at the least, in whole years.
    Age, "an age" {
        /// 0 to 9.
        UnderTen = "under 10 years",
        /// 10 to 24.
        UnderTwentyFive = "10 to 24 years",
        /// 25 to 49.
        UnderFifty = "25 to 49 years",
        /// 50 to 74.
        UnderSeventyFive = "50 to 74 years",
        /// 75 or more.
        Older = "75 years and over",
        /// Nobody says.
        Unknown = "age not known",
    }
}

impl Age {
    /// The range that a number of whole years falls in.
    pub const fn of(years: u32) -> Self {
        match years {
            0..10 => Self::UnderTen,
            10..25 => Self::UnderTwentyFive,
            25..50 => Self::UnderFifty,
            50..75 => Self::UnderSeventyFive,
            75.. => Self::Older,
        }
    }
}

words! {
    /// What is left at a crossing of what was built there.
    Left, "what is left" {
        /// All of it, or more.
        Whole = "whole",
        /// Not so little that it must be mended.
        Most = "most of it",
        /// Little enough to mend it.
        Some = "some of it",
        /// Little enough for a stop where neighbours are like it.
        Little = "little of it",
        /// Nothing.
        Bare = "bare",
        /// Nobody says what was built there.
        Unknown = "not known",
    }
}

/// The letter of a state in writing.
pub const fn state_code(state: HoleState) -> char {
    match state {
        HoleState::ReliedOn => 'R',
        HoleState::Unsound => 'U',
        HoleState::LeftIn => 'L',
        HoleState::Broken => 'B',
        HoleState::Open => 'O',
        HoleState::Plugged => 'P',
    }
}

/// The letter of a concern in writing; a point where there is none.
pub const fn concern_code(concern: Concern) -> char {
    match concern {
        Concern::Stop => 'S',
        Concern::Mend => 'M',
        Concern::Watch => 'W',
        Concern::Accepted => 'A',
        Concern::Nothing => '.',
    }
}

impl Mark {
    const fn new(outline: Outline, fill: Fill, tint: Tint) -> Self {
        Self {
            shape: Shape { outline, fill },
            tint,
        }
    }

    /// Of the state of a hole: filled holds, hollow does not, crossed is broken.
    pub const fn of_state(state: HoleState) -> Self {
        match state {
            HoleState::ReliedOn => Self::new(Outline::Disc, Fill::Solid, Tint::Blue),
            HoleState::Unsound => Self::new(Outline::Disc, Fill::Quarters(2), Tint::Amber),
            HoleState::LeftIn => Self::new(Outline::Square, Fill::Dotted, Tint::Teal),
            HoleState::Broken => Self::new(Outline::Cross, Fill::Solid, Tint::Violet),
            HoleState::Open => Self::new(Outline::Disc, Fill::Hollow, Tint::Red),
            HoleState::Plugged => Self::new(Outline::Bar, Fill::Solid, Tint::Grey),
        }
    }

    /// Of a fastening's metal: an outline for each family, and filled in its own way.
    pub fn of_metal(metal: Option<&'static Metal>, kind: Kind) -> Self {
        match metal {
            _ if !kind.is_metal() => Self::new(Outline::Disc, Fill::Split, Tint::Ink),
            None => Self::new(Outline::Query, Fill::Solid, Tint::Red),
            Some(metal) => {
                let (outline, tint) = metals::outline(metal.family);
                Self::new(outline, metals::fill(metal), tint)
            }
        }
    }

    /// Of what is said of a crossing: the graver, the fuller.
    pub const fn of_concern(concern: Concern) -> Self {
        match concern {
            Concern::Stop => Self::new(Outline::Diamond, Fill::Solid, Tint::Red),
            Concern::Mend => Self::new(Outline::Diamond, Fill::Quarters(2), Tint::Amber),
            Concern::Watch => Self::new(Outline::Diamond, Fill::Hollow, Tint::Blue),
            Concern::Accepted => Self::new(Outline::Square, Fill::Dotted, Tint::Grey),
            Concern::Nothing => Self::new(Outline::Dot, Fill::Solid, Tint::Grey),
        }
    }

    /// Of an age, the older, the fuller. Square where the day is uncertain, so
    /// that it may be older than that.
    pub const fn of_age(age: Age, certain: bool) -> Self {
        let outline = if certain {
            Outline::Disc
        } else {
            Outline::Square
        };
        let (fill, tint) = match age {
            Age::UnderTen => (Fill::Hollow, Tint::Teal),
            Age::UnderTwentyFive => (Fill::Dotted, Tint::Blue),
            Age::UnderFifty => (Fill::Quarters(2), Tint::Violet),
            Age::UnderSeventyFive => (Fill::Quarters(3), Tint::Amber),
            Age::Older => (Fill::Solid, Tint::Red),
            Age::Unknown => return Self::new(Outline::Query, Fill::Solid, Tint::Ink),
        };
        Self::new(outline, fill, tint)
    }

    /// Of what is left at a crossing, as a box is filled: hollow is bare.
    pub const fn of_left(left: Left) -> Self {
        let (fill, tint) = match left {
            Left::Whole => (Fill::Solid, Tint::Blue),
            Left::Most => (Fill::Quarters(3), Tint::Teal),
            Left::Some => (Fill::Quarters(2), Tint::Amber),
            Left::Little => (Fill::Dotted, Tint::Violet),
            Left::Bare => (Fill::Hollow, Tint::Red),
            Left::Unknown => return Self::new(Outline::Query, Fill::Solid, Tint::Ink),
        };
        Self::new(Outline::Square, fill, tint)
    }

    /// Of a crossing where nothing is recorded.
    pub const UNRECORDED: Self = Self::new(Outline::Plus, Fill::Solid, Tint::Grey);
}

#[cfg(test)]
mod tests {
    use super::*;

    fn all_differ(marks: &[Mark]) {
        for (at, mark) in marks.iter().enumerate() {
            let same = marks.iter().skip(at + 1).find(|m| m.shape == mark.shape);
            assert_eq!(same, None, "{mark:?}");
        }
    }

    /// Marks of one drawing differ in shape, so that colour is not needed.
    #[test]
    fn marks_are_told_apart_in_black_and_white() {
        let with = |mut marks: Vec<Mark>, more: &[Mark]| {
            marks.extend_from_slice(more);
            all_differ(&marks);
        };
        let gone = [HoleState::Open, HoleState::Plugged].map(Mark::of_state);
        let bare = [Mark::UNRECORDED];
        let states = HoleState::ALL.iter().map(|state| Mark::of_state(*state));
        with(states.collect(), &bare);
        let concerns = Concern::ALL.iter().map(|c| Mark::of_concern(*c));
        with(concerns.collect(), &bare);
        let left = Left::ALL.iter().map(|left| Mark::of_left(*left));
        with(left.collect(), &bare);
        let known = Age::ALL.iter().filter(|age| **age != Age::Unknown);
        let ages = known.flat_map(|age| [true, false].map(|sure| Mark::of_age(*age, sure)));
        let unknown = Mark::of_age(Age::Unknown, false);
        with(ages.collect(), &[unknown, gone[1], bare[0]]);
        let metals = Metal::all().iter();
        let metals = metals.filter(|metal| metal.fits.inside.why != "not a planking fastening");
        let metals = metals.map(|metal| Mark::of_metal(Some(metal), Kind::Rivet));
        let rest = [
            Mark::of_metal(None, Kind::Rivet),
            Mark::of_metal(None, Kind::Trunnel),
        ];
        with(metals.collect(), &[rest[0], rest[1], gone[1], bare[0]]);
    }

    #[test]
    fn letters_are_told_apart() {
        let mut letters: Vec<char> = HoleState::ALL.iter().map(|s| state_code(*s)).collect();
        letters.sort_unstable();
        letters.dedup();
        assert_eq!(letters.len(), HoleState::ALL.len());
        let mut letters: Vec<char> = Concern::ALL.iter().map(|c| concern_code(*c)).collect();
        letters.sort_unstable();
        letters.dedup();
        assert_eq!(letters.len(), Concern::ALL.len());
    }

    #[test]
    fn ages_meet_without_a_gap() {
        for (years, age) in [
            (0, Age::UnderTen),
            (9, Age::UnderTen),
            (10, Age::UnderTwentyFive),
            (24, Age::UnderTwentyFive),
            (25, Age::UnderFifty),
            (50, Age::UnderSeventyFive),
            (75, Age::Older),
            (u32::MAX, Age::Older),
        ] {
            assert_eq!(Age::of(years), age);
        }
    }
}
