//! Laying the sets of the hull file, one over another.

use std::collections::BTreeMap;

use super::problem::{MOST_PLACES, Telling};
use super::{Book, Content, Hole, Mouth, Set, SetId, State};
use crate::hull::{CrossingId, Holes, Hull, fold};
use crate::joint::Plug;
use crate::text::Fault;

/// Lays the sets that `counts` says are there, in the order of the hull file.
pub(super) fn lay_sets(
    book: &Book,
    hull: &Hull,
    counts: impl Fn(&Set) -> bool,
    telling: &mut Telling<'_>,
) -> State {
    lay_sets_one_by_one(book, hull, counts, telling, &mut |_, _| {})
}

/// The same, each set told to `each` with what stands once it is laid.
pub(super) fn lay_sets_one_by_one(
    book: &Book,
    hull: &Hull,
    counts: impl Fn(&Set) -> bool,
    telling: &mut Telling<'_>,
    each: &mut dyn FnMut(&Set, &State),
) -> State {
    let holes = |set: &Set| set.spots.len() * usize::from(set.per_crossing.unwrap_or(1));
    let room = book.sets().iter().filter(|set| counts(set)).map(holes);
    let mut state = State::new(hull.crossing_count(), room.sum());
    for set in book.sets().iter().filter(|set| counts(set)) {
        lay_set(book, hull, &mut state, set, telling);
        each(set, &state);
    }
    state.expect_what_holds();
    state
}

fn lay_set(book: &Book, hull: &Hull, state: &mut State, set: &Set, telling: &mut Telling<'_>) {
    let fastening = book.fastening(set.fastening);
    let new = Hole::filled(set.fastening, mouth_when_built(fastening.plug));
    let mut overlapped: BTreeMap<SetId, Vec<CrossingId>> = BTreeMap::new();
    let mut crowded = Vec::new();
    let mut misplaced = Vec::new();
    for spot in &set.spots {
        let set_of = |hole: &Hole| book.fastening(hole.fastening).set;
        let mut old = Vec::new();
        let mut is_over = false;
        for (number, hole) in state.numbered(spot.crossing) {
            if !hole.has_metal() || !spot.holes.has(number) {
                continue;
            }
            let of = set_of(hole);
            if set.replaces.contains(&of) {
                old.push((number, true));
            } else if !matches!(hole.content, Content::InPlace(_)) {
                // What was left in before stays so, whatever is added to it.
            } else if set.leaves_in.contains(&of) {
                old.push((number, false));
            } else if !set.adds_to.contains(&of) {
                is_over = true;
                overlapped.entry(of).or_default().push(spot.crossing);
            }
        }
        let replaced = old.iter().filter(|(_, replaced)| *replaced).count();
        if !spot.holes.is_any() && replaced < spot.holes.count() as usize {
            // Where it does not say how it overlaps, that is what is to be told.
            if !is_over {
                misplaced.push(spot.crossing);
            }
            continue;
        }
        let wanted = set
            .per_crossing
            .map_or(spot.holes.count() as usize, usize::from);
        let mut put = 0;
        for (number, replaced) in old {
            let Some(hole) = state.hole_mut(spot.crossing, number) else {
                continue;
            };
            if !replaced {
                if let Content::InPlace(mouth) = hole.content {
                    hole.content = Content::LeftIn(mouth);
                }
            } else if put < wanted {
                *hole = new;
                put += 1;
            } else {
                hole.content = Content::GONE;
            }
        }
        let more = u8::try_from(wanted - put).unwrap_or(u8::MAX);
        if more > 0 && state.add(spot.crossing, more, new).is_none() {
            crowded.push(spot.crossing);
        }
    }
    let origin = Some(fastening.origin);
    let name = book.set_name(set.id);
    let places = |crossings: Vec<CrossingId>| fold(hull, crossings).shown(MOST_PLACES);
    let (misplaced, crowded) = (telling.sure(misplaced), telling.sure(crowded));
    for (other, crossings) in overlapped {
        let crossings = telling.sure(crossings);
        if crossings.is_empty() {
            continue;
        }
        let other = book.set_name(other);
        telling.faults.push(
            Fault::new(origin, format!("`{name}` overlaps `{other}` at {} and does not say how", places(crossings)))
                .key("set")
                .help(format!("add `replaces: {other}` (the old are gone), `leaves in: {other}` (they stay, not relied on) or `adds to: {other}` (both hold)")),
        );
    }
    if !misplaced.is_empty() {
        telling.faults.push(
            Fault::new(origin, format!("`{name}` names holes that hold nothing it replaces, at {}", places(misplaced)))
                .key("place")
                .help("a set of whole crossings names no holes; one that renews single holes says what it `replaces`"),
        );
    }
    if !crowded.is_empty() {
        telling.faults.push(
            Fault::new(
                origin,
                format!(
                    "more than {} holes in a crossing, at {}",
                    Holes::MOST,
                    places(crowded)
                ),
            )
            .key("per crossing")
            .help("is `per crossing` right?"),
        );
    }
}

/// Sets in the hull file with a bung or stopping are taken as closed.
const fn mouth_when_built(plug: Plug) -> Mouth {
    match plug {
        Plug::None => Mouth::Flush,
        Plug::Unknown | Plug::Stopping | Plug::Bung(_) => Mouth::Closed,
    }
}
