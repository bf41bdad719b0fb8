//! What the rules look at: the hull and everything in her on one day.

use std::borrow::Cow;
use std::collections::BTreeSet;
use std::sync::OnceLock;

use crate::hull::{Crossing, CrossingId, Hull, JointKind, Member, Plank, Strake};
use crate::joint::Limits;
use crate::record::{Book, CarriedOut, Did, Entry, Fastening, FasteningId, Hole, Looks, State};
use crate::text::Origin;
use crate::units::{Day, Length, Units};

use super::Acceptance;
use super::alike::{Alike, Kinds};
use super::situation::Situations;

/// The hull and everything in her on one day, and what is asked about.
#[derive(Debug)]
pub struct Survey<'b> {
    /// The hull.
    pub hull: &'b Hull,
    /// Sets and entries.
    pub book: &'b Book,
    /// The day, at its end.
    pub day: Day,
    /// Every hole on that day, or as planned.
    pub state: Cow<'b, State>,
    /// What was taken as carried out of the plan; `None` where she is judged as she is.
    planned: Option<CarriedOut>,
    /// The limits that hold for this boat.
    pub limits: &'b Limits,
    /// Findings that somebody has accepted.
    pub accepted: &'b [Acceptance],
    /// How sizes are shown.
    pub units: Units,
    /// The crossings asked about; `None` for all of them.
    scope: Option<BTreeSet<CrossingId>>,
    /// What was looked at up to the day.
    pub(super) looks: Cow<'b, Looks>,
    /// Crossings of joints that were not there on the day.
    absent: BTreeSet<CrossingId>,
    /// Crossings that were not there themselves.
    nowhere: BTreeSet<CrossingId>,
    /// The kinds of crossings asked about, told apart when the first rule asks.
    kinds: OnceLock<Kinds>,
    /// And the ways in which fastenings stand in them.
    situations: OnceLock<Situations>,
    /// The planks of each strake, told apart when the first rule asks.
    planks: OnceLock<Vec<Vec<Plank>>>,
}

/// One crossing with all that is in it.
#[derive(Clone, Copy, Debug)]
pub struct At<'s> {
    /// The crossing.
    pub crossing: Crossing<'s>,
    /// Its holes.
    pub holes: &'s [Hole],
}

impl<'b> Survey<'b> {
    /// Looks at a boat as she is at the end of a day.
    pub fn new(
        hull: &'b Hull,
        book: &'b Book,
        limits: &'b Limits,
        accepted: &'b [Acceptance],
        day: Day,
        units: Units,
    ) -> Self {
        let (state, looks) = book.looked_over(hull, day);
        let absent = absent(hull, book, &state, day);
        let nowhere = nowhere(hull, book, &state, &absent, day);
        Self {
            hull,
            book,
            day,
            state,
            planned: None,
            absent,
            nowhere,
            limits,
            accepted,
            units,
            scope: None,
            looks,
            kinds: OnceLock::new(),
            situations: OnceLock::new(),
            planks: OnceLock::new(),
        }
    }

    /// Looks at her as she will be: with everything that the plan has waiting on the day carried
    /// out.
    #[must_use]
    pub fn as_planned(mut self) -> Self {
        let carried_out = self
            .book
            .carry_out_plans(self.state.to_mut(), Some(self.day));
        // A crossing is there once something is driven in it.
        self.nowhere = nowhere(self.hull, self.book, &self.state, &self.absent, self.day);
        self.planned = Some(carried_out);
        self.told_apart_anew()
    }

    /// What of the plan she is judged with, where she is judged as planned.
    pub const fn planned(&self) -> Option<&CarriedOut> {
        self.planned.as_ref()
    }

    /// Narrows the look to some crossings.
    #[must_use]
    pub fn within(mut self, crossings: impl IntoIterator<Item = CrossingId>) -> Self {
        self.scope = Some(crossings.into_iter().collect());
        self.told_apart_anew()
    }

    /// The same, with the kinds of crossings to be told apart again.
    fn told_apart_anew(mut self) -> Self {
        self.kinds = OnceLock::new();
        self.situations = OnceLock::new();
        self
    }

    /// Whether the whole boat is asked about.
    pub const fn asks_about_all(&self) -> bool {
        self.scope.is_none()
    }

    /// Whether a crossing is asked about.
    pub fn asks_about(&self, id: CrossingId) -> bool {
        self.scope.as_ref().is_none_or(|scope| scope.contains(&id))
    }

    /// Every crossing that is asked about.
    pub fn crossings(&self) -> impl Iterator<Item = At<'_>> {
        self.hull
            .crossings()
            .filter(|crossing| self.asks_about(crossing.id) && self.is_there(crossing.id))
            .map(|crossing| At {
                crossing,
                holes: self.state.holes(crossing.id),
            })
    }

    /// The kinds of crossings that are asked about, for what looks at one at a time.
    pub(super) fn kinds(&self) -> &Kinds {
        self.kinds.get_or_init(|| Kinds::of(self))
    }

    /// Each kind of crossing that is asked about: the first crossing of it, and all.
    pub(super) fn alike(&self) -> impl Iterator<Item = (At<'_>, &Alike)> {
        self.kinds().each(self)
    }

    /// The ways in which fastenings stand at the crossings that are asked about.
    pub(super) fn situations(&self) -> &Situations {
        self.situations.get_or_init(|| Situations::of(self))
    }

    /// Whether a crossing was there on the day: those of a butt are not before it is made, nor
    /// after a longer plank has taken its place; those of a sister not before it is put in; those
    /// of a scarf between frames only where something is driven through it.
    pub fn is_there(&self, id: CrossingId) -> bool {
        !self.nowhere.contains(&id)
    }

    /// Whether the member at a crossing was found split or soft there and has not been renewed.
    pub fn is_damaged(&self, id: CrossingId) -> bool {
        let renewed = self.state.renewed(id);
        let found = self.looks.damaged(id);
        found.is_some_and(|found| renewed.is_none_or(|renewed| renewed < found))
    }

    /// Whether a joint at a crossing was there on the day.
    pub fn has_joint(&self, id: CrossingId) -> bool {
        !self.absent.contains(&id)
    }

    /// The planks of a strake on the day, from the bow.
    pub fn planks(&self, strake: &Strake) -> &[Plank] {
        let strakes = self.hull.strakes();
        let of = |strake| self.hull.planks(strake, |id| self.absent.contains(&id));
        let all = self.planks.get_or_init(|| strakes.iter().map(of).collect());
        let at = strakes.binary_search_by_key(&strake.id, |strake| strake.id);
        at.ok()
            .and_then(|at| all.get(at))
            .map_or(&[], Vec::as_slice)
    }

    /// A crossing, asked about or not.
    pub fn at(&self, id: CrossingId) -> At<'_> {
        At {
            crossing: self.hull.crossing(id),
            holes: self.state.holes(id),
        }
    }

    /// What a fastening is.
    pub fn fastening(&self, hole: &Hole) -> &Fastening {
        self.book.fastening(hole.fastening)
    }

    /// Whether at least one of a set's fastenings has been drawn and seen.
    pub fn was_drawn(&self, fastening: FasteningId) -> bool {
        self.looks.was_drawn(fastening)
    }

    /// A length as it is shown.
    pub fn shown(&self, length: Length) -> String {
        length.shown(self.units)
    }

    /// Where the origin of a fastening's description is.
    pub fn origin(&self, id: FasteningId) -> Origin {
        self.book.fastening(id).origin
    }
}

impl At<'_> {
    /// The holes whose fastenings are counted on.
    pub fn relied_on(&self) -> impl Iterator<Item = &Hole> {
        self.holes.iter().filter(|hole| hole.is_relied_on())
    }

    /// The holes with a whole fastening in them, counted on or not.
    pub fn whole(&self) -> impl Iterator<Item = &Hole> {
        self.holes.iter().filter(|hole| hole.is_whole())
    }
}

/// Crossings of joints that were not there on a day: those made later, and butts left off when the
/// plank over them was hung.
fn absent(hull: &Hull, book: &Book, state: &State, day: Day) -> BTreeSet<CrossingId> {
    let bridged = |id: CrossingId| {
        let mut beside = hull.neighbours_along(id);
        state.is_off(id) && beside.any(|id| state.hung(id).is_some())
    };
    let joints = hull.joints.iter().enumerate();
    let gone = joints.filter(|(at, joint)| {
        let butts = joint.crossings.iter().filter(|id| is_between(hull, **id));
        !book.joint_is_there(*at, day) || butts.clone().count() > 0 && butts.copied().all(bridged)
    });
    gone.flat_map(|(_, joint)| joint.crossings.iter().copied())
        .collect()
}

fn is_between(hull: &Hull, id: CrossingId) -> bool {
    matches!(hull.crossing(id).member, Member::Butt(..))
}

/// Crossings that were not there on a day.
fn nowhere(
    hull: &Hull,
    book: &Book,
    state: &State,
    absent: &BTreeSet<CrossingId>,
    day: Day,
) -> BTreeSet<CrossingId> {
    let butts = absent.iter().copied().filter(|id| is_between(hull, *id));
    let empty = |id: &CrossingId| state.holes(*id).is_empty();
    let scarfs = hull.joints.iter();
    let scarfs = scarfs
        .filter(|joint| matches!(joint.kind, JointKind::Scarf { .. }))
        .flat_map(|joint| joint.crossings.iter().copied())
        .filter(|id| is_between(hull, *id) && empty(id));
    let later = |entry: &Entry| entry.did() == Did::Sistered && entry.date > day;
    let entries = book.entries().iter().enumerate();
    let sisters = entries
        .filter(|(at, entry)| later(entry) && book.struck_by(*at).is_none())
        .flat_map(|(at, _)| book.crossings_of(at))
        .filter(|id| empty(id) && state.renewed(*id).is_none());
    butts.chain(scarfs).chain(sisters).collect()
}
