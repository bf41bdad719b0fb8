//! What is asked: a plank, a member, and what of the answer is already fixed.

use crate::joint::spacing::Along;
use crate::joint::{Grain, Kind, Limits, Size, Timber, Zone, bung};
use crate::tables::{GaugeSystem, LeadHole, Metal, PlankRule, Screw, Series};
use crate::text::Misread;
use crate::units::{Length, Stress, Units};

/// A question to pick, with every value readable but none yet weighed against another.
#[derive(Clone, Debug)]
pub struct Ask {
    /// Thickness of the plank.
    pub plank: Length,
    /// Wood of the plank, where it is known.
    pub plank_wood: Option<Timber>,
    /// What the plank lies on, as it is called: `frame`, `stem`, `butt block`.
    pub on: &'static str,
    /// Width of the plank, where it is known.
    pub width: Option<Length>,
    /// What the crossing has along the plank, where it is known.
    pub along: Option<Along>,
    /// How many are to go in at the crossing, where it is settled.
    pub count: Option<u8>,
    /// Diameters of the holes that are there already; the new one's where it is not known.
    pub old: Vec<Option<Length>>,
    /// Depth of the member in the line of the screw, where it is known.
    pub member: Option<Length>,
    /// Wood of the member, where it is known.
    pub member_wood: Option<Timber>,
    /// How the member's grain lies to the screw.
    pub grain: Grain,
    /// Metal of the screw, where it is settled.
    pub metal: Option<&'static Metal>,
    /// Bending yield strength of the screw, in place of the table's for its metal.
    pub bending_yield: Option<Stress>,
    /// How wet it is there.
    pub zone: Zone,
    /// Whether she floats in salt or brackish water.
    pub salt: bool,
    /// The planking rule that is followed.
    pub rule: &'static PlankRule,
    /// The gauges to choose among.
    pub gauges: GaugeSystem,
    /// The kind of fastening.
    pub kind: Kind,
    /// What of the answer is fixed beforehand.
    pub fixed: Fixed,
    /// The sets of drills at hand.
    pub drills: Vec<Series>,
    /// Whether taper bits made for each gauge are at hand.
    pub taper: bool,
    /// The rule for lead holes.
    pub lead_hole: &'static LeadHole,
    /// The limits to weigh by.
    pub limits: Limits,
    /// Units of the sentences in the answer.
    pub units: Units,
}

/// What of the answer is fixed beforehand; the rest is worked out.
#[derive(Clone, Copy, Debug, Default)]
pub struct Fixed {
    /// The screw.
    pub screw: Option<&'static Screw>,
    /// The size of any other kind; its length counts only where [`Fixed::length`] has it too.
    pub size: Option<Size>,
    /// Its length.
    pub length: Option<Length>,
    /// Diameter of the bung.
    pub bung: Option<Length>,
    /// Depth of the bung; nothing for a head that lies flush.
    pub bung_depth: Option<Length>,
}

/// One value that makes no sense, by the name of its option.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refusal {
    /// The option, without its dashes.
    pub option: &'static str,
    /// What is wrong with it.
    pub misread: Misread,
}

const THICKEST_PLANK: Length = Length::from_64ths(6 * 64);
const DEEPEST_MEMBER: Length = Length::from_64ths(48 * 64);
const LONGEST_SCREW: Length = Length::from_64ths(12 * 64);
const LONGEST_OTHER: Length = Length::from_64ths(60 * 64);

impl Ask {
    /// Everything in the question that makes no sense; empty where it all does.
    pub(super) fn refusals(&self) -> Vec<Refusal> {
        let mut refusals = Vec::new();
        let mut refuse = |option, misread| refusals.push(Refusal { option, misread });
        let shown = |length: Length| length.shown(self.units);
        let within = |what: &str, length: Length, most: Length| -> Option<Misread> {
            if length <= Length::ZERO {
                Some(
                    Misread::new(format!("{what} of no size at all"))
                        .help("measure it and give it with its unit: 7/8in or 22mm"),
                )
            } else if length > most {
                Some(
                    Misread::new(format!("{what} of {} is not to be believed", shown(length)))
                        .help(format!("at most {} is taken", shown(most))),
                )
            } else {
                None
            }
        };
        let plank = within("a plank", self.plank, THICKEST_PLANK);
        let sane_plank = plank.is_none();
        if let Some(misread) = plank {
            refuse("plank", misread);
        }
        if let Some(misread) = self
            .member
            .and_then(|member| within(&format!("a {}", self.on), member, DEEPEST_MEMBER))
        {
            refuse("frame", misread);
        }
        for (option, wood) in [
            ("plank-sg", self.plank_wood),
            ("frame-sg", self.member_wood),
        ] {
            if let Some(Timber::Gravity(gravity)) = wood
                && !(0.1..=1.4).contains(&gravity)
            {
                refuse(
                    option,
                    Misread::new(format!("no wood has a specific gravity of {gravity}")).help(
                        "oven-dry wood lies between 0.1 and 1.4: white oak 0.73, Douglas-fir 0.50",
                    ),
                );
            }
        }
        let screw_length = self
            .fixed
            .length
            .map(|length| (length, within(&self.kind.one(), length, self.longest())));
        if let Some((_, Some(misread))) = &screw_length {
            refuse("length", misread.clone());
        }
        let depth = self.fixed.bung_depth;
        let mut sane_depth = true;
        if let Some(depth) = depth
            && sane_plank
            && depth >= self.plank
        {
            sane_depth = false;
            refuse(
                "bung-depth",
                Misread::new(format!(
                    "a bung {} deep goes right through a plank of {}",
                    shown(depth),
                    shown(self.plank)
                ))
                .help(format!(
                    "a quarter of the plank is usual: {}",
                    shown(bung::usual_depth(self.plank, &self.limits))
                )),
            );
        }
        if let Some(diameter) = self.fixed.bung {
            if let Some(misread) = within("a bung", diameter, Length::from_64ths(3 * 64)) {
                refuse("bung", misread);
            } else if depth == Some(Length::ZERO) {
                refuse(
                    "bung",
                    Misread::new("a bung of no depth is no bung")
                        .help("give --bung-depth 0in alone for a head that lies flush"),
                );
            }
        }
        if let Some((length, None)) = screw_length
            && sane_plank
            && sane_depth
            && self.head_depth() + length <= self.plank
        {
            refuse(
                "length",
                Misread::new(format!(
                    "{} of {} does not reach the {}",
                    self.kind.one(),
                    shown(length),
                    self.on
                ))
                .help(format!(
                    "with its head {} under the face it must be longer than {}",
                    shown(self.head_depth()),
                    shown(self.plank - self.head_depth())
                )),
            );
        }
        refusals
    }

    /// How far the head lies below the plank's face.
    pub(super) fn head_depth(&self) -> Length {
        match self.fixed.bung_depth {
            Some(depth) => depth,
            None if self.is_bunged() => bung::usual_depth(self.plank, &self.limits),
            // It is cut off flush.
            None if self.kind == Kind::Trunnel => Length::ZERO,
            None => bung::stopping_depth(&self.limits),
        }
    }

    fn longest(&self) -> Length {
        match self.kind {
            Kind::WoodScrew => LONGEST_SCREW,
            _ => LONGEST_OTHER,
        }
    }

    /// Whether a bung covers the head: where one is asked for, and over screws and bolts in planking
    /// thick enough. Nails, rivets and drifts are stopped.
    pub(super) fn is_bunged(&self) -> bool {
        match self.fixed.bung_depth {
            Some(depth) => depth > Length::ZERO,
            None => {
                let turned = matches!(self.kind, Kind::WoodScrew | Kind::LagScrew | Kind::Bolt);
                self.fixed.bung.is_some() || turned && bung::is_bunged(self.plank, &self.limits)
            }
        }
    }
}
