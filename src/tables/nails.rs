//! Wire gauges of nails and rivets.

use super::Basis;
use crate::units::Length;

/// Which wire gauge. The two differ at the same number, so it is always said which.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum WireSystem {
    /// Imperial standard wire gauge; copper nails and rivets.
    Swg,
    /// Birmingham (Stubs) wire gauge; American ring nails of bronze.
    Bwg,
}

type Wire = (WireSystem, u8, Length, &'static Basis);

include!(concat!(env!("OUT_DIR"), "/nails.rs"));

/// Diameter of a wire of this number and what the figure rests on; a higher number is thinner.
/// `None` where the table has no such number.
pub fn wire_diameter(system: WireSystem, number: u8) -> Option<(Length, &'static Basis)> {
    let mut wires = WIRES.iter();
    let wire = wires.find(|(of, n, ..)| *of == system && *n == number)?;
    Some((wire.2, wire.3))
}
