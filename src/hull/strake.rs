//! Runs of planking, and the sides they are on.

use std::fmt;

use super::Number;

/// Which planking a strake belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Side {
    /// The shell to port, `P`.
    Port,
    /// The shell to starboard, `S`.
    Starboard,
    /// A deck numbered right across, `D`.
    Deck,
    /// The port half of a deck whose sides are numbered apart, `DP`.
    DeckPort,
    /// Its starboard half, `DS`.
    DeckStarboard,
}

impl Side {
    /// Every side.
    pub const ALL: [Self; 5] = [
        Self::Port,
        Self::Starboard,
        Self::Deck,
        Self::DeckPort,
        Self::DeckStarboard,
    ];

    /// Whether it is deck and not shell.
    pub const fn is_deck(self) -> bool {
        matches!(self, Self::Deck | Self::DeckPort | Self::DeckStarboard)
    }
}

impl fmt::Display for Side {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Port => "P",
            Self::Starboard => "S",
            Self::Deck => "D",
            Self::DeckPort => "DP",
            Self::DeckStarboard => "DS",
        })
    }
}

/// The sides that a place names at once.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sides {
    /// One of them.
    One(Side),
    /// Both sides of the shell, `PS`.
    Shell,
    /// Both halves of a deck numbered apart, `DPS`.
    DeckHalves,
}

impl Sides {
    /// Each of them.
    pub const fn each(self) -> &'static [Side] {
        match self {
            Self::One(Side::Port) => &[Side::Port],
            Self::One(Side::Starboard) => &[Side::Starboard],
            Self::One(Side::Deck) => &[Side::Deck],
            Self::One(Side::DeckPort) => &[Side::DeckPort],
            Self::One(Side::DeckStarboard) => &[Side::DeckStarboard],
            Self::Shell => &[Side::Port, Side::Starboard],
            Self::DeckHalves => &[Side::DeckPort, Side::DeckStarboard],
        }
    }

    /// The sides that these letters stand for, in either case.
    pub fn from_letters(letters: &str) -> Option<Self> {
        let upper;
        let letters = match letters {
            "P" | "S" | "PS" | "D" => letters,
            _ => {
                upper = letters.to_ascii_uppercase();
                &upper
            }
        };
        Some(match letters {
            "P" => Self::One(Side::Port),
            "S" => Self::One(Side::Starboard),
            "PS" | "SP" => Self::Shell,
            "D" => Self::One(Side::Deck),
            "DP" => Self::One(Side::DeckPort),
            "DS" => Self::One(Side::DeckStarboard),
            "DPS" | "DSP" => Self::DeckHalves,
            _ => return None,
        })
    }
}

impl fmt::Display for Sides {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::One(side) => side.fmt(f),
            Self::Shell => f.write_str("PS"),
            Self::DeckHalves => f.write_str("DPS"),
        }
    }
}

/// One strake: `P3`, `S3a`, `D12`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct StrakeId {
    /// Which planking.
    pub side: Side,
    /// Which run of it.
    pub number: Number,
}

impl fmt::Display for StrakeId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.side, self.number)
    }
}
