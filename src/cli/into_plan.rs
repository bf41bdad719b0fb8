//! `pick --into-plan`: what was picked, written into the plan.

use clap::Args;

use super::folder::say_waiting;
use super::log::refused;
use super::typed::fault;
use super::{Desk, Stopped};
use crate::files::{Boat, FolderLock, Given, OneOrMany, RawPlan, Text, written_plan};
use crate::hull::{CrossingId, Places};
use crate::pick::{Answer, Ask};
use crate::record::{PlanChange, PlanLine, Progress};
use crate::text::{Fault, FileId, Misread, Step};

/// Options that write what is picked into the plan.
#[derive(Debug, Args)]
#[command(next_help_heading = "Into the plan")]
pub(super) struct IntoPlan {
    /// Write what is picked, for PLACE, into plan.yaml
    #[arg(long, requires = "place", conflicts_with = "as_of")]
    into_plan: bool,
    /// Name of the plan; else `plan` and the year
    #[arg(long, value_name = "NAME", requires = "into_plan")]
    plan: Option<String>,
    /// Which holes they are to go into: same (else) or new
    #[arg(long, requires = "into_plan")]
    hole: Option<String>,
    /// A set that is drawn, its holes used again; else all that stands there
    #[arg(long, value_name = "SET", requires = "into_plan")]
    replaces: Vec<String>,
    /// A set that stays as metal and is no longer relied on
    #[arg(long, value_name = "SET", requires = "into_plan")]
    leaves_in: Vec<String>,
    /// A set that stays and goes on holding
    #[arg(long, value_name = "SET", requires = "into_plan")]
    adds_to: Vec<String>,
    /// Who plans it
    #[arg(long, value_name = "NAME", requires = "into_plan")]
    by: Option<String>,
    /// Anything else worth telling
    #[arg(long, requires = "into_plan")]
    note: Option<String>,
}

/// What was written into the plan, and the boat with it.
pub(super) struct Written {
    pub(super) boat: Boat,
    pub(super) line: PlanLine,
    pub(super) change: PlanChange,
    /// Earlier lines whose place it takes, each with the crossings.
    pub(super) overtakes: Vec<(PlanLine, Vec<CrossingId>)>,
}

impl IntoPlan {
    /// The lock under which all is read and written, where something is to be.
    pub(super) fn lock(&self, desk: &Desk<'_>) -> Result<Option<FolderLock>, Stopped> {
        if !self.into_plan {
            return Ok(None);
        }
        // Where there is no boat, that is what is to be said.
        desk.globals.folder()?;
        let path = desk.globals.folder_path()?;
        Ok(Some(FolderLock::take(&path, &mut say_waiting)?))
    }

    /// Writes what was picked for a place into the plan.
    pub(super) fn write(
        &self,
        desk: &Desk<'_>,
        lock: &FolderLock,
        place: &str,
        ask: &Ask,
        answer: &Answer,
    ) -> Result<Written, Stopped> {
        let today = desk.globals.today()?;
        let folder = desk.globals.folder()?;
        let faulty = |faults: Vec<Fault>| Stopped::Faulty(Box::new(folder.clone()), faults);
        let before = folder.boat(today).map_err(faulty)?;
        let hull = &before.hull;
        let mut faults = Vec::new();
        let per_crossing = per_crossing(place, ask, answer);
        if ask.metal.is_none() && ask.kind.is_metal() {
            let fault = Fault::new(None, "--metal: the metal is not settled");
            faults.push(fault.help("what is planned is bought: --metal \"silicon bronze\""));
        }
        let text = |text: Option<String>| text.map_or(Given::Missing, |t| Given::Is(Text::new(t)));
        let list = |names: &[String]| match names {
            [] => Given::Missing,
            [one] => Given::Is(OneOrMany::One(Text::new(one.clone()))),
            many => Given::Is(OneOrMany::Many(many.iter().map(Text::new).collect())),
        };
        let name = || format!("plan {}", today.year());
        let raw = RawPlan {
            plan: text(Some(self.plan.clone().unwrap_or_else(name))),
            date: text(Some(today.to_string())),
            place: text(Some(place.to_owned())),
            per_crossing: match per_crossing {
                Ok(count) => text(count.map(|count| count.to_string())),
                Err(misread) => {
                    faults.push(fault("--per-crossing", misread));
                    Given::Faulty
                }
            },
            kind: text(Some(ask.kind.to_string())),
            metal: text(ask.metal.map(|metal| metal.name.to_owned())),
            size: text(Some(answer.size.written(hull.gauges, hull.units))),
            bung: text(Some(answer.plug.written(hull.units))),
            hole: text(self.hole.clone()),
            replaces: list(&self.replaces),
            leaves_in: list(&self.leaves_in),
            adds_to: list(&self.adds_to),
            by: text(self.by.clone()),
            note: text(self.note.clone()),
            ..RawPlan::default()
        };
        let (boat, line) = match folder.boat_with_plan(&raw, today) {
            Ok(read) if faults.is_empty() => read,
            Ok(_) => return Err(faulty(faults)),
            Err(more) => {
                faults.extend(more.into_iter().map(named));
                return Err(faulty(faults));
            }
        };
        let written = written_plan(&line, boat.hull.gauges, boat.hull.units);
        folder.add_to_plan(lock, &written).map_err(refused)?;
        Ok(Written {
            change: change(&boat),
            overtakes: overtaken(&before, &boat),
            boat,
            line,
        })
    }
}

/// How many go into each crossing; nothing where the place names its holes.
fn per_crossing(place: &str, ask: &Ask, answer: &Answer) -> Result<Option<u8>, Misread> {
    let places: Option<Places> = place.parse().ok();
    let mut picks = places.iter().flat_map(|places| &places.0);
    if picks.any(|place| place.members.iter().any(|pick| !pick.holes.is_any())) {
        return Ok(None);
    }
    let spread = answer.spread.as_ref().map(|spread| spread.count);
    ask.count.or(spread).map(Some).ok_or_else(|| {
        Misread::new("how many go into a crossing is missing")
            .help("give it: nothing was built there, and the plank's width is not known")
    })
}

/// What the last line of the plan does.
fn change(boat: &Boat) -> PlanChange {
    let before = boat.book.state(&boat.hull, None);
    let mut after = before.clone().into_owned();
    let last = boat.book.plan_lines().len().saturating_sub(1);
    let mut change = PlanChange::default();
    for id in boat.book.carry_out_line(&mut after, last) {
        change.and(boat.book.change_at(&before, &after, id));
    }
    change
}

/// Earlier lines of which something waited that no longer does.
fn overtaken(before: &Boat, after: &Boat) -> Vec<(PlanLine, Vec<CrossingId>)> {
    let (was, is) = (
        before.book.plan_progress(None),
        after.book.plan_progress(None),
    );
    let mut overtaken: Vec<(PlanLine, Vec<CrossingId>)> = Vec::new();
    for (was, is) in was.iter().zip(&is) {
        if was.progress() != Progress::Pending || is.progress() == Progress::Pending {
            continue;
        }
        let Some(line) = before.book.plan_line(was.line) else {
            continue;
        };
        match overtaken.last_mut().filter(|(last, _)| last == line) {
            Some((_, at)) => at.push(was.spot.crossing),
            None => overtaken.push((line.clone(), vec![was.spot.crossing])),
        }
    }
    overtaken
}

/// A fault of what was typed, in words of the command line: `--per-crossing` for `per crossing`.
fn named(fault: Fault) -> Fault {
    if fault
        .origin
        .is_none_or(|origin| origin.file != FileId::Typed)
    {
        return fault;
    }
    let fault = Fault {
        origin: None,
        ..fault
    };
    match fault.path.first() {
        Some(Step::Key("place")) => fault,
        Some(Step::Key(key)) => Fault {
            says: format!("--{}: {}", key.replace(' ', "-"), fault.says),
            ..fault
        },
        _ => fault,
    }
}
