//! How hard a fastening is to push sideways: the yield-limit equations of the building standard.
//!
//! One fastening, one plank (the side member) on one member (the main member): single shear.
//! NDS-2018 Tables 12.3.1A and 12.3.1B, public transcription. Inches, pounds and pounds per square
//! inch inside; lengths and forces outside.

use crate::units::{Force, Length, Stress};

/// The ways a joint in single shear gives way.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Mode {
    /// The wood of the member is crushed along the fastening, which stays straight.
    Im,
    /// The wood of the plank is crushed along the fastening, which stays straight.
    Is,
    /// The fastening leans over, straight, crushing both.
    II,
    /// It bends once, in the plank; the member's wood is crushed.
    IIIm,
    /// It bends once, in the member; the plank's wood is crushed.
    IIIs,
    /// It bends twice, either side of the joint.
    IV,
}

impl Mode {
    /// Every mode, in the order of the standard.
    pub const ALL: [Self; 6] = [
        Self::Im,
        Self::Is,
        Self::II,
        Self::IIIm,
        Self::IIIs,
        Self::IV,
    ];

    /// The standard's name for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Im => "Im",
            Self::Is => "Is",
            Self::II => "II",
            Self::IIIm => "IIIm",
            Self::IIIs => "IIIs",
            Self::IV => "IV",
        }
    }
}

/// What the equations divide by, to come from yielding down to a design value.
///
/// NDS-2018 Table 12.3.1B, public transcription. *D* is the diameter in the equations, the root of
/// a screw.
/// - Nominal diameter under 1/4 in: *K*D in every mode; 2.2 up to 0.17 in, 10 *D* + 0.5 above.
/// - Nominal 1/4 in and over, *D* under 1/4 in: *K*D *K*θ in every mode.
/// - *D* of 1/4 to 1 in: 4 *K*θ in modes I, 3.6 *K*θ in II, 3.2 *K*θ in III and IV.
///
/// *K*θ = 1 + 0.25 θ/90, θ being the larger angle of the load to the grain of either piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reduction {
    crushing: f64,
    leaning: f64,
    bending: f64,
}

/// 1/4 in, from which a fastening is large: it feels which way the grain lies.
pub(super) const LARGE: Length = Length::from_64ths(16);

impl Reduction {
    /// The terms for a fastening of this nominal diameter, with this diameter in the equations
    /// and this angle of load to grain in degrees. `None` over 1 in, where the standard has none.
    pub fn of(nominal: Length, diameter: Length, degrees: f64) -> Option<Self> {
        const SMALL: Length = Length::from_nm(4_318_000);
        const ONE_INCH: Length = Length::from_64ths(64);
        let by_diameter = if diameter <= SMALL {
            2.2
        } else {
            10.0 * diameter.inches() + 0.5
        };
        let by_angle = 1.0 + 0.25 * degrees / 90.0;
        let same = |all| Self {
            crushing: all,
            leaning: all,
            bending: all,
        };
        if nominal < LARGE {
            Some(same(by_diameter))
        } else if diameter < LARGE {
            Some(same(by_diameter * by_angle))
        } else if diameter <= ONE_INCH {
            Some(Self {
                crushing: 4.0 * by_angle,
                leaning: 3.6 * by_angle,
                bending: 3.2 * by_angle,
            })
        } else {
            None
        }
    }

    /// What it divides a mode by.
    pub const fn term(&self, mode: Mode) -> f64 {
        match mode {
            Mode::Im | Mode::Is => self.crushing,
            Mode::II => self.leaning,
            Mode::IIIm | Mode::IIIs | Mode::IV => self.bending,
        }
    }
}

/// A piece of wood, or a metal plate, as the fastening bears on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bearing {
    /// Length of fastening that bears, *l*m or *l*s; more than nothing.
    pub length: Length,
    /// Dowel bearing strength, *F*em or *F*es.
    pub strength: Stress,
}

/// One joint in single shear.
#[derive(Clone, Copy, Debug)]
pub struct Shear {
    /// Diameter in the equations, *D*: the standard's root of a screw, the nominal of a nail or a
    /// bolt with its plain shank in both pieces.
    pub diameter: Length,
    /// The member that the fastening is driven into.
    pub member: Bearing,
    /// The plank.
    pub plank: Bearing,
    /// Bending yield strength of the fastening, *F*yb.
    pub bending_yield: Stress,
    /// What the equations divide by.
    pub reduction: Reduction,
}

impl Shear {
    /// *R*e = *F*em / *F*es.
    fn strengths(&self) -> f64 {
        self.member.strength.psi() / self.plank.strength.psi()
    }

    /// 2 *F*yb *D*² / (3 *F*em *l*²), the share of bending in modes III.
    fn bending(&self, length: Length) -> f64 {
        let slenderness = self.diameter.over(length);
        2.0 * self.bending_yield.psi() * slenderness * slenderness
            / (3.0 * self.member.strength.psi())
    }

    /// *k*1 = \[√(*R*e + 2 *R*e² (1 + *R*t + *R*t²) + *R*t² *R*e³) − *R*e (1 + *R*t)\] / (1 + *R*e),
    /// with *R*t = *l*m / *l*s.
    pub fn k1(&self) -> f64 {
        let (re, rt) = (self.strengths(), self.member.length.over(self.plank.length));
        let under_root = re + 2.0 * re * re * (1.0 + rt + rt * rt) + rt * rt * re * re * re;
        (under_root.sqrt() - re * (1.0 + rt)) / (1.0 + re)
    }

    /// *k*2 = −1 + √(2 (1 + *R*e) + 2 *F*yb (1 + 2 *R*e) *D*² / (3 *F*em *l*m²)).
    pub fn k2(&self) -> f64 {
        let re = self.strengths();
        let bending = self.bending(self.member.length) * (1.0 + 2.0 * re);
        (2.0 * (1.0 + re) + bending).sqrt() - 1.0
    }

    /// *k*3 = −1 + √(2 (1 + *R*e) / *R*e + 2 *F*yb (2 + *R*e) *D*² / (3 *F*em *l*s²)).
    pub fn k3(&self) -> f64 {
        let re = self.strengths();
        let bending = self.bending(self.plank.length) * (2.0 + re);
        (2.0 * (1.0 + re) / re + bending).sqrt() - 1.0
    }

    /// What the joint bears before it gives way in one mode.
    ///
    /// - I m: *D l*m *F*em; I s: *D l*s *F*es; II: *k*1 *D l*s *F*es
    /// - III m: *k*2 *D l*m *F*em / (1 + 2 *R*e); III s: *k*3 *D l*s *F*em / (2 + *R*e)
    /// - IV: *D*² √(2 *F*em *F*yb / (3 (1 + *R*e)))
    ///
    /// each divided by its reduction term. Load duration 1.0, dry service, side grain.
    pub fn bears(&self, mode: Mode) -> Force {
        let (re, d) = (self.strengths(), self.diameter.inches());
        let crush = |bearing: Bearing| d * bearing.length.inches() * bearing.strength.psi();
        let member_strength = self.member.strength.psi();
        let pounds = match mode {
            Mode::Im => crush(self.member),
            Mode::Is => crush(self.plank),
            Mode::II => self.k1() * crush(self.plank),
            Mode::IIIm => self.k2() * crush(self.member) / (1.0 + 2.0 * re),
            Mode::IIIs => self.k3() * d * self.plank.length.inches() * member_strength / (2.0 + re),
            Mode::IV => {
                let yields = self.bending_yield.psi();
                d * d * (2.0 * member_strength * yields / (3.0 * (1.0 + re))).sqrt()
            }
        };
        Force::from_pounds(pounds / self.reduction.term(mode))
    }

    /// What it bears in every mode, times a factor that holds for them all.
    pub fn modes(&self, factor: f64) -> Modes {
        let bears = |mode| self.bears(mode).times(factor);
        Modes {
            i_m: bears(Mode::Im),
            i_s: bears(Mode::Is),
            ii: bears(Mode::II),
            iii_m: bears(Mode::IIIm),
            iii_s: bears(Mode::IIIs),
            iv: bears(Mode::IV),
        }
    }
}

/// What a joint bears in each mode.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Modes {
    i_m: Force,
    i_s: Force,
    ii: Force,
    iii_m: Force,
    iii_s: Force,
    iv: Force,
}

impl Modes {
    /// What it bears in one of them.
    pub const fn of(&self, mode: Mode) -> Force {
        match mode {
            Mode::Im => self.i_m,
            Mode::Is => self.i_s,
            Mode::II => self.ii,
            Mode::IIIm => self.iii_m,
            Mode::IIIs => self.iii_s,
            Mode::IV => self.iv,
        }
    }

    /// The mode it gives way in first, and what it bears: the design value.
    pub fn governing(&self) -> (Mode, Force) {
        let mut least = (Mode::Im, self.i_m);
        for mode in Mode::ALL {
            if self.of(mode) < least.1 {
                least = (mode, self.of(mode));
            }
        }
        least
    }
}
