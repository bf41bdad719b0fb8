//! What a mark on the map stands for.

use std::cmp::Ordering;

use crate::joint::Kind;
use crate::record::HoleState;
use crate::show::marks::{
    Age, Concern, Left, Mark, concern_code, metal_code, no_metal_code, state_code,
};
use crate::tables::Metal;

/// What a mark on the map stands for. The graver comes first, so that the first of several is
/// what matters most.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Class {
    /// The state of a hole.
    State(HoleState),
    /// The worst that is said of its crossing.
    Concern(Concern),
    /// The metal in it; `None` where nobody knows.
    Metal(Option<&'static Metal>),
    /// Wood in it.
    Wood,
    /// How long the fastening has been there.
    Age {
        /// The range its age falls in, at the least.
        range: Age,
        /// Whether it may be older than that.
        maybe_older: bool,
    },
    /// What is left at its crossing.
    Left(Left),
    /// Nothing is in the hole that could be of a metal or an age.
    Empty,
    /// Nothing is recorded at the crossing.
    Unrecorded,
}

impl Class {
    /// That of what a fastening is of.
    pub fn of_metal(metal: Option<&'static Metal>, kind: Kind) -> Self {
        match kind.is_metal() {
            true => Self::Metal(metal),
            false => Self::Wood,
        }
    }

    /// Its place among those of its map, the gravest first.
    fn rank(self) -> usize {
        match self {
            Self::State(state) => match state {
                HoleState::Open => 0,
                HoleState::Broken => 1,
                HoleState::Unsound => 2,
                HoleState::LeftIn => 3,
                HoleState::ReliedOn => 4,
                HoleState::Plugged => 5,
            },
            Self::Concern(concern) => concern as usize,
            // What nobody knows, then from the most active, which is eaten.
            Self::Metal(None) => 0,
            Self::Metal(Some(metal)) => {
                let at = Metal::all().iter().position(|known| known == metal);
                at.map_or(0, |at| at + 1)
            }
            Self::Wood => usize::MAX - 2,
            Self::Age { range, maybe_older } => {
                let oldest_first = Age::ALL.len() - range as usize;
                2 * oldest_first + usize::from(!maybe_older)
            }
            Self::Left(left) => Left::ALL.len() - left as usize,
            Self::Empty => usize::MAX - 1,
            Self::Unrecorded => usize::MAX,
        }
    }

    /// Its mark.
    pub fn mark(self) -> Mark {
        match self {
            Self::State(state) => Mark::of_state(state),
            Self::Concern(concern) => Mark::of_concern(concern),
            Self::Metal(metal) => Mark::of_metal(metal, Kind::Rivet),
            Self::Wood => Mark::of_metal(None, Kind::Trunnel),
            Self::Age { range, maybe_older } => Mark::of_age(range, !maybe_older),
            Self::Left(left) => Mark::of_left(left),
            Self::Empty => Mark::of_state(HoleState::Plugged),
            Self::Unrecorded => Mark::UNRECORDED,
        }
    }

    /// What it is called.
    pub fn label(self) -> String {
        match self {
            Self::State(state) => state.word().to_owned(),
            Self::Concern(concern) => concern.word().to_owned(),
            Self::Metal(None) => "metal not known".to_owned(),
            Self::Metal(Some(metal)) => metal.name.to_owned(),
            Self::Wood => "wood".to_owned(),
            Self::Age { range, maybe_older } => match range {
                Age::Unknown | Age::Older => range.word().to_owned(),
                _ if maybe_older => format!("{}, or older", range.word()),
                _ => range.word().to_owned(),
            },
            Self::Left(left) => left.word().to_owned(),
            Self::Empty => "no metal in it".to_owned(),
            Self::Unrecorded => "nothing recorded".to_owned(),
        }
    }

    /// It in a letter or two; empty where a figure is written instead.
    pub fn code(self) -> String {
        match self {
            Self::State(HoleState::ReliedOn) | Self::Age { .. } | Self::Left(_) => String::new(),
            Self::State(state) => state_code(state).to_string(),
            Self::Concern(concern) => concern_code(concern).to_string(),
            Self::Metal(Some(metal)) => metal_code(metal).to_owned(),
            Self::Metal(None) => no_metal_code(Kind::Rivet).to_owned(),
            Self::Wood => no_metal_code(Kind::Trunnel).to_owned(),
            Self::Empty => "o".to_owned(),
            Self::Unrecorded => "-".to_owned(),
        }
    }
}

impl Ord for Class {
    fn cmp(&self, other: &Self) -> Ordering {
        self.rank().cmp(&other.rank())
    }
}

impl PartialOrd for Class {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}
