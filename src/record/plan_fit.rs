//! Fitting the lines of the plan to the hull, to the sets and to what was driven for them.

use std::collections::BTreeMap;

use super::book::MOST_HOLES;
use super::carry_out::Lack;
use super::fit::unknown_set;
use super::problem::MOST_PLACES;
use super::{
    Book, Deed, Entry, Fastening, FasteningId, Intent, PlanLine, Planned, SetId, Unread, What,
};
use crate::hull::{CrossingId, Hull, Spot, fold};
use crate::text::{Fault, nearest};
use crate::units::Day;

/// A line of the plan fitted to the hull and the sets.
#[derive(Clone, Debug)]
pub(super) struct FittedLine {
    pub(super) line: PlanLine,
    /// Where it drives; nowhere of one that gives a plan up.
    pub(super) spots: Box<[Spot]>,
    /// What it drives.
    pub(super) fastening: Option<FasteningId>,
    pub(super) replaces: Vec<SetId>,
    pub(super) leaves_in: Vec<SetId>,
    pub(super) adds_to: Vec<SetId>,
}

impl Book {
    /// Takes the lines of the plan, after the sets and the entries. `whole` says that every line
    /// of it could be read, so that what is missing is not there; `unread` is what could not be
    /// read of the sets and entries. Whatever is wrong is told in `faults`.
    pub fn take_plans(
        &mut self,
        hull: &Hull,
        lines: Vec<PlanLine>,
        whole: bool,
        unread: &Unread,
        today: Day,
        faults: &mut Vec<Fault>,
    ) {
        let mut lines = lines;
        // What two people planned is joined in any order.
        lines.sort_by_key(|line| line.date);
        let mut planned = 0_usize;
        for line in lines {
            let origin = Some(line.origin);
            if line.date > today {
                faults.push(
                    Fault::new(origin, format!("{} has not come yet", line.date))
                        .key("date")
                        .help(format!("today is {today}")),
                );
            }
            let fitted = match &line.intent {
                Intent::Drive(drive) => {
                    let spots = match hull.resolve(&drive.place) {
                        Ok(spots) => spots,
                        Err(misread) => {
                            faults.extend(hull.not_there(line.origin, "place", misread));
                            Vec::new()
                        }
                    };
                    planned = planned.saturating_add(drive.total(spots.len()));
                    if planned > MOST_HOLES {
                        let says = format!(
                            "the plan has more than {} million fastenings",
                            MOST_HOLES / 1_000_000
                        );
                        let fault = Fault::new(origin, says).key("per crossing");
                        faults.push(fault.help("is `per crossing` right, and the place?"));
                        return;
                    }
                    self.fit_line(line.clone(), drive, spots, unread, faults)
                }
                Intent::Drop { .. } => {
                    let known = self.plan.iter().any(|known| known.line.plan == line.plan);
                    if !known && whole {
                        faults.push(self.no_plan(&line.plan, line.origin));
                    }
                    FittedLine {
                        line,
                        spots: Box::default(),
                        fastening: None,
                        replaces: Vec::new(),
                        leaves_in: Vec::new(),
                        adds_to: Vec::new(),
                    }
                }
            };
            self.plan.push(fitted);
        }
        if whole {
            self.tell_astray(hull, faults);
        }
        // What stands in a book that is not whole proves nothing of the plan.
        if faults.is_empty() {
            self.tell_impossible(hull, faults);
        }
    }

    fn fit_line(
        &mut self,
        line: PlanLine,
        drive: &Planned,
        spots: Vec<Spot>,
        unread: &Unread,
        faults: &mut Vec<Fault>,
    ) -> FittedLine {
        let mut known = |list: &[String], key: &'static str| -> Vec<SetId> {
            list.iter()
                .filter_map(|name| {
                    let id = self.set_named(name);
                    if id.is_none() && !unread.sets.contains(name) {
                        let help = "name a set of hull.yaml or of the log, or an earlier plan";
                        faults.push(unknown_set(Some(line.origin), key, name, &self.names, help));
                    }
                    id
                })
                .collect()
        };
        let relation = &drive.relation;
        let (replaces, leaves_in, adds_to) = (
            known(&relation.replaces, "replaces"),
            known(&relation.leaves_in, "leaves in"),
            known(&relation.adds_to, "adds to"),
        );
        let set = self.name(&line.plan);
        let fastening = self.describe(Fastening {
            set,
            kind: drive.kind,
            metal: drive.metal,
            size: drive.size,
            plug: drive.plug,
            temporary: false,
            driven: line.date.into(),
            origin: line.origin,
        });
        FittedLine {
            line,
            spots: spots.into(),
            fastening: Some(fastening),
            replaces,
            leaves_in,
            adds_to,
        }
    }

    fn no_plan(&self, name: &str, origin: crate::text::Origin) -> Fault {
        let known = self.plan.iter().map(|fitted| fitted.line.plan.as_str());
        let help = match nearest(name, known) {
            Some(near) => format!("did you mean `{near}`?"),
            None => "`pick --into-plan` begins one".to_owned(),
        };
        Fault::new(
            Some(origin),
            format!("there is no plan `{name}` before this"),
        )
        .key("plan")
        .help(help)
    }

    /// Tells of entries that carry out a plan which is not there, or not of that place.
    fn tell_astray(&self, hull: &Hull, faults: &mut Vec<Fault>) {
        let clamps = |entry: &&Entry| match &entry.what {
            What::Done {
                deed: Deed::Driven(driving),
                ..
            } => driving.temporary && driving.plan.is_some(),
            _ => false,
        };
        for entry in self.story().filter(clamps) {
            let says = "what only clamps for a time carries out no plan";
            let fault = Fault::new(Some(entry.origin), says).key("plan");
            faults.push(fault.help("leave `plan` out, or `temporary`"));
        }
        let mut astray: Vec<(Entry, Vec<CrossingId>)> = Vec::new();
        self.follow_plans(None, &mut |entry, crossings| {
            astray.push((entry.clone(), crossings));
        });
        for (entry, crossings) in astray {
            let name = entry.carries_out().unwrap_or_default();
            let lines = || self.plan.iter().filter(|fitted| fitted.line.plan == name);
            let Some(first) = lines().next() else {
                faults.push(self.no_plan(name, entry.origin));
                continue;
            };
            let then: Vec<CrossingId> = lines()
                .filter(|fitted| fitted.line.date <= entry.date)
                .flat_map(|fitted| fitted.spots.iter().map(|spot| spot.crossing))
                .collect();
            let places = |ids: &[CrossingId]| fold(hull, ids.iter().copied()).shown(MOST_PLACES);
            let says = format!(
                "the plan `{name}` has nothing in hand at {} on {}",
                places(&crossings),
                entry.date
            );
            let help = if then.is_empty() {
                format!(
                    "it is of {}; leave `plan` out of what was done before",
                    first.line.date
                )
            } else if crossings.iter().any(|id| then.contains(id)) {
                "what remained there was given up, or overtaken by a later line".to_owned()
            } else {
                format!("it is for {}", places(&then))
            };
            faults.push(Fault::new(Some(entry.origin), says).key("plan").help(help));
        }
    }

    /// Tells of what waits in the plan and cannot be done to what stands there.
    fn tell_impossible(&self, hull: &Hull, faults: &mut Vec<Fault>) {
        let stages = self.plan_progress(None);
        if stages.iter().all(|stage| stage.left() == 0) {
            return;
        }
        let mut state = self.state(hull, None).into_owned();
        let mut lacks: BTreeMap<(usize, Lack), Vec<CrossingId>> = BTreeMap::new();
        for stage in stages.iter().filter(|stage| stage.left() > 0) {
            match self.carry_out(&mut state, stage) {
                // It waits for its plank.
                Ok(()) | Err(None) => {}
                Err(Some(lack)) => {
                    let at = lacks.entry((stage.line, lack)).or_default();
                    at.push(stage.spot.crossing);
                }
            }
        }
        for ((line, lack), crossings) in lacks {
            let Some(line) = self.plan_line(line) else {
                continue;
            };
            let places = fold(hull, crossings).shown(MOST_PLACES);
            faults.push(lack.fault(self, line, &places));
        }
    }
}

impl Planned {
    /// How many go into so many crossings.
    fn total(&self, crossings: usize) -> usize {
        usize::from(self.per_crossing.unwrap_or(1)).saturating_mul(crossings)
    }
}
