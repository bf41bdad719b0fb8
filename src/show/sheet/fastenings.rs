//! The fastenings on a sheet, each kind of them under a letter, and those that may be driven.

use std::collections::BTreeSet;

use super::Sheet;
use crate::hull::CrossingId;
use crate::joint::{Kind, Plug, Size};
use crate::record::{Deed, Entry, Fastening, FasteningId, What};
use crate::show::inventory::like;
use crate::tables::Metal;
use crate::units::Units;

/// The most of what was driven that are offered again: a short list is read, a long one is not.
const MOST_OFFERED: usize = 8;

/// Every fastening of the sheet's crossings, like ones together under a letter.
pub(super) struct Fastenings<'b> {
    /// One of each, in the order they are first met.
    pub(super) kinds: Vec<&'b Fastening>,
    /// What may be driven, what was driven last first.
    pub(super) offered: Vec<Offer>,
    /// Of each fastening of the book, which of the kinds it is.
    of: Vec<Option<usize>>,
}

/// Something that may be driven, as an entry tells it.
pub(super) struct Offer {
    /// The plan it carries out, and where that still waits; `None` where it may go anywhere.
    pub(super) plan: Option<(String, BTreeSet<CrossingId>)>,
    /// Its set; of a plan the plan's own.
    pub(super) set: String,
    pub(super) kind: &'static str,
    pub(super) metal: Option<&'static str>,
    pub(super) size: String,
    pub(super) bung: String,
    /// Whether its mouth is to be closed.
    pub(super) covered: bool,
    /// The same in a line.
    pub(super) told: String,
}

impl<'b> Fastenings<'b> {
    pub(super) fn of(sheet: &Sheet<'b>) -> Self {
        let mut kinds: Vec<&Fastening> = Vec::new();
        let mut of = vec![None; sheet.book.fastenings().count()];
        for id in sheet.crossings {
            for hole in sheet.state.holes(*id) {
                let Some(slot @ None) = of.get_mut(hole.fastening.index()) else {
                    continue;
                };
                let fastening = sheet.book.fastening(hole.fastening);
                let known = kinds.iter().position(|kind| is_like(kind, fastening));
                *slot = known.or_else(|| {
                    kinds.push(fastening);
                    Some(kinds.len() - 1)
                });
            }
        }
        let offered = offered(sheet);
        Self { kinds, offered, of }
    }

    /// The plans that still want something here, and where.
    pub(super) fn planned(&self) -> impl Iterator<Item = &(String, BTreeSet<CrossingId>)> {
        self.offered.iter().filter_map(|offer| offer.plan.as_ref())
    }

    /// Which of the kinds a fastening is.
    pub(super) fn kind(&self, id: FasteningId) -> usize {
        self.of.get(id.index()).copied().flatten().unwrap_or(0)
    }
}

/// The letter of the kind at this place of the list: A to Z, then AA.
pub(super) fn letter(at: usize) -> String {
    let letter = ('A'..='Z').nth(at % 26).unwrap_or('Z');
    match at / 26 {
        0 => letter.to_string(),
        more => format!("{}{letter}", self::letter(more - 1)),
    }
}

/// Whether two are of one set and alike; the day they were driven may differ.
fn is_like(a: &Fastening, b: &Fastening) -> bool {
    let of = |f: &Fastening| (f.set, f.kind, f.metal, f.size, f.plug, f.temporary);
    of(a) == of(b)
}

/// What is over its head, in words.
pub(super) fn bung(plug: Plug, units: Units) -> String {
    match plug {
        Plug::Bung(_) => format!("bung {}", plug.written(units)),
        Plug::Stopping => "stopping".to_owned(),
        Plug::None => "no bung".to_owned(),
        Plug::Unknown => "bung unknown".to_owned(),
    }
}

/// What is planned here, then what was driven in the log, the last first.
fn offered(sheet: &Sheet<'_>) -> Vec<Offer> {
    let mut offered = planned(sheet);
    let story: Vec<&Entry> = sheet.book.story().collect();
    let driven = story
        .into_iter()
        .rev()
        .filter_map(|entry| match &entry.what {
            What::Done {
                deed: Deed::Driven(driving),
                ..
            } if !driving.temporary => Some(driving),
            _ => None,
        });
    let most = offered.len() + MOST_OFFERED;
    for driving in driven {
        let like = (driving.kind, driving.metal, driving.size, driving.plug);
        let offer = Offer::of(sheet, &driving.set, like, None);
        if offered.iter().all(|other| other.told != offer.told) {
            offered.push(offer);
        }
        if offered.len() == most {
            break;
        }
    }
    offered
}

/// What the plan still wants at the crossings of the sheet.
fn planned(sheet: &Sheet<'_>) -> Vec<Offer> {
    let mut planned: Vec<Offer> = Vec::new();
    for stage in sheet.book.plan_progress(None) {
        let at = stage.spot.crossing;
        let Some(line) = sheet.book.plan_line(stage.line) else {
            continue;
        };
        if stage.left() == 0 || sheet.crossings.binary_search(&at).is_err() {
            continue;
        }
        let fastening = sheet.book.fastening(stage.fastening);
        let Fastening {
            kind, metal, size, ..
        } = *fastening;
        let plan = Some((line.plan.clone(), BTreeSet::from([at])));
        let offer = Offer::of(sheet, &line.plan, (kind, metal, size, fastening.plug), plan);
        let known = planned.iter_mut().find(|known| known.told == offer.told);
        match known.and_then(|known| known.plan.as_mut()) {
            Some((_, places)) => {
                places.insert(at);
            }
            None => planned.push(offer),
        }
    }
    planned
}

impl Offer {
    fn of(
        sheet: &Sheet<'_>,
        set: &str,
        (kind, metal, size, plug): (Kind, Option<&'static Metal>, Option<Size>, Plug),
        plan: Option<(String, BTreeSet<CrossingId>)>,
    ) -> Self {
        let (hull, units) = (sheet.hull, sheet.units);
        let is = like(kind, metal, size, hull, units);
        let planned = if plan.is_some() { "planned, " } else { "" };
        Self {
            plan,
            set: set.to_owned(),
            kind: kind.name(),
            metal: metal.map(|metal| metal.name),
            size: size.map_or_else(
                || "unknown".to_owned(),
                |size| size.written(hull.gauges, units),
            ),
            bung: plug.written(units),
            covered: plug.closes(),
            told: format!("{planned}{set}: {is}, {}", bung(plug, units)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::letter;

    #[test]
    fn letters_go_on_after_z() {
        let letters = [0, 1, 25, 26, 27, 51, 52, 701, 702].map(letter);
        assert_eq!(
            letters,
            ["A", "B", "Z", "AA", "AB", "AZ", "BA", "ZZ", "AAA"]
        );
    }
}
