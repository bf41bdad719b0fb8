//! An entry written as a line of the log.

use super::decode::hidden;
use super::hull::YesNo;
use super::log::read_log;
use super::wood;
use crate::record::{Deed, Entry, Unread, What};
use crate::tables::GaugeSystem;
use crate::text::{Fault, Origin};
use crate::units::Units;

/// The line of the log that an entry is written as, without its line end. Reading it gives the
/// same entry again.
pub fn line(entry: &Entry, gauges: GaugeSystem, units: Units) -> String {
    Line(said(entry, gauges, units)).written()
}

/// The value of a key as it is written.
pub(super) struct Said {
    /// The key.
    pub(super) key: &'static str,
    /// Its value, without quotes.
    pub(super) value: String,
    /// Whether it is somebody's own words, which are written between quotes.
    pub(super) quoted: bool,
}

/// All that an entry says, key by key, in the order it is written in.
pub(super) fn said(entry: &Entry, gauges: GaugeSystem, units: Units) -> Vec<Said> {
    let mut line = Line::default();
    line.word("entry", Some(entry.number));
    line.word("date", Some(entry.date));
    line.word("did", Some(entry.did()));
    match &entry.what {
        What::Struck { strike, why } => {
            line.quoted("strikes", Some(&strike.to_string()));
            line.quoted("why", why.as_deref());
        }
        What::Done {
            deed,
            place,
            set,
            count,
        } => {
            line.word("place", Some(place));
            let named = match deed {
                Deed::Driven(driving) => Some(&driving.set),
                _ => set.as_ref(),
            };
            line.quoted("set", named.map(String::as_str));
            line.word("count", count.as_ref());
            if let Deed::Measured(diameter, _) = deed {
                line.word("diameter", Some(diameter.written(units)));
            }
            if let Deed::Broken(stub, ..) = deed {
                line.word("stub", Some(stub));
            }
            line.word("found", deed.found());
            line.word("sample", deed.sample());
            wood::write(&mut line, deed, units);
            if let Deed::Driven(driving) = deed {
                line.word("per crossing", driving.per_crossing);
                line.word("kind", Some(driving.kind));
                match (&driving.guess, driving.metal) {
                    (Some(guess), None) => line.quoted("metal", Some(&format!("{guess}?"))),
                    (_, metal) => {
                        line.word("metal", Some(metal.map_or("unknown", |metal| metal.name)));
                    }
                }
                line.word(
                    "size",
                    Some(
                        driving.size.map_or_else(
                            || "unknown".to_owned(),
                            |size| size.written(gauges, units),
                        ),
                    ),
                );
                line.word("bung", Some(driving.plug.written(units)));
                line.word("hole", Some(driving.hole));
                line.word("temporary", driving.temporary.then_some(YesNo::Yes));
                line.quoted("plan", driving.plan.as_deref());
            }
        }
    }
    line.quoted("by", entry.by.as_deref());
    line.quoted("note", entry.note.as_deref());
    line.quoted("photo", entry.photo.as_deref());
    line.word("written", entry.written);
    line.quoted("from", entry.from.as_deref());
    line.0
}

/// Tells, at `origin`, what would be wrong with an entry once it is written: what cannot be read
/// again must not get into a log.
pub(super) fn read_back(
    entry: &Entry,
    gauges: GaugeSystem,
    units: Units,
    origin: Origin,
    faults: &mut Vec<Fault>,
) {
    let written = line(entry, gauges, units) + "\n";
    let (mut wrong, mut unread) = (Vec::new(), Unread::default());
    read_log(&written, gauges, &mut unread, &mut wrong);
    told_at(wrong, origin, faults);
}

/// Tells faults of a line that is not in its file yet as if it began at `origin`.
pub(super) fn told_at(wrong: Vec<Fault>, origin: Origin, faults: &mut Vec<Fault>) {
    faults.extend(wrong.into_iter().map(|fault| Fault {
        origin: Some(origin),
        within: None,
        bytes: None,
        ..fault
    }));
}

/// A line as it grows.
#[derive(Default)]
pub(super) struct Line(Vec<Said>);

impl Line {
    /// A value that never needs quotes.
    pub(super) fn word(&mut self, key: &'static str, value: Option<impl ToString>) {
        self.0.extend(value.map(|value| Said {
            key,
            value: value.to_string(),
            quoted: false,
        }));
    }

    /// A user's own words, quoted whatever they are.
    pub(super) fn quoted(&mut self, key: &'static str, value: Option<&str>) {
        self.0.extend(value.map(|value| Said {
            key,
            value: value.to_owned(),
            quoted: true,
        }));
    }

    /// Several of a user's own words; nothing where there are none.
    pub(super) fn list(&mut self, key: &'static str, values: &[String]) {
        let quoted: Vec<String> = values.iter().map(|value| quote(value)).collect();
        match quoted.as_slice() {
            [] => {}
            [one] => self.word(key, Some(one)),
            many => self.word(key, Some(format!("[{}]", many.join(", ")))),
        }
    }

    /// The line as it stands in a file, without its line end.
    pub(super) fn written(&self) -> String {
        let pairs = self
            .0
            .iter()
            .map(|Said { key, value, quoted }| match quoted {
                true => format!("{key}: {}", quote(value)),
                false => format!("{key}: {value}"),
            });
        format!("- {{{}}}", pairs.collect::<Vec<_>>().join(", "))
    }
}

/// A user's own words between quotes, on one line and in characters that every file may hold.
pub(super) fn quote(words: &str) -> String {
    let mut quoted = String::from("\"");
    for c in words.chars() {
        match c {
            '"' | '\\' => quoted.extend(['\\', c]),
            '\n' => quoted += "\\n",
            '\t' => quoted += "\\t",
            c if c.is_control() || hidden(c) => quoted += &format!("\\u{:04X}", u32::from(c)),
            c => quoted.push(c),
        }
    }
    quoted.push('"');
    quoted
}
