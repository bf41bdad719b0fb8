//! `refasten log`: what was done, written down.

use clap::Args;

use super::folder::say_waiting;
use super::{Desk, Ended, Format, Stopped};
use crate::files::{AppendError, FolderLock, Given, Keys, RawEntry, Text, append, line};
use crate::show::logged::{self, Logged};
use crate::text::{Fault, Step};

/// Add one entry to the log, and say what changed and what now stands open
///
/// Nothing is written when anything is wrong with it, or when it would make a later entry
/// impossible. A mistake is struck out, never rubbed out:
/// refasten log struck --strikes "4 broken S5 F16.2" --why "it was S5 F17"
#[derive(Debug, Args)]
pub struct Log {
    /// checked, measured, bared, hardened, pulled, broken, cleared, left, plugged, doweled,
    /// driven, bunged, stopped, plank-off, plank-hung, faired, sistered, frame-renewed or struck
    did: String,
    /// Where: planks and members, as S4 F14-18
    place: Vec<String>,
    /// The day it was done; today where it is not given
    #[arg(long, value_name = "DAY")]
    date: Option<String>,
    /// Which set, where more than one stands there; for `driven`, a name for the new one
    #[arg(long)]
    set: Option<String>,
    /// How many there should be, as a check
    #[arg(long)]
    count: Option<String>,
    /// What was found: sound, worn, necked, wasted, pink, spun, wood soft …
    #[arg(long)]
    found: Option<String>,
    /// Where the stub is: frame, plank or both
    #[arg(long)]
    stub: Option<String>,
    /// Taken up to judge the rest: random or targeted
    #[arg(long)]
    sample: Option<String>,
    /// What was measured at its thinnest
    #[arg(long, value_name = "LENGTH")]
    diameter: Option<String>,
    /// How many were driven at each crossing
    #[arg(long, value_name = "N")]
    per_crossing: Option<String>,
    /// Kind of what was driven: wood screw, boat nail, rivet …
    #[arg(long)]
    kind: Option<String>,
    /// Its metal
    #[arg(long)]
    metal: Option<String>,
    /// Its size, as "16 x 2in"
    #[arg(long)]
    size: Option<String>,
    /// What is to close the hole over it, as "9/16in x 1/4in", stopping or none
    #[arg(long)]
    bung: Option<String>,
    /// Which holes they went into: same or new
    #[arg(long)]
    hole: Option<String>,
    /// They only clamp for a time, and are not relied on
    #[arg(long)]
    temporary: bool,
    /// Name of the plan that this carries out
    #[arg(long, value_name = "NAME")]
    plan: Option<String>,
    /// Thickness of the plank that was hung
    #[arg(long, value_name = "LENGTH")]
    thickness: Option<String>,
    /// Wood of the plank that was hung, or of the new member
    #[arg(long)]
    wood: Option<String>,
    /// Joints that came with the plank, as "P3 J14"; list them in hull.yaml first
    #[arg(long, value_name = "PLACE")]
    joints: Option<String>,
    /// How much was taken off the face of the planking
    #[arg(long, value_name = "LENGTH")]
    off: Option<String>,
    /// Siding of the new member
    #[arg(long, value_name = "LENGTH")]
    siding: Option<String>,
    /// Moulding of the new member
    #[arg(long, value_name = "LENGTH")]
    moulding: Option<String>,
    /// The entry struck out, as "4 broken S5 F16.2"
    #[arg(long, value_name = "ENTRY")]
    strikes: Option<String>,
    /// Why it is struck out
    #[arg(long)]
    why: Option<String>,
    /// Who did it
    #[arg(long, value_name = "NAME")]
    by: Option<String>,
    /// Anything else worth telling
    #[arg(long)]
    note: Option<String>,
    /// A picture of it, as a path in the boat's folder
    #[arg(long, value_name = "FILE")]
    photo: Option<String>,
}

impl Log {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let today = desk.globals.today()?;
        let typed = self.typed(today.to_string());
        // The number of the entry hangs on the last one, so the lock is taken before reading.
        let path = desk.globals.folder_path()?;
        desk.globals.folder()?;
        let lock = FolderLock::take(&path, &mut say_waiting)?;
        let folder = desk.globals.folder()?;
        let (boat, entries) = folder
            .boat_with(std::slice::from_ref(&typed), today)
            .map_err(|faults| {
                let faults = faults.into_iter().map(named).collect();
                Stopped::Faulty(Box::new(folder.clone()), faults)
            })?;
        let lines: Vec<String> = entries
            .iter()
            .map(|entry| line(entry, boat.hull.gauges, boat.hull.units))
            .collect();
        let lines: Vec<&str> = lines.iter().map(String::as_str).collect();
        append(&lock, &folder.log_path(), &lines).map_err(refused)?;
        drop(lock);
        for entry in &entries {
            let mut holes = Vec::new();
            let state = boat.book.trace(&boat.hull, None, &mut |change| {
                if change.entry.number == entry.number {
                    holes.push((change.crossing, change.number));
                }
            });
            let logged = Logged {
                hull: &boat.hull,
                entry,
                holes: &holes,
                state: &state,
            };
            match desk.globals.format {
                Format::Text => logged::text(&logged, desk.out, desk.width)?,
                Format::Json => writeln!(desk.out, "{:#}", logged::json(&logged))?,
            }
        }
        Ok(Ended::Done)
    }

    /// The entry as if it had been read from the log, without its number.
    fn typed(self, today: String) -> RawEntry {
        let text =
            |typed: Option<String>| typed.map_or(Given::Missing, |text| Given::Is(Text::new(text)));
        let place = self.place.join(" ");
        RawEntry {
            entry: Given::Missing,
            date: text(Some(self.date.unwrap_or(today))),
            did: text(Some(self.did)),
            place: text((!place.is_empty()).then_some(place)),
            set: text(self.set),
            count: text(self.count),
            found: text(self.found),
            stub: text(self.stub),
            sample: text(self.sample),
            diameter: text(self.diameter),
            per_crossing: text(self.per_crossing),
            kind: text(self.kind),
            metal: text(self.metal),
            size: text(self.size),
            bung: text(self.bung),
            hole: text(self.hole),
            temporary: text(self.temporary.then(|| "yes".to_owned())),
            thickness: text(self.thickness),
            wood: text(self.wood),
            joints: text(self.joints),
            off: text(self.off),
            siding: text(self.siding),
            moulding: text(self.moulding),
            strikes: text(self.strikes),
            why: text(self.why),
            by: text(self.by),
            note: text(self.note),
            photo: text(self.photo),
            plan: text(self.plan),
            written: Given::Missing,
            from: Given::Missing,
        }
    }
}

/// A fault of what was typed, in words of the command line: `--per-crossing` for `per crossing`.
fn named(fault: Fault) -> Fault {
    if fault.origin.is_some() {
        return fault;
    }
    let says = RawEntry::KEYS.iter().fold(fault.says.clone(), |says, key| {
        says.replace(&format!("`{key}`"), &format!("`{}`", option(key)))
    });
    let says = match fault.path.first() {
        Some(Step::Key(key)) => format!("{}: {says}", option(key)),
        _ => says,
    };
    Fault { says, ..fault }
}

/// The option or word of the command line that a key of the log is given by.
fn option(key: &str) -> String {
    match key {
        "did" | "place" => key.to_owned(),
        key => format!("--{}", key.replace(' ', "-")),
    }
}

fn refused(error: AppendError) -> Stopped {
    match error {
        AppendError::Torn => Fault::new(None, error.to_string()).into(),
        AppendError::Refused(_) | AppendError::Left(_) => {
            Stopped::Machine(std::io::Error::other(error))
        }
    }
}
