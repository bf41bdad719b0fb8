//! Electric potentials.

use std::fmt;
use std::ops::Sub;

/// A potential or a difference of two, in whole tenths of a millivolt so that the midpoint of two
/// printed hundredths of a volt is exact. Which electrode it is against is the series' to say.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Potential(i32);

impl Potential {
    /// From tenths of a millivolt.
    pub const fn from_tenths_mv(tenths: i32) -> Self {
        Self(tenths)
    }

    /// In volts.
    pub fn volts(self) -> f64 {
        f64::from(self.0) / 10_000.0
    }

    /// Halfway between two potentials.
    #[must_use]
    pub const fn midpoint(self, other: Self) -> Self {
        Self((self.0 + other.0) / 2)
    }
}

impl Sub for Potential {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

/// In volts, to the millivolt where it needs one: `0.39 V`, `0.185 V`.
impl fmt::Display for Potential {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.0 % 100 == 0 {
            write!(f, "{:.2} V", self.volts())
        } else {
            write!(f, "{:.3} V", self.volts())
        }
    }
}
