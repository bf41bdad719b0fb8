//! What goes into holes that stand open and of which nothing is planned: the pick's own choice for
//! the place, of the kind and metal that was last driven nearby in this refit.

use std::collections::BTreeMap;

use crate::hull::{CrossingId, Hull, Number, StrakeId};
use crate::joint::{Kind, Limits, Plug, Size, Timber};
use crate::pick::{self, Answer, Ask, Fixed, Ground};
use crate::record::{Book, Deed, Entry, FasteningId, State, What};
use crate::tables::{LeadHole, Metal, PlankRule, Series};
use crate::units::{Day, Length, Units};

/// What every question to the pick has in common.
#[derive(Clone, Debug)]
pub(super) struct Picking<'a> {
    pub(super) hull: &'a Hull,
    pub(super) limits: &'a Limits,
    pub(super) drills: Vec<Series>,
    pub(super) units: Units,
}

impl Picking<'_> {
    /// What is asked for a fastening of a kind and metal on some ground.
    fn ask(
        &self,
        ground: &Ground,
        kind: Kind,
        metal: Option<&'static Metal>,
        fixed: Fixed,
    ) -> Option<Ask> {
        Some(Ask {
            plank: ground.plank?,
            plank_wood: ground.plank_wood.map(Timber::Wood),
            on: ground.on,
            width: None,
            along: None,
            count: None,
            old: Vec::new(),
            member: ground.member,
            member_wood: ground.member_wood.map(Timber::Wood),
            grain: ground.grain,
            metal,
            bending_yield: None,
            zone: ground.zone,
            salt: self.hull.water.is_salt(),
            rule: PlankRule::default(),
            gauges: self.hull.gauges,
            kind,
            fixed,
            drills: self.drills.clone(),
            taper: false,
            lead_hole: LeadHole::default(),
            limits: self.limits.clone(),
            units: self.units,
        })
    }

    /// The pick's own choice, or why it has none.
    pub(super) fn choice(
        &self,
        ground: &Ground,
        kind: Kind,
        metal: Option<&'static Metal>,
    ) -> Result<Answer, String> {
        let ask = self.ask(ground, kind, metal, Fixed::default());
        let ask = ask.ok_or("the thickness of the plank is not known")?;
        pick::answer(&ask).map_err(told)
    }

    /// How a fastening that is settled sits there, and what is bored for it.
    pub(super) fn settled(
        &self,
        ground: &Ground,
        kind: Kind,
        metal: Option<&'static Metal>,
        size: Option<Size>,
        plug: Plug,
    ) -> Result<Answer, String> {
        let size = size.ok_or("its size is not settled")?;
        let (bung, bung_depth) = match plug {
            Plug::Bung(bung) => (Some(bung.diameter), bung.depth),
            Plug::None => (None, Some(Length::ZERO)),
            Plug::Unknown | Plug::Stopping => (None, None),
        };
        let fixed = Fixed {
            screw: match size {
                Size::Screw { screw, .. } => Some(screw),
                Size::Wire { .. } | Size::Plain { .. } => None,
            },
            size: Some(size),
            length: Some(size.length()),
            bung,
            bung_depth,
        };
        let ask = self.ask(ground, kind, metal, fixed);
        let ask = ask.ok_or("the thickness of the plank is not known")?;
        pick::answer(&ask).map_err(told)
    }
}

fn told(refusals: Vec<pick::Refusal>) -> String {
    let says = refusals.into_iter().map(|refusal| refusal.misread.says);
    says.collect::<Vec<_>>().join("; ")
}

/// The last thing driven on each strake within a year, and by which entry.
pub(super) struct Nearby<'b>(BTreeMap<StrakeId, (&'b Entry, FasteningId)>);

impl<'b> Nearby<'b> {
    pub(super) fn of(hull: &Hull, book: &'b Book, day: Day) -> Self {
        let mut last = BTreeMap::new();
        for (entry, fastening, crossings) in book.driven_entries() {
            let lasting = match &entry.what {
                What::Done {
                    deed: Deed::Driven(driving),
                    ..
                } => !driving.temporary,
                _ => false,
            };
            let of = book.fastening(fastening);
            let settled = of.metal.is_some() || !of.kind.is_metal();
            let recent = entry.date <= day && day.years_since(entry.date) == 0;
            if lasting && settled && recent {
                for id in crossings {
                    last.insert(hull.crossing(id).strake.id, (entry, fastening));
                }
            }
        }
        Self(last)
    }

    /// What was last driven on the strake of a crossing, else on one beside it.
    pub(super) fn to(&self, hull: &Hull, id: CrossingId) -> Option<(&'b Entry, FasteningId)> {
        let strake = hull.crossing(id).strake.id;
        let own = self.0.get(&strake).copied();
        own.or_else(|| {
            let beside = |other: &Number| strake.number.value().abs_diff(other.value()) <= 1;
            let beside = self
                .0
                .iter()
                .filter(|(id, _)| id.side == strake.side && beside(&id.number));
            beside
                .map(|(_, last)| *last)
                .max_by_key(|(entry, _)| (entry.date, entry.number))
        })
    }
}

/// What lies at a crossing.
pub(super) fn ground(hull: &Hull, state: &State, id: CrossingId) -> Option<Ground> {
    Ground::of(hull, state, &[id]).ok()
}
