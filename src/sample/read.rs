//! What those drawn say: a bound for each zone and metal from those drawn by lot, and beside it,
//! never mixed in, what was found where somebody looked for it.

use std::collections::{BTreeMap, BTreeSet};

use super::Draw;
use super::drawn::{At, Drawn, Stratum, drawn};
use crate::audit::Survey;
use crate::joint::Zone;
use crate::record::{Content, FasteningId, Hole, PlankSide, Sample};
use crate::tables::Metal;
use crate::units::{Day, count};

/// What the samples say, and what is left to close after them.
#[derive(Clone, Debug)]
pub struct Reading {
    /// Each zone and metal, the wettest first.
    pub groups: Vec<Group>,
    /// Holes from which one was drawn for a sample, and which still stand open in the plank.
    pub still_open: Vec<At>,
}

/// One metal in one zone.
#[derive(Clone, Debug)]
pub struct Group {
    /// How wet.
    pub zone: Zone,
    /// The metal; `None` where it is not known.
    pub metal: Option<&'static Metal>,
    /// The first day one was drawn by lot; `None` where none was.
    pub first: Option<Day>,
    /// The lot, those drawn of it by lot of which something is told, and the bad ones. The lot is
    /// what was relied on on the eve of that first day; where none was drawn, what is relied on
    /// now.
    pub draw: Draw,
    /// Drawn by lot with nothing told of how they were. They count neither good nor bad.
    pub untold: u32,
    /// Drawn by lot that were not of the lot: not relied on then, or driven since.
    pub outside: u32,
    /// Of the lot, but gone for another reason before the last was drawn by lot.
    pub otherwise: u32,
    /// Drawn where somebody looked for bad ones.
    pub targeted: Aimed,
    /// Of the lot, and relied on still.
    pub standing: Vec<At>,
}

/// What was drawn where somebody looked for bad ones. It speaks for itself and no other.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Aimed {
    /// How many.
    pub pulled: u32,
    /// How many of them were bad.
    pub bad: u32,
}

impl Group {
    /// The metal's name.
    pub fn metal_name(&self) -> &'static str {
        self.metal.map_or("unknown metal", |metal| metal.name)
    }
}

/// Reads the samples of a boat, those since a day if one is given: an old sample says nothing of
/// what has wasted since.
pub fn read(survey: &Survey<'_>, since: Option<Day>) -> Reading {
    let drawn = drawn(survey, since);
    let mut strata: BTreeMap<_, (Stratum, Vec<At>)> = BTreeMap::new();
    for at in survey.crossings() {
        for (number, hole) in survey.state.numbered(at.crossing.id) {
            if hole.is_relied_on() {
                let stratum = Stratum::of(survey, at.crossing.id, hole.fastening);
                let (_, standing) = strata
                    .entry(stratum.key())
                    .or_insert_with(|| (stratum, Vec::new()));
                standing.push((at.crossing.id, number));
            }
        }
    }
    for one in &drawn {
        let stratum = Stratum::of(survey, one.at.0, one.fastening);
        strata
            .entry(stratum.key())
            .or_insert_with(|| (stratum, Vec::new()));
    }
    let groups = strata
        .into_values()
        .map(|(stratum, standing)| {
            let of_it =
                |one: &&Drawn| Stratum::of(survey, one.at.0, one.fastening).key() == stratum.key();
            let of_it: Vec<&Drawn> = drawn.iter().filter(of_it).collect();
            group(survey, stratum, &of_it, standing)
        })
        .collect();
    Reading {
        groups,
        still_open: still_open(survey, &drawn),
    }
}

fn group(survey: &Survey<'_>, stratum: Stratum, drawn: &[&Drawn], standing: Vec<At>) -> Group {
    let of = |sample: Sample| drawn.iter().filter(move |one| one.sample == sample);
    let targeted = of(Sample::Targeted).fold(Aimed::default(), |aimed, one| Aimed {
        pulled: aimed.pulled + 1,
        bad: aimed.bad + u32::from(one.is_bad()),
    });
    let days = || of(Sample::Random).map(|one| one.day);
    let mut group = Group {
        zone: stratum.zone,
        metal: stratum.metal,
        first: days().min(),
        draw: Draw::of(standing.len()),
        untold: 0,
        outside: 0,
        otherwise: 0,
        targeted,
        standing,
    };
    let (Some(first), Some(last)) = (days().min(), days().max()) else {
        return group;
    };
    let lot = Lot::on_eve(survey, stratum, first.eve(), last);
    group.draw = Draw::of(lot.members.len());
    let mut by_lot = BTreeSet::new();
    for one in of(Sample::Random) {
        if lot.members.get(&one.at) != Some(&one.fastening) {
            group.outside += 1;
            continue;
        }
        by_lot.insert(one.at);
        if one.is_told() {
            group.draw = group.draw.and_one(one.is_bad());
        } else {
            group.untold += 1;
        }
    }
    group.otherwise = count(lot.gone.difference(&by_lot).count());
    group.standing.retain(|(crossing, number)| {
        let hole = survey.state.holes(*crossing).get(number.index());
        hole.is_some_and(|hole| lot.members.get(&(*crossing, *number)) == Some(&hole.fastening))
    });
    group
}

/// What was relied on on a day, before any of it was drawn.
struct Lot {
    members: BTreeMap<At, FasteningId>,
    /// Of these, what did not stand there any more on the day the last was drawn.
    gone: BTreeSet<At>,
}

impl Lot {
    /// Takes the state of the last day, when every set that the sample touches is known to be
    /// there, and undoes what happened since the eve.
    fn on_eve(survey: &Survey<'_>, stratum: Stratum, eve: Day, last: Day) -> Self {
        let mut before: BTreeMap<At, Option<Hole>> = BTreeMap::new();
        let state = survey.book.trace(survey.hull, Some(last), &mut |change| {
            if change.entry.date > eve {
                let at = (change.crossing, change.number);
                before.entry(at).or_insert(change.before);
            }
        });
        let (mut members, mut gone) = (BTreeMap::new(), BTreeSet::new());
        for at in survey.crossings() {
            if at.crossing.zone != stratum.zone {
                continue;
            }
            for (number, after) in state.numbered(at.crossing.id) {
                let at = (at.crossing.id, number);
                let then = match before.get(&at) {
                    Some(None) => continue,
                    Some(Some(then)) => then,
                    None => after,
                };
                let fastening = survey.book.fastening(then.fastening);
                let of_it = Stratum::of(survey, at.0, then.fastening).key() == stratum.key();
                if !of_it || !then.is_relied_on() || fastening.driven.surely_after(eve) {
                    continue;
                }
                members.insert(at, then.fastening);
                let stands = matches!(after.content, Content::InPlace(_) | Content::LeftIn(_));
                if !stands || after.fastening != then.fastening {
                    gone.insert(at);
                }
            }
        }
        Self { members, gone }
    }
}

fn still_open(survey: &Survey<'_>, drawn: &[Drawn]) -> Vec<At> {
    let holes: BTreeSet<At> = drawn.iter().map(|one| one.at).collect();
    holes
        .into_iter()
        .filter(|(crossing, number)| {
            let hole = survey.state.holes(*crossing).get(number.index());
            hole.is_some_and(|hole| hole.content.plank_side() == PlankSide::Open)
        })
        .collect()
}
