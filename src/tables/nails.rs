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

/// A wire nail of steel.
struct Nail {
    penny: &'static str,
    length: Length,
    common: Option<Length>,
    box_: Option<Length>,
    sinker: Option<Length>,
}

include!(concat!(env!("OUT_DIR"), "/nails.rs"));

/// Diameter of a wire of this number and what the figure rests on; a higher number is thinner.
/// `None` where the table has no such number.
pub fn wire_diameter(system: WireSystem, number: u8) -> Option<(Length, &'static Basis)> {
    let mut wires = WIRES.iter();
    let wire = wires.find(|(of, n, ..)| *of == system && *n == number)?;
    Some((wire.2, wire.3))
}

/// The next thinner wire of the table in the same system: its number, diameter and system. `None`
/// where the table ends, or does not have the number itself.
pub fn thinner_wire(system: WireSystem, number: u8) -> Option<(u8, Length, WireSystem)> {
    wire_diameter(system, number)?;
    let thinner = WIRES
        .iter()
        .filter(|(of, n, ..)| *of == system && *n > number);
    let (of, n, diameter, _) = thinner.min_by_key(|(_, n, ..)| *n)?;
    Some((*n, *diameter, *of))
}

/// The penny name of a steel wire nail of this diameter and length, common, box or sinker: NDS-2018
/// Table L4 (public transcription).
pub fn penny(diameter: Length, length: Length) -> Option<&'static str> {
    let nail = NAILS.iter().find(|nail| {
        nail.length == length && [nail.common, nail.box_, nail.sinker].contains(&Some(diameter))
    })?;
    Some(nail.penny)
}
