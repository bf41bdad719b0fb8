//! Numbers of holes in a crossing.

use std::fmt;

/// The number of a hole in its crossing, from 1 to [`Holes::MOST`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct HoleNumber(u8);

impl HoleNumber {
    /// The hole of this number, if a crossing can have so many.
    pub fn new(n: usize) -> Option<Self> {
        let n = u8::try_from(n).ok()?;
        (1..=Holes::MOST).contains(&n).then_some(Self(n))
    }

    /// The number.
    pub const fn get(self) -> u8 {
        self.0
    }

    /// Its place in a list, from 0.
    pub const fn index(self) -> usize {
        self.0 as usize - 1
    }
}

impl fmt::Display for HoleNumber {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// A choice of holes in a crossing: some by number, or whatever is there.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Holes(u64);

impl Holes {
    /// The most holes a crossing can have.
    pub const MOST: u8 = 64;
    /// No number given: whatever is there.
    pub const ANY: Self = Self(0);

    /// Whether no number is given.
    pub const fn is_any(self) -> bool {
        self.0 == 0
    }

    /// How many numbers are given.
    pub const fn count(self) -> u32 {
        self.0.count_ones()
    }

    /// Adds a number.
    pub fn insert(&mut self, hole: HoleNumber) {
        self.0 |= 1 << hole.index();
    }

    /// Whether a hole is among them; every hole is among [`Holes::ANY`].
    pub const fn has(self, hole: HoleNumber) -> bool {
        self.0 == 0 || self.0 & (1 << hole.index()) != 0
    }

    /// Both choices together; any hole at all where either says so.
    #[must_use]
    pub const fn or(self, other: Self) -> Self {
        if self.0 == 0 || other.0 == 0 {
            Self::ANY
        } else {
            Self(self.0 | other.0)
        }
    }

    /// The numbers given, rising.
    pub fn numbers(self) -> impl Iterator<Item = HoleNumber> {
        (1..=Self::MOST)
            .map(HoleNumber)
            .filter(move |hole| self.0 & (1 << hole.index()) != 0)
    }
}

impl FromIterator<HoleNumber> for Holes {
    fn from_iter<I: IntoIterator<Item = HoleNumber>>(numbers: I) -> Self {
        let mut holes = Self::ANY;
        numbers.into_iter().for_each(|hole| holes.insert(hole));
        holes
    }
}

/// `2`, `1-3+5`; nothing for any.
impl fmt::Display for Holes {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut left = self.0;
        let mut first = true;
        while left != 0 {
            let start = left.trailing_zeros();
            let len = (left >> start).trailing_ones();
            if !first {
                f.write_str("+")?;
            }
            first = false;
            match len {
                1 => write!(f, "{}", start + 1)?,
                _ => write!(f, "{}-{}", start + 1, start + len)?,
            }
            let done = start + len;
            left = if done >= 64 { 0 } else { left >> done << done };
        }
        Ok(())
    }
}
