//! The options that tell one entry, and faults in the words of the command line.

use clap::Args;

use crate::files::{Given, Keys, RawEntry, Text};
use crate::record::Did;
use crate::text::{Fault, FileId, Step};

/// Headings of the help.
const DRIVEN: &str = "Of what was driven";
const HUNG: &str = "Of planks and members";

/// What tells one entry.
#[derive(Debug, Args)]
pub(super) struct EntryTyped {
    /// checked, measured, bared, hardened, pulled, broken, cleared, left, plugged, doweled,
    /// driven, bunged, stopped, plank-off, plank-hung, faired, sistered, frame-renewed, struck
    did: Option<String>,
    /// Where: planks and members, as S4 F14-18
    place: Vec<String>,
    /// The day it was done; today where it is not given
    #[arg(long, value_name = "DAY")]
    date: Option<String>,
    /// Which set, where there are several; a name for one driven
    #[arg(long)]
    set: Option<String>,
    /// How many there should be, as a check
    #[arg(long)]
    count: Option<String>,
    /// What was found: sound, worn, wasted, spun, wood soft …
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
    #[arg(long, value_name = "N", help_heading = DRIVEN)]
    per_crossing: Option<String>,
    /// Kind of what was driven: wood screw, boat nail, rivet …
    #[arg(long, help_heading = DRIVEN)]
    kind: Option<String>,
    /// Its metal
    #[arg(long, help_heading = DRIVEN)]
    metal: Option<String>,
    /// Its size, as "16 x 2in"
    #[arg(long, help_heading = DRIVEN)]
    size: Option<String>,
    /// Over it: "9/16in x 1/4in", stopping or none
    #[arg(long, help_heading = DRIVEN)]
    bung: Option<String>,
    /// Which holes they went into: same or new
    #[arg(long, help_heading = DRIVEN)]
    hole: Option<String>,
    /// They only clamp for a time, and are not relied on
    #[arg(long, help_heading = DRIVEN)]
    temporary: bool,
    /// The plan that this carries out
    #[arg(long, value_name = "NAME", help_heading = DRIVEN)]
    plan: Option<String>,
    /// Thickness of the plank that was hung
    #[arg(long, value_name = "LENGTH", help_heading = HUNG)]
    thickness: Option<String>,
    /// Wood of the plank that was hung, or of the new member
    #[arg(long, help_heading = HUNG)]
    wood: Option<String>,
    /// Joints that came with it, as "P3 J14"
    ///
    /// List them in hull.yaml first.
    #[arg(long, value_name = "PLACE", help_heading = HUNG)]
    joints: Option<String>,
    /// How much was taken off the face of the planking
    #[arg(long, value_name = "LENGTH", help_heading = HUNG)]
    off: Option<String>,
    /// Siding of the new member
    #[arg(long, value_name = "LENGTH", help_heading = HUNG)]
    siding: Option<String>,
    /// Moulding of the new member
    #[arg(long, value_name = "LENGTH", help_heading = HUNG)]
    moulding: Option<String>,
    /// The entry struck out, as "4 broken S5 F16.2"
    ///
    /// Or name it after `struck`.
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

/// What an entry takes from those before it in the same command, until it is told anew.
#[derive(Clone, Debug)]
pub(super) struct Carried {
    /// The day.
    pub(super) date: String,
    /// Who did it.
    pub(super) by: Option<String>,
}

impl EntryTyped {
    /// Whether nothing was told of an entry.
    pub(super) fn says_nothing(&self) -> bool {
        let no_day = self.date.is_none();
        let raw = self.raw(&mut Carried {
            date: String::new(),
            by: None,
        });
        let dateless = RawEntry {
            date: Given::Missing,
            ..raw
        };
        no_day && dateless == RawEntry::default()
    }

    /// The entry as if it had been read from a file, without its number.
    pub(super) fn raw(&self, carried: &mut Carried) -> RawEntry {
        let text = |typed: Option<&String>| typed.map_or(Given::Missing, |typed| given(typed));
        if let Some(date) = &self.date {
            carried.date.clone_from(date);
        }
        carried.by = self.by.clone().or(carried.by.take());
        let (did, words) = self.did_and_words();
        let place = words.join(" ");
        let place = (!place.is_empty()).then_some(place);
        let (place, strikes) = match (&did, &self.strikes) {
            // What is struck out may be named as it is printed: struck 9 pulled S3 F12-15.
            (Some(did), None) if did.parse() == Ok(Did::Struck) => (None, place.as_ref()),
            _ => (place.as_ref(), self.strikes.as_ref()),
        };
        RawEntry {
            entry: Given::Missing,
            date: given(&carried.date),
            did: text(did.as_ref()),
            place: text(place),
            set: text(self.set.as_ref()),
            count: text(self.count.as_ref()),
            found: text(self.found.as_ref()),
            stub: text(self.stub.as_ref()),
            sample: text(self.sample.as_ref()),
            diameter: text(self.diameter.as_ref()),
            per_crossing: text(self.per_crossing.as_ref()),
            kind: text(self.kind.as_ref()),
            metal: text(self.metal.as_ref()),
            size: text(self.size.as_ref()),
            bung: text(self.bung.as_ref()),
            hole: text(self.hole.as_ref()),
            temporary: text(self.temporary.then(|| "yes".to_owned()).as_ref()),
            plan: text(self.plan.as_ref()),
            thickness: text(self.thickness.as_ref()),
            wood: text(self.wood.as_ref()),
            joints: text(self.joints.as_ref()),
            off: text(self.off.as_ref()),
            siding: text(self.siding.as_ref()),
            moulding: text(self.moulding.as_ref()),
            strikes: text(strikes),
            why: text(self.why.as_ref()),
            by: text(carried.by.as_ref()),
            note: text(self.note.as_ref()),
            photo: text(self.photo.as_ref()),
            written: Given::Missing,
            from: Given::Missing,
        }
    }

    /// What was done, and the words after it. Two words that are one deed need no hyphen.
    fn did_and_words(&self) -> (Option<String>, &[String]) {
        if let (Some(did), Some((second, words))) = (&self.did, self.place.split_first()) {
            let both = format!("{did} {second}");
            if did.parse::<Did>().is_err() && both.parse::<Did>().is_ok() {
                return (Some(both), words);
            }
        }
        (self.did.clone(), &self.place)
    }

    /// What it is called where faults of several are told: `doweled S3 F18`.
    pub(super) fn title(&self) -> String {
        let (did, words) = self.did_and_words();
        let words = words.iter().map(String::as_str);
        let words: Vec<&str> = did.as_deref().into_iter().chain(words).collect();
        words.join(" ")
    }

    /// A flag was given a value, which then stands among the words of the place.
    pub(super) fn slip(&self) -> Option<Fault> {
        let value = |word: &&String| matches!(word.to_lowercase().as_str(), "yes" | "no");
        let value = self.place.iter().find(value).filter(|_| self.temporary)?;
        let says = format!("--temporary: `{value}` stands after it, and it takes no value");
        let help = "give --temporary alone where they only clamp for a time, else leave it out";
        Some(Fault::new(None, says).help(help))
    }
}

/// A text as it was typed.
fn given(typed: &str) -> Given<Text> {
    Given::Is(Text::new(typed))
}

/// Faults of what was typed in words of the command line, `--per-crossing` for `per crossing`, each
/// with the title of its entry where there are several. Faults of files stay as they are.
pub(super) fn named(mut faults: Vec<Fault>, titles: &[String]) -> Vec<Fault> {
    let line = |fault: &Fault| fault.origin.map(|origin| origin.line);
    let is_typed = |fault: &Fault| {
        fault
            .origin
            .is_some_and(|origin| origin.file == FileId::Typed)
    };
    faults.sort_by_key(|fault| is_typed(fault).then(|| line(fault)));
    let of_one = |fault: Fault| {
        if !is_typed(&fault) {
            return fault;
        }
        let says = in_options(&fault);
        let number = line(&fault).unwrap_or(1);
        let title = titles.get((number as usize).saturating_sub(1));
        let title = title.filter(|_| titles.len() > 1);
        let says = match title.map(String::as_str) {
            Some("") => format!("entry {number} of {}: {says}", titles.len()),
            Some(title) => format!("entry {number} of {}, `{title}`: {says}", titles.len()),
            None => says,
        };
        Fault {
            origin: None,
            says,
            ..fault
        }
    };
    faults.into_iter().map(of_one).collect()
}

/// What a fault says, keys named as options, and first the option it is about.
fn in_options(fault: &Fault) -> String {
    let says = RawEntry::KEYS.iter().fold(fault.says.clone(), |says, key| {
        says.replace(&format!("`{key}`"), &format!("`{}`", option(key)))
    });
    match fault.path.first() {
        Some(Step::Key(key)) => format!("{}: {says}", option(key)),
        _ => says,
    }
}

/// The option or word of the command line that a key of the log is given by.
fn option(key: &str) -> String {
    match key {
        "did" | "place" => key.to_owned(),
        key => format!("--{}", key.replace(' ', "-")),
    }
}
