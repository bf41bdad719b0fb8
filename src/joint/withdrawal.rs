//! How hard a wood screw is to pull straight out of a member.

use crate::units::{Force, Length};

/// Specific gravities for which the building standard gives withdrawal values: 0.31 to 0.73, on
/// oven-dry weight and volume (NDS-2018 Table 12.2B, public transcription).
pub const GRAVITIES: std::ops::RangeInclusive<f64> = 0.31..=0.73;

/// Share of the dry design value that is left in wet service, wood moisture over 19 %: NDS-2018
/// Table 11.3.3 (public transcription).
pub const WET_FACTOR: f64 = 0.7;

/// Design withdrawal of a wood screw from side grain, pounds for each inch of thread in the
/// member: *W* = 2850 *G*² *D*.
///
/// *G* is specific gravity on oven-dry weight and volume, 0.31 to 0.73; *D* the nominal shank
/// diameter, No. 6 to No. 24. Load duration 1.0, dry service. NDS-2018 equation 12.2-2, public
/// transcription; the same formula is read in a formula handbook and an engineering reference.
pub fn design_per_inch(gravity: f64, shank: Length) -> f64 {
    2850.0 * gravity * gravity * shank.inches()
}

/// Withdrawal in tests to failure, from side grain of dry wood, pounds for each inch of thread in
/// the member: 15,700 *G*² *D*.
///
/// *G* is specific gravity on oven-dry weight and volume at 12 % moisture, another basis than the
/// design value's; *D* the shank diameter. Wood Handbook FPL-GTR-190 equation 8-10, from memory,
/// not checked. Never on one scale with the design value: it is some 5.5 times as large.
pub fn ultimate_per_inch(gravity_12: f64, shank: Length) -> f64 {
    15_700.0 * gravity_12 * gravity_12 * shank.inches()
}

/// A pull by the inch over so much thread.
pub fn over(pounds_per_inch: f64, thread: Length) -> Force {
    Force::from_pounds(pounds_per_inch * thread.inches())
}
