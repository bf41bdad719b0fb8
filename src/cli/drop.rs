//! `refasten drop`: what is left of a plan, given up.

use clap::Args;
use clap::builder::NonEmptyStringValueParser as Words;

use super::folder::say_waiting;
use super::log::refused;
use super::{Desk, Ended, Format, Stopped};
use crate::files::{Folder, FolderLock, Given, RawPlan, Text, written_plan};
use crate::record::{Book, Stage};
use crate::show::dropped::{self, Dropped};
use crate::text::{Fault, FileId, Step};

/// Give up what is left to do of a plan
///
/// It is a line at the end of plan.yaml. What was driven for the plan stays in the log, and what is
/// planned under its name after that is planned anew.
#[derive(Debug, Args)]
#[command(after_help = "refasten drop bilge --why \"sold as she is\"")]
pub(super) struct Drop {
    /// Name of the plan, as `refasten todo` and the audit write it
    #[arg(required = true, value_parser = Words::new())]
    plan: Vec<String>,
    /// Why
    #[arg(long, value_name = "TEXT", value_parser = Words::new())]
    why: Option<String>,
    /// Who gives it up
    #[arg(long, value_name = "NAME", value_parser = Words::new())]
    by: Option<String>,
    /// Anything else worth telling
    #[arg(long, value_name = "TEXT", value_parser = Words::new())]
    note: Option<String>,
}

impl Drop {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let today = desk.globals.today()?;
        // Where there is no boat, that is what is to be said.
        desk.globals.folder()?;
        let lock = FolderLock::take(&desk.globals.folder_path()?, &mut say_waiting)?;
        let folder = desk.globals.folder()?;
        let before = folder
            .boat(today)
            .map_err(|faults| faulty(&folder, faults))?;
        let plan = self.plan.join(" ");
        let text = |text: &Option<String>| match text {
            Some(text) => Given::Is(Text::new(text)),
            None => Given::Missing,
        };
        let raw = RawPlan {
            plan: Given::Is(Text::new(&plan)),
            date: Given::Is(Text::new(today.to_string())),
            dropped: Given::Is(Text::new("yes")),
            why: text(&self.why),
            by: text(&self.by),
            note: text(&self.note),
            ..RawPlan::default()
        };
        let (after, line) = folder.boat_with_plan(&raw, today).map_err(|faults| {
            let faults: Vec<Fault> = faults.into_iter().map(named).collect();
            match faults.iter().all(|fault| fault.origin.is_none()) {
                true => Stopped::Wrong(faults),
                false => faulty(&folder, faults),
            }
        })?;
        let left = left_of(&before.book, &line.plan);
        if left.is_empty() {
            let fault = Fault::new(None, format!("nothing of `{}` is left to do", line.plan));
            return Err(fault
                .help("`refasten todo` shows what is planned and not done")
                .into());
        }
        let written = written_plan(&line, after.hull.gauges, after.hull.units);
        folder.add_to_plan(&lock, &written).map_err(refused)?;
        desk.done = Some(format!("what was left of `{}` is given up", line.plan));
        let dropped = Dropped {
            hull: &after.hull,
            line: &line,
            left: &left,
        };
        match desk.globals.format {
            Format::Text => dropped::text(&dropped, desk.out, desk.layout)?,
            Format::Json => writeln!(desk.out, "{:#}", dropped::json(&dropped))?,
        }
        Ok(Ended::Done)
    }
}

/// Where something of a plan is still to be driven.
fn left_of(book: &Book, plan: &str) -> Vec<Stage> {
    let mut stages = book.plan_progress(None);
    stages.retain(|stage| {
        let line = book.plan_line(stage.line);
        stage.left() > 0 && line.is_some_and(|line| line.plan == plan)
    });
    stages
}

fn faulty(folder: &Folder, faults: Vec<Fault>) -> Stopped {
    Stopped::Faulty(Box::new(folder.clone()), faults)
}

/// A fault of what was typed, in words of the command line.
fn named(fault: Fault) -> Fault {
    let typed = fault.origin.filter(|origin| origin.file == FileId::Typed);
    let option = match (typed, fault.path.first()) {
        (Some(_), Some(Step::Key("plan"))) => "PLAN".to_owned(),
        (Some(_), Some(Step::Key(key))) => format!("--{key}"),
        _ => return fault,
    };
    Fault {
        origin: None,
        says: format!("{option}: {}", fault.says),
        ..fault
    }
}
