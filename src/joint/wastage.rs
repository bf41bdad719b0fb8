//! What a wasted fastening still bears, and how long metal lasts at a published rate.
//!
//! Strengths are shares of what the fastening bore when it was new, worked from one measured
//! diameter as if the wear were even along it. Years are ranges at a published rate and never a
//! promise: the rates are of metal bare to water or air, wood shields a shank and keeps it wet, a
//! crevice or a couple is quicker.

use std::fmt;

use super::{Kind, Zone};
use crate::tables::{Basis, Coating, Exposure, Metal, Rate, Status};
use crate::units::Length;

/// How much of its diameter a fastening still has: a share, 0 to 1.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Left(f64);

impl Left {
    /// Of a diameter measured, against the new one. More than new counts as new: rust and the
    /// spread of sizes as made are no gain. `None` where the new diameter is nothing.
    pub fn of(measured: Length, new: Length) -> Option<Self> {
        (new > Length::ZERO).then(|| Self(measured.over(new).clamp(0.0, 1.0)))
    }

    /// The share of the diameter.
    pub const fn diameter(self) -> f64 {
        self.0
    }

    /// The share that is left of what it bears in one way: *r* to the power of the duty.
    pub fn share(self, duty: Duty) -> f64 {
        self.0.powf(duty.power())
    }
}

/// A way a fastening bears, by how it falls with the diameter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Duty {
    /// Withdrawal of a nail or wood screw: as the diameter.
    Pull,
    /// Withdrawal of a lag screw: as its three-quarter power.
    LagPull,
    /// Shear and tension of the shank: as its square.
    Section,
    /// Bending yield moment of the shank by the building standard: as its cube.
    Bending,
    /// The same by Eurocode 5: as its power of 2.6.
    EurocodeBending,
}

impl Duty {
    /// How a kind withdraws; `None` for what holds by its head, rove, clench, nut or wedge, and
    /// for a drift, of which no formula is published.
    pub const fn pull_of(kind: Kind) -> Option<Self> {
        match kind {
            Kind::WoodScrew | Kind::BoatNail | Kind::AnnularNail => Some(Self::Pull),
            Kind::LagScrew => Some(Self::LagPull),
            Kind::ClenchedNail | Kind::Rivet | Kind::Bolt | Kind::Drift | Kind::Trunnel => None,
        }
    }

    /// The power of the diameter that it goes by.
    pub const fn power(self) -> f64 {
        match self {
            Self::Pull => 1.0,
            Self::LagPull => 0.75,
            Self::Section => 2.0,
            Self::Bending => 3.0,
            Self::EurocodeBending => 2.6,
        }
    }

    /// What the power rests on.
    pub const fn basis(self) -> Basis {
        match self {
            Self::Pull => Basis::on("NDS", Status::Derived, "withdrawal goes by D"),
            Self::LagPull => Basis::on("NDS", Status::Derived, "withdrawal goes by D^(3/4)"),
            Self::Section => Basis {
                source: None,
                status: Status::Derived,
                note: "mechanics: a section goes by D squared",
            },
            Self::Bending => Basis::on("NDS", Status::Memory, "bending moment F_yb D^3/6"),
            Self::EurocodeBending => {
                Basis::on("EC5", Status::Memory, "eq. 8.30, M_y,Rk = 0.3 f_u d^2.6")
            }
        }
    }

    /// The share of the diameter that may go while this share of the duty is kept:
    /// 1 − *R*^(1/*n*). The share is taken between 0 and 1.
    pub fn loss_keeping(self, share: f64) -> f64 {
        1.0 - share.clamp(0.0, 1.0).powf(self.power().recip())
    }
}

/// What a measured diameter says of a fastening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Remains {
    /// So much is left.
    Of(Left),
    /// It loses its zinc and keeps its diameter, so what is left is no more than this and may be
    /// next to nothing: colour and a snap test tell, a gauge does not.
    AtMost(Left),
}

/// What a measured diameter says of a fastening of a metal, found pink or not. `None` where its
/// new diameter is nothing. That brass over about 15 % zinc keeps its diameter is from memory
/// (general corrosion texts).
///
/// A metal that is not known is taken by its diameter. What a nail took to pull says nothing:
/// see [`RUST_GRIPS`].
pub fn remains(
    metal: Option<&Metal>,
    found_pink: bool,
    measured: Length,
    new: Length,
) -> Option<Remains> {
    let left = Left::of(measured, new)?;
    let dealloys = found_pink || metal.is_some_and(|metal| metal.dealloys);
    Some(if dealloys {
        Remains::AtMost(left)
    } else {
        Remains::Of(left)
    })
}

/// Why a hard pull is no proof of a sound nail.
pub const RUST_GRIPS: Basis = Basis::on(
    "JWS16",
    Status::Read,
    "rusted steel nails held 1.47 times as hard as new ones across the rings and 1.56 along them, before decay took it down: a hard pull is no sign of a sound nail",
);

/// A span of years; the end is open where a rate goes down to nought.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Years {
    /// At the fast end of the rate.
    pub soonest: f64,
    /// At the slow end; `None` for no end.
    pub latest: Option<f64>,
}

impl Years {
    /// How long a thickness lasts that goes from one face. A rate without an upper end gives
    /// `None`: nothing can be said by it.
    fn of(least: Length, most: Length, rate: Rate) -> Option<Self> {
        (rate.high > 0.0).then(|| Self {
            soonest: least.mm() / rate.high,
            latest: (rate.low > 0.0).then(|| most.mm() / rate.low),
        })
    }

    /// The soonest and the latest of several forecasts; `None` of none.
    pub fn span(forecasts: &[Forecast]) -> Option<Self> {
        let years = forecasts.iter().map(|forecast| forecast.years);
        years.reduce(|one, other| Self {
            soonest: one.soonest.min(other.soonest),
            latest: one.latest.zip(other.latest).map(|(a, b)| a.max(b)),
        })
    }

    fn after(self, first: Self) -> Self {
        Self {
            soonest: first.soonest + self.soonest,
            latest: first.latest.zip(self.latest).map(|(a, b)| a + b),
        }
    }
}

/// In words, widened to whole years: `8 to 13 years`.
impl fmt::Display for Years {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let soonest = self.soonest.floor();
        match self.latest.map(f64::ceil) {
            None => write!(f, "{soonest} years or more"),
            Some(latest) => write!(f, "{soonest} to {latest} years"),
        }
    }
}

/// How long something lasts at one published rate.
#[derive(Clone, Debug, PartialEq)]
pub struct Forecast {
    /// What the rate is of.
    pub what: String,
    /// How long.
    pub years: Years,
    /// What it rests on: the rate, and of galvanised steel the coat and the zinc's rate before
    /// it. The years are derived from them.
    pub bases: Vec<&'static Basis>,
}

/// What forecasts rest on, in words: what is recalled of a publication is not told as read in it.
pub fn rests_on(forecasts: &[Forecast]) -> &'static str {
    let mut bases = forecasts.iter().flat_map(|forecast| &forecast.bases);
    if bases.any(|basis| basis.status == Status::Memory) {
        "by published rates, some from memory"
    } else {
        "by published rates"
    }
}

/// What metal in a zone is exposed to, where rates are published for it: under water and about the
/// waterline by the water; topsides and deck of a boat on salt water by sea air.
fn exposure(zone: Zone, salt: bool) -> Option<Exposure> {
    match (zone, salt) {
        (Zone::Underwater, true) => Some(Exposure::Sea),
        (Zone::WindAndWater, true) => Some(Exposure::Splash),
        (Zone::Underwater | Zone::WindAndWater, false) => Some(Exposure::Fresh),
        (Zone::Topsides | Zone::Deck, true) => Some(Exposure::Air),
        (Zone::Topsides | Zone::Deck, false) | (Zone::Inside, _) => None,
    }
}

/// The published rates of a metal in a zone of a boat on salt or fresh water, with what each is
/// of; of galvanised steel, the steel. Empty where none is published.
pub fn rates(metal: &Metal, zone: Zone, salt: bool) -> Vec<(String, Rate)> {
    exposure(zone, salt).map_or_else(Vec::new, |exposure| Rate::all(metal, exposure))
}

/// How long the least zinc on a hot-dip galvanised fastening lasts: the least of any specimen at
/// the fast end of the zinc's rate, to the least mean at the slow end. Derived: thickness / rate.
/// One a published rate of zinc; empty where none is, as in air.
pub fn zinc_life(kind: Kind, new: Length, zone: Zone, salt: bool) -> Vec<Forecast> {
    let is_nail_or_rivet = matches!(
        kind,
        Kind::BoatNail | Kind::AnnularNail | Kind::ClenchedNail | Kind::Rivet
    );
    let Some((zinc, coat)) = Metal::find("zinc")
        .ok()
        .zip(Coating::of(new, is_nail_or_rivet))
    else {
        return Vec::new();
    };
    let life = |(what, rate): (String, Rate)| {
        Some(Forecast {
            what: format!("class {} coat, {what}", coat.class),
            years: Years::of(coat.any_one, coat.average, rate)?,
            bases: vec![coat.basis, rate.basis],
        })
    };
    let rates = rates(zinc, zone, salt).into_iter();
    rates.filter_map(life).collect()
}

/// How long until a share of the new diameter has gone of metal that has no zinc left on it, once
/// for each published rate. A radial rate takes twice itself off the diameter. Empty where nothing
/// is published, and for what loses its zinc and keeps its diameter.
pub fn years_to_lose_bare(
    share: f64,
    metal: &Metal,
    new: Length,
    zone: Zone,
    salt: bool,
) -> Vec<Forecast> {
    if metal.dealloys {
        return Vec::new();
    }
    let each_side = new.part(share.clamp(0.0, 1.0) / 2.0);
    let bare = |(what, rate): (String, Rate)| {
        Some(Forecast {
            what,
            years: Years::of(each_side, each_side, rate)?,
            bases: vec![rate.basis],
        })
    };
    let rates = rates(metal, zone, salt).into_iter();
    rates.filter_map(bare).collect()
}

/// How long until a share of the diameter of a new fastening has gone, once for each published
/// rate. Of galvanised steel the zinc goes first and then the steel; where the zinc's rate is not
/// published, nothing is said. Empty where nothing is published.
pub fn years_to_lose(
    share: f64,
    metal: &Metal,
    kind: Kind,
    new: Length,
    zone: Zone,
    salt: bool,
) -> Vec<Forecast> {
    let bare = years_to_lose_bare(share, metal, new, zone, salt);
    if metal.coating.is_none() {
        return bare;
    }
    let zinc = zinc_life(kind, new, zone, salt);
    let both = bare.into_iter().flat_map(|steel| {
        zinc.iter().map(move |zinc| Forecast {
            what: format!("{}, then {}", zinc.what, steel.what),
            years: steel.years.after(zinc.years),
            bases: [zinc.bases.as_slice(), &steel.bases].concat(),
        })
    });
    both.collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const DUTIES: [Duty; 5] = [
        Duty::Pull,
        Duty::LagPull,
        Duty::Section,
        Duty::Bending,
        Duty::EurocodeBending,
    ];

    proptest! {
        /// Strength never rises with wastage, in any way of bearing, and never passes the new.
        #[test]
        fn strength_never_rises_with_wastage(
            new in 1..50_000_000_i64,
            one in 0..60_000_000_i64,
            other in 0..60_000_000_i64,
        ) {
            let left = |nm| Left::of(Length::from_nm(nm), Length::from_nm(new)).unwrap();
            let (thin, thick) = (left(one.min(other)), left(one.max(other)));
            for duty in DUTIES {
                prop_assert!(thin.share(duty) <= thick.share(duty));
                prop_assert!((0.0..=1.0).contains(&thick.share(duty)));
            }
        }

        /// The loss that keeps a share keeps it.
        #[test]
        fn a_loss_keeps_its_share(share in 0.0..=1.0_f64) {
            for duty in DUTIES {
                let left = Left(1.0 - duty.loss_keeping(share));
                prop_assert!((left.share(duty) - share).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn a_new_diameter_of_nothing_says_nothing() {
        let some = Length::from_64ths(8);
        assert_eq!(Left::of(some, Length::ZERO), None);
        assert_eq!(remains(None, false, some, Length::ZERO), None);
    }
}
