//! A boat's book: every set and entry, fitted to her hull and to each other.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet, HashMap};

use super::fabric::joints_made;
use super::known::Known;
use super::lay_sets::lay_sets;
use super::problem::Telling;
use super::replay::{self, Change};
use super::touch::Touch;
use super::{Entry, Fastening, FasteningId, Looks, SetId, SetParts, State};
use crate::hull::{CrossingId, Hull, JointKind, Places, Spot};
use crate::joint::{Kind, Plug, Size};
use crate::text::Fault;
use crate::units::{Day, Length, count};

/// The most holes a record may have; refused before any is laid out.
pub const MOST_HOLES: usize = 20_000_000;

/// A set fitted to the hull.
#[derive(Clone, Debug)]
pub struct Set {
    /// Its name's number.
    pub id: SetId,
    /// What its fastenings are.
    pub fastening: FasteningId,
    /// How it is known.
    pub how: super::How,
    /// Where it is.
    pub spots: Box<[Spot]>,
    pub(super) per_crossing: Option<u8>,
    pub(super) replaces: Vec<SetId>,
    pub(super) leaves_in: Vec<SetId>,
    pub(super) adds_to: Vec<SetId>,
}

impl Set {
    /// The sets it replaced.
    pub fn replaces(&self) -> &[SetId] {
        &self.replaces
    }

    /// The sets it left in.
    pub fn leaves_in(&self) -> &[SetId] {
        &self.leaves_in
    }

    /// The sets it was added to.
    pub fn adds_to(&self) -> &[SetId] {
        &self.adds_to
    }

    /// The sets that were there before it, as far as it says.
    pub(super) fn came_after(&self) -> impl Iterator<Item = SetId> + '_ {
        let related = [&self.replaces, &self.leaves_in, &self.adds_to];
        related.into_iter().flatten().copied()
    }
}

/// Every set and entry of a boat, ready to be asked what stands on a day.
#[derive(Clone, Debug)]
pub struct Book {
    pub(super) names: Vec<String>,
    pub(super) by_name: HashMap<String, SetId>,
    pub(super) fastenings: Vec<Fastening>,
    pub(super) sets: Vec<Set>,
    pub(super) entries: Vec<Entry>,
    /// Of each entry.
    pub(super) spots: Vec<Box<[Spot]>>,
    /// Of each entry that drove something.
    pub(super) driven: HashMap<u32, FasteningId>,
    /// Entries struck out, and the entry that strikes each.
    pub(super) struck: HashMap<usize, usize>,
    /// Entries that count, by date and number.
    pub(super) order: Vec<u32>,
    /// The day it was read: what stands in it has been driven by then.
    pub(super) today: Day,
    /// What the entries do that are read beside the log and are not in it yet.
    pub(super) touched: Vec<Touch>,
    /// The joints that came with planks of the log, and the day of each.
    pub(super) joints_made: BTreeMap<usize, Day>,
    /// What it rests on, where it was turned back to an earlier day.
    pub(super) known: Option<Known>,
    /// The lines of the plan, by date.
    pub(super) plan: Vec<super::plan_fit::FittedLine>,
    /// What stands once everything is done, and what looking has shown by then; `None` in a book
    /// that was turned back.
    pub(super) last: Option<Box<(State, Looks)>>,
}

impl Set {
    /// How many of it are at each crossing; `None` where it is of single holes.
    pub const fn per_crossing(&self) -> Option<u8> {
        self.per_crossing
    }
}

/// What could not be read, so that what seems to be missing is not told again as a fault.
#[derive(Clone, Debug, Default)]
pub struct Unread {
    /// Names of sets.
    pub sets: Vec<String>,
    /// Numbers of entries.
    pub entries: Vec<u32>,
    /// Where something is or was done that could not be read.
    pub places: Vec<Places>,
}

impl Book {
    /// Fits sets and entries to the hull and plays the whole story through. `today` refuses what
    /// has not happened yet. Whatever is wrong is told in `faults`; the book then holds the rest.
    pub fn build(
        hull: &Hull,
        sets: Vec<SetParts>,
        entries: Vec<Entry>,
        unread: &Unread,
        today: Day,
        faults: &mut Vec<Fault>,
    ) -> Self {
        let mut book = Self {
            names: Vec::new(),
            by_name: HashMap::new(),
            fastenings: Vec::new(),
            sets: Vec::new(),
            entries,
            spots: Vec::new(),
            driven: HashMap::new(),
            struck: HashMap::new(),
            order: Vec::new(),
            touched: Vec::new(),
            joints_made: BTreeMap::new(),
            known: None,
            plan: Vec::new(),
            last: None,
            today,
        };
        let of_sets = book.take_sets(hull, sets, unread, faults);
        book.take_entries(hull, unread, today, faults);
        book.joints_made = joints_made(hull, book.story());
        let unsure: BTreeSet<CrossingId> = unread
            .places
            .iter()
            .filter_map(|place| hull.resolve(place).ok())
            .flatten()
            .map(|spot| spot.crossing)
            .chain(of_sets)
            .collect();
        let mut telling = Telling {
            faults,
            unsure: &unsure,
        };
        let mut state = lay_sets(&book, hull, |_| true, &mut telling);
        let mut looks = Looks::default();
        let mut touched = Vec::new();
        let mut look = |change: Change<'_>| {
            touched.extend(Touch::of_new(&change));
            looks.take(hull, &book, &change);
        };
        book.play(hull, &mut state, None, &mut look, &mut telling);
        book.touched = touched;
        book.last = Some(Box::new((state, looks)));
        book
    }

    /// What stands in every hole at the end of a day, or after everything in the book.
    pub fn state(&self, hull: &Hull, day: Option<Day>) -> Cow<'_, State> {
        match self.last_by(day) {
            Some((state, _)) => Cow::Borrowed(state),
            None => Cow::Owned(self.trace(hull, day, &mut |_| {})),
        }
    }

    /// What stands in every hole at the end of a day, and what looking had shown by then.
    pub fn looked_over(&self, hull: &Hull, day: Day) -> (Cow<'_, State>, Cow<'_, Looks>) {
        if let Some((state, looks)) = self.last_by(Some(day)) {
            return (Cow::Borrowed(state), Cow::Borrowed(looks));
        }
        let mut looks = Looks::default();
        let mut look = |change: Change<'_>| looks.take(hull, self, &change);
        let state = self.trace(hull, Some(day), &mut look);
        (Cow::Owned(state), Cow::Owned(looks))
    }

    /// What stands once everything is done, and what looking has shown, where all of it was done by
    /// the end of a day.
    fn last_by(&self, day: Option<Day>) -> Option<&(State, Looks)> {
        let is_all = day.is_none_or(|day| {
            let last = self
                .order
                .last()
                .and_then(|at| self.entries.get(*at as usize));
            last.is_none_or(|last| last.date <= day) && self.sets_on(day).len() == self.sets.len()
        });
        self.last.as_deref().filter(|_| is_all)
    }

    /// The same, with every change that an entry made to a hole told to `each` as it happens.
    pub fn trace(&self, hull: &Hull, day: Option<Day>, each: &mut dyn FnMut(Change<'_>)) -> State {
        // Whatever is wrong was told when the book was built.
        let (mut faults, unsure) = (Vec::new(), BTreeSet::new());
        let mut telling = Telling {
            faults: &mut faults,
            unsure: &unsure,
        };
        let there = day.map(|day| self.sets_on(day));
        let mut state = lay_sets(
            self,
            hull,
            |set| there.as_ref().is_none_or(|there| there.contains(&set.id)),
            &mut telling,
        );
        self.play(hull, &mut state, day, each, &mut telling);
        state
    }

    pub(super) fn play(
        &self,
        hull: &Hull,
        state: &mut State,
        day: Option<Day>,
        each: &mut dyn FnMut(Change<'_>),
        telling: &mut Telling<'_>,
    ) {
        for joint in &hull.joints {
            if let JointKind::Butt {
                per_end: Some(per_end),
                ..
            } = joint.kind
            {
                joint
                    .crossings
                    .iter()
                    .for_each(|id| state.expect_at_least(*id, per_end));
            }
        }
        for at in &self.order {
            let Some(entry) = self.entries.get(*at as usize) else {
                continue;
            };
            if day.is_some_and(|day| entry.date > day) {
                break;
            }
            replay::apply(self, hull, state, *at, entry, each, telling);
        }
    }

    /// The holes that entries touch which are read beside the log and are not in it yet, in the order
    /// of the story.
    pub fn touched(&self) -> &[Touch] {
        &self.touched
    }

    /// The sets of the hull file.
    pub fn sets(&self) -> &[Set] {
        &self.sets
    }

    /// The name of a set.
    pub fn set_name(&self, id: SetId) -> &str {
        self.names.get(id.index()).map_or("", String::as_str)
    }

    /// The number of a set of this name.
    pub fn set_named(&self, name: &str) -> Option<SetId> {
        self.by_name.get(name).copied()
    }

    /// Every set's name: those of the hull file, then those driven in the log.
    pub fn set_names(&self) -> impl Iterator<Item = (SetId, &str)> {
        (0..).map(SetId).zip(self.names.iter().map(String::as_str))
    }

    /// A fastening's description.
    #[expect(
        clippy::indexing_slicing,
        reason = "numbers of fastenings are given out by the book that has them"
    )]
    pub fn fastening(&self, id: FasteningId) -> &Fastening {
        &self.fastenings[id.index()]
    }

    /// Every fastening's description: of the sets of the hull file, then of the log.
    pub fn fastenings(&self) -> impl Iterator<Item = &Fastening> {
        self.fastenings.iter()
    }

    /// Of every fastening, the first of the book that is made as it is: of one kind, metal and size,
    /// and closed alike. Of unknown metal only those of one set are.
    pub fn makes(&self) -> Vec<FasteningId> {
        let mut known: HashMap<(Kind, Option<Length>, Plug), Vec<FasteningId>> = HashMap::new();
        let all = (0..).map(FasteningId).zip(&self.fastenings);
        all.map(|(id, fastening)| {
            let diameter = fastening.size.and_then(Size::diameter);
            let near = known
                .entry((fastening.kind, diameter, fastening.plug))
                .or_default();
            let same = |known: &&FasteningId| fastening.is_made_as(self.fastening(**known));
            near.iter().find(same).copied().unwrap_or_else(|| {
                near.push(id);
                id
            })
        })
        .collect()
    }

    /// Entries in the order of the file.
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }

    /// Entries that count, in the order things happened.
    pub fn story(&self) -> impl Iterator<Item = &Entry> {
        self.order
            .iter()
            .filter_map(|at| self.entries.get(*at as usize))
    }

    /// Whether a joint was there at the end of a day: one that came with a plank of the log was not
    /// there before it.
    pub fn joint_is_there(&self, joint: usize, day: Day) -> bool {
        self.joints_made.get(&joint).is_none_or(|made| *made <= day)
    }

    /// The entry that last looked at the metal in a hole.
    pub fn last_look(&self, hole: &super::Hole) -> Option<&Entry> {
        self.entries.get(hole.looked.checked_sub(1)? as usize)
    }

    pub(super) fn entry_spots(&self, at: u32) -> &[Spot] {
        self.spots.get(at as usize).map_or(&[], |spots| spots)
    }

    /// Entries that drove something and count, in the order things happened: what each drove, and
    /// at which crossings.
    pub fn driven_entries(
        &self,
    ) -> impl Iterator<Item = (&Entry, FasteningId, impl Iterator<Item = CrossingId>)> {
        self.order.iter().filter_map(|at| {
            let entry = self.entries.get(*at as usize)?;
            Some((entry, self.driven_by(*at)?, self.crossings_of(*at as usize)))
        })
    }

    pub(super) fn driven_by(&self, at: u32) -> Option<FasteningId> {
        self.driven.get(&at).copied()
    }

    /// The entry that strikes out the entry at this place in the log, if one does.
    pub fn struck_by(&self, at: usize) -> Option<&Entry> {
        self.entries.get(*self.struck.get(&at)?)
    }

    /// The crossings an entry names.
    pub fn crossings_of(&self, at: usize) -> impl Iterator<Item = CrossingId> + '_ {
        self.entry_spots(count(at)).iter().map(|spot| spot.crossing)
    }
}
