//! Places in words short enough for a page.

use crate::hull::{Place, Places};

/// Runs of numbers in one word of a place, so that no word is wider than a narrow page.
const MOST_RUNS: usize = 6;

/// Whether they are in words so short already.
pub(super) fn are_short(places: &Places) -> bool {
    let is_short = |place: &Place| {
        let mut members = place.members.iter();
        place.strakes.len() <= MOST_RUNS && members.all(|pick| pick.runs.len() <= MOST_RUNS)
    };
    places.0.iter().all(is_short)
}

/// The same places with no more than a few runs of numbers in a word. They can still be pasted
/// back: members of a kind may be named in several words, and strakes in several places.
pub(super) fn in_short_words(places: &Places) -> Places {
    let mut short = Vec::new();
    for place in &places.0 {
        let mut members = Vec::new();
        for pick in &place.members {
            if pick.runs.len() <= MOST_RUNS {
                members.push(pick.clone());
                continue;
            }
            members.extend(pick.runs.chunks(MOST_RUNS).map(|runs| {
                let mut pick = pick.clone();
                pick.runs = runs.to_vec();
                pick
            }));
        }
        // No strakes named is all of them, in one part.
        let parts = place.strakes.len().div_ceil(MOST_RUNS).max(1);
        short.extend((0..parts).map(|part| {
            Place {
                sides: place.sides,
                names: place.names.clone(),
                strakes: place
                    .strakes
                    .iter()
                    .skip(part * MOST_RUNS)
                    .take(MOST_RUNS)
                    .copied()
                    .collect(),
                members: members.clone(),
            }
        }));
    }
    Places(short)
}
