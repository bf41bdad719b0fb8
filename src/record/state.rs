//! The state of every hole on one day.

use std::collections::BTreeMap;

use super::fabric::Fabric;
use super::{Content, FrameHole, Hole, HoleState, Mouth, PlankHole};
use crate::hull::{CrossingId, HoleNumber, Holes};
use crate::units::Length;

/// Where a crossing's holes lie in the list of all, and how many were meant to hold there.
#[derive(Clone, Copy, Debug, Default)]
struct Row {
    first: u32,
    len: u8,
    expected: u8,
    /// Whether the wood was changed, or anything is known of a single hole. Of few crossings it is,
    /// and of all others nothing more is looked up.
    is_noted: bool,
}

/// The state of every hole on one day, by crossing.
#[derive(Clone, Debug, Default)]
pub struct State {
    rows: Vec<Row>,
    /// Holes of a crossing lie together. A crossing that gets more holes moves to the end, and
    /// its old place stays behind unused.
    holes: Vec<Hole>,
    /// What was done to the wood, where anything was.
    fabric: BTreeMap<CrossingId, Fabric>,
    /// What was measured of the fastening in a hole, where it was.
    diameters: BTreeMap<(CrossingId, HoleNumber), Length>,
    /// By how much the bung over a fastening was made thinner, where it was.
    planed: BTreeMap<(CrossingId, HoleNumber), Length>,
}

impl State {
    /// No holes yet, with room for so many.
    pub(super) fn new(crossings: usize, holes: usize) -> Self {
        Self {
            rows: vec![Row::default(); crossings],
            holes: Vec::with_capacity(holes),
            ..Self::default()
        }
    }

    /// The holes of a crossing, in the order of their numbers.
    pub fn holes(&self, id: CrossingId) -> &[Hole] {
        let Some(row) = self.rows.get(id.index()) else {
            return &[];
        };
        self.holes
            .get(row.first as usize..row.first as usize + usize::from(row.len))
            .unwrap_or_default()
    }

    /// The holes of a crossing with their numbers.
    pub fn numbered(&self, id: CrossingId) -> impl Iterator<Item = (HoleNumber, &Hole)> + Clone {
        self.holes(id)
            .iter()
            .enumerate()
            .filter_map(|(i, hole)| Some((HoleNumber::new(i + 1)?, hole)))
    }

    /// How many holes are laid out, with those that a crossing left behind when it moved.
    pub(super) fn laid(&self) -> usize {
        self.holes.len()
    }

    /// Whether more is known of a crossing than its holes: the wood was changed, a fastening
    /// measured, a bung planed.
    pub fn is_noted(&self, id: CrossingId) -> bool {
        self.rows.get(id.index()).is_some_and(|row| row.is_noted)
    }

    fn note(&mut self, id: CrossingId) {
        if let Some(row) = self.rows.get_mut(id.index()) {
            row.is_noted = true;
        }
    }

    pub(super) fn fabric(&self, id: CrossingId) -> Option<&Fabric> {
        self.is_noted(id).then(|| self.fabric.get(&id)).flatten()
    }

    pub(super) fn fabric_mut(&mut self, id: CrossingId) -> &mut Fabric {
        self.note(id);
        self.fabric.entry(id).or_default()
    }

    /// What was measured of the fastening that is in a hole, or was last.
    pub fn diameter(&self, id: CrossingId, number: HoleNumber) -> Option<Length> {
        let known = || self.diameters.get(&(id, number));
        self.is_noted(id).then(known).flatten().copied()
    }

    /// The thinnest is what holds; a slip of the gauge is struck out.
    pub(super) fn measure(&mut self, id: CrossingId, number: HoleNumber, diameter: Length) {
        self.note(id);
        let known = self.diameters.entry((id, number)).or_insert(diameter);
        *known = (*known).min(diameter);
    }

    /// By how much the bung over a fastening was made thinner since it was driven.
    pub fn planed(&self, id: CrossingId, number: HoleNumber) -> Length {
        let known = || self.planed.get(&(id, number));
        let planed = self.is_noted(id).then(known).flatten();
        planed.copied().unwrap_or_default()
    }

    pub(super) fn plane(&mut self, id: CrossingId, number: HoleNumber, off: Length) {
        self.note(id);
        let planed = self.planed.entry((id, number)).or_default();
        *planed = *planed + off;
    }

    /// Nothing is known of a new fastening.
    pub(super) fn forget(&mut self, id: CrossingId, number: HoleNumber) {
        if self.is_noted(id) {
            self.diameters.remove(&(id, number));
            self.planed.remove(&(id, number));
        }
    }

    pub(super) fn hole_mut(&mut self, id: CrossingId, number: HoleNumber) -> Option<&mut Hole> {
        let row = *self.rows.get(id.index())?;
        if number.get() > row.len {
            return None;
        }
        self.holes.get_mut(row.first as usize + number.index())
    }

    /// Adds holes to a crossing, as many as it can have; gives the number of the first.
    pub(super) fn add(&mut self, id: CrossingId, count: u8, hole: Hole) -> Option<HoleNumber> {
        let row = self.rows.get_mut(id.index())?;
        let len = row
            .len
            .checked_add(count)
            .filter(|len| *len <= Holes::MOST)?;
        let start = row.first as usize;
        if start + usize::from(row.len) != self.holes.len() {
            row.first = u32::try_from(self.holes.len()).ok()?;
            self.holes
                .extend_from_within(start..start + usize::from(row.len));
        }
        let number = HoleNumber::new(usize::from(row.len) + 1);
        row.len = len;
        self.holes
            .resize(self.holes.len() + usize::from(count), hole);
        number
    }

    /// How many fastenings a crossing was built to be held by, before the log began.
    pub fn expected(&self, id: CrossingId) -> u8 {
        self.rows.get(id.index()).map_or(0, |row| row.expected)
    }

    /// Takes what holds now as what is meant to hold.
    pub(super) fn expect_what_holds(&mut self) {
        for row in &mut self.rows {
            let first = row.first as usize;
            let holes = self.holes.get(first..first + usize::from(row.len));
            let holding = holes
                .into_iter()
                .flatten()
                .filter(|hole| hole.is_relied_on());
            row.expected = u8::try_from(holding.count()).unwrap_or(u8::MAX);
        }
    }

    pub(super) fn expect_at_least(&mut self, id: CrossingId, count: u8) {
        if let Some(row) = self.rows.get_mut(id.index()) {
            row.expected = row.expected.max(count);
        }
    }

    /// Counts some crossings.
    pub fn tally(&self, crossings: impl IntoIterator<Item = CrossingId>) -> Tally {
        let mut tally = Tally::default();
        for id in crossings {
            self.holes(id).iter().for_each(|hole| tally.count(hole));
        }
        tally
    }
}

/// Holes counted by state. Each is counted under exactly one.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// All of them.
    pub holes: u32,
    /// In place and counted on.
    pub relied_on: u32,
    /// In place, found not to hold.
    pub unsound: u32,
    /// Left in, not relied on.
    pub left_in: u32,
    /// Stubs.
    pub broken: u32,
    /// No metal, plank side open.
    pub open: u32,
    /// No metal, plank side closed for good.
    pub plugged: u32,
    /// Heads that are bare and must be covered; counted beside the state.
    pub bungs_missing: u32,
}

impl Tally {
    /// Pieces of metal in the wood.
    pub const fn fastenings(&self) -> u32 {
        self.relied_on + self.unsound + self.left_in + self.broken
    }

    /// Counts one hole.
    pub fn count(&mut self, hole: &Hole) {
        self.count_as(hole, 1);
    }

    /// Counts the holes of a crossing as many times as there are crossings alike.
    pub fn count_each(&mut self, holes: &[Hole], crossings: usize) {
        let times = u32::try_from(crossings).unwrap_or(u32::MAX);
        holes.iter().for_each(|hole| self.count_as(hole, times));
    }

    fn count_as(&mut self, hole: &Hole, times: u32) {
        self.holes += times;
        *match hole.state() {
            HoleState::ReliedOn => &mut self.relied_on,
            HoleState::Unsound => &mut self.unsound,
            HoleState::LeftIn => &mut self.left_in,
            HoleState::Broken => &mut self.broken,
            HoleState::Open => &mut self.open,
            HoleState::Plugged => &mut self.plugged,
        } += times;
        if hole.content.mouth() == Some(Mouth::Open) {
            self.bungs_missing += times;
        }
    }
}

impl Content {
    /// What stands in a hole whose old fastening is gone and whose place is not used again.
    pub(super) const GONE: Self = Self::Empty(PlankHole::Plugged, FrameHole::Doweled);
}
