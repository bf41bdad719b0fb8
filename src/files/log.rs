//! `log.yaml` read into entries.

use std::panic::resume_unwind;
use std::thread;

use super::hull::{YesNo, names_holes};
use super::log_values::{Above0, Diameter, PlanName, guessed};
use super::photo::PhotoPath;
use super::wood;
use super::{Given, Piece, Reader, Text, read, slips, split_log};
use crate::hull::Places;
use crate::joint::{Kind, Plug};
use crate::record::{Deed, Did, Driving, Entry, HoleChoice, Strike, Stub, Unread, What};
use crate::tables::GaugeSystem;
use crate::text::{Fault, Misread};
use crate::units::Day;

crate::record! {
    /// One entry as written: a line of the log, or the options of a command.
    pub struct RawEntry {
        /// Its number.
        entry: Text = "entry",
        /// The day.
        date: Text = "date",
        /// What was done.
        did: Text = "did",
        /// Where.
        place: Text = "place",
        /// To which set; for what was driven, the name of its own.
        set: Text = "set",
        /// How many, as a check.
        count: Text = "count",
        /// What was found.
        found: Text = "found",
        /// Where a stub is.
        stub: Text = "stub",
        /// Why it was pulled.
        sample: Text = "sample",
        /// What was measured.
        diameter: Text = "diameter",
        /// How many at each crossing.
        per_crossing: Text = "per crossing",
        /// Kind of what was driven.
        kind: Text = "kind",
        /// Its metal.
        metal: Text = "metal",
        /// Its size.
        size: Text = "size",
        /// What is to close it.
        bung: Text = "bung",
        /// Which holes it went into.
        hole: Text = "hole",
        /// Whether it only clamps for a time.
        temporary: Text = "temporary",
        /// Thickness of a new plank.
        thickness: Text = "thickness",
        /// Wood of a new plank or member.
        wood: Text = "wood",
        /// Joints that came with a new plank.
        joints: Text = "joints",
        /// How much was taken off the face of the planking.
        off: Text = "off",
        /// Siding of a new member.
        siding: Text = "siding",
        /// Moulding of a new member.
        moulding: Text = "moulding",
        /// The entry struck out.
        strikes: Text = "strikes",
        /// Why it was struck out.
        why: Text = "why",
        /// Who did it.
        by: Text = "by",
        /// Anything else.
        note: Text = "note",
        /// A picture.
        photo: Text = "photo",
        /// The plan that what was driven carries out.
        plan: Text = "plan",
        /// The day it was written down.
        written: Text = "written",
        /// Where it was taken from.
        from: Text = "from",
    }
}

impl RawEntry {
    /// The keys that do not go with every deed.
    fn particular(&self) -> [(&'static str, &Given<Text>); 22] {
        [
            ("place", &self.place),
            ("set", &self.set),
            ("count", &self.count),
            ("found", &self.found),
            ("stub", &self.stub),
            ("sample", &self.sample),
            ("diameter", &self.diameter),
            ("per crossing", &self.per_crossing),
            ("kind", &self.kind),
            ("metal", &self.metal),
            ("size", &self.size),
            ("bung", &self.bung),
            ("hole", &self.hole),
            ("temporary", &self.temporary),
            ("plan", &self.plan),
            ("thickness", &self.thickness),
            ("wood", &self.wood),
            ("joints", &self.joints),
            ("off", &self.off),
            ("siding", &self.siding),
            ("moulding", &self.moulding),
            ("strikes", &self.strikes),
        ]
    }
}

/// Fewer entries are read before another thread has begun.
const MANY_ENTRIES: usize = 20_000;

/// Reads the text of a log. What cannot be read is told and left out.
pub(super) fn read_log(
    text: &str,
    gauges: GaugeSystem,
    unread: &mut Unread,
    faults: &mut Vec<Fault>,
) -> Vec<Entry> {
    let pieces = split_log(text, faults);
    let read = |pieces: &[Piece<'_>], unread: &mut Unread, faults: &mut Vec<Fault>| {
        let entries = pieces.iter();
        let entries = entries.filter_map(|piece| read_piece(piece, gauges, unread, faults));
        entries.collect::<Vec<Entry>>()
    };
    let (first, second) = pieces.split_at(pieces.len() / 2);
    if pieces.len() < MANY_ENTRIES {
        return read(&pieces, unread, faults);
    }
    // Two threads read half each. Where either finds a fault the second half is read again behind
    // the first, so that the faults are those of one reading from the top.
    let (mut entries, behind) = thread::scope(|scope| {
        let behind = scope.spawn(|| {
            let (mut unread, mut faults) = (Unread::default(), Vec::new());
            let entries = read(second, &mut unread, &mut faults);
            faults.is_empty().then_some(entries)
        });
        let entries = read(first, unread, faults);
        let behind = behind.join().unwrap_or_else(|panic| resume_unwind(panic));
        (entries, behind.filter(|_| faults.is_empty()))
    });
    entries.extend(behind.unwrap_or_else(|| read(second, unread, faults)));
    entries
}

fn read_piece(
    piece: &Piece<'_>,
    gauges: GaugeSystem,
    unread: &mut Unread,
    faults: &mut Vec<Fault>,
) -> Option<Entry> {
    let told = faults.len();
    let Given::Is(raw) = read::<RawEntry>(piece, faults) else {
        return None;
    };
    let cut = slips::place_was_cut(faults.get(told..).unwrap_or_default());
    sound(
        &raw,
        cut,
        &mut Reader::new(piece.origin, faults),
        gauges,
        unread,
    )
}

/// The entry that was written, where all of it could be read; else `unread` keeps what is known of
/// it. `cut` tells that part of its place was taken for something else.
pub(super) fn sound(
    raw: &RawEntry,
    cut: bool,
    fields: &mut Reader<'_>,
    gauges: GaugeSystem,
    unread: &mut Unread,
) -> Option<Entry> {
    let entry = entry(raw, fields, gauges);
    if cut || entry.is_none() {
        note_unread(raw, cut, unread);
    }
    entry.filter(|_| !cut)
}

/// Keeps what is known of an entry that could not be read, so that the rest of the story is not
/// blamed for its absence. `cut` says that its place was cut short.
pub(super) fn note_unread(raw: &RawEntry, cut: bool, unread: &mut Unread) {
    let parsed = |text: &Given<Text>| text.as_ref().map(|text| text.as_str().to_owned());
    unread
        .entries
        .extend(parsed(&raw.entry).and_then(|number| number.parse::<u32>().ok()));
    let place = parsed(&raw.place);
    unread.places.extend(place.and_then(|place| match cut {
        true => slips::whole_planks(&place),
        false => place.parse().ok().or_else(|| slips::whole_planks(&place)),
    }));
    if parsed(&raw.did).and_then(|did| did.parse().ok()) == Some(Did::Driven) {
        unread.sets.extend(parsed(&raw.set));
    }
}

/// Makes an entry of what was written, every fault of it told.
pub fn entry(raw: &RawEntry, fields: &mut Reader<'_>, gauges: GaugeSystem) -> Option<Entry> {
    let text = |text: &Given<Text>| text.as_ref().map(|text| text.as_str().to_owned());
    let number: Option<Above0> = fields.need("entry", &raw.entry);
    let date: Option<Day> = fields.need("date", &raw.date);
    let did: Option<Did> = fields.need("did", &raw.did);
    if let Some(did) = did {
        for (key, given) in raw.particular() {
            if !matches!(given, Given::Missing) && !did.keys().contains(&key) {
                let help = format!("with `{did}` go {}", did.keys().join(", "));
                fields.misplaced(
                    key,
                    Misread::new(format!("`{key}` does not go with `{did}`")).help(help),
                );
            }
        }
    }
    let what = match did {
        Some(Did::Struck) => {
            let strike: Option<Strike> = fields.need("strikes", &raw.strikes);
            strike.map(|strike| What::Struck {
                strike,
                why: text(&raw.why),
            })
        }
        _ => done(raw, fields, did, date, gauges),
    };
    let written = fields.read("written", &raw.written);
    let photo: Option<PhotoPath> = fields.read("photo", &raw.photo);
    let (number, date, what) = (number?.0, date?, what?);
    Some(Entry {
        number,
        date,
        what,
        by: text(&raw.by),
        note: text(&raw.note),
        photo: photo.map(|photo| photo.0),
        written,
        from: text(&raw.from),
        origin: fields.origin(),
    })
}

fn done(
    raw: &RawEntry,
    fields: &mut Reader<'_>,
    did: Option<Did>,
    date: Option<Day>,
    gauges: GaugeSystem,
) -> Option<What> {
    let place: Option<Places> = fields.need("place", &raw.place);
    let count: Option<Above0> = fields.read("count", &raw.count);
    let found = fields.read("found", &raw.found);
    let sample = fields.read("sample", &raw.sample);
    let set = raw.set.as_ref().map(|set| set.as_str().trim().to_owned());
    let deed = match did? {
        Did::Checked => Deed::Checked(found, sample),
        Did::Measured => {
            Deed::Measured(fields.need::<Diameter>("diameter", &raw.diameter)?.0, found)
        }
        Did::Bared => Deed::Bared(found),
        Did::Hardened => Deed::Hardened,
        Did::Pulled => Deed::Pulled(found, sample),
        Did::Broken => Deed::Broken(
            fields.read("stub", &raw.stub).unwrap_or(Stub::Frame),
            found,
            sample,
        ),
        Did::Cleared => Deed::Cleared,
        Did::Left => Deed::Left(found, sample),
        Did::Plugged => Deed::Plugged,
        Did::Doweled => Deed::Doweled,
        Did::Driven => Deed::Driven(Box::new(driving(
            raw,
            fields,
            place.as_ref(),
            date,
            gauges,
        )?)),
        Did::Bunged => Deed::Bunged,
        Did::Stopped => Deed::Stopped,
        Did::PlankOff | Did::PlankHung | Did::Faired | Did::Sistered | Did::FrameRenewed => {
            wood::deed(raw, fields, did?, place.as_ref())?
        }
        Did::Struck => return None,
    };
    // The set of what is driven is the name of the new one, not a choice among the old.
    let set = set.filter(|_| deed.did() != Did::Driven);
    Some(What::Done {
        deed,
        place: place?,
        set,
        count: count.map(|count| count.0),
    })
}

fn driving(
    raw: &RawEntry,
    fields: &mut Reader<'_>,
    place: Option<&Places>,
    date: Option<Day>,
    gauges: GaugeSystem,
) -> Option<Driving> {
    let kind: Option<Kind> = fields.need("kind", &raw.kind);
    let hole = fields.read("hole", &raw.hole).unwrap_or(HoleChoice::Same);
    let per_crossing = fields.per_crossing(place, &raw.per_crossing);
    if place.is_some_and(names_holes) && hole == HoleChoice::New {
        let misread = Misread::new("a new hole has no number yet");
        fields.fault(
            "hole",
            misread.help("name the crossing only; new holes are numbered as they are bored"),
        );
    }
    let form = kind.map_or_else(String::new, |kind| format!("like {}; ", kind.size_form()));
    for (key, given, help) in [
        ("metal", &raw.metal, String::new()),
        ("size", &raw.size, form),
    ] {
        // A trunnel is of wood.
        let is_asked = key != "metal" || kind != Some(Kind::Trunnel);
        if is_asked && matches!(given, Given::Missing) {
            fields.whole(
                Misread::new(format!("`{key}` is missing"))
                    .help(format!("{help}`unknown` will do, but the audit will ask")),
            );
        }
    }
    let metal = fields.metal_of(kind, &raw.metal);
    let guess = raw.metal.as_ref().and_then(|text| guessed(text.as_str()));
    let size = kind.and_then(|kind| fields.size(&raw.size, kind, gauges));
    let plug = fields.read("bung", &raw.bung).unwrap_or(Plug::None);
    let temporary = fields.read("temporary", &raw.temporary) == Some(YesNo::Yes);
    let plan: Option<PlanName> = fields.read("plan", &raw.plan);
    let set = match raw.set.as_ref() {
        Some(set) => set.as_str().trim().to_owned(),
        None => date.map_or_else(
            || "driven".to_owned(),
            |date| format!("driven {}", date.year()),
        ),
    };
    Some(Driving {
        set,
        per_crossing: per_crossing?,
        hole,
        kind: kind?,
        metal,
        guess,
        size,
        plug,
        temporary,
        plan: plan.map(|plan| plan.0),
    })
}
