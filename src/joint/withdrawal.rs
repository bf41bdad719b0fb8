//! How hard a fastening is to pull straight out of a member.
//!
//! Two scales that are never mixed: the building standard's design values, and what specimens held
//! in tests until they failed, which is five to six times as much.

use std::f64::consts::FRAC_PI_4;

use super::Kind;
use crate::tables::{Basis, Family, Metal, Status};
use crate::units::{Force, Length, Stress};

/// Specific gravities for which the building standard gives withdrawal values: 0.31 to 0.73, on
/// oven-dry weight and volume (NDS-2018 Table 12.2B, public transcription).
pub const GRAVITIES: std::ops::RangeInclusive<f64> = 0.31..=0.73;

/// Pull for each inch in the member's side grain: a coefficient times powers of the wood's
/// specific gravity and of the fastening's nominal diameter in inches.
#[derive(Debug)]
pub struct Formula {
    coefficient: f64,
    gravity_power: f64,
    diameter_power: f64,
    /// The diameters it is published for; `None` where no range is.
    pub diameters: Option<(Length, Length)>,
    /// What it rests on.
    pub basis: Basis,
}

impl Formula {
    /// Pounds for each inch. `gravity` is on oven-dry weight and, for design values, oven-dry
    /// volume; for test values volume at 12 % moisture. Load duration 1.0, dry service.
    pub fn per_inch(&self, gravity: f64, diameter: Length) -> f64 {
        self.coefficient
            * gravity.powf(self.gravity_power)
            * diameter.inches().powf(self.diameter_power)
    }

    /// Whether it is published for this diameter.
    pub fn covers(&self, diameter: Length) -> bool {
        self.diameters
            .is_none_or(|(least, most)| (least..=most).contains(&diameter))
    }
}

const fn thousandths(from: i64, to: i64) -> Option<(Length, Length)> {
    const NM: i64 = 25_400;
    Some((Length::from_nm(from * NM), Length::from_nm(to * NM)))
}

/// Wood screws, No. 6 to No. 24: *W* = 2850 *G*² *D*, for each inch of thread in the member.
/// The same formula is read in a formula handbook and an engineering reference.
const WOOD_SCREW: Formula = Formula {
    coefficient: 2850.0,
    gravity_power: 2.0,
    diameter_power: 1.0,
    diameters: thousandths(138, 372),
    basis: Basis::on("NDS", Status::Transcribed, "12.2-2, 2850 G2 D"),
};

/// Lag screws, 1/4 to 1-1/4 in: *W* = 1800 *G*^1.5 *D*^0.75, for each inch of thread without the
/// tip.
const LAG_SCREW: Formula = Formula {
    coefficient: 1800.0,
    gravity_power: 1.5,
    diameter_power: 0.75,
    diameters: thousandths(250, 1250),
    basis: Basis::on("NDS", Status::Transcribed, "12.2-1, 1800 G^1.5 D^0.75"),
};

/// Smooth nails, .092 to .375 in: *W* = 1380 *G*^2.5 *D*, for each inch in the member. Pages that
/// print *G*² have lost half a power.
const SMOOTH_NAIL: Formula = Formula {
    coefficient: 1380.0,
    gravity_power: 2.5,
    diameter_power: 1.0,
    diameters: thousandths(92, 375),
    basis: Basis::on("NDS", Status::Transcribed, "12.2-3, 1380 G^2.5 D"),
};

/// Smooth nails of stainless steel: *W* = 465 *G*^1.5 *D*.
const STAINLESS_NAIL: Formula = Formula {
    coefficient: 465.0,
    gravity_power: 1.5,
    diameter_power: 1.0,
    diameters: None,
    basis: Basis::on("NDS", Status::Transcribed, "12.2-4, 465 G^1.5 D"),
};

/// Ring-shank nails: *W* = 1800 *G*² *D*, for each inch of ringed shank.
const ANNULAR_NAIL: Formula = Formula {
    coefficient: 1800.0,
    gravity_power: 2.0,
    diameter_power: 1.0,
    diameters: None,
    basis: Basis::on("NDS", Status::Transcribed, "12.2-5, 1800 G2 D"),
};

/// Wood screws in tests: 15,700 *G*² *D*.
const TESTED_SCREW: Formula = Formula {
    coefficient: 15_700.0,
    gravity_power: 2.0,
    diameter_power: 1.0,
    diameters: None,
    basis: Basis::on("WH10", Status::Memory, "eq. 8-10, 15,700 G2 D"),
};

/// Smooth bright nails in tests: 7850 *G*^2.5 *D*. The 1965 edition's coefficient was 6900.
const TESTED_NAIL: Formula = Formula {
    coefficient: 7850.0,
    gravity_power: 2.5,
    diameter_power: 1.0,
    diameters: None,
    basis: Basis::on("WH10", Status::Memory, "eq. 8-1, 7850 G^2.5 D"),
};

/// Annular nails in tests: 10,200 *G*² *D*. Rings at least .008 in proud, .050 to .077 in apart.
const TESTED_ANNULAR: Formula = Formula {
    coefficient: 10_200.0,
    gravity_power: 2.0,
    diameter_power: 1.0,
    diameters: None,
    basis: Basis::on("WH10", Status::Memory, "eq. 8-2, 10,200 G2 D"),
};

/// The design formula of a kind of fastening.
///
/// # Errors
/// For a kind that does not hold by its grip on the wood, or has no published value: why.
pub fn design(kind: Kind, metal: Option<&Metal>) -> Result<&'static Formula, &'static str> {
    match kind {
        Kind::WoodScrew => Ok(&WOOD_SCREW),
        Kind::LagScrew => Ok(&LAG_SCREW),
        Kind::BoatNail if metal.is_some_and(|metal| metal.family == Family::Stainless) => {
            Ok(&STAINLESS_NAIL)
        }
        Kind::BoatNail => Ok(&SMOOTH_NAIL),
        Kind::AnnularNail => Ok(&ANNULAR_NAIL),
        Kind::ClenchedNail => Err("a clenched nail holds by its head and its turned point"),
        Kind::Rivet => Err("a rivet holds by its head and its rove"),
        Kind::Bolt => Err("a bolt holds by its head and its nut"),
        Kind::Drift => Err("no withdrawal value is published here for drifts"),
        Kind::Trunnel => Err("no withdrawal value is published here for trunnels"),
    }
}

/// The test formula of a kind, where there is one. All are from memory, not checked.
pub fn tested(kind: Kind) -> Option<&'static Formula> {
    match kind {
        Kind::WoodScrew => Some(&TESTED_SCREW),
        Kind::BoatNail => Some(&TESTED_NAIL),
        Kind::AnnularNail => Some(&TESTED_ANNULAR),
        _ => None,
    }
}

/// Share of the dry design value that is left, by whether the wood was wet (moisture over 19 %)
/// when the fastening was driven and whether it is in service. Screws: 0.7 in wet service. Nails:
/// all of it where driving and service are alike, a quarter where the wood dries or wets after.
/// NDS-2018 Table 11.3.3, public transcription; that lag screws follow wood screws is from memory.
pub const fn wet_factor(kind: Kind, driven_wet: bool, serves_wet: bool) -> f64 {
    match kind {
        Kind::BoatNail | Kind::AnnularNail if driven_wet != serves_wet => 0.25,
        Kind::WoodScrew | Kind::LagScrew if serves_wet => 0.7,
        _ => 1.0,
    }
}

/// A pull by the inch over so much thread or shank.
pub fn over(pounds_per_inch: f64, length: Length) -> Force {
    Force::from_pounds(pounds_per_inch * length.inches())
}

/// What the core of a fastening breaks at: the area of its root times its tensile strength. No
/// withdrawal is more (NDS-2018 12.2.2.5, public transcription, which asks for the strength of the
/// net section by the rules for metal; the whole breaking strength is taken here).
pub fn core_breaks(root: Length, tensile: Stress) -> Force {
    Force::from_pounds(FRAC_PI_4 * root.inches() * root.inches() * tensile.psi())
}
