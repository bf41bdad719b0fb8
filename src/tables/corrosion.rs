//! How fast metals go by themselves, and how much zinc is on galvanised ones.

use super::{Basis, Metal};
use crate::units::Length;

/// A rate of corrosion off one face, in millimetres a year: 0 and up. A single published figure
/// has both ends alike; one printed as `under 0.025` goes from nought.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rate {
    /// The slow end.
    pub low: f64,
    /// The fast end.
    pub high: f64,
    /// What it rests on.
    pub basis: &'static Basis,
}

/// What bare metal is exposed to, as the published rates tell it apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Exposure {
    /// Always in sea water.
    Sea,
    /// Sea water and air in turn.
    Splash,
    /// Sea air.
    Air,
    /// Fresh water, hard or soft.
    Fresh,
}

/// An alloy after a year in sea water.
struct InTheSea {
    alloy: &'static str,
    metal: Option<&'static str>,
    general: Rate,
    crevice: Option<Rate>,
}

/// A rate for some metals in some exposures.
struct Row {
    what: &'static str,
    metals: &'static [&'static str],
    exposures: &'static [Exposure],
    rate: Rate,
}

/// The least zinc on a hot-dip galvanised fastening.
#[derive(Debug, PartialEq, Eq)]
pub struct Coating {
    /// The class of the standard.
    pub class: &'static str,
    /// It is of diameters over this; of any where there is none.
    over: Option<Length>,
    /// Least mean thickness of the specimens together.
    pub average: Length,
    /// Least thickness of any one of them.
    pub any_one: Length,
    /// What the thicknesses rest on.
    pub basis: &'static Basis,
}

include!(concat!(env!("OUT_DIR"), "/corrosion.rs"));

impl Rate {
    /// Every published rate of a metal so exposed, with what it is of: the general loss, that in a
    /// crevice, that of early or late years. Empty where none is published. Of galvanised steel,
    /// the steel.
    pub fn all(metal: &Metal, exposure: Exposure) -> Vec<(String, Self)> {
        let mut rates = Vec::new();
        let of_metal = |row: &&InTheSea| row.metal == Some(metal.name);
        for row in IN_THE_SEA.iter().filter(of_metal) {
            if exposure != Exposure::Sea {
                break;
            }
            rates.push((format!("{}, all over", row.alloy), row.general));
            let crevice = row.crevice;
            rates.extend(crevice.map(|rate| (format!("{}, in a crevice", row.alloy), rate)));
        }
        let of_it =
            |row: &&Row| row.metals.contains(&metal.name) && row.exposures.contains(&exposure);
        let others = RATES.iter().filter(of_it);
        rates.extend(others.map(|row| (row.what.to_owned(), row.rate)));
        rates
    }
}

impl Coating {
    /// The least coating of a fastening of this diameter (ASTM A153): class D to 3/8 in, and of
    /// nails and rivets of any diameter; class C over it.
    pub fn of(diameter: Length, is_nail_or_rivet: bool) -> Option<&'static Self> {
        let is_of = |class: &&Self| {
            class
                .over
                .is_none_or(|over| diameter > over && !is_nail_or_rivet)
        };
        COATINGS.iter().find(is_of)
    }
}
