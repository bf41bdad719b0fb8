//! The state she will be in once what is planned is done.

use super::plan_fit::FittedLine;
use super::{
    Book, Content, FrameHole, Hole, HoleChoice, Intent, Mouth, PlanLine, PlankHole, PlankSide,
    SetId, Stage, State,
};
use crate::hull::{CrossingId, HoleNumber, Holes};
use crate::text::Fault;
use crate::units::Day;

use super::act::can_drive;

/// What carrying out the plan came to.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CarriedOut {
    /// Crossings at which something was taken as driven.
    pub at: Vec<CrossingId>,
    /// How many were taken as driven.
    pub fastenings: u32,
    /// Crossings left as they are: the plank is off there, or what is named is not there yet.
    pub not_at: Vec<CrossingId>,
}

/// Why a line of the plan cannot be carried out at a crossing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Lack {
    NoHole(HoleNumber),
    /// It holds a fastening that is to stay.
    Filled(HoleNumber, SetId),
    /// It is plugged for good.
    Plugged(HoleNumber),
    TooMany,
}

impl Lack {
    pub(super) fn fault(self, book: &Book, line: &PlanLine, places: &str) -> Fault {
        let fault = |says: String| Fault::new(Some(line.origin), says).key("place");
        match self {
            Self::NoHole(number) => fault(format!("there is no hole {number} at {places}"))
                .help("name the crossing only, with `hole: new`"),
            Self::Filled(number, set) => fault(format!(
                "hole {number} at {places} holds `{}`, which is to stay",
                book.set_name(set)
            ))
            .help(format!(
                "say that it goes: `replaces: {}`, or bore beside it: `hole: new`",
                book.set_name(set)
            )),
            Self::Plugged(number) => {
                fault(format!("hole {number} at {places} is plugged for good"))
                    .help("bore beside it: name the crossing only, with `hole: new`")
            }
            Self::TooMany => fault(format!(
                "more than {} holes in a crossing at {places}",
                Holes::MOST
            ))
            .key("per crossing")
            .help("is `per crossing` right?"),
        }
    }
}

/// What becomes of a hole of a crossing.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Fate {
    /// As it is.
    Stays,
    /// Its fastening stays as metal.
    LeftIn,
    /// It is emptied where it is not empty, and may be used again.
    Freed {
        /// Whether it is closed for good where it is not used again.
        closed: bool,
    },
}

impl Book {
    /// Does to a state everything that the plan has waiting at the end of a day: what goes is
    /// drawn, holes that are used again are doweled where they were spoiled, new fastenings are
    /// driven and covered, and old holes that are not used again are closed.
    pub fn carry_out_plans(&self, state: &mut State, day: Option<Day>) -> CarriedOut {
        let mut done = CarriedOut::default();
        for stage in self.plan_progress(day) {
            if stage.left() == 0 {
                continue;
            }
            match self.carry_out(state, &stage) {
                Ok(()) => {
                    done.at.push(stage.spot.crossing);
                    done.fastenings += u32::from(stage.left());
                }
                Err(_) => done.not_at.push(stage.spot.crossing),
            }
        }
        done
    }

    /// Does to a state what waits of one line of the plan at one crossing; gives whether it could
    /// be done.
    pub fn carry_out_stage(&self, state: &mut State, stage: &Stage) -> bool {
        self.carry_out(state, stage).is_ok()
    }

    /// Does to a state what waits of one line of the plan, and gives the crossings at which it was
    /// done.
    pub fn carry_out_line(&self, state: &mut State, line: usize) -> Vec<CrossingId> {
        let stages = self.plan_progress(None).into_iter();
        let waiting = stages.filter(|stage| stage.line == line && stage.left() > 0);
        waiting
            .filter(|stage| self.carry_out(state, stage).is_ok())
            .map(|stage| stage.spot.crossing)
            .collect()
    }

    /// Carries out what waits of one line at one crossing, all of it or nothing.
    pub(super) fn carry_out(&self, state: &mut State, stage: &Stage) -> Result<(), Option<Lack>> {
        let Some(fitted) = self.plan.get(stage.line) else {
            return Ok(());
        };
        let Intent::Drive(planned) = &fitted.line.intent else {
            return Ok(());
        };
        let id = stage.spot.crossing;
        if state.is_off(id) {
            return Err(None);
        }
        let fates: Vec<(HoleNumber, Fate)> = state
            .numbered(id)
            .map(|(number, hole)| (number, self.fate(fitted, stage, number, hole)))
            .collect();
        let left = usize::from(stage.left());
        let mut again: Vec<HoleNumber> = Vec::new();
        if !stage.spot.holes.is_any() {
            for number in stage.spot.holes.numbers() {
                let hole = *state
                    .holes(id)
                    .get(number.index())
                    .ok_or(Some(Lack::NoHole(number)))?;
                match fates.get(number.index()) {
                    Some((_, Fate::Freed { .. })) => again.push(number),
                    // What was driven for this line stays.
                    _ if hole.has_metal() && stage.by.contains(&hole.fastening) => {}
                    _ if hole.content.plank_side() == PlankSide::Plugged => {
                        return Err(Some(Lack::Plugged(number)));
                    }
                    _ => {
                        let set = self.fastening(hole.fastening).set;
                        return Err(Some(Lack::Filled(number, set)));
                    }
                }
            }
        } else if planned.hole == HoleChoice::Same {
            let freed = fates
                .iter()
                .filter(|(_, fate)| matches!(fate, Fate::Freed { .. }));
            again.extend(freed.map(|(number, _)| *number));
        }
        again.truncate(left);
        let new = left - again.len();
        if fates.len() + new > usize::from(Holes::MOST) {
            return Err(Some(Lack::TooMany));
        }
        let mouth = match planned.plug.closes() {
            true => Mouth::Closed,
            false => Mouth::Flush,
        };
        let filled = Hole::filled(stage.fastening, mouth);
        for (number, fate) in fates {
            let Some(hole) = state.hole_mut(id, number) else {
                continue;
            };
            if again.contains(&number) {
                *hole = filled;
            } else {
                match fate {
                    Fate::LeftIn => {
                        if let Content::InPlace(mouth) = hole.content {
                            hole.content = Content::LeftIn(mouth);
                        }
                        continue;
                    }
                    Fate::Freed { closed: true } => hole.content = closed(hole.content),
                    Fate::Freed { closed: false } | Fate::Stays => continue,
                }
            }
            state.forget(id, number);
        }
        if new > 0 {
            // There is room, as was looked at above.
            state.add(id, u8::try_from(new).unwrap_or(u8::MAX), filled);
        }
        Ok(())
    }

    fn fate(&self, fitted: &FittedLine, stage: &Stage, number: HoleNumber, hole: &Hole) -> Fate {
        if !stage.spot.holes.has(number) {
            return Fate::Stays;
        }
        let fastening = self.fastening(hole.fastening);
        let Intent::Drive(planned) = &fitted.line.intent else {
            return Fate::Stays;
        };
        let named = fitted.replaces.contains(&fastening.set);
        let all = planned.relation.is_empty();
        match hole.content {
            Content::Empty(PlankHole::Plugged, _) | Content::StubInFrame(PlankHole::Plugged) => {
                Fate::Stays
            }
            content if can_drive(content).is_ok() => Fate::Freed {
                closed: named || all,
            },
            _ if stage.by.contains(&hole.fastening) => Fate::Stays,
            _ if named => Fate::Freed { closed: true },
            _ if fitted.leaves_in.contains(&fastening.set) => Fate::LeftIn,
            // Somebody decided that it stays; one that only clamps was never to.
            Content::LeftIn(_) if all && !fastening.temporary => Fate::Stays,
            _ if all => Fate::Freed { closed: true },
            _ => Fate::Stays,
        }
    }
}

/// A hole that is not used again, closed on both sides where there is a side to close.
const fn closed(content: Content) -> Content {
    match content {
        Content::Empty(plank, frame) => Content::Empty(
            match plank {
                PlankHole::Gone => PlankHole::Gone,
                PlankHole::Open | PlankHole::Plugged => PlankHole::Plugged,
            },
            match frame {
                FrameHole::Gone => FrameHole::Gone,
                FrameHole::Open | FrameHole::Doweled => FrameHole::Doweled,
            },
        ),
        _ => Content::GONE,
    }
}
