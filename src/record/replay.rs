//! Playing entries through, one after another, each checked against what stands there.

use std::collections::BTreeMap;

use super::act::{act, can_drive};
use super::book::MOST_HOLES;
use super::problem::{Problem, Telling};
use super::{
    Book, Content, Deed, Did, Driving, Entry, FasteningId, FoundSet, FrameSide, Hole, HoleChoice,
    Mouth, Refusal, SetId, State, Stub, What, wood,
};
use crate::hull::{CrossingId, HoleNumber, Holes, Hull, Spot};
use crate::text::Fault;

/// What one entry did to one hole.
#[derive(Clone, Copy, Debug)]
pub struct Change<'b> {
    /// The entry.
    pub entry: &'b Entry,
    /// The crossing.
    pub crossing: CrossingId,
    /// The hole.
    pub number: HoleNumber,
    /// What stood there before; `None` for a hole that was not there.
    pub before: Option<Hole>,
    /// What stands there now.
    pub after: Hole,
}

/// What a hole holds with a new fastening in it. One that only clamps for a time is not relied
/// on, and nothing closes its mouth.
pub(super) const fn content_when_driven(temporary: bool, covered: bool) -> Content {
    match (temporary, covered) {
        (true, _) => Content::LeftIn(Mouth::Flush),
        (false, true) => Content::InPlace(Mouth::Open),
        (false, false) => Content::InPlace(Mouth::Flush),
    }
}

/// Does one entry to the state, all of it or, where it cannot be done, none of it.
pub(super) fn apply(
    book: &Book,
    hull: &Hull,
    state: &mut State,
    at: u32,
    entry: &Entry,
    each: &mut dyn FnMut(Change<'_>),
    telling: &mut Telling<'_>,
) {
    let What::Done {
        deed, set, count, ..
    } = &entry.what
    else {
        return;
    };
    let set = set.as_deref().and_then(|name| book.set_named(name));
    let spots = book.entry_spots(at);
    if deed.is_to_wood() {
        wood::apply(book, hull, state, at, entry, deed, each, telling);
        return;
    }
    if let Deed::Driven(driving) = deed
        && driving.hole == HoleChoice::New
        && driving.total(spots.len()).saturating_add(state.laid()) > MOST_HOLES
    {
        let says = format!(
            "she would have more than {} million holes",
            MOST_HOLES / 1_000_000
        );
        let fault = Fault::new(Some(entry.origin), says).key("per crossing");
        let fault = fault.help("is `per crossing` right, and the place?");
        telling.faults.push(fault);
        return;
    }
    let mut problems: BTreeMap<Problem, Vec<CrossingId>> = BTreeMap::new();
    let mut touched: Vec<Touch> = Vec::new();
    for spot in spots {
        let before = touched.len();
        let outcome = match deed {
            Deed::Driven(driving) => drive(state, *spot, driving, &mut touched),
            _ => touch(book, state, *spot, deed, set, &mut touched).and_then(|()| {
                let touches = touched.get(before..).unwrap_or_default();
                believable(book, state, entry, deed, touches)
            }),
        };
        if let Err(problem) = outcome {
            problems.entry(problem).or_default().push(spot.crossing);
        }
    }
    if problems.is_empty()
        && let Some(count) = count
        && *count as usize != touched.len()
        && !touched
            .iter()
            .any(|touch| telling.unsure.contains(&touch.crossing))
    {
        telling.faults.push(
            Fault::new(
                Some(entry.origin),
                format!(
                    "the count is {count}, but {} would be {}",
                    touched.len(),
                    deed.did()
                ),
            )
            .key("count")
            .help(miscounted(book, at, entry, deed, telling.faults)),
        );
        return;
    }
    if !problems.is_empty() {
        telling.problems(book, hull, (at, entry), deed, problems);
        return;
    }
    let driven = book.driven_by(at);
    for touch in touched {
        commit(state, at, entry, deed, driven, touch, each);
    }
}

/// What may be wrong where an entry touches another number of holes than it says.
fn miscounted(book: &Book, at: u32, entry: &Entry, deed: &Deed, faults: &[Fault]) -> String {
    let crossings: Vec<CrossingId> = book.crossings_of(at as usize).collect();
    let before = book.last_before(at, &crossings, faults);
    let before = before
        .filter(|before| before.did() == entry.did())
        .and_then(|_| book.came_before(at, deed, &crossings, faults));
    let help = "is the place right? `refasten show --each` lists every hole there";
    before.map_or_else(|| help.to_owned(), |before| format!("{help}; {before}"))
}

/// A hole about to be changed: an old one and what it will hold, or a new one.
#[derive(Clone, Copy)]
struct Touch {
    crossing: CrossingId,
    hole: Option<(HoleNumber, Content)>,
}

/// Each hole that is named by its number, which must be there.
fn named(
    state: &State,
    spot: Spot,
    touched: &mut Vec<Touch>,
    each: impl Fn(&Hole) -> Result<Content, Problem>,
) -> Result<(), Problem> {
    let holes = state.holes(spot.crossing);
    for number in spot.holes.numbers() {
        let hole = holes.get(number.index()).ok_or(Problem::NoHole(number))?;
        let content = each(hole)?;
        touched.push(Touch {
            crossing: spot.crossing,
            hole: Some((number, content)),
        });
    }
    Ok(())
}

fn drive(
    state: &State,
    spot: Spot,
    driving: &Driving,
    touched: &mut Vec<Touch>,
) -> Result<(), Problem> {
    let crossing = spot.crossing;
    if state.is_off(crossing) {
        return Err(Problem::PlankIsOff);
    }
    let filled = content_when_driven(driving.temporary, driving.plug.closes());
    if !spot.holes.is_any() {
        return named(state, spot, touched, |hole| {
            can_drive(hole.content).map_err(Problem::Refused)?;
            Ok(filled)
        });
    }
    let wanted = driving.total(1);
    match driving.hole {
        HoleChoice::New => {
            if state.holes(crossing).len() + wanted > usize::from(Holes::MOST) {
                return Err(Problem::TooMany);
            }
            let new = || Touch {
                crossing,
                hole: None,
            };
            touched.extend(std::iter::repeat_with(new).take(wanted));
        }
        HoleChoice::Same => {
            let can_take = |hole: &Hole| can_drive(hole.content).is_ok();
            let open = state.numbered(crossing).filter(|(_, hole)| can_take(hole));
            let count = open.clone().count();
            if count < wanted {
                return Err(Problem::TooFew {
                    open: count,
                    wanted,
                });
            }
            touched.extend(open.take(wanted).map(|(number, _)| Touch {
                crossing,
                hole: Some((number, filled)),
            }));
        }
    }
    Ok(())
}

fn touch(
    book: &Book,
    state: &State,
    spot: Spot,
    deed: &Deed,
    set: Option<SetId>,
    touched: &mut Vec<Touch>,
) -> Result<(), Problem> {
    let stub = match deed {
        Deed::Broken(stub, ..) => *stub,
        _ => Stub::Frame,
    };
    let set_of = |hole: &Hole| book.fastening(hole.fastening).set;
    let missing = deed.tells_missing();
    let act_on = |hole: &Hole| act(deed.did(), stub, missing, hole.content);
    if !spot.holes.is_any() {
        return named(state, spot, touched, |hole| {
            if set.is_some_and(|set| set != set_of(hole)) {
                return Err(Problem::NoneOfSet);
            }
            act_on(hole).map_err(Problem::Refused)
        });
    }
    let there = || {
        let of_set = |hole: &Hole| set.is_none_or(|set| set == set_of(hole));
        let all = state.numbered(spot.crossing);
        all.filter(move |(_, hole)| of_set(hole))
    };
    if there().next().is_none() {
        return Err(if state.holes(spot.crossing).is_empty() {
            Problem::NothingRecorded
        } else {
            Problem::NoneOfSet
        });
    }
    // What is measured is what stands there; only where nothing does, what was last drawn.
    let drawn = |hole: &Hole| {
        let look = book.last_look(hole).map(|entry| (entry.date, entry.number));
        (hole.has_metal(), look.filter(|_| !hole.has_metal()))
    };
    let measured = deed.did() == Did::Measured;
    let able = || there().filter(|(_, hole)| act_on(hole).is_ok());
    let last = match measured {
        true => able().map(|(_, hole)| drawn(hole)).max(),
        false => None,
    };
    let meant = || able().filter(|(_, hole)| !measured || Some(drawn(hole)) == last);
    let Some((_, first)) = meant().next() else {
        let refusal = there().filter_map(|(_, hole)| act_on(hole).err()).max();
        return Err(Problem::Refused(refusal.unwrap_or(Refusal::Empty)));
    };
    if set.is_none()
        && deed.is_to_standing_metal()
        && meant().any(|(_, hole)| set_of(hole) != set_of(first))
    {
        let mut sets: Vec<SetId> = meant().map(|(_, hole)| set_of(hole)).collect();
        sets.sort_unstable();
        sets.dedup();
        return Err(Problem::Which(sets));
    }
    touched.extend(meant().filter_map(|(number, hole)| {
        Some(Touch {
            crossing: spot.crossing,
            hole: Some((number, act_on(hole).ok()?)),
        })
    }));
    Ok(())
}

/// Refuses what cannot have been: something done to a fastening before it was driven, or one found
/// thicker than it was made.
fn believable(
    book: &Book,
    state: &State,
    entry: &Entry,
    deed: &Deed,
    touches: &[Touch],
) -> Result<(), Problem> {
    for touch in touches {
        let hole = touch
            .hole
            .and_then(|(number, _)| state.holes(touch.crossing).get(number.index()));
        let Some(hole) = hole else { continue };
        let fastening = book.fastening(hole.fastening);
        if fastening.driven.surely_after(entry.date) {
            return Err(Problem::TooEarly(fastening.set));
        }
        if let (Deed::Measured(diameter, _), Some(most)) = (deed, fastening.thickest())
            && *diameter > most
        {
            return Err(Problem::TooThick(fastening.set));
        }
    }
    Ok(())
}

fn commit(
    state: &mut State,
    at: u32,
    entry: &Entry,
    deed: &Deed,
    driven: Option<FasteningId>,
    touch: Touch,
    each: &mut dyn FnMut(Change<'_>),
) {
    let Touch { crossing, hole } = touch;
    let looked = at + 1;
    let (number, before, after) = match (hole, driven) {
        (Some((number, content)), driven) => {
            let Some(hole) = state.hole_mut(crossing, number) else {
                return;
            };
            let before = *hole;
            *hole = changed(before, content, deed, driven, looked);
            (number, Some(before), *hole)
        }
        (None, Some(fastening)) => {
            let Deed::Driven(driving) = deed else { return };
            let new = Hole {
                content: content_when_driven(driving.temporary, driving.plug.closes()),
                looked,
                ..Hole::filled(fastening, Mouth::Flush)
            };
            let Some(number) = state.add(crossing, 1, new) else {
                return;
            };
            (number, None, new)
        }
        (None, None) => return,
    };
    match deed {
        Deed::Driven(_) => {
            state.forget(crossing, number);
        }
        Deed::Measured(diameter, _) => state.measure(crossing, number, *diameter),
        _ => {}
    }
    each(Change {
        entry,
        crossing,
        number,
        before,
        after,
    });
}

/// A hole after a deed: what it holds, what is known of it, and who looked last.
fn changed(
    before: Hole,
    content: Content,
    deed: &Deed,
    driven: Option<FasteningId>,
    looked: u32,
) -> Hole {
    if let Some(fastening) = driven {
        // A doweled hole is a new one, and so is one in a new member.
        let doweled = before.content.frame_side() != FrameSide::Open;
        return Hole {
            fastening,
            content,
            found: FoundSet::NONE,
            in_spoiled_hole: before.found.spoils_hole() && !doweled,
            looked,
        };
    }
    let found = deed
        .found()
        .map_or(before.found, |found| before.found.with(found));
    let looks = deed.is_to_standing_metal();
    Hole {
        content,
        found,
        looked: if looks { looked } else { before.looked },
        ..before
    }
}
