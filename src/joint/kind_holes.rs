//! The holes that nails, rivets, bolts and the rest want. The published rules differ; the one that
//! was taken comes first among the choices.

use super::{Bit, Hole, Holes, Kind, Plug, Seat, Size, Timber};
use crate::tables::{Drill, Family, Metal, Series, WireSystem, thinner_wire};
use crate::units::Length;

const THIRTY_SECOND: Length = Length::from_64ths(2);

/// What is to be bored for.
#[derive(Clone, Copy, Debug)]
pub struct Borer<'a> {
    /// The kind; a wood screw has its own way, [`super::bore`].
    pub kind: Kind,
    /// Its size.
    pub size: Size,
    /// Its diameter.
    pub diameter: Length,
    /// Its metal.
    pub metal: Option<&'a Metal>,
    /// The member's wood.
    pub member: Option<Timber>,
    /// The sets of straight drills at hand.
    pub drills: &'a [Series],
}

impl Borer<'_> {
    /// The holes of a fastening in its seat.
    pub fn holes(&self, seat: &Seat, plug: &Plug) -> Holes {
        let counterbore = match plug {
            Plug::Bung(bung) => Some(Hole {
                exact: bung.diameter,
                bit: Some(Bit::Counterbore(bung.diameter)),
                depth: seat.head_depth,
            }),
            Plug::Unknown | Plug::None | Plug::Stopping => None,
        };
        let holes = match self.kind {
            Kind::BoatNail => self.boat_nail(seat),
            Kind::AnnularNail => self.nail(seat.point()),
            Kind::ClenchedNail | Kind::Rivet => self.one_size_under(through(seat)),
            Kind::Bolt => self.bolt(through(seat)),
            Kind::Drift => self.drift(seat.point()),
            Kind::Trunnel => self.trunnel(through(seat)),
            Kind::LagScrew => self.lag_screw(seat),
            Kind::WoodScrew => Holes::default(),
        };
        Holes {
            counterbore,
            ..holes
        }
    }

    fn nearest(&self, exact: Length, depth: Length) -> Hole {
        let bit = Drill::nearest(self.drills, exact).map(Bit::Drill);
        Hole { exact, bit, depth }
    }

    fn at_most(&self, exact: Length, depth: Length) -> Hole {
        let bit = Drill::at_most(self.drills, exact).map(Bit::Drill);
        Hole { exact, bit, depth }
    }

    /// Specific gravity of the member on oven-dry weight and volume.
    fn gravity(&self) -> Option<f64> {
        self.member.map(|wood| wood.oven_dry().value)
    }

    /// A nail's hole by the building standard: at most 90 % of the nail in dense wood, 75 % in
    /// other, and where the wood is not known (NDS-2018 12.1.6.2, public transcription; that dense
    /// begins over 0.6 is from memory).
    fn nail(&self, depth: Length) -> Holes {
        let dense = self.gravity().is_some_and(|gravity| gravity > 0.6);
        let percent = if dense { 90 } else { 75 };
        Holes {
            pilot: Some(self.at_most(self.diameter.share(percent, 100), depth)),
            choices: vec![
                format!(
                    "at most {percent} % of the nail: NDS-2018 12.1.6.2, 90 % in dense wood, 75 % in other (public transcription; that dense is over 0.6 is from memory)"
                ),
                "about 3/4 of the nail: NVIC 7-95 3-G (from memory, low confidence)".to_owned(),
            ],
            ..Holes::default()
        }
    }

    /// The two-step hole of a square nail: just under the shank through the plank, and in the frame
    /// as wide as the point the small way, the whole length, since the frame is what holds it.
    fn boat_nail(&self, seat: &Seat) -> Holes {
        let mut holes = self.nail(seat.point());
        let under = self.diameter - Length::from_nm(1);
        holes.shank = Some(Hole {
            exact: self.diameter,
            ..self.at_most(under, seat.plank)
        });
        holes.choices.insert(0, "two steps: through the plank just under the shank; in the frame as wide as the point the small way, the whole depth of the nail: Virginia canals society, nailing notes (read). Measure the point: the frame's hole given here is the most the standard allows".to_owned());
        holes
    }

    /// A copper nail's hole: one wire size under the nail, all the way. Others, and sizes that the
    /// table of wires does not have, are bored like nails.
    fn one_size_under(&self, depth: Length) -> Holes {
        let mut holes = self.nail(depth);
        let copper = self
            .metal
            .is_none_or(|metal| metal.family == Family::Copper);
        let thinner = match self.size {
            Size::Wire { system, number, .. } if copper => thinner_wire(system, number),
            _ => None,
        };
        let Some((number, diameter, system)) = thinner else {
            holes.choices.push(
                "copper nails of a wire gauge: one size under the nail: a boat-repair site (read)"
                    .to_owned(),
            );
            return holes;
        };
        holes.pilot = Some(self.nearest(diameter, depth));
        let gauge = match system {
            WireSystem::Swg => "SWG",
            WireSystem::Bwg => "BWG",
        };
        holes.choices.insert(
            0,
            format!(
                "one size under the nail: a boat-repair site (read); the next of the table is {number} {gauge} (wire gauges from memory)"
            ),
        );
        holes
    }

    /// A bolt's hole: 1/32 to 1/16 in over (NDS-2018, public transcription).
    fn bolt(&self, depth: Length) -> Holes {
        let (exact, most) = (
            self.diameter + THIRTY_SECOND,
            self.diameter + THIRTY_SECOND * 2,
        );
        let bit = Drill::at_least(self.drills, exact)
            .filter(|drill| drill.diameter <= most)
            .map(Bit::Drill);
        Holes {
            shank: Some(Hole { exact, bit, depth }),
            choices: vec!["1/32 to 1/16 in over the bolt: NDS-2018 (public transcription); the tighter is taken".to_owned()],
            ..Holes::default()
        }
    }

    /// A drift's hole. Three published ways; 1/16 in under is common to two of them.
    fn drift(&self, depth: Length) -> Holes {
        let exact = self.diameter - THIRTY_SECOND * 2;
        Holes {
            pilot: (exact > Length::ZERO).then(|| self.nearest(exact, depth)),
            choices: [
                "1/16 in under the drift: Estep, of a 1 in drift (read)",
                "1/32 to 1/16 in under: NVIC 7-95 3-H (from memory, medium confidence)",
                "1/8 in under: Wood Handbook p. 8-10 (read)",
            ]
            .map(str::to_owned)
            .to_vec(),
            ..Holes::default()
        }
    }

    fn trunnel(&self, depth: Length) -> Holes {
        Holes {
            shank: Some(self.nearest(self.diameter, depth)),
            choices: vec!["the trunnel's own size: common practice, no source".to_owned()],
            ..Holes::default()
        }
    }

    /// A lag screw's holes: its own diameter through the plank; for the thread 65 to 85 %, 60 to 75
    /// % or 40 to 70 % of the diameter by the member's specific gravity over 0.6, over 0.5, and to
    /// 0.5, of which the middle is taken (NDS-2018 12.1.4.2, public transcription).
    fn lag_screw(&self, seat: &Seat) -> Holes {
        let (exact, bit) = (self.diameter, Drill::at_least(self.drills, self.diameter));
        let mut holes = Holes {
            shank: Some(Hole {
                exact,
                bit: bit.map(Bit::Drill),
                depth: seat.plank,
            }),
            ..Holes::default()
        };
        let Some(gravity) = self.gravity() else {
            return holes;
        };
        let (least, most) = match gravity {
            gravity if gravity > 0.6 => (65, 85),
            gravity if gravity > 0.5 => (60, 75),
            _ => (40, 70),
        };
        let middle = self.diameter.share(least + most, 200);
        holes.pilot = Some(self.nearest(middle, seat.point()));
        holes.choices.push(format!(
            "{least} to {most} % of the screw for its thread in wood of this specific gravity: NDS-2018 12.1.4.2 (public transcription); the middle is taken"
        ));
        if gravity <= 0.5 && self.diameter <= Length::from_64ths(24) {
            holes.choices.push("to 3/8 in, none is called for in withdrawal in wood of this specific gravity: NDS-2018 12.1.4.2 (public transcription)".to_owned());
        }
        holes
    }
}

/// The depth of a hole right through plank and member; to the point where the member's depth is
/// not known.
fn through(seat: &Seat) -> Length {
    seat.member
        .map_or(seat.point(), |member| seat.plank + member)
}
