//! Metals: one galvanic series, and which metal is fit for which place.

use super::{Basis, names};
use crate::text::Misread;
use crate::units::Potential;

/// The galvanic series all potentials are of. Rows of two series are never mixed.
pub const SERIES: &str = "corrosion potentials in flowing sea water, V against the saturated calomel electrode (Australasian Corrosion Association)";

/// A range of potential in the series.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Range {
    /// The active end, the lower; the metal of the lower potential is the one eaten.
    pub active: Potential,
    /// The noble end.
    pub noble: Potential,
    /// What the range rests on.
    pub basis: &'static Basis,
}

impl Range {
    /// Halfway between the ends.
    pub const fn midpoint(&self) -> Potential {
        self.active.midpoint(self.noble)
    }
}

/// What a metal is, as far as the rules care.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Family {
    /// Wrought and cast iron.
    Iron,
    /// Steel, bare or galvanised.
    Steel,
    /// Stainless steel.
    Stainless,
    /// Aluminium and its alloys.
    Aluminium,
    /// Copper with zinc.
    Brass,
    /// Copper with tin, silicon, aluminium.
    Bronze,
    /// Copper, and copper with nickel.
    Copper,
    /// Nickel with copper.
    NickelCopper,
    /// Zinc.
    Zinc,
    /// Lead.
    Lead,
    /// Anything else.
    Other,
}

/// What is thought of a metal as a fastening in one place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Verdict {
    /// What the trade uses.
    Usual,
    /// With care or for a time.
    Doubtful,
    /// Not to be used.
    Unfit,
}

/// A verdict with its reason.
#[derive(Debug, PartialEq, Eq)]
pub struct Fit {
    /// The verdict.
    pub verdict: Verdict,
    /// The reason, in a line.
    pub why: &'static str,
    /// What it rests on.
    pub basis: &'static Basis,
}

/// A metal's fit in every zone, in sea water.
#[derive(Debug, PartialEq, Eq)]
pub struct Fits {
    /// Always under water.
    pub underwater: Fit,
    /// About the waterline.
    pub wind_and_water: Fit,
    /// Above it.
    pub topsides: Fit,
    /// The deck.
    pub deck: Fit,
    /// Inside the boat.
    pub inside: Fit,
}

/// A metal that is found in a boat.
#[derive(Debug, PartialEq, Eq)]
pub struct Metal {
    /// Its name.
    pub name: &'static str,
    /// Other names of it; each names this row alone.
    pub aliases: &'static [&'static str],
    /// What it is.
    pub family: Family,
    /// Its range in [`SERIES`]; of stainless, in its active state; of galvanised steel, without
    /// the zinc. `None` for a metal the series does not have.
    pub potential: Option<Range>,
    /// Of stainless, in its passive state.
    pub passive: Option<Range>,
    /// Of galvanised steel, while the zinc lasts.
    pub coating: Option<Range>,
    /// Whether it loses its zinc, turns pink and weak, and keeps its diameter.
    pub dealloys: bool,
    /// Where it is fit for use.
    pub fits: &'static Fits,
    /// What to know about the row; may be empty.
    pub note: &'static str,
}

include!(concat!(env!("OUT_DIR"), "/metals.rs"));

impl Metal {
    /// All metals, the most active first.
    pub fn all() -> &'static [Self] {
        METALS
    }

    /// The metal of this name or alias; case, blanks and hyphens do not matter. `bronze` alone is
    /// no metal of the table: the bronzes lie too far apart.
    ///
    /// # Errors
    /// When the table has no such row, or several that may be meant, with the nearest names.
    pub fn find(name: &str) -> Result<&'static Self, Misread> {
        names::find("a metal", "metals", name, METALS, |metal| {
            (metal.name, metal.aliases)
        })
    }
}
