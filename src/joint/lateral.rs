//! What one fastening bears sideways, by the building standard, with what must be said of it.

use super::dowel::{Dowel, dowel_bearing};
use super::yield_limit::{Bearing, LARGE, Mode, Modes, Reduction, Shear};
use super::{Grain, Kind, Seat, Timber, Zone, withdrawal};
use crate::units::{Force, Length};

/// Share of the dry value that is left in wet service, wood moisture over 19 %: NDS-2018 Table
/// 11.3.3 (public transcription).
const WET_FACTOR: f64 = 0.7;

/// Share of the side-grain value that is left in the end grain of the member: NDS-2018 12.5.2.2
/// (public transcription).
const END_GRAIN_FACTOR: f64 = 0.67;

/// Which way the plank is pushed past the member.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Push {
    /// Along the plank, so across the member's grain: strakes sliding past each other as the hull
    /// works, which is what fastenings are there to stop. The standard's case of load along the
    /// side member's grain and across the main member's.
    #[default]
    AlongPlank,
    /// Across the plank, so along the member's grain: caulking driven in, planking taking up. The
    /// standard's case of load across the side member's grain and along the main member's.
    AcrossPlank,
}

impl Push {
    /// Degrees between the load and the grain of plank and member, which lie square to each other.
    /// In end grain the load is across the member's fibres whichever way it goes.
    const fn degrees(self, grain: Grain) -> (f64, f64) {
        match (self, grain) {
            (Self::AlongPlank, _) => (0.0, 90.0),
            (Self::AcrossPlank, Grain::Side) => (90.0, 0.0),
            (Self::AcrossPlank, Grain::End) => (90.0, 90.0),
        }
    }
}

/// What a fastening is driven through and into.
#[derive(Clone, Copy, Debug)]
pub struct Woods {
    /// The plank's wood, where it is known.
    pub plank: Option<Timber>,
    /// The member's wood, where it is known.
    pub member: Option<Timber>,
    /// How the member's grain lies to the fastening.
    pub grain: Grain,
    /// How wet it is.
    pub zone: Zone,
    /// Which way it is pushed.
    pub push: Push,
}

/// What a fastening bears sideways.
#[derive(Clone, Debug, Default)]
pub struct Lateral {
    /// What it bears in each mode, for wet service and end grain already; the least is the design
    /// value. `None` where something needed is not known or not published.
    pub modes: Option<Modes>,
    /// Whether the standard gives a value for this fastening in these woods.
    pub valid: bool,
    /// What must be known to read the figures.
    pub notes: Vec<String>,
}

impl Lateral {
    /// No figure, and why.
    pub fn none(why: impl Into<String>) -> Self {
        Self {
            notes: vec![why.into()],
            ..Self::default()
        }
    }

    /// The design value and the mode that gives it.
    pub fn governing(&self) -> Option<(Mode, Force)> {
        self.modes.map(|modes| modes.governing())
    }
}

/// What a fastening bears sideways in its seat.
///
/// [`Shear`] with the dowel's diameter; dowel bearing and the limits by the nominal one. The plank
/// bears with what is left of it under the head, *t − c*; the member with *p − E*/2, half the tip
/// off (NDS-2018 12.3.5.3, public transcription), and never with more than it is deep. Load
/// duration 1.0. Where too little is in the member the value is worked all the same, and not
/// valid. A wood denser than the standard's range is worked with the top of the range, and not
/// valid; a lighter one has no value.
pub fn lateral(dowel: &Dowel, seat: &Seat, woods: &Woods) -> Lateral {
    let mut notes = Vec::new();
    let mut valid = true;
    let mut gravity = |what: &str, wood: Option<Timber>| {
        let Some(wood) = wood else {
            notes.push(format!(
                "the {what}'s wood is not known, so no sideways strength is worked"
            ));
            return None;
        };
        let is = wood.oven_dry().value;
        let (least, most) = (*withdrawal::GRAVITIES.start(), *withdrawal::GRAVITIES.end());
        if is < least {
            notes.push(format!(
                "the {what}'s specific gravity {is:.2} is under the standard's {least}: no sideways strength"
            ));
            return None;
        }
        if is > most {
            valid = false;
            notes.push(format!(
                "sideways, the {what}'s specific gravity {is:.2} is over the standard's {most}: worked with {most}"
            ));
        }
        Some(is.min(most))
    };
    let plank = gravity("plank", woods.plank);
    let member = gravity("frame", woods.member);
    let (Some(plank), Some(member)) = (plank, member) else {
        return Lateral {
            notes,
            ..Lateral::default()
        };
    };
    let nominal = dowel.nominal;
    let (plank_degrees, member_degrees) = woods.push.degrees(woods.grain);
    let in_plank = seat.wood_under_head();
    let past_tip = seat.embedment() - dowel.tip().share(1, 2);
    let in_member = seat.member.map_or(past_tip, |depth| past_tip.min(depth));
    let reduction = Reduction::of(nominal, dowel.diameter, plank_degrees.max(member_degrees));
    let (Some(reduction), true) = (reduction, in_plank.min(in_member) > Length::ZERO) else {
        notes.push("too little of it is in the wood to bear sideways".to_owned());
        return Lateral {
            notes,
            ..Lateral::default()
        };
    };
    let shear = Shear {
        diameter: dowel.diameter,
        member: Bearing {
            length: in_member,
            strength: dowel_bearing(member, nominal, member_degrees),
        },
        plank: Bearing {
            length: in_plank,
            strength: dowel_bearing(plank, nominal, plank_degrees),
        },
        bending_yield: dowel.bending_yield,
        reduction,
    };
    let mut factor = 1.0;
    if woods.zone.is_wet() {
        factor *= WET_FACTOR;
    }
    if woods.grain == Grain::End {
        factor *= END_GRAIN_FACTOR;
        notes.push("sideways in end grain: 0.67 of side grain".to_owned());
    }
    if !dowel.is_deep_enough(seat.embedment()) {
        valid = false;
        let least = match dowel.kind {
            Kind::LagScrew => "4 diameters without the tip",
            _ => "6 diameters",
        };
        notes.push(format!(
            "sideways strength is worked with what is in the frame, though under {least} the standard gives none"
        ));
    }
    if nominal >= LARGE {
        let way = match woods.push {
            Push::AlongPlank => "along the plank and across the frame's grain",
            Push::AcrossPlank => "across the plank and along the frame",
        };
        notes.push(format!("from 1/4 in up the grain counts: pushed {way}"));
    }
    Lateral {
        modes: Some(shear.modes(factor)),
        valid,
        notes,
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::tables::{GaugeSystem, Screw};
    use crate::units::Stress;

    fn seat(plank: i64, length: i64, member: Option<i64>) -> Seat {
        let length = Length::from_64ths(length);
        Seat {
            plank: Length::from_64ths(plank),
            head_depth: Length::from_64ths(plank / 4),
            length,
            member: member.map(Length::from_64ths),
            head_height: None,
            thread: length.share(2, 3),
        }
    }

    fn woods(plank: f64, member: f64) -> Woods {
        Woods {
            plank: Some(Timber::Gravity(plank)),
            member: Some(Timber::Gravity(member)),
            grain: Grain::Side,
            zone: Zone::Inside,
            push: Push::AlongPlank,
        }
    }

    fn newtons(lateral: &Lateral) -> Option<f64> {
        Some(lateral.governing()?.1.newtons())
    }

    const BENDS: Stress = Stress::from_psi(46_000.0);

    proptest! {
        /// More in the member, denser wood on either side: never less; the design value is the
        /// least of the modes; wet or in end grain never more.
        #[test]
        fn more_never_bears_less(
            gauge in prop::sample::select(vec![6_u8, 8, 9, 10, 12, 14, 16, 18, 20, 24]),
            plank in 24..130_i64,
            beyond in 20..200_i64,
            more in 0..60_i64,
            plank_gravity in 0.31..0.9_f64,
            member_gravity in 0.31..0.9_f64,
            denser in 0.0..0.3_f64,
            push in prop::sample::select(vec![Push::AlongPlank, Push::AcrossPlank]),
        ) {
            let screw = Screw::by_gauge(GaugeSystem::American, gauge).unwrap();
            let bears = |length, woods: Woods| {
                let dowel = Dowel::screw(screw, BENDS).unwrap();
                lateral(&dowel, &seat(plank, length, None), &Woods { push, ..woods })
            };
            let first = bears(plank + beyond, woods(plank_gravity, member_gravity));
            let Some(least) = newtons(&first) else {
                prop_assert!(first.modes.is_none() && !first.valid);
                return Ok(());
            };
            let modes = first.modes.unwrap();
            for mode in Mode::ALL {
                prop_assert!(modes.of(mode).newtons() >= least);
            }
            // Rounding of the last bits only.
            let at_least = |other: Lateral| newtons(&other).unwrap() >= least * (1.0 - 1e-12);
            let same = woods(plank_gravity, member_gravity);
            prop_assert!(at_least(bears(plank + beyond + more, same)));
            prop_assert!(at_least(bears(plank + beyond, woods(plank_gravity + denser, member_gravity))));
            prop_assert!(at_least(bears(plank + beyond, woods(plank_gravity, member_gravity + denser))));
            let wet = bears(plank + beyond, Woods { zone: Zone::Deck, ..same });
            prop_assert!((newtons(&wet).unwrap() - 0.7 * least).abs() < 1e-9 * least);
            let end = bears(plank + beyond, Woods { grain: Grain::End, ..same });
            prop_assert!(newtons(&end).unwrap() <= 0.67 * least * (1.0 + 1e-12) || gauge >= 16);
        }
    }
}
