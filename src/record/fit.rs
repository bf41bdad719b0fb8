//! Fitting sets and entries to the hull and to each other.

use std::collections::{BTreeSet, HashMap};

use super::book::MOST_HOLES;
use super::spots::resolved;
use super::{
    Book, Deed, Did, Entry, Fastening, FasteningId, Found, Set, SetId, SetParts, Strike, Unread,
    What,
};
use crate::hull::{CrossingId, Hull};
use crate::text::{Fault, Origin, nearest};
use crate::units::{Day, count};

/// Among how many entries of one number that a strike may mean it is looked for.
const MOST_ALIKE: usize = 64;

impl Book {
    pub(super) fn name(&mut self, name: &str) -> SetId {
        if let Some(known) = self.set_named(name) {
            return known;
        }
        let new = SetId(count(self.names.len()));
        self.names.push(name.to_owned());
        self.by_name.insert(name.to_owned(), new);
        new
    }

    pub(super) fn describe(&mut self, fastening: Fastening) -> FasteningId {
        let new = FasteningId(count(self.fastenings.len()));
        self.fastenings.push(fastening);
        new
    }

    pub(super) fn take_sets(
        &mut self,
        hull: &Hull,
        sets: Vec<SetParts>,
        unread: &Unread,
        faults: &mut Vec<Fault>,
    ) -> BTreeSet<CrossingId> {
        let mut unsure = BTreeSet::new();
        let mut holes = 0_usize;
        for parts in sets {
            let origin = Some(parts.origin);
            if self.set_named(&parts.name).is_some() {
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
            let told = faults.len();
            let mut known = |list: &[String], key: &'static str| -> Vec<SetId> {
                list.iter()
                    .filter_map(|name| {
                        let id = self.set_named(name);
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
            let unknown = faults.len() > told;
            let spots = match hull.resolve(&parts.place) {
                Ok(spots) => spots,
                Err(misread) => {
                    faults.extend(hull.not_there(parts.origin, "place", misread));
                    Vec::new()
                }
            };
            if unknown {
                unsure.extend(spots.iter().map(|spot| spot.crossing));
            }
            holes = holes.saturating_add(
                spots
                    .len()
                    .saturating_mul(usize::from(parts.per_crossing.unwrap_or(1))),
            );
            if holes > MOST_HOLES {
                faults.push(
                    Fault::new(
                        origin,
                        format!(
                            "the sets have more than {} million fastenings",
                            MOST_HOLES / 1_000_000
                        ),
                    )
                    .key("per crossing")
                    .help("is `per crossing` right, and the place?"),
                );
                return unsure;
            }
            let id = self.name(&parts.name);
            let fastening = self.describe(Fastening {
                set: id,
                kind: parts.kind,
                metal: parts.metal,
                size: parts.size,
                plug: parts.plug,
                temporary: false,
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
        unsure
    }

    pub(super) fn take_entries(
        &mut self,
        hull: &Hull,
        unread: &Unread,
        today: Day,
        faults: &mut Vec<Fault>,
    ) {
        let mut last = 0;
        // The first entry of each number, asked for only where numbers do not rise.
        let mut first: Option<HashMap<u32, usize>> = None;
        // Entries that are nowhere or of no set; that is told once, and they are not played.
        let mut adrift = BTreeSet::new();
        let mut entries = std::mem::take(&mut self.entries);
        entries
            .iter_mut()
            .for_each(|entry| entry.number_strakes(hull));
        let resolved = resolved(hull, &entries);
        for ((at, entry), resolved) in entries.iter().enumerate().zip(resolved) {
            let origin = Some(entry.origin);
            if entry.number <= last {
                let first = first.get_or_insert_with(|| {
                    let entries = entries.iter().enumerate().rev();
                    entries.map(|(at, entry)| (entry.number, at)).collect()
                });
                let above = first.get(&entry.number).filter(|first| **first < at);
                let above = above.and_then(|at| entries.get(*at));
                if above.is_some_and(|above| is_twin(above, entry)) {
                    adrift.insert(count(at));
                }
                faults.push(out_of_order(entry, above, last));
            }
            // Told once, where the numbers fall back.
            last = entry.number;
            if entry.date > today {
                faults.push(
                    Fault::new(origin, format!("{} has not come yet", entry.date))
                        .key("date")
                        .help(format!("today is {today}")),
                );
            }
            faults.extend(written_when_it_cannot_be(entry, today));
            if hull.particulars.launched.surely_after(entry.date) {
                let launched = hull.particulars.launched;
                let says = format!("{} is before she was launched", entry.date);
                let fault = Fault::new(origin, says).key("date");
                faults.push(fault.help(format!("she was launched {launched}")));
            }
            let mut spots = Box::default();
            if let What::Done {
                place, deed, set, ..
            } = &entry.what
            {
                match resolved.map_or_else(|| hull.resolve(place).map(Vec::into), Ok) {
                    Ok(resolved) => spots = resolved,
                    Err(misread) => {
                        faults.extend(hull.not_there(entry.origin, "place", misread));
                        adrift.insert(count(at));
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
                        temporary: driving.temporary,
                        driven: entry.date.into(),
                        origin: entry.origin,
                    });
                    self.driven.insert(count(at), fastening);
                } else if let Some(set) = set
                    && self.set_named(set).is_none()
                {
                    adrift.insert(count(at));
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
            self.spots.push(spots);
        }
        self.entries = entries;
        self.struck = self.strikes(unread, faults);
        self.put_in_order(|at| !adrift.contains(&at));
    }

    /// Puts the entries that `counts` tells of and are not struck out in the order things happened.
    pub(super) fn put_in_order(&mut self, counts: impl Fn(u32) -> bool) {
        self.order = (0..count(self.entries.len()))
            .filter(|at| !self.struck.contains_key(&(*at as usize)) && counts(*at))
            .collect();
        self.order.sort_by_key(|at| {
            self.entries
                .get(*at as usize)
                .map(|entry| (entry.date, entry.number))
        });
    }

    /// Entries struck out, and by which: a strike that is itself struck out does nothing.
    pub(super) fn strikes(
        &self,
        unread: &Unread,
        faults: &mut Vec<Fault>,
    ) -> HashMap<usize, usize> {
        let mut by_number: Vec<(u32, usize)> = self
            .entries
            .iter()
            .enumerate()
            .map(|(at, entry)| (entry.number, at))
            .collect();
        by_number.sort_unstable();
        let mut struck: HashMap<usize, usize> = HashMap::new();
        // A strike names an earlier entry, so the last of the log stands whatever came before.
        for (at, entry) in self.entries.iter().enumerate().rev() {
            let What::Struck { strike, .. } = &entry.what else {
                continue;
            };
            if struck.contains_key(&at) {
                continue;
            }
            match self.strike_target(at, entry, strike, &by_number) {
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

    pub(super) fn strike_target(
        &self,
        by: usize,
        entry: &Entry,
        strike: &Strike,
        by_number: &[(u32, usize)],
    ) -> Result<usize, Box<Fault>> {
        let fault = |says: String| Box::new(Fault::new(Some(entry.origin), says).key("strikes"));
        // In a log that two people added to, a number may be there twice: the nearest above is meant.
        let up_to = |at| by_number.partition_point(|known| *known < (strike.number, at));
        let same = |range: std::ops::Range<usize>| {
            let same = by_number.get(range).unwrap_or_default().iter().rev();
            same.filter_map(|(_, at)| Some((*at, self.entries.get(*at)?)))
        };
        let named = |(_, target): &(usize, &Entry)| target.title() == *strike;
        let target = same(up_to(0)..up_to(by))
            .take(MOST_ALIKE)
            .find(named)
            .or_else(|| same(up_to(0)..up_to(usize::MAX)).next());
        let Some((at, target)) = target else {
            let fault = fault(format!("there is no entry {}", strike.number));
            let help = "`refasten log` shows the last ones with their numbers";
            return Err(Box::new(fault.help(help)));
        };
        if strike.number >= entry.number {
            let fault = fault(format!(
                "entry {} is not earlier than this one",
                strike.number
            ));
            let help = "a strike stands after what it strikes out";
            return Err(Box::new(fault.help(help)));
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
}

/// The fault of a day of writing that is before the day of the work, or has not come yet.
fn written_when_it_cannot_be(entry: &Entry, today: Day) -> Option<Fault> {
    let written = entry.written?;
    let fault = |says| Fault::new(Some(entry.origin), says).key("written");
    if written < entry.date {
        let says = format!("written on {written}, before it was done");
        return Some(fault(says).help(format!("it was done on {}", entry.date)));
    }
    let says = format!("{written} has not come yet");
    (written > today).then(|| fault(says).help(format!("today is {today}")))
}

/// Whether two entries are the same line twice.
fn is_twin(one: &Entry, other: &Entry) -> bool {
    let moved = Entry {
        origin: other.origin,
        ..one.clone()
    };
    moved == *other
}

/// What is wrong with an entry at which numbers fall back, `above` the first of its number.
fn out_of_order(entry: &Entry, above: Option<&Entry>, last: u32) -> Fault {
    let number = entry.number;
    let fault = |says| Fault::new(Some(entry.origin), says).key("entry");
    let Some(above) = above else {
        return fault(format!("entry {number} comes after entry {last}"))
            .help("numbers rise through the file; `check --repair` puts the line in its place");
    };
    if is_twin(above, entry) {
        return fault(format!("entry {number} is there twice"))
            .help("`check --repair` keeps a line once that is there twice");
    }
    fault(format!(
        "entry {number} comes after entry {last}, and there is another entry {number} above"
    ))
    .help("were two people's logs put together? `check --repair` numbers the later entries anew")
}

pub(super) fn unknown_set(
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
