//! What was typed to `pick`, read as a question.

use super::Pick;
use crate::cli::pick_words::{bung, known, per_crossing, screw, timber};
use crate::cli::typed::Reading;
use crate::hull::Water;
use crate::joint::spacing::Along;
use crate::joint::{Grain, Kind, Limits, Size, Timber, Zone};
use crate::pick::{Ask, Fixed, Ground, Spot};
use crate::tables::{GaugeSystem, LeadHole, Metal, PlankRule, Series};
use crate::text::{Fault, Misread};
use crate::units::{Day, Length, Units};

/// The widest plank or member that is taken.
const WIDEST: Length = Length::from_64ths(120 * 64);

/// What holds where nothing else is typed: the boat's own where a place was named.
pub(super) struct Asked {
    /// The day her record is read for, where that is not today.
    pub day: Option<Day>,
    pub ground: Option<Ground>,
    pub spot: Spot,
    pub salt: bool,
    pub gauges: GaugeSystem,
    pub limits: Limits,
    pub units: Units,
}

impl Default for Asked {
    fn default() -> Self {
        Self {
            day: None,
            ground: None,
            spot: Spot::default(),
            salt: true,
            gauges: GaugeSystem::default(),
            limits: Limits::default(),
            units: Units::default(),
        }
    }
}

impl Pick {
    /// What was typed, as a question; or everything that cannot be read. What was not typed is
    /// the boat's own, where a place was named.
    pub(super) fn ask(&self, asked: Asked) -> Result<Ask, Vec<Fault>> {
        let mut reading = Reading::default();
        let ground = asked.ground;
        let plank = reading
            .option::<Length>("--plank", self.plank.as_ref())
            .or(ground.and_then(|ground| ground.plank));
        if self.plank.is_none() && plank.is_none() {
            reading.slip(
                "--plank",
                Misread::new("the thickness of the plank is missing")
                    .help("measure it and give it with its unit: --plank 7/8in"),
            );
        }
        let plank_wood = timber(
            &mut reading,
            ("--plank-wood", self.plank_wood.as_ref()),
            ("--plank-sg", self.plank_sg.as_ref()),
        );
        let member_wood = timber(
            &mut reading,
            ("--frame-wood", self.frame_wood.as_ref()),
            ("--frame-sg", self.frame_sg.as_ref()),
        );
        let plank_wood = plank_wood.or(ground
            .and_then(|ground| ground.plank_wood)
            .map(Timber::Wood));
        let member_wood = member_wood.or(ground
            .and_then(|ground| ground.member_wood)
            .map(Timber::Wood));
        let member = reading
            .option("--frame", known(self.frame.as_ref()))
            .or(ground
                .filter(|_| self.frame.is_none())
                .and_then(|ground| ground.member));
        let metal = reading.with("--metal", known(self.metal.as_ref()), Metal::find);
        let bending_yield = reading.option("--bending-yield", self.bending_yield.as_ref());
        let zone = reading.option::<Zone>("--zone", self.zone.as_ref());
        let water = reading.option::<Water>("--water", self.water.as_ref());
        let grain = reading.option::<Grain>("--grain", self.grain.as_ref());
        let rule = reading.with("--rule", self.rule.as_ref(), PlankRule::find);
        let gauges = reading
            .option::<GaugeSystem>("--gauges", self.gauges.as_ref())
            .unwrap_or(asked.gauges);
        let screw = reading.with("--gauge", self.gauge.as_ref(), |typed| screw(gauges, typed));
        let kind = reading
            .option::<Kind>("--kind", self.kind.as_ref())
            .unwrap_or(Kind::WoodScrew);
        let (size, long) = self.size(&mut reading, kind, gauges);
        let length = reading.option("--length", self.length.as_ref());
        if let (Some(_), Some(_)) = (length, long) {
            reading.slip(
                "--length",
                Misread::new("given beside a --size that has a length")
                    .help("give the length once"),
            );
        }
        let fixed = Fixed {
            screw: match size {
                Some(Size::Screw { screw, .. }) => Some(screw),
                _ => screw,
            },
            size,
            length: length.or(long),
            bung: reading.with("--bung", self.bung.as_ref(), bung),
            bung_depth: reading.option("--bung-depth", self.bung_depth.as_ref()),
        };
        let drills: Vec<Series> = self
            .drills
            .iter()
            .filter_map(|typed| reading.option("--drills", Some(typed)))
            .collect();
        let lead_hole = reading.with("--lead-holes", self.lead_holes.as_ref(), LeadHole::find);
        let siding = reading.option::<Length>("--siding", self.siding.as_ref());
        let width = reading.option::<Length>("--plank-width", self.plank_width.as_ref());
        let count = reading.with("--per-crossing", self.per_crossing.as_ref(), per_crossing);
        for (option, length) in [("--siding", siding), ("--plank-width", width)] {
            if length.is_some_and(|length| !(Length::ZERO < length && length <= WIDEST)) {
                reading.slip(
                    option,
                    Misread::new("a width that is not to be believed")
                        .help("more than nothing, and 10 ft at most"),
                );
            }
        }
        let spot = asked.spot;
        let ask = plank.map(|plank| Ask {
            kind,
            width: width.or(spot.width),
            along: siding.map(Along::Sided).or(spot.along),
            count: count.or(spot.count),
            old: spot.old,
            plank,
            plank_wood,
            on: ground.map_or("frame", |ground| ground.on),
            member,
            member_wood,
            grain: grain
                .or(ground.map(|ground| ground.grain))
                .unwrap_or_default(),
            metal,
            bending_yield,
            zone: zone
                .or(ground.map(|ground| ground.zone))
                .unwrap_or(Zone::Underwater),
            salt: water.map_or(asked.salt, Water::is_salt),
            rule: rule.unwrap_or_else(PlankRule::default),
            gauges,
            fixed,
            drills,
            taper: self.taper,
            lead_hole: lead_hole.unwrap_or_else(LeadHole::default),
            limits: asked.limits,
            units: asked.units,
        });
        reading.done(ask)
    }

    /// The size of the kind that was asked for, and its length where that was written with it.
    fn size(
        &self,
        reading: &mut Reading,
        kind: Kind,
        gauges: GaugeSystem,
    ) -> (Option<Size>, Option<Length>) {
        /// Stands for the length of a size that is written without one.
        const ANY: &str = "12in";
        let typed = self.size.as_ref();
        if self.gauge.is_some() && (typed.is_some() || kind != Kind::WoodScrew) {
            reading.slip(
                "--gauge",
                Misread::new("a gauge goes with wood screws alone, and not beside --size")
                    .help(format!("give --size in its place: {}", kind.size_form())),
            );
        }
        let has_length = typed.is_some_and(|typed| typed.contains(['x', 'X', '×']));
        let size = reading.with("--size", typed, |typed| match has_length {
            true => Size::read(kind, typed, gauges),
            false => Size::read(kind, &format!("{typed} x {ANY}"), gauges),
        });
        let length = size.filter(|_| has_length).map(Size::length);
        (size, length)
    }
}
