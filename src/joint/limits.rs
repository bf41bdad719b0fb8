//! The numbers that judge a seat, the table's or the user's own in their place.

use crate::tables::{Limit, Quantity};
use crate::units::{Length, Potential};

/// A limit as it holds for one user: the table's, or the user's own number in its place.
#[derive(Clone, Copy, Debug)]
pub struct Bound {
    /// The limit of the table.
    pub limit: &'static Limit,
    /// The number that judges.
    pub is: Quantity,
}

impl Bound {
    /// Its number as a length; nothing where it is not one.
    pub fn length(&self) -> Length {
        match self.is {
            Quantity::Length(length) => length,
            _ => Length::ZERO,
        }
    }

    /// Its number as a share; nought where it is not one.
    pub fn share(&self) -> f64 {
        match self.is {
            Quantity::Share(share) => share,
            _ => 0.0,
        }
    }

    /// Its number as a difference of potential; nothing where it is not one.
    pub fn volts(&self) -> Potential {
        match self.is {
            Quantity::Volts(volts) => volts,
            _ => Potential::from_tenths_mv(0),
        }
    }

    /// Its number as a count of things; nought where it is not one.
    pub fn count(&self) -> u32 {
        match self.is {
            Quantity::Count(count) => count,
            _ => 0,
        }
    }

    /// Its number as a count of diameters; nought where it is not one.
    pub fn diameters(&self) -> f64 {
        match self.is {
            Quantity::Diameters(diameters) => diameters,
            _ => 0.0,
        }
    }

    /// Its number as a count of years; nought where it is not one.
    pub fn years(&self) -> u32 {
        match self.is {
            Quantity::Years(years) => years,
            _ => 0,
        }
    }

    /// Its number as a count of gauges; nought where it is not one.
    pub fn gauges(&self) -> i64 {
        match self.is {
            Quantity::Gauges(gauges) => i64::from(gauges),
            _ => 0,
        }
    }

    /// Where its number comes from, for a person.
    pub fn basis(&self) -> String {
        if self.is == self.limit.is {
            self.limit.basis.to_string()
        } else {
            format!("your own limit, in place of {}", self.limit.is)
        }
    }
}

/// The limits that hold for one user.
#[derive(Clone, Debug, Default)]
pub struct Limits {
    own: Vec<Bound>,
}

impl Limits {
    /// The table's limits with some of the user's own in their place.
    pub fn with(own: Vec<Bound>) -> Self {
        Self { own }
    }

    /// A limit as it holds.
    pub fn bound(&self, limit: &'static Limit) -> Bound {
        let own = self.own.iter().find(|bound| bound.limit.name == limit.name);
        own.copied().unwrap_or(Bound {
            limit,
            is: limit.is,
        })
    }
}

/// Names each limit of the table that this floor uses; a wrong name fails the build.
macro_rules! names {
    ($($constant:ident = $name:literal,)*) => {
        $(pub(crate) const $constant: &Limit = Limit::get($name);)*
    };
}

names! {
    DISSIMILAR = "dissimilar difference",
    POINT_MARGIN = "point margin",
    EMBEDMENT_STOP = "embedment for stop",
    EMBEDMENT_MEND = "embedment for mend",
    EMBEDMENT_WATCH = "embedment for watch",
    UNDER_HEAD_MEND = "wood under the head for mend",
    UNDER_HEAD_WATCH = "wood under the head for watch",
    THREAD_IN_PLANK = "thread in the plank",
    GAUGES_UNDER = "gauges under the rule",
    GAUGES_OVER = "gauges over the rule",
    BUNG_UNDER_HEAD = "bung under the head",
    BUNG_LEAST = "least bung depth",
    BUNG_MOST = "most bung depth",
    SIX_DIAMETERS = "least penetration",
    BUNG_DEPTH = "bung depth",
    BUNG_PLANK = "thinnest plank for a bung",
    STOPPING_DEPTH = "stopping depth",
    NAIL_LENGTH = "nail length",
    LAG_PENETRATION = "lag penetration",
    CLENCH_ALLOWANCE = "clench allowance",
    RIVET_ALLOWANCE = "rivet allowance",
    BOLT_ALLOWANCE = "bolt allowance",
    PLANK_EDGE = "distance to plank edge",
    FRAME_EDGE = "distance to frame edge",
    BETWEEN = "distance between fastenings",
    OLD_HOLES = "distance to old holes",
    PLANK_END = "distance to plank end",
    TWO_TO = "plank for two fastenings",
    THREE_TO = "plank for three fastenings",
    SECTION_STOP = "section lost for stop",
    SECTION_MEND = "section lost for mend",
    DIAMETER_WATCH = "diameter lost for watch",
}
