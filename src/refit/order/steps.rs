//! The steps of a round, day by day: what is glued today is bored tomorrow.

use std::collections::BTreeMap;

use super::job::Job;
use super::unit::Unit;
use crate::audit::Survey;
use crate::hull::{CrossingId, HoleNumber, Places, fold, fold_holes};
use crate::joint::Plug;
use crate::record::{FasteningId, HoleChoice};
use crate::units::count;

/// What a step of the work is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Work {
    /// Old fastenings drawn.
    Draw,
    /// Stubs got out.
    Clear,
    /// Fastenings left as metal.
    Leave,
    /// Holes in frames doweled.
    Dowel,
    /// Holes in planks plugged for good.
    Plug,
    /// New fastenings driven.
    Drive {
        /// What.
        fastening: FasteningId,
        /// Into which holes.
        hole: HoleChoice,
        /// How many at each crossing; `None` where the holes are named.
        per_crossing: Option<u8>,
    },
    /// Bare heads covered.
    Cover(Cover),
    /// Bungs and plugs trimmed once the glue is hard; nothing to log.
    Trim,
}

/// With what a head is covered.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cover {
    /// A bung, or something that is not known.
    Bung,
    /// Putty.
    Stopping,
}

/// A step of the work.
#[derive(Clone, Debug)]
pub struct Step {
    /// The day of the round, from 1. Between one and the next is at least a night.
    pub day: u8,
    /// What is done.
    pub work: Work,
    /// Where; holes by their numbers where they are there.
    pub place: Places,
    /// How many fastenings or holes.
    pub count: u32,
}

/// Holes by crossing.
type Spots = Vec<(CrossingId, HoleNumber)>;

/// The steps that cover heads which stand bare and open nothing.
pub(super) fn covering<'j>(survey: &Survey<'_>, jobs: impl Iterator<Item = &'j Job>) -> Vec<Step> {
    let mut steps = Steps::new(survey);
    let mut bare: BTreeMap<Cover, Spots> = BTreeMap::new();
    for job in jobs {
        for (fastening, hole) in &job.cover {
            let with = steps.cover(*fastening);
            bare.entry(with).or_default().push((job.crossing, *hole));
        }
    }
    for (with, spots) in bare {
        steps.holes(1, Work::Cover(with), spots);
    }
    steps.done
}

/// The steps of a round.
pub(super) fn steps(survey: &Survey<'_>, units: &[Unit]) -> Vec<Step> {
    let jobs = || units.iter().flat_map(|unit| &unit.jobs);
    let mut steps = Steps::new(survey);
    let pick = |of: fn(&Job) -> &Vec<HoleNumber>| -> Spots {
        jobs()
            .flat_map(|job| of(job).iter().map(|hole| (job.crossing, *hole)))
            .collect()
    };
    steps.holes(1, Work::Draw, pick(|job| &job.draw));
    steps.holes(1, Work::Clear, pick(|job| &job.clear));
    steps.holes(1, Work::Leave, pick(|job| &job.leave));
    let doweled = pick(|job| &job.dowel);
    let plugged = pick(|job| &job.plug);
    // A glued dowel waits a day before it is bored.
    let drive_on = if doweled.is_empty() { 1 } else { 2 };
    let glued = !plugged.is_empty();
    steps.holes(1, Work::Dowel, doweled);
    steps.holes(1, Work::Plug, plugged);

    let mut same: BTreeMap<FasteningId, Spots> = BTreeMap::new();
    let mut new: BTreeMap<(FasteningId, u8), Vec<CrossingId>> = BTreeMap::new();
    let mut heads: BTreeMap<Cover, (Spots, u32, Vec<CrossingId>)> = BTreeMap::new();
    for job in jobs() {
        for (fastening, drive) in &job.drive {
            let named = drive.same.iter().map(|hole| (job.crossing, *hole));
            if !drive.same.is_empty() {
                same.entry(*fastening).or_default().extend(named.clone());
            }
            if drive.new > 0 {
                new.entry((*fastening, drive.new))
                    .or_default()
                    .push(job.crossing);
            }
            if steps.survey.book.fastening(*fastening).plug.closes() {
                let (_, heads, crossings) = heads.entry(steps.cover(*fastening)).or_default();
                *heads += count(drive.same.len()) + u32::from(drive.new);
                crossings.push(job.crossing);
            }
        }
    }
    for (fastening, spots) in same {
        let work = Work::Drive {
            fastening,
            hole: HoleChoice::Same,
            per_crossing: None,
        };
        steps.holes(drive_on, work, spots);
    }
    for ((fastening, each), crossings) in new {
        let work = Work::Drive {
            fastening,
            hole: HoleChoice::New,
            per_crossing: Some(each),
        };
        steps.crossings(drive_on, work, each, crossings);
    }
    let bunged = heads.contains_key(&Cover::Bung);
    for (with, (_, count, crossings)) in heads {
        let place = fold(survey.hull, crossings);
        let work = Work::Cover(with);
        steps.done.push(Step {
            day: drive_on,
            work,
            place,
            count,
        });
    }
    if bunged || glued {
        let all = jobs().filter(|job| !job.drive.is_empty() || !job.plug.is_empty());
        let place = fold(survey.hull, all.map(|job| job.crossing));
        let (day, work, count) = (drive_on + 1, Work::Trim, 0);
        steps.done.push(Step {
            day,
            work,
            place,
            count,
        });
    }
    steps.done
}

/// Steps as they are listed.
struct Steps<'s, 'b> {
    survey: &'s Survey<'b>,
    done: Vec<Step>,
}

impl<'s, 'b> Steps<'s, 'b> {
    const fn new(survey: &'s Survey<'b>) -> Self {
        Self {
            survey,
            done: Vec::new(),
        }
    }

    fn holes(&mut self, day: u8, work: Work, spots: Spots) {
        if spots.is_empty() {
            return;
        }
        let count = count(spots.len());
        let place = fold_holes(self.survey.hull, spots);
        self.done.push(Step {
            day,
            work,
            place,
            count,
        });
    }

    fn crossings(&mut self, day: u8, work: Work, each: u8, crossings: Vec<CrossingId>) {
        let count = count(crossings.len()).saturating_mul(each.into());
        let place = fold(self.survey.hull, crossings);
        self.done.push(Step {
            day,
            work,
            place,
            count,
        });
    }

    fn cover(&self, fastening: FasteningId) -> Cover {
        match self.survey.book.fastening(fastening).plug {
            Plug::Stopping => Cover::Stopping,
            Plug::Bung(_) | Plug::None | Plug::Unknown => Cover::Bung,
        }
    }
}
