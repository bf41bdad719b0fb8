//! A fastening seen from the side: what bends, and how hard wood is to crush with it.

use super::Kind;
use super::yield_limit::LARGE;
use crate::tables::{Screw, lag_root};
use crate::units::{Length, Stress};

/// A fastening of metal as the equations take it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dowel {
    /// What it is.
    pub kind: Kind,
    /// Nominal diameter.
    pub nominal: Length,
    /// Diameter in the equations: the standard's root of a screw or lag screw, the nominal of
    /// anything whose plain shank bears.
    pub diameter: Length,
    /// Bending yield strength.
    pub bending_yield: Stress,
}

impl Dowel {
    /// A wood screw, with the standard's root.
    ///
    /// # Errors
    /// In words, for a size that the standard has no root for: under No. 6, 22, 26, and whatever
    /// is not of an American gauge.
    pub fn screw(screw: &Screw, bending_yield: Stress) -> Result<Self, String> {
        let diameter = screw.standard_root.ok_or_else(|| {
            format!(
                "{} has no root diameter in the building standard, so no sideways strength is worked",
                screw.name()
            )
        })?;
        Ok(Self {
            kind: Kind::WoodScrew,
            nominal: screw.shank,
            diameter,
            bending_yield,
        })
    }

    /// Any other kind that is of metal: a lag screw with the standard's root, the rest with their shank.
    ///
    /// # Errors
    /// In words, for a lag screw of a size that the standard has no root for.
    pub fn other(kind: Kind, nominal: Length, bending_yield: Stress) -> Result<Self, String> {
        let diameter = match kind {
            Kind::LagScrew => lag_root(nominal).ok_or(
                "no root diameter is on record for a lag screw of this size, so no sideways strength is worked",
            )?,
            _ => nominal,
        };
        Ok(Self {
            kind,
            nominal,
            diameter,
            bending_yield,
        })
    }

    /// Length of its tapered tip in the wood.
    pub(super) fn tip(&self) -> Length {
        tip(self.kind, self.nominal)
    }

    /// Whether enough of it is in the member for the standard to give a value: 6 *D* of a screw or
    /// nail, its tip included (12.1.5.6, 12.1.6.4), 4 *D* of a lag screw without it (12.1.4.6),
    /// anything of what goes through. NDS-2018, public transcription.
    pub(super) fn is_deep_enough(&self, embedment: Length) -> bool {
        match self.kind {
            Kind::LagScrew => embedment - self.tip() >= self.nominal * 4,
            kind if kind.goes_through() => true,
            _ => embedment >= self.nominal * 6,
        }
    }
}

/// Length of the tapered tip, *E* = 2 *D*: NDS-2018 12.3.5.3 and Table L3, note 6 (public
/// transcription). What goes through has none in the wood.
pub(super) fn tip(kind: Kind, nominal: Length) -> Length {
    if kind.goes_through() {
        Length::ZERO
    } else {
        nominal * 2
    }
}

/// Dowel bearing strength, *F*e: what the wood bears on each square inch of the fastening's side.
///
/// `gravity` is on oven-dry weight and volume; `nominal` is the nominal diameter, of screws too;
/// `degrees` is the angle of the load to this piece's grain.
/// - Under 1/4 in: 16,600 *G*^1.84, whichever way the grain lies.
/// - From 1/4 in: 11,200 *G* along the grain, 6,100 *G*^1.45 / √*D* across it, between them by
///   *F*∥ *F*⊥ / (*F*∥ sin² θ + *F*⊥ cos² θ).
///
/// NDS-2018 Table 12.3.3 and equation 12.3-11, public transcription. The table is printed to 50
/// psi and small fastenings are worked with the printed value; that the large ones are rounded as
/// well is from memory.
pub fn dowel_bearing(gravity: f64, nominal: Length, degrees: f64) -> Stress {
    if nominal < LARGE {
        return to_50(16_600.0 * gravity.powf(1.84));
    }
    let along = to_50(11_200.0 * gravity).psi();
    let across = to_50(6_100.0 * gravity.powf(1.45) / nominal.inches().sqrt()).psi();
    let (sin, cos) = degrees.to_radians().sin_cos();
    Stress::from_psi(along * across / (along * sin * sin + across * cos * cos))
}

fn to_50(psi: f64) -> Stress {
    Stress::from_psi((psi / 50.0).round() * 50.0)
}
