//! How much of the boat a record rests on.

use std::collections::BTreeMap;
use std::fmt;

use super::Survey;
use crate::hull::Side;
use crate::joint::Zone;
use crate::text::FileId;
use crate::units::Day;

/// How many fastenings somebody has looked at, and how many are only as declared.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Coverage {
    /// Pieces of metal in the wood.
    pub fastenings: u32,
    /// Of these, how many an entry looked at or drove.
    pub looked_at: u32,
    /// The day of the first of these looks.
    pub since: Option<Day>,
    /// How many are known only from the hull file.
    pub as_declared: u32,
    /// How many are only planned, where she is judged as planned.
    pub planned: u32,
    /// Where there is metal and none of it was looked at.
    pub unseen: Vec<Part>,
}

/// A zone of one side of the boat.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Part {
    /// The side.
    pub side: Side,
    /// The zone.
    pub zone: Zone,
}

/// In words: `port topsides`.
impl fmt::Display for Part {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let side = match self.side {
            Side::Port => "port",
            Side::Starboard => "starboard",
            Side::Deck => "deck",
            Side::DeckPort => "deck to port",
            Side::DeckStarboard => "deck to starboard",
        };
        match (self.side.is_deck(), self.zone) {
            (true, Zone::Deck) => f.write_str(side),
            (_, zone) => write!(f, "{side} {zone}"),
        }
    }
}

impl Coverage {
    pub(super) fn of(survey: &Survey<'_>) -> Self {
        let mut coverage = Self::default();
        let mut seen: BTreeMap<Part, bool> = BTreeMap::new();
        // Crossings of one part mostly follow each other.
        let mut last: Option<(Part, bool)> = None;
        for at in survey.crossings() {
            let part = Part {
                side: at.crossing.strake.id.side,
                zone: at.crossing.zone,
            };
            for hole in at.holes.iter().filter(|hole| hole.has_metal()) {
                coverage.fastenings += 1;
                if survey.origin(hole.fastening).file == FileId::Plan {
                    coverage.planned += 1;
                    continue;
                }
                let look = survey.book.last_look(hole);
                match &mut last {
                    Some((of, seen)) if *of == part => *seen |= look.is_some(),
                    _ => {
                        if let Some((of, was)) = last.replace((part, look.is_some())) {
                            *seen.entry(of).or_default() |= was;
                        }
                    }
                }
                match look {
                    None => coverage.as_declared += 1,
                    Some(entry) => {
                        coverage.looked_at += 1;
                        coverage.since = Some(
                            coverage
                                .since
                                .map_or(entry.date, |since| since.min(entry.date)),
                        );
                    }
                }
            }
        }
        if let Some((of, was)) = last {
            *seen.entry(of).or_default() |= was;
        }
        coverage.unseen = seen
            .into_iter()
            .filter_map(|(part, seen)| (!seen).then_some(part))
            .collect();
        coverage
    }
}
