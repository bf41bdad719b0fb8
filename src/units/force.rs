//! Forces.

use super::Units;

/// A force in newtons.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Force(f64);

/// Newtons in a pound-force: 0.453 592 37 kg at 9.806 65 m/s², both exact by definition.
const NEWTONS_PER_POUND: f64 = 4.448_221_615_260_5;

impl Force {
    /// A force of so many pounds.
    pub fn from_pounds(pounds: f64) -> Self {
        Self(pounds * NEWTONS_PER_POUND)
    }

    /// In newtons.
    pub const fn newtons(self) -> f64 {
        self.0
    }

    /// In pounds.
    pub fn pounds(self) -> f64 {
        self.0 / NEWTONS_PER_POUND
    }

    /// This force times a factor.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        Self(self.0 * factor)
    }

    /// To the nearest pound or newton; the figures behind it carry no more.
    pub fn shown(self, units: Units) -> String {
        match units {
            Units::Inch => format!("{:.0} lb", self.pounds()),
            Units::Metric => format!("{:.0} N", self.0),
        }
    }
}
