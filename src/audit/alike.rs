//! Crossings that stand alike, so that a rule about single crossings judges each kind once.

use std::collections::HashMap;
use std::hash::{BuildHasherDefault, Hash, Hasher};

use super::{At, Survey};
use crate::hull::{CrossingId, Mix};
use crate::units::count;

/// Crossings of which a rule that looks at one crossing at a time says the same: of one zone and
/// kind of member, of equal sizes, with equal holes. A boat has many crossings and few kinds.
#[derive(Debug)]
pub(super) struct Alike {
    /// All of them, from the bow of the first strake.
    pub(super) all: Vec<CrossingId>,
}

/// The kinds of crossings that are asked about, in the order of the first of each.
#[derive(Debug, Default)]
pub(super) struct Kinds {
    kinds: Vec<Alike>,
    /// Of every crossing of the hull, its kind; for one not asked about a number that none has.
    kind_of: Vec<u32>,
}

impl Kinds {
    pub(super) fn of(survey: &Survey<'_>) -> Self {
        let mut kinds: Vec<Alike> = Vec::new();
        let mut kind_of = vec![u32::MAX; survey.hull.crossing_count()];
        let mut known: HashMap<u64, u32, BuildHasherDefault<Mix>> = HashMap::default();
        let mut last: Option<(At<'_>, u32)> = None;
        for at in survey.crossings() {
            let kind = match &last {
                // Next to each other they mostly are alike.
                Some((other, kind)) if are_alike(survey, other, &at) => *kind,
                _ => {
                    let mut key = key(survey, &at);
                    loop {
                        let kind = *known.entry(key).or_insert(count(kinds.len()));
                        let Some(alike) = kinds.get(kind as usize) else {
                            kinds.push(Alike { all: Vec::new() });
                            break kind;
                        };
                        let first = alike.all.first().map(|first| survey.at(*first));
                        if first.is_some_and(|first| are_alike(survey, &first, &at)) {
                            break kind;
                        }
                        key = key.wrapping_add(1);
                    }
                }
            };
            if let Some(alike) = kinds.get_mut(kind as usize) {
                alike.all.push(at.crossing.id);
            }
            if let Some(of) = kind_of.get_mut(at.crossing.id.index()) {
                *of = kind;
            }
            last = Some((at, kind));
        }
        Self { kinds, kind_of }
    }

    /// Each kind with the first crossing of it.
    pub(super) fn each<'s>(
        &'s self,
        survey: &'s Survey<'_>,
    ) -> impl Iterator<Item = (At<'s>, &'s Alike)> {
        let first = |alike: &Alike| alike.all.first().map(|first| survey.at(*first));
        let kinds = self.kinds.iter();
        kinds.filter_map(move |alike| Some((first(alike)?, alike)))
    }

    /// Every crossing of a kind.
    pub(super) fn all(&self, kind: usize) -> &[CrossingId] {
        self.kinds.get(kind).map_or(&[], |alike| &alike.all)
    }

    /// The kind of a crossing as its place among all of them; beyond the last where it is not asked
    /// about.
    pub(super) fn number(&self, id: CrossingId) -> usize {
        let kind = self.kind_of.get(id.index());
        kind.map_or(usize::MAX, |kind| *kind as usize)
    }
}

/// Whether two crossings are one to every rule that looks at one at a time. Where anything was
/// measured, planed or renewed, it stands alone.
fn are_alike(survey: &Survey<'_>, one: &At<'_>, other: &At<'_>) -> bool {
    let (a, b) = (&one.crossing, &other.crossing);
    let state = &survey.state;
    let strake = std::ptr::eq(a.strake, b.strake)
        || a.strake.id.side.is_deck() == b.strake.id.side.is_deck()
            && a.strake.thickness == b.strake.thickness
            && a.strake.width == b.strake.width;
    strake
        && a.zone == b.zone
        && a.member.kind() == b.member.kind()
        && std::ptr::eq(a.scantlings, b.scantlings)
        && !state.is_noted(a.id)
        && !state.is_noted(b.id)
        && state.expected(a.id) == state.expected(b.id)
        && one.holes.len() == other.holes.len()
        && one.holes.iter().zip(other.holes).all(|(a, b)| a.is_like(b))
}

/// A number that crossings that are alike have in common.
fn key(survey: &Survey<'_>, at: &At<'_>) -> u64 {
    let mut mix = Mix::default();
    (
        at.crossing.zone,
        at.crossing.strake.thickness,
        at.holes.len(),
    )
        .hash(&mut mix);
    for hole in at.holes {
        (hole.fastening, hole.content, hole.found).hash(&mut mix);
    }
    if survey.state.is_noted(at.crossing.id) {
        at.crossing.id.hash(&mut mix);
    }
    mix.finish()
}
