//! Playing what was done to planks and members.

use std::collections::BTreeMap;

use super::fabric::{Fabric, Plank};
use super::problem::{Problem, Telling};
use super::{Book, Change, Deed, Entry, State};
use crate::hull::{CrossingId, Hull, Member};
use crate::text::Fault;
use crate::units::Length;

/// Does one entry to the wood, all of it or, where it cannot be done, none of it.
#[expect(
    clippy::too_many_arguments,
    reason = "the same that every entry is played with"
)]
pub(super) fn apply(
    book: &Book,
    hull: &Hull,
    state: &mut State,
    at: u32,
    entry: &Entry,
    deed: &Deed,
    each: &mut dyn FnMut(Change<'_>),
    telling: &mut Telling<'_>,
) {
    if let Deed::PlankHung(plank) = deed
        && let Some(fault) = bad_joint(hull, entry, plank.joints.as_ref())
    {
        telling.faults.push(*fault);
        return;
    }
    let mut problems: BTreeMap<Problem, Vec<CrossingId>> = BTreeMap::new();
    for spot in book.entry_spots(at) {
        if let Err(problem) = can(hull, state, spot.crossing, deed) {
            problems.entry(problem).or_default().push(spot.crossing);
        }
    }
    if !problems.is_empty() {
        telling.problems(book, hull, (at, entry), deed, problems);
        return;
    }
    for spot in book.entry_spots(at) {
        reshape(state.fabric_mut(spot.crossing), entry, deed);
        holes(state, spot.crossing, entry, deed, each);
    }
}

/// What is wrong with the joints that came with a plank.
fn bad_joint(
    hull: &Hull,
    entry: &Entry,
    joints: Option<&crate::hull::Places>,
) -> Option<Box<Fault>> {
    let fault = |says: String| Fault::new(Some(entry.origin), says).key("joints");
    let spots = match hull.resolve(joints?) {
        Ok(spots) => spots,
        Err(misread) => {
            let fault = hull.not_there(entry.origin, "joints", misread)?;
            return Some(Box::new(fault));
        }
    };
    let listed = |id: CrossingId| {
        hull.joints
            .iter()
            .any(|joint| joint.crossings.contains(&id))
    };
    let not = spots.iter().find(|spot| !listed(spot.crossing))?;
    let crossing = hull.crossing(not.crossing);
    let says = format!(
        "there is no joint at {} {}",
        crossing.strake.id, crossing.member
    );
    Some(Box::new(fault(says).help(
        "list it under `joints` in hull.yaml; the log says since when it is there",
    )))
}

/// Whether a deed can be done to the wood at a crossing.
fn can(hull: &Hull, state: &State, id: CrossingId, deed: &Deed) -> Result<(), Problem> {
    let problem = match deed {
        Deed::PlankOff if state.is_off(id) => Problem::AlreadyOff,
        Deed::PlankOff
            if !state
                .holes(id)
                .iter()
                .all(|h| h.content.without_plank().is_some()) =>
        {
            Problem::StillHeld
        }
        Deed::PlankHung(_) if !state.is_off(id) => Problem::NotOff,
        Deed::Faired(_) if state.is_off(id) => Problem::PlankIsOff,
        Deed::Faired(off)
            if state
                .thickness(hull, id)
                .is_some_and(|thickness| thickness <= *off) =>
        {
            Problem::TooThin
        }
        Deed::Sistered(_) if !is_sister(hull.crossing(id).member) => Problem::NotASister,
        Deed::FrameRenewed(_)
            if !state
                .holes(id)
                .iter()
                .all(|h| h.content.without_member().is_some()) =>
        {
            Problem::StillHeld
        }
        _ => return Ok(()),
    };
    Err(problem)
}

fn is_sister(member: Member) -> bool {
    member.number().is_some_and(|number| !number.is_plain())
}

fn reshape(fabric: &mut Fabric, entry: &Entry, deed: &Deed) {
    match deed {
        Deed::PlankOff => {
            fabric.plank = Plank::Off;
            fabric.faired = Length::ZERO;
        }
        Deed::PlankHung(plank) => fabric.plank = Plank::Hung((**plank).clone(), entry.date),
        Deed::Faired(off) => fabric.faired = fabric.faired + *off,
        Deed::Sistered(member) | Deed::FrameRenewed(member) => {
            fabric.member = Some((*member, entry.date));
        }
        _ => {}
    }
}

/// What becomes of the holes at a crossing.
fn holes(
    state: &mut State,
    crossing: CrossingId,
    entry: &Entry,
    deed: &Deed,
    each: &mut dyn FnMut(Change<'_>),
) {
    let numbers: Vec<_> = state.numbered(crossing).map(|(number, _)| number).collect();
    for number in numbers {
        let Some(hole) = state.hole_mut(crossing, number) else {
            continue;
        };
        let before = *hole;
        let after = match deed {
            Deed::PlankOff => before.content.without_plank(),
            Deed::FrameRenewed(_) => before.content.without_member(),
            _ => None,
        };
        if let Some(content) = after.filter(|content| *content != before.content) {
            hole.content = content;
            let after = *hole;
            each(Change {
                entry,
                crossing,
                number,
                before: Some(before),
                after,
            });
        }
        if let Deed::Faired(off) = deed
            && before.content.mouth().is_some()
        {
            state.plane(crossing, number, *off);
        }
    }
}
