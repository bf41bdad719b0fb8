//! How far apart fastenings stand by the building standard.

use super::Basis;

/// One distance, in diameters of the fastening.
struct Spacing {
    distance: &'static str,
    /// Under 1/4 in: bored and not bored. From 1/4 in: in softwood and in hardwood.
    diameters: [f64; 2],
    basis: &'static Basis,
}

include!(concat!(env!("OUT_DIR"), "/spacing.rs"));

/// Which of the standard's spacings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SpacingOf {
    /// A fastening under 1/4 in in a lead hole.
    Bored,
    /// A fastening under 1/4 in without one.
    Unbored,
    /// A fastening from 1/4 in in softwood.
    LargeInSoftwood,
    /// A fastening from 1/4 in in hardwood.
    LargeInHardwood,
}

/// A distance of the standard in diameters, by its name in the table, and what it rests on.
/// `None` where the table has no such distance.
pub fn spacing(of: SpacingOf, distance: &str) -> Option<(f64, &'static Basis)> {
    let (rows, which) = match of {
        SpacingOf::Bored => (SMALL, 0),
        SpacingOf::Unbored => (SMALL, 1),
        SpacingOf::LargeInSoftwood => (LARGE, 0),
        SpacingOf::LargeInHardwood => (LARGE, 1),
    };
    let row = rows.iter().find(|row| row.distance == distance)?;
    Some((*row.diameters.get(which)?, row.basis))
}
