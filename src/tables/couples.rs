//! What was lost beside stainless steel, as measured.

use super::{Basis, Metal};

/// A metal that was joined to stainless steel and measured.
#[derive(Debug, PartialEq)]
pub struct MeasuredCouple {
    /// The metal that was measured.
    pub partner: &'static str,
    stands_for: &'static [&'static str],
    /// What it lost, in millimetres a year, by the surface of the stainless to its own. An order
    /// of magnitude.
    pub losses: &'static [((u32, u32), f64)],
    /// What the losses rest on.
    pub basis: &'static Basis,
}

include!(concat!(env!("OUT_DIR"), "/couples.rs"));

impl MeasuredCouple {
    /// The couples in sea water whose partner is the nearest to this metal that was published.
    pub fn nearest_to(metal: &Metal) -> impl Iterator<Item = &'static Self> {
        let name = metal.name;
        COUPLES
            .iter()
            .filter(move |couple| couple.stands_for.contains(&name))
    }
}
