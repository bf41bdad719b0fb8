//! Bungs, by the gauge of the screw they cover.

use super::Basis;
use crate::units::Length;

/// The bung of a screw gauge.
#[derive(Debug, PartialEq, Eq)]
pub struct Bung {
    /// American gauge of the screw.
    pub gauge: u8,
    /// Diameter of the bung, and so of the bit that bores for it: the planking table's where it
    /// has the gauge, else the drill chart's.
    pub diameter: Length,
    /// What the diameter rests on.
    pub basis: &'static Basis,
}

include!(concat!(env!("OUT_DIR"), "/bungs.rs"));

impl Bung {
    /// The bung over a screw of this American gauge; `None` under No. 6.
    pub fn over(gauge: u8) -> Option<&'static Self> {
        BUNGS.iter().find(|bung| bung.gauge == gauge)
    }
}
