//! Wood screws with flat countersunk heads: American and British gauges, metric sizes.

use std::fmt;
use std::str::FromStr;

use super::Basis;
use crate::text::{Misread, nearest};
use crate::units::{Length, count};

/// What a screw's size is counted in. American and British gauges agree only at No. 8.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum GaugeSystem {
    /// Shank of 0.060 + 0.013 × gauge inches (ASME B18.6.1).
    #[default]
    American,
    /// Shank of 0.052 + 0.014 × gauge inches.
    British,
    /// Named by the shank in millimetres.
    Metric,
}

impl GaugeSystem {
    const NAMES: [(&str, Self); 3] = [
        ("american", Self::American),
        ("british", Self::British),
        ("metric", Self::Metric),
    ];
}

impl fmt::Display for GaugeSystem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let named = Self::NAMES.iter().find(|(_, system)| system == self);
        f.write_str(named.map_or("", |(name, _)| name))
    }
}

impl FromStr for GaugeSystem {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        let word = text.trim().to_lowercase();
        let known = Self::NAMES.iter().find(|(name, _)| *name == word);
        known.map(|(_, system)| *system).ok_or_else(|| {
            let near = nearest(&word, Self::NAMES.map(|(name, _)| name));
            Misread::new(format!("`{}` is not a gauge system", text.trim())).help(near.map_or_else(
                || "american, british or metric".to_owned(),
                |name| format!("did you mean `{name}`?"),
            ))
        })
    }
}

/// A flat countersunk head.
#[derive(Debug, PartialEq, Eq)]
pub struct Head {
    /// The largest diameter the standard allows, to the sharp edge: what a counterbore must clear.
    pub largest: Length,
    /// The smallest; `None` where none is published.
    pub smallest: Option<Length>,
    /// Height of the cone.
    pub height: Option<Length>,
    /// What the diameters rest on.
    pub basis: &'static Basis,
}

/// One size of wood screw.
#[derive(Debug, PartialEq, Eq)]
pub struct Screw {
    /// What it is counted in.
    pub system: GaugeSystem,
    /// The gauge; `None` for metric screws, which are named by their shank.
    pub gauge: Option<u8>,
    /// Nominal diameter, of the plain shank.
    pub shank: Length,
    /// What the shank rests on.
    pub shank_basis: &'static Basis,
    /// The head; `None` where no figure is published (American 22 and 26).
    pub head: Option<Head>,
    /// Root of the thread, for pilot holes.
    pub root: Length,
    /// What the root rests on: a list, or two thirds of the shank.
    pub root_basis: &'static Basis,
    /// The building standard's root column, for its yield equations only; it is wider than the
    /// root of a thread. `None` under American No. 6 and for 22 and 26.
    pub standard_root: Option<Length>,
    /// The building standard's head column, the mean of largest and smallest.
    pub standard_head: Option<Length>,
    /// Threads in an inch of length.
    pub threads_per_inch: Option<u8>,
    /// Metric screws: from thread to thread.
    pub pitch: Option<Length>,
    /// Shortest length made.
    pub shortest: Option<Length>,
    /// Longest length made.
    pub longest: Option<Length>,
}

include!(concat!(env!("OUT_DIR"), "/screws.rs"));

impl Screw {
    /// All sizes of a system, by rising shank.
    pub fn all(system: GaugeSystem) -> &'static [Self] {
        match system {
            GaugeSystem::American => AMERICAN,
            GaugeSystem::British => BRITISH,
            GaugeSystem::Metric => METRIC,
        }
    }

    /// The screw of this gauge, if there is one.
    pub fn by_gauge(system: GaugeSystem, gauge: u8) -> Option<&'static Self> {
        Self::all(system).iter().find(|s| s.gauge == Some(gauge))
    }

    /// The metric screw of this nominal shank, if there is one.
    pub fn metric(shank: Length) -> Option<&'static Self> {
        METRIC.iter().find(|s| s.shank == shank)
    }

    /// How much of a screw of this length is threaded. American: two thirds of the length, at
    /// least four shanks, never over the length (NDS Table L3, footnotes 2 and 3). British and
    /// metric: 0.6 of the length (British rules; DIN 97 from memory).
    pub fn thread_length(&self, length: Length) -> Length {
        match self.system {
            GaugeSystem::American => length.share(2, 3).max(self.shank * 4).min(length),
            GaugeSystem::British | GaugeSystem::Metric => length.share(3, 5),
        }
    }

    /// The lengths it is made in: the published steps within its range. Empty where no range is
    /// published, as for American 22 and 26. British screws have no published range; all steps.
    pub fn stock_lengths(&self) -> Vec<Length> {
        let steps = match self.system {
            GaugeSystem::American | GaugeSystem::British => STEPS,
            GaugeSystem::Metric => METRIC_STEPS,
        };
        let made = |length: Length| match (self.shortest, self.longest) {
            (Some(shortest), Some(longest)) => shortest <= length && length <= longest,
            _ => self.system == GaugeSystem::British,
        };
        steps.iter().copied().filter(|l| made(*l)).collect()
    }

    /// As it is asked for: `No. 14`, `British No. 14`, `5 mm`.
    pub fn name(&self) -> String {
        match (self.gauge, self.system) {
            (Some(gauge), GaugeSystem::British) => format!("British No. {gauge}"),
            (Some(gauge), _) => format!("No. {gauge}"),
            (None, _) => self.shank.shown(crate::units::Units::Metric),
        }
    }

    /// The size of another system nearest in shank; itself in its own. `None` only for a system
    /// without sizes.
    pub fn nearest_in(&'static self, system: GaugeSystem) -> Option<&'static Self> {
        if self.system == system {
            return Some(self);
        }
        Self::all(system)
            .iter()
            .min_by_key(|other| (other.shank - self.shank).nm().abs())
    }

    /// How many sizes of its system this stands above another; below nought, under it.
    pub fn sizes_above(&self, other: &Self) -> i64 {
        let place = |of: &Self| {
            let all = Self::all(self.system).iter();
            i64::from(count(all.take_while(|each| each.shank < of.shank).count()))
        };
        place(self) - place(other)
    }

    /// The next thicker size.
    pub fn larger(&self) -> Option<&'static Self> {
        Self::all(self.system).iter().find(|s| s.shank > self.shank)
    }

    /// The next thinner size.
    pub fn smaller(&self) -> Option<&'static Self> {
        let mut thinner = Self::all(self.system).iter().rev();
        thinner.find(|s| s.shank < self.shank)
    }
}
