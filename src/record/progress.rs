//! How far each plan has come, crossing by crossing.

use std::collections::BTreeMap;

use super::plan_fit::FittedLine;
use super::{Book, Deed, Entry, FasteningId, Intent, PlanLine, What};
use crate::hull::{CrossingId, Holes, Spot};
use crate::text::words;
use crate::units::Day;

words! {
    /// How far a line of the plan has come at a crossing.
    Progress, "a state of a plan" {
        /// Something of it is still to be driven.
        Pending = "pending",
        /// All of it is driven.
        Done = "done",
        /// Given up, or overtaken by a later line.
        Dropped = "dropped",
    }
}

/// One line of the plan at one crossing.
#[derive(Clone, Debug)]
pub struct Stage {
    /// The line, by its place in [`Book::plan_lines`].
    pub line: usize,
    /// The crossing, and the holes of it where the line names them.
    pub spot: Spot,
    /// What is meant to be driven.
    pub fastening: FasteningId,
    /// How many.
    pub planned: u8,
    /// How many were driven for it.
    pub driven: u32,
    /// Whether what remained of it was given up.
    dropped: bool,
    /// What was driven for it, entry by entry.
    pub(super) by: Vec<FasteningId>,
}

impl Stage {
    /// How many are still to be driven; none of what is given up.
    pub fn left(&self) -> u8 {
        if self.dropped { 0 } else { self.wanting() }
    }

    /// How far it has come.
    pub fn progress(&self) -> Progress {
        match (self.wanting(), self.dropped) {
            (0, _) => Progress::Done,
            (_, true) => Progress::Dropped,
            (_, false) => Progress::Pending,
        }
    }

    fn wanting(&self) -> u8 {
        let driven = u8::try_from(self.driven).unwrap_or(u8::MAX);
        self.planned.saturating_sub(driven)
    }

    fn give_up(&mut self) {
        self.dropped |= self.wanting() > 0;
    }
}

/// The stages as the story goes on.
#[derive(Default)]
struct Tally {
    stages: Vec<Stage>,
    at: BTreeMap<CrossingId, Vec<usize>>,
}

impl Book {
    /// Every line of the plan at every crossing of it, as it stood at the end of a day, or after
    /// everything in the book; in the order of the lines, and in each of the crossings.
    pub fn plan_progress(&self, day: Option<Day>) -> Vec<Stage> {
        self.follow_plans(day, &mut |_, _| {})
    }

    /// The same. An entry that carries out a plan where that plan had nothing in hand is told to
    /// `astray`, with the crossings.
    pub(super) fn follow_plans(
        &self,
        day: Option<Day>,
        astray: &mut dyn FnMut(&Entry, Vec<CrossingId>),
    ) -> Vec<Stage> {
        let by_then = |date: Day| day.is_none_or(|day| date <= day);
        let mut tally = Tally::default();
        let mut lines = self.plan.iter().enumerate().peekable();
        for at in &self.order {
            let Some(entry) = self.entries.get(*at as usize) else {
                continue;
            };
            let Some(plan) = entry.carries_out().filter(|_| by_then(entry.date)) else {
                continue;
            };
            // What is planned in the morning may be driven in the afternoon.
            while let Some((number, line)) = lines.next_if(|(_, l)| l.line.date <= entry.date) {
                tally.take_line(self, number, line);
            }
            let Some(fastening) = self.driven_by(*at) else {
                continue;
            };
            let spots = self.entry_spots(*at);
            let nowhere = tally.take_entry(&self.plan, plan, entry, spots, fastening);
            if !nowhere.is_empty() {
                astray(entry, nowhere);
            }
        }
        for (number, line) in lines.take_while(|(_, l)| by_then(l.line.date)) {
            tally.take_line(self, number, line);
        }
        tally.stages
    }

    /// The lines of the plan, in the order they were made.
    pub fn plan_lines(&self) -> impl ExactSizeIterator<Item = &PlanLine> {
        self.plan.iter().map(|fitted| &fitted.line)
    }

    /// A line of the plan.
    pub fn plan_line(&self, number: usize) -> Option<&PlanLine> {
        self.plan.get(number).map(|fitted| &fitted.line)
    }
}

impl Tally {
    fn take_line(&mut self, book: &Book, number: usize, fitted: &FittedLine) {
        let Intent::Drive(planned) = &fitted.line.intent else {
            let same = |stage: &&mut Stage| {
                let line = book.plan.get(stage.line);
                line.is_some_and(|line| line.line.plan == fitted.line.plan)
            };
            self.stages.iter_mut().filter(same).for_each(Stage::give_up);
            return;
        };
        let Some(fastening) = fitted.fastening else {
            return;
        };
        for spot in &fitted.spots {
            let here = self.at.entry(spot.crossing).or_default();
            for at in here.iter() {
                let Some(stage) = self.stages.get_mut(*at) else {
                    continue;
                };
                let of = book.fastening(stage.fastening).set;
                // A later line takes the place of one that still waits.
                if overlap(stage.spot.holes, spot.holes) && !fitted.adds_to.contains(&of) {
                    stage.give_up();
                }
            }
            here.push(self.stages.len());
            self.stages.push(Stage {
                line: number,
                spot: *spot,
                fastening,
                planned: planned
                    .per_crossing
                    .or_else(|| spot.holes.count().try_into().ok())
                    .unwrap_or(Holes::MOST),
                driven: 0,
                dropped: false,
                by: Vec::new(),
            });
        }
    }

    /// Counts what an entry drove; gives the crossings at which its plan had nothing in hand.
    fn take_entry(
        &mut self,
        lines: &[FittedLine],
        plan: &str,
        entry: &Entry,
        spots: &[Spot],
        fastening: FasteningId,
    ) -> Vec<CrossingId> {
        let mut nowhere = Vec::new();
        for spot in spots {
            let mut more = entry.driven_at(*spot);
            let here = self.at.get(&spot.crossing).into_iter().flatten();
            let mine: Vec<usize> = here
                .copied()
                .filter(|at| {
                    self.stages.get(*at).is_some_and(|stage| {
                        let line = lines.get(stage.line);
                        !stage.dropped
                            && overlap(stage.spot.holes, spot.holes)
                            && line.is_some_and(|line| line.line.plan == plan)
                    })
                })
                .collect();
            let Some(last) = mine.last() else {
                nowhere.push(spot.crossing);
                continue;
            };
            for at in &mine {
                let Some(stage) = self.stages.get_mut(*at) else {
                    continue;
                };
                // One that is driven again in the place of one that spun counts with the last.
                let takes = match at == last {
                    true => more,
                    false => more.min(u32::from(stage.left())),
                };
                if takes > 0 {
                    stage.driven = stage.driven.saturating_add(takes);
                    stage.by.push(fastening);
                    more -= takes;
                }
            }
        }
        nowhere
    }
}

/// Whether two choices of holes in one crossing have a hole in common, or may have.
fn overlap(one: Holes, other: Holes) -> bool {
    one.is_any() || other.is_any() || one.numbers().any(|hole| other.has(hole))
}

impl Entry {
    /// The plan it carries out.
    pub fn carries_out(&self) -> Option<&str> {
        match &self.what {
            What::Done {
                deed: Deed::Driven(driving),
                ..
            } => driving.plan.as_deref(),
            _ => None,
        }
    }

    /// How many it drove at a crossing of it.
    fn driven_at(&self, spot: Spot) -> u32 {
        match &self.what {
            What::Done {
                deed: Deed::Driven(driving),
                ..
            } => driving.per_crossing.map_or(spot.holes.count(), u32::from),
            _ => 0,
        }
    }
}
