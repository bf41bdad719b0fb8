//! How much metal a fastening shows to the wood, and how the surfaces of two metals compare.

use std::f64::consts::PI;
use std::fmt;

use super::{Kind, Size};
use crate::units::{Area, Length};

/// The surface of a fastening: its shank over the whole length, and both faces of its head.
///
/// *A* = *p* *L* + 2 *H* − *S*, where *p* is what the shank measures round (π *D*; 4 *D* of a boat
/// nail, which is square), *S* its section (π/4 *D*²; *D*²) and *H* the head's face (π/4 times its
/// diameter squared, by the table of screws). Where no head is published, as of nails, rivets and
/// bolts, the end of the shank stands for it. Threads, points and roves are passed over.
///
/// `None` for a trunnel, which is of wood, and for a wire number that no table gives.
pub fn surface(kind: Kind, size: Size) -> Option<Area> {
    if !kind.is_metal() {
        return None;
    }
    let across = size.diameter()?.mm();
    let (round, section) = match kind {
        Kind::BoatNail if matches!(size, Size::Plain { .. }) => (4.0 * across, across * across),
        _ => (PI * across, disc(across)),
    };
    let head = match size {
        Size::Screw { screw, .. } => screw.head.as_ref().map(|head| disc(head.largest.mm())),
        Size::Wire { .. } | Size::Plain { .. } => None,
    };
    let ends = 2.0 * head.unwrap_or(section) - section;
    Some(Area::from_mm2(round * length(size) + ends))
}

fn length(size: Size) -> f64 {
    size.length().max(Length::ZERO).mm()
}

fn disc(across: f64) -> f64 {
    PI / 4.0 * across * across
}

/// The surface of the metal that is spared to that of the one it eats, to the nearest of 1, 2, 5
/// and their tens and hundreds either way: what is known of such couples bears no more.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct AreaRatio {
    /// One of the two is 1.
    spared: u32,
    eaten: u32,
}

impl AreaRatio {
    /// Beyond this, either way, it is told as this.
    const MOST: f64 = 1000.0;

    /// Of two surfaces; `None` where either is nothing.
    pub fn of(spared: Area, eaten: Area) -> Option<Self> {
        let ratio = spared.mm2() / eaten.mm2();
        if !(ratio.is_finite() && ratio > 0.0) {
            return None;
        }
        let step = step(ratio.max(1.0 / ratio).min(Self::MOST));
        Some(if ratio < 1.0 {
            Self {
                spared: 1,
                eaten: step,
            }
        } else {
            Self {
                spared: step,
                eaten: 1,
            }
        })
    }

    /// The other way round.
    #[must_use]
    pub const fn turned(self) -> Self {
        Self {
            spared: self.eaten,
            eaten: self.spared,
        }
    }

    /// As a number: 10 where the spared metal has ten times the surface.
    pub fn value(self) -> f64 {
        f64::from(self.spared) / f64::from(self.eaten)
    }
}

/// The nearest of 1, 2, 5 and their tens, on a logarithmic scale.
fn step(ratio: f64) -> u32 {
    const STEPS: [u32; 10] = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000];
    let off = |step: &u32| (f64::from(*step).ln() - ratio.ln()).abs();
    let nearest = STEPS.into_iter().min_by(|a, b| off(a).total_cmp(&off(b)));
    nearest.unwrap_or(1)
}

/// `10 : 1`.
impl fmt::Display for AreaRatio {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} : {}", self.spared, self.eaten)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tables::GaugeSystem;
    use proptest::prelude::*;

    fn mm2(kind: Kind, size: &str) -> f64 {
        let size = Size::read(kind, size, GaugeSystem::American).unwrap();
        surface(kind, size).unwrap().mm2()
    }

    /// By the formula in the comment, worked by hand.
    #[test]
    fn surfaces_worked_by_hand() {
        let near = |is: f64, expected: f64| assert!((is - expected).abs() < 0.01, "{is}");
        // Round: π 8 · 100, and the two ends of the shank less what it takes of the one.
        near(mm2(Kind::Bolt, "8mm x 100mm"), 2513.274 + 50.265);
        // Square: 4 · 8 · 100 + 8².
        near(mm2(Kind::BoatNail, "8mm x 100mm"), 3200.0 + 64.0);
        // No. 14, shank .242 in, largest head .507 in: π .242 · 2 + π/4 (2 · .507² − .242²) in².
        near(
            mm2(Kind::WoodScrew, "14 x 2in"),
            (1.520_531 + 0.403_774 - 0.045_996) * 645.16,
        );
        // A nail of wire is round: π .160 · 3 + π/4 .160² in².
        near(
            mm2(Kind::BoatNail, "8 SWG x 3in"),
            (1.507_964 + 0.020_106) * 645.16,
        );
        let trunnel = Size::read(Kind::Trunnel, "1in x 5in", GaugeSystem::American).unwrap();
        assert_eq!(surface(Kind::Trunnel, trunnel), None);
        let odd = Size::read(Kind::Rivet, "7 SWG x 3in", GaugeSystem::American).unwrap();
        assert_eq!(surface(Kind::Rivet, odd), None);
    }

    #[test]
    fn ratios_are_told_by_steps() {
        let told = |spared, eaten| {
            let ratio = AreaRatio::of(Area::from_mm2(spared), Area::from_mm2(eaten));
            ratio.map(|ratio| ratio.to_string())
        };
        for (spared, eaten, said) in [
            (9.8, 1.0, "10 : 1"),
            (1.0, 9.8, "1 : 10"),
            (1.4, 1.0, "1 : 1"),
            (1.42, 1.0, "2 : 1"),
            (3.1, 1.0, "2 : 1"),
            (3.2, 1.0, "5 : 1"),
            (1e9, 1.0, "1000 : 1"),
        ] {
            assert_eq!(told(spared, eaten).as_deref(), Some(said));
        }
        assert_eq!(told(0.0, 1.0), None);
        assert_eq!(told(1.0, 0.0), None);
    }

    proptest! {
        /// The other way round is the other way round, and neither is further off than the steps.
        #[test]
        fn ratios_turn(spared in 1.0..1e5_f64, eaten in 1.0..1e5_f64) {
            let (a, b) = (Area::from_mm2(spared), Area::from_mm2(eaten));
            let ratio = AreaRatio::of(a, b).unwrap();
            prop_assert_eq!(AreaRatio::of(b, a).unwrap().turned().value(), ratio.value());
            let is = (spared / eaten).clamp(0.001, 1000.0);
            let off = ratio.value() / is;
            prop_assert!((0.63..1.59).contains(&off), "{} told as {}", is, ratio);
        }
    }
}
