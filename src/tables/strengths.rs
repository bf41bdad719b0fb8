//! How strong fastening metals are.

use super::{Basis, Family, Metal};
use crate::units::{Length, Stress};

/// What a fastening metal bends at and breaks at.
#[derive(Debug, PartialEq)]
pub struct Strength {
    /// The metal's name in the table of metals.
    pub metal: &'static str,
    /// The alloy and temper that the figures are of.
    pub alloy: &'static str,
    /// What it breaks at, pulled.
    pub tensile: Stress,
    /// What that rests on.
    pub tensile_basis: &'static Basis,
    /// What it yields at, bent: derived, halfway from its yield to its tensile strength.
    bending: Stress,
    /// What that rests on.
    bending_basis: &'static Basis,
}

/// Fastenings of carbon steel over one diameter and up to another.
struct Band {
    from: Length,
    to: Length,
    bending: Stress,
    basis: &'static Basis,
}

include!(concat!(env!("OUT_DIR"), "/strengths.rs"));

impl Strength {
    /// All metals with a published strength other than carbon steel, whose wire is the stronger
    /// the thinner it is drawn.
    pub fn all() -> &'static [Self] {
        STRENGTHS
    }

    /// The strength of a metal; `None` where no figure for fastenings was found.
    pub fn of(metal: &Metal) -> Option<&'static Self> {
        STRENGTHS.iter().find(|row| row.metal == metal.name)
    }
}

/// Bending yield strength of a fastening of this metal and nominal diameter, and what it rests
/// on. Carbon steel by the building standard's bands, .099 to .375 in, a band's upper end
/// inclusive; other metals by a derived value that holds for any diameter. `None` where there is
/// neither.
pub fn bending_yield(metal: &Metal, nominal: Length) -> Option<(Stress, &'static Basis)> {
    if metal.family == Family::Steel {
        let within = |band: &&Band| (band.from..=band.to).contains(&nominal);
        // Where two bands meet, the diameter is still in the first.
        return STEEL
            .iter()
            .find(within)
            .map(|band| (band.bending, band.basis));
    }
    Strength::of(metal).map(|row| (row.bending, row.bending_basis))
}
