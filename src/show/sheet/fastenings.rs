//! The fastenings on a sheet, each kind of them under a letter, and those that may be driven.

use super::Sheet;
use crate::joint::Plug;
use crate::record::{Deed, Driving, Entry, Fastening, FasteningId, What};
use crate::show::inventory::like;
use crate::units::Units;

/// The most that are offered for driving: a short list is read, a long one is not.
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

    /// Which of the kinds a fastening is.
    pub(super) fn kind(&self, id: FasteningId) -> usize {
        self.of.get(id.index()).copied().flatten().unwrap_or(0)
    }
}

/// The letter of the kind at this place of the list: A to Z, then AA.
pub(super) fn letter(at: usize) -> String {
    let letter = char::from(b'A' + (at % 26) as u8);
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

/// What was driven in the log, the last first.
fn offered(sheet: &Sheet<'_>) -> Vec<Offer> {
    let story: Vec<&Entry> = sheet.book.story().collect();
    let mut offered: Vec<Offer> = Vec::new();
    for entry in story.into_iter().rev() {
        let What::Done { deed, .. } = &entry.what else {
            continue;
        };
        if let Deed::Driven(driving) = deed
            && !driving.temporary
        {
            let offer = Offer::of(sheet, driving);
            if offered.iter().all(|other| other.told != offer.told) {
                offered.push(offer);
            }
        }
        if offered.len() == MOST_OFFERED {
            break;
        }
    }
    offered
}

impl Offer {
    fn of(sheet: &Sheet<'_>, driving: &Driving) -> Self {
        let (hull, units) = (sheet.hull, sheet.units);
        let (kind, metal, size) = (driving.kind, driving.metal, driving.size);
        let like = like(kind, metal, size, hull, units);
        Self {
            set: driving.set.clone(),
            kind: kind.name(),
            metal: metal.map(|metal| metal.name),
            size: size.map_or_else(
                || "unknown".to_owned(),
                |size| size.written(hull.gauges, units),
            ),
            bung: driving.plug.written(units),
            covered: driving.plug.closes(),
            told: format!("{}: {like}, {}", driving.set, bung(driving.plug, units)),
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
