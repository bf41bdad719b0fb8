//! A boat's book: every set and entry, fitted to her hull and to each other.

use std::collections::{BTreeMap, BTreeSet, HashMap};

use super::replay::{self, Change, Telling};
use super::{
    Deed, Did, Entry, Fastening, FasteningId, Found, SetId, SetParts, State, Strike, What,
};
use crate::hull::{CrossingId, Hull, JointKind, Places, Spot};
use crate::text::{Fault, Origin, nearest};
use crate::units::Day;

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
    /// The sets that were there before it, as far as it says.
    fn came_after(&self) -> impl Iterator<Item = SetId> + '_ {
        let related = [&self.replaces, &self.leaves_in, &self.adds_to];
        related.into_iter().flatten().copied()
    }
}

/// Every set and entry of a boat, ready to be asked what stands on a day.
#[derive(Clone, Debug)]
pub struct Book {
    names: Vec<String>,
    fastenings: Vec<Fastening>,
    sets: Vec<Set>,
    entries: Vec<Entry>,
    /// Of each entry.
    spots: Vec<Box<[Spot]>>,
    /// Of each entry that drove something.
    driven: HashMap<u32, FasteningId>,
    /// Entries struck out, and the entry that strikes each.
    struck: HashMap<usize, usize>,
    /// Entries that count, by date and number.
    order: Vec<u32>,
    /// The day it was read: what stands in it has been driven by then.
    today: Day,
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
            fastenings: Vec::new(),
            sets: Vec::new(),
            entries,
            spots: Vec::new(),
            driven: HashMap::new(),
            struck: HashMap::new(),
            order: Vec::new(),
            today,
        };
        book.take_sets(hull, sets, unread, faults);
        book.take_entries(hull, unread, today, faults);
        let unsure: BTreeSet<CrossingId> = unread
            .places
            .iter()
            .filter_map(|place| hull.resolve(place).ok())
            .flatten()
            .map(|spot| spot.crossing)
            .collect();
        let mut telling = Telling {
            faults,
            unsure: &unsure,
        };
        let mut state = replay::lay_sets(&book, hull, |_| true, &mut telling);
        book.play(hull, &mut state, None, &mut |_| {}, &mut telling);
        book
    }

    fn name(&mut self, name: &str) -> SetId {
        let at = self
            .names
            .iter()
            .position(|known| known == name)
            .unwrap_or_else(|| {
                self.names.push(name.to_owned());
                self.names.len() - 1
            });
        SetId(at as u32)
    }

    fn describe(&mut self, fastening: Fastening) -> FasteningId {
        self.fastenings.push(fastening);
        FasteningId(self.fastenings.len() as u32 - 1)
    }

    fn take_sets(
        &mut self,
        hull: &Hull,
        sets: Vec<SetParts>,
        unread: &Unread,
        faults: &mut Vec<Fault>,
    ) {
        let mut holes = 0_usize;
        for parts in sets {
            let origin = Some(parts.origin);
            if self.names.contains(&parts.name) {
                faults.push(
                    Fault::new(origin, format!("there are two sets named `{}`", parts.name))
                        .key("set")
                        .help("give each set a name of its own"),
                );
                continue;
            }
            if parts.driven.surely_after(self.today) {
                faults.push(
                    Fault::new(origin, format!("{} has not come yet", parts.driven))
                        .key("driven")
                        .help(format!("today is {}", self.today)),
                );
            }
            if let (Some(latest), Some(launched)) =
                (parts.driven.latest(), hull.particulars.launched.earliest())
                && latest < launched
            {
                faults.push(
                    Fault::new(
                        origin,
                        format!("driven {} before she was launched", parts.driven),
                    )
                    .key("driven")
                    .help(format!("she was launched {}", hull.particulars.launched)),
                );
            }
            let relation = &parts.relation;
            let mut known = |list: &[String], key: &'static str| -> Vec<SetId> {
                list.iter()
                    .filter_map(|name| {
                        let id = self
                            .names
                            .iter()
                            .position(|n| n == name)
                            .map(|i| SetId(i as u32));
                        if id.is_none() && !unread.sets.contains(name) {
                            faults.push(unknown_set(
                                origin,
                                key,
                                name,
                                &self.names,
                                "a set stands after those it replaces, leaves in or adds to",
                            ));
                        }
                        id
                    })
                    .collect()
            };
            let (replaces, leaves_in, adds_to) = (
                known(&relation.replaces, "replaces"),
                known(&relation.leaves_in, "leaves in"),
                known(&relation.adds_to, "adds to"),
            );
            let spots = match hull.resolve(&parts.place) {
                Ok(spots) => spots,
                Err(misread) => {
                    faults.extend(hull.not_there(parts.origin, "place", misread));
                    Vec::new()
                }
            };
            holes = holes.saturating_add(
                spots
                    .len()
                    .saturating_mul(usize::from(parts.per_crossing.unwrap_or(1))),
            );
            if holes > MOST_HOLES {
                faults.push(
                    Fault::new(
                        origin,
                        format!("the sets have more than {MOST_HOLES} fastenings"),
                    )
                    .key("per crossing"),
                );
                return;
            }
            let id = self.name(&parts.name);
            let fastening = self.describe(Fastening {
                set: id,
                kind: parts.kind,
                metal: parts.metal,
                size: parts.size,
                plug: parts.plug,
                driven: parts.driven,
                origin: parts.origin,
            });
            self.sets.push(Set {
                id,
                fastening,
                how: parts.how,
                spots: spots.into(),
                per_crossing: parts.per_crossing,
                replaces,
                leaves_in,
                adds_to,
            });
        }
    }

    fn take_entries(&mut self, hull: &Hull, unread: &Unread, today: Day, faults: &mut Vec<Fault>) {
        let mut last = 0;
        // Entries that are nowhere or of no set; that is told once, and they are not played.
        let mut adrift = BTreeSet::new();
        let entries = std::mem::take(&mut self.entries);
        for (at, entry) in entries.iter().enumerate() {
            let origin = Some(entry.origin);
            if entry.number <= last {
                faults.push(
                    Fault::new(origin, format!("entry {} comes after entry {last}", entry.number))
                        .key("entry")
                        .help("numbers rise through the file; is a line out of its order, or twice there?"),
                );
            }
            last = last.max(entry.number);
            if entry.date > today {
                faults.push(
                    Fault::new(origin, format!("{} has not come yet", entry.date))
                        .key("date")
                        .help(format!("today is {today}")),
                );
            }
            let mut spots = Vec::new();
            if let What::Done {
                place, deed, set, ..
            } = &entry.what
            {
                match hull.resolve(place) {
                    Ok(resolved) => spots = resolved,
                    Err(misread) => {
                        faults.extend(hull.not_there(entry.origin, "place", misread));
                        adrift.insert(at as u32);
                    }
                }
                if let Deed::Driven(driving) = deed {
                    let id = self.name(&driving.set);
                    let fastening = self.describe(Fastening {
                        set: id,
                        kind: driving.kind,
                        metal: driving.metal,
                        size: driving.size,
                        plug: driving.plug,
                        driven: entry.date.into(),
                        origin: entry.origin,
                    });
                    self.driven.insert(at as u32, fastening);
                } else if let Some(set) = set
                    && !self.names.contains(set)
                {
                    adrift.insert(at as u32);
                    if !unread.sets.contains(set) {
                        faults.push(unknown_set(
                            origin,
                            "set",
                            set,
                            &self.names,
                            "name a set of hull.yaml, or one driven earlier in the log",
                        ));
                    }
                }
            }
            self.spots.push(spots.into());
        }
        self.entries = entries;
        self.struck = self.strikes(unread, faults);
        self.order = (0..self.entries.len() as u32)
            .filter(|at| !self.struck.contains_key(&(*at as usize)) && !adrift.contains(at))
            .collect();
        self.order.sort_by_key(|at| {
            self.entries
                .get(*at as usize)
                .map(|entry| (entry.date, entry.number))
        });
    }

    /// Entries struck out, and by which: a strike that is itself struck out does nothing.
    fn strikes(&self, unread: &Unread, faults: &mut Vec<Fault>) -> HashMap<usize, usize> {
        let by_number: BTreeMap<u32, usize> = self
            .entries
            .iter()
            .enumerate()
            .map(|(at, entry)| (entry.number, at))
            .collect();
        let mut struck: HashMap<usize, usize> = HashMap::new();
        // A strike names an earlier entry, so the last of the log stands whatever came before.
        for (at, entry) in self.entries.iter().enumerate().rev() {
            let What::Struck { strike, .. } = &entry.what else {
                continue;
            };
            if struck.contains_key(&at) {
                continue;
            }
            match self.strike_target(entry, strike, &by_number) {
                Err(_) if unread.entries.contains(&strike.number) => {}
                Err(fault) => faults.push(*fault),
                Ok(target) => {
                    if let Some(later) = struck
                        .insert(target, at)
                        .and_then(|at| self.entries.get(at))
                    {
                        let number = strike.number;
                        let says = format!(
                            "entry {number} is already struck out by entry {}",
                            entry.number
                        );
                        let fault = Fault::new(Some(later.origin), says).key("strikes");
                        faults.push(
                            fault.help(format!("to bring it back, strike entry {}", entry.number)),
                        );
                    }
                }
            }
        }
        struck
    }

    fn strike_target(
        &self,
        entry: &Entry,
        strike: &Strike,
        by_number: &BTreeMap<u32, usize>,
    ) -> Result<usize, Box<Fault>> {
        let fault = |says: String| Box::new(Fault::new(Some(entry.origin), says).key("strikes"));
        let target = by_number
            .get(&strike.number)
            .and_then(|at| Some((*at, self.entries.get(*at)?)));
        let Some((at, target)) = target else {
            return Err(fault(format!("there is no entry {}", strike.number)));
        };
        if strike.number >= entry.number {
            return Err(fault(format!(
                "entry {} is not earlier than this one",
                strike.number
            )));
        }
        if target.title() != *strike {
            let fault = Fault::new(
                Some(entry.origin),
                format!("entry {} is not `{strike}`", strike.number),
            )
            .key("strikes");
            return Err(Box::new(fault.help(format!("it is `{}`", target.title()))));
        }
        Ok(at)
    }

    /// What stands in every hole at the end of a day, or after everything in the book.
    pub fn state(&self, hull: &Hull, day: Option<Day>) -> State {
        self.trace(hull, day, &mut |_| {})
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
        let mut state = replay::lay_sets(
            self,
            hull,
            |set| there.as_ref().is_none_or(|there| there.contains(&set.id)),
            &mut telling,
        );
        self.play(hull, &mut state, day, each, &mut telling);
        state
    }

    fn play(
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

    /// The sets that are taken as there at the end of a day: each from its last possible day, or
    /// from the first entry that touches it, and with it those it came after. One of no known day
    /// is there as soon as those it came after are.
    fn sets_on(&self, day: Day) -> BTreeSet<SetId> {
        let mut there = BTreeSet::new();
        for set in &self.sets {
            let undated = self.fastening(set.fastening).driven.latest().is_none();
            if (undated && set.came_after().all(|old| there.contains(&old)))
                || self.surely_on(set, day)
            {
                there.insert(set.id);
            }
        }
        self.with_older(there)
    }

    /// Whether it is certain that a set was there at the end of a day.
    fn surely_on(&self, set: &Set, day: Day) -> bool {
        let latest = self.fastening(set.fastening).driven.latest();
        // It is written down, so it was driven by today.
        latest.map_or(self.today, |latest| latest.min(self.today)) <= day
            || self.touched_by(set, day)
    }

    /// Adds to some sets all that they came after.
    fn with_older(&self, mut sets: BTreeSet<SetId>) -> BTreeSet<SetId> {
        for set in self.sets.iter().rev() {
            if sets.contains(&set.id) {
                sets.extend(set.came_after());
            }
        }
        sets
    }

    /// Whether an entry up to a day touches a set. One that touches only its neighbours in a
    /// crossing counts as well: by then the holes there have the numbers that both give them.
    fn touched_by(&self, set: &Set, day: Day) -> bool {
        self.order
            .iter()
            .filter(|at| {
                self.entries
                    .get(**at as usize)
                    .is_some_and(|entry| entry.date <= day)
            })
            .flat_map(|at| self.entry_spots(*at).iter())
            .any(|spot| {
                set.spots
                    .binary_search_by_key(&spot.crossing, |s| s.crossing)
                    .is_ok()
            })
    }

    /// Sets that may or may not have been there on a day.
    pub fn uncertain_on(&self, hull: &Hull, day: Day) -> impl Iterator<Item = &Set> {
        let sure = self
            .sets
            .iter()
            .filter(|set| self.surely_on(set, day))
            .map(|set| set.id);
        let sure = self.with_older(sure.collect());
        // A set is no older than the boat, nor than those it came after.
        let mut possible = BTreeSet::new();
        for set in &self.sets {
            let driven = self.fastening(set.fastening).driven;
            let begins = [driven.earliest(), hull.particulars.launched.earliest()];
            if begins.into_iter().flatten().all(|begin| begin <= day)
                && set.came_after().all(|old| possible.contains(&old))
            {
                possible.insert(set.id);
            }
        }
        let unsure = move |set: &&Set| possible.contains(&set.id) && !sure.contains(&set.id);
        self.sets.iter().filter(unsure)
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
        self.names
            .iter()
            .position(|known| known == name)
            .map(|at| SetId(at as u32))
    }

    /// Every set's name: those of the hull file, then those driven in the log.
    pub fn set_names(&self) -> impl Iterator<Item = (SetId, &str)> {
        (0..).map(SetId).zip(self.names.iter().map(String::as_str))
    }

    /// A fastening's description.
    pub fn fastening(&self, id: FasteningId) -> &Fastening {
        &self.fastenings[id.index()]
    }

    /// Every fastening's description: of the sets of the hull file, then of the log.
    pub fn fastenings(&self) -> impl Iterator<Item = &Fastening> {
        self.fastenings.iter()
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

    /// The entry that last looked at the metal in a hole.
    pub fn last_look(&self, hole: &super::Hole) -> Option<&Entry> {
        self.entries.get(hole.looked.checked_sub(1)? as usize)
    }

    pub(super) fn entry_spots(&self, at: u32) -> &[Spot] {
        self.spots.get(at as usize).map_or(&[], |spots| spots)
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
        self.entry_spots(at as u32).iter().map(|spot| spot.crossing)
    }
}

fn unknown_set(
    origin: Option<Origin>,
    key: &'static str,
    name: &str,
    known: &[String],
    otherwise: &str,
) -> Fault {
    let help = match nearest(name, known.iter().map(String::as_str)) {
        Some(near) => format!("did you mean `{near}`?"),
        None => otherwise.to_owned(),
    };
    Fault::new(origin, format!("there is no set `{name}` before this"))
        .key(key)
        .help(help)
}

impl Deed {
    /// Whether the deed tells that nothing was there after all.
    pub(super) fn tells_missing(&self) -> bool {
        matches!(self.did(), Did::Checked | Did::Bared) && self.found() == Some(Found::Missing)
    }
}
