//! Bolts and lag screws.

use crate::units::Length;

/// One nominal size.
struct Bolt {
    nominal: Length,
    lag_root: Length,
}

include!(concat!(env!("OUT_DIR"), "/bolts.rs"));

/// Root diameter of a lag screw of this nominal diameter: NDS-2018 Table L2 (public
/// transcription). `None` where the table has no such size.
pub fn lag_root(nominal: Length) -> Option<Length> {
    let bolt = BOLTS.iter().find(|bolt| bolt.nominal == nominal)?;
    Some(bolt.lag_root)
}
