//! What a rule reports, crossing by crossing, before it is folded.

use std::collections::{BTreeMap, HashMap};

use super::Survey;
use crate::hull::CrossingId;
use crate::joint::Verdict;
use crate::units::count;

/// How soon something must be put right.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Not before relaunch.
    Stop,
    /// This haul-out, or by the date the surveyor sets.
    Mend,
    /// Worth an eye.
    Watch,
}

impl Severity {
    /// The word for it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Stop => "stop",
            Self::Mend => "mend",
            Self::Watch => "watch",
        }
    }

    /// The severity of a judgement; `None` where there is nothing to say.
    pub const fn of(verdict: Verdict) -> Option<Self> {
        match verdict {
            Verdict::Ok => None,
            Verdict::Watch => Some(Self::Watch),
            Verdict::Mend => Some(Self::Mend),
            Verdict::Stop => Some(Self::Stop),
        }
    }
}

/// What a finding counts at its crossings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Counted {
    /// Fastenings that are there.
    Fastenings,
    /// Holes with nothing in them that holds.
    Holes,
    /// Fastenings relied on fewer than were built there.
    Short,
    /// Fastenings that are still to be driven.
    Wanted,
}

/// What is said of some crossings alike.
#[derive(Clone, Debug, PartialEq)]
pub struct Saying {
    /// How soon it must be put right.
    pub severity: Severity,
    /// What is wrong, in a line, figures and all.
    pub says: String,
    /// The figures, for other programs: a name with its unit, and the number.
    pub figures: Vec<(&'static str, f64)>,
    /// What to do.
    pub remedy: String,
    /// What is counted where it is said.
    pub counted: Counted,
}

impl Saying {
    /// Something to say, with what to do about it.
    pub fn new(severity: Severity, says: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self {
            severity,
            says: says.into(),
            figures: Vec::new(),
            remedy: remedy.into(),
            counted: Counted::Fastenings,
        }
    }

    /// Says it of something else than fastenings that are there.
    #[must_use]
    pub fn counting(mut self, counted: Counted) -> Self {
        self.counted = counted;
        self
    }

    /// Adds a figure; its name ends in its unit, as `embedment_mm`.
    #[must_use]
    pub fn figure(mut self, name: &'static str, value: f64) -> Self {
        self.figures.push((name, value));
        self
    }
}

/// Something that is said, by its number.
#[derive(Clone, Copy, Debug)]
pub(super) struct Said(u32);

/// Something that is said and where, apart by the acceptance that covers it there.
#[derive(Debug)]
pub(super) struct Told {
    pub(super) saying: Saying,
    pub(super) groups: BTreeMap<Option<usize>, Group>,
}

/// Where one thing is said, by one acceptance or by none.
#[derive(Debug, Default)]
pub(super) struct Group {
    /// Each as often as it is said there.
    pub(super) crossings: Vec<CrossingId>,
    pub(super) fastenings: u32,
}

impl Extend<(CrossingId, usize)> for Group {
    fn extend<I: IntoIterator<Item = (CrossingId, usize)>>(&mut self, places: I) {
        let fastenings = &mut self.fastenings;
        self.crossings
            .extend(places.into_iter().map(|(crossing, count)| {
                *fastenings = fastenings.saturating_add(u32::try_from(count).unwrap_or(u32::MAX));
                crossing
            }));
    }
}

/// An acceptance of the rule that looks, by its place among all, and the crossings it covers.
#[derive(Clone, Copy, Debug)]
pub(super) struct Covers<'s> {
    pub(super) acceptance: usize,
    /// In order.
    pub(super) crossings: &'s [CrossingId],
}

/// Takes what a rule finds.
#[derive(Debug)]
pub struct Hits<'s> {
    survey: &'s Survey<'s>,
    accepted: Vec<Covers<'s>>,
    by_text: BTreeMap<Severity, HashMap<String, Said>>,
    pub(super) told: Vec<Told>,
}

impl<'s> Hits<'s> {
    pub(super) fn new(survey: &'s Survey<'s>, accepted: Vec<Covers<'s>>) -> Self {
        Self {
            survey,
            accepted,
            by_text: BTreeMap::new(),
            told: Vec::new(),
        }
    }

    /// Says something of a crossing and so many fastenings or holes of it. Crossings that are not
    /// asked about are passed over, so that a rule may look at neighbours freely.
    pub fn at(&mut self, crossing: CrossingId, fastenings: usize, saying: Saying) {
        self.at_each(&[crossing], fastenings, saying);
    }

    /// Says the same of several crossings, and of so many fastenings or holes at each.
    pub fn at_each(&mut self, crossings: &[CrossingId], fastenings: usize, saying: Saying) {
        let each = crossings.iter().map(|crossing| (*crossing, fastenings));
        self.say(saying, each);
    }

    /// Says something of crossings, each with how many fastenings or holes of it.
    pub fn say(&mut self, saying: Saying, places: impl IntoIterator<Item = (CrossingId, usize)>) {
        let survey = self.survey;
        let mut places = places
            .into_iter()
            .filter(|(crossing, _)| survey.asks_about(*crossing))
            .peekable();
        if places.peek().is_none() {
            return;
        }
        let said = self.keep(saying);
        self.put(said, places);
    }

    /// Says what was kept of a crossing that is asked about.
    pub(super) fn again(&mut self, said: Said, crossing: CrossingId, fastenings: usize) {
        self.put(said, [(crossing, fastenings)]);
    }

    fn put(&mut self, said: Said, places: impl IntoIterator<Item = (CrossingId, usize)>) {
        let Some(told) = self.told.get_mut(said.0 as usize) else {
            return;
        };
        if self.accepted.is_empty() {
            told.groups.entry(None).or_default().extend(places);
            return;
        }
        for place in places {
            let mut accepted = self.accepted.iter();
            let covers = accepted.find(|by| by.crossings.binary_search(&place.0).is_ok());
            let by = covers.map(|by| by.acceptance);
            told.groups.entry(by).or_default().extend([place]);
        }
    }

    /// Keeps something to be said of a crossing that is asked about, and of others alike.
    pub(super) fn keep(&mut self, saying: Saying) -> Said {
        let by_text = self.by_text.entry(saying.severity).or_default();
        if let Some(said) = by_text.get(saying.says.as_str()) {
            return *said;
        }
        let new = Said(count(self.told.len()));
        by_text.insert(saying.says.clone(), new);
        self.told.push(Told {
            saying,
            groups: BTreeMap::new(),
        });
        new
    }
}
