//! Everything that happened at a place, in order.

use std::io::{self, Write};

use serde_json::{Value, json};

use super::generations::Holes;
use super::inventory::describe;
use super::known;
use super::layout::Layout;
use super::page::Page;
use crate::hull::{Hull, Places, fold, fold_holes};
use crate::record::{Book, Deed, Entry, Event, Set, SetId, What};
use crate::tables::Metal;
use crate::units::Units;

/// How many places a line names before it only counts them.
const MOST_PLACES: usize = 8;

/// Everything that happened at a place, to a set or to a metal.
#[derive(Debug)]
pub struct History<'b> {
    /// What happened, in order.
    pub events: &'b [Event<'b>],
    /// What each hole has had.
    pub holes: Holes<'b>,
    /// The place as it was asked for, if one was.
    pub place: Option<&'b str>,
    /// The set asked about, if one was.
    pub set: Option<SetId>,
    /// The metal asked about, if one was; `Some(None)` for that which is not known.
    pub metal: Option<Option<&'static Metal>>,
}

/// Prints events, one a line, and then what each hole has had.
///
/// # Errors
/// When `out` fails.
pub fn text(
    history: &History<'_>,
    units: Units,
    out: &mut dyn Write,
    layout: Layout,
) -> io::Result<()> {
    let mut page = Page::new(out, layout);
    let (hull, book, events) = (history.holes.hull, history.holes.book, history.events);
    known::text(&mut page, book)?;
    if events.is_empty() {
        return page.line("nothing is recorded there");
    }
    for event in events {
        match event {
            Event::Built { set, crossings } => {
                let fastening = book.fastening(set.fastening);
                let place = hull.spoken(fold(hull, crossings.iter().copied()));
                let place = place.shown(MOST_PLACES);
                let what = describe(fastening, hull, units);
                let name = book.set_name(set.id);
                page.wrapped(
                    &format!("{:<11}  ", fastening.driven.to_string()),
                    &format!(
                        "set `{name}`, {}: {what} at {place} ({}{})",
                        each(set.per_crossing()),
                        how(set.how),
                        relation(book, set)
                    ),
                )?;
            }
            Event::Done { entry, holes } => {
                let place = fold_holes(hull, holes.iter().copied());
                page.wrapped(&on(entry), &done(entry, &place, hull, units))?;
            }
            Event::Wood { entry, crossings } => {
                let place = fold(hull, crossings.iter().copied());
                page.wrapped(&on(entry), &done(entry, &place, hull, units))?;
            }
            Event::Struck { entry, by } => page.wrapped(&on(entry), &struck(entry, by))?,
        }
    }
    history.holes.text(&mut page, units)
}

/// How a set stands to those that were there before it, as the end of a sentence.
fn relation(book: &Book, set: &Set) -> String {
    let mut words = String::new();
    for (verb, sets) in [
        ("replaces", set.replaces()),
        ("leaves in", set.leaves_in()),
        ("adds to", set.adds_to()),
    ] {
        let names: Vec<String> = sets
            .iter()
            .map(|id| format!("`{}`", book.set_name(*id)))
            .collect();
        if !names.is_empty() {
            words += &format!("; {verb} {}", names.join(", "));
        }
    }
    words
}

/// An entry that another strikes out.
pub(super) fn struck(entry: &Entry, by: &Entry) -> String {
    let why = match &by.what {
        What::Struck { why: Some(why), .. } => format!(": {why}"),
        _ => String::new(),
    };
    format!("[{}] struck out by entry {}{why}", entry.title(), by.number)
}

/// The day of an entry, as wide as the column of days.
pub(super) fn on(entry: &Entry) -> String {
    format!("{:<11}  ", entry.date.to_string())
}

/// What an entry tells, in a line.
pub(super) fn done(entry: &Entry, place: &Places, hull: &Hull, units: Units) -> String {
    let place = hull.spoken(place.clone()).shown(MOST_PLACES);
    let told = told(entry, hull, units);
    format!("entry {}: {} {place}{told}", entry.number, entry.did())
}

fn each(per_crossing: Option<u8>) -> String {
    per_crossing.map_or_else(
        || "in single holes".to_owned(),
        |n| format!("{n} a crossing"),
    )
}

fn how(how: crate::record::How) -> String {
    match how {
        crate::record::How::Unknown => "how it is known is not said".to_owned(),
        how => format!("known by: {how}"),
    }
}

/// What an entry tells beside its deed and place, as the end of its line.
pub(super) fn told(entry: &Entry, hull: &Hull, units: Units) -> String {
    let mut words = Vec::new();
    if let What::Struck { why, .. } = &entry.what {
        words.extend(why.clone());
    }
    if let What::Done { deed, .. } = &entry.what {
        match deed {
            Deed::Measured(diameter, _) => words.push(diameter.shown(units)),
            Deed::Broken(stub, ..) => words.push(format!("stub in {stub}")),
            Deed::Driven(driving) => {
                let guess = driving.guess.as_ref();
                let metal = match (driving.metal, guess) {
                    (Some(metal), _) => metal.name.to_owned(),
                    (None, Some(guess)) => format!("unknown metal ({guess}?)"),
                    (None, None) => "unknown metal".to_owned(),
                };
                let size = driving.size.map_or_else(
                    || "of unknown size".to_owned(),
                    |size| size.written(hull.gauges, units),
                );
                words.push(format!(
                    "{metal} {} {size}, bung {}",
                    driving.kind,
                    driving.plug.written(units)
                ));
                if driving.temporary {
                    words.push("temporary".to_owned());
                }
                words.extend(driving.plan.as_ref().map(|plan| format!("plan `{plan}`")));
            }
            Deed::PlankHung(plank) => {
                let thickness = plank.thickness.map(|thickness| thickness.shown(units));
                let wood = plank.wood.map_or("unknown wood", |wood| wood.name);
                let thickness = thickness.unwrap_or_else(|| "of unknown thickness".to_owned());
                words.push(format!("{wood}, {thickness}"));
                words.extend(
                    plank
                        .joints
                        .as_ref()
                        .map(|joints| format!("joints {joints}")),
                );
            }
            Deed::Faired(off) => words.push(format!("{} taken off", off.shown(units))),
            Deed::Sistered(member) | Deed::FrameRenewed(member) => {
                words.extend(
                    member
                        .siding
                        .map(|siding| format!("sided {}", siding.shown(units))),
                );
                words.extend(
                    member
                        .depth
                        .map(|depth| format!("moulded {}", depth.shown(units))),
                );
                words.extend(member.wood.map(|wood| wood.name.to_owned()));
            }
            _ => {}
        }
        words.extend(deed.found().map(|found| format!("found {found}")));
        words.extend(deed.sample().map(|sample| format!("{sample} sample")));
    }
    words.extend(entry.by.as_ref().map(|by| format!("by {by}")));
    words.extend(entry.photo.as_ref().map(|photo| format!("photo {photo}")));
    words.extend(
        entry
            .note
            .as_ref()
            .map(|note| format!("\u{201c}{note}\u{201d}")),
    );
    words.extend(entry.written.map(|day| format!("written {day}")));
    words.extend(entry.from.as_ref().map(|from| format!("from {from}")));
    if words.is_empty() {
        String::new()
    } else {
        format!(": {}", words.join("; "))
    }
}

fn of_entry(
    hull: &Hull,
    entry: &Entry,
    place: Option<&str>,
    holes: Option<usize>,
    struck_by: Option<u32>,
) -> Value {
    json!({
        "date": entry.date.to_string(),
        "entry": entry.number,
        "did": entry.did().word(),
        "place": place,
        "holes": holes,
        "told": told(entry, hull, hull.units).trim_start_matches(": "),
        "by": entry.by,
        "note": entry.note,
        "written": entry.written.map(|day| day.to_string()),
        "from": entry.from,
        "struck_by": struck_by,
    })
}

/// The same for other programs.
pub fn json(history: &History<'_>) -> Value {
    let (hull, book) = (history.holes.hull, history.holes.book);
    let events: Vec<Value> = history
        .events
        .iter()
        .map(|event| match event {
            Event::Built { set, crossings } => {
                let fastening = book.fastening(set.fastening);
                json!({
                    "date": fastening.driven.to_string(),
                    "entry": null,
                    "did": "built",
                    "set": book.set_name(set.id),
                    "place": fold(hull, crossings.iter().copied()).to_string(),
                    "fastening": describe(fastening, hull, hull.units),
                    "how": set.how.word(),
                })
            }
            Event::Done { entry, holes } => {
                let place = fold_holes(hull, holes.iter().copied()).to_string();
                of_entry(hull, entry, Some(&place), Some(holes.len()), None)
            }
            Event::Wood { entry, crossings } => {
                let place = fold(hull, crossings.iter().copied()).to_string();
                of_entry(hull, entry, Some(&place), None, None)
            }
            Event::Struck { entry, by } => {
                let place = entry.place().map(ToString::to_string);
                of_entry(hull, entry, place.as_deref(), None, Some(by.number))
            }
        })
        .collect();
    json!({
        "format": 1,
        "boat": hull.boat,
        "as_of": history.holes.day.to_string(),
        "as_known": known::json(book),
        "place": history.place,
        "set": history.set.map(|set| book.set_name(set)),
        "metal": history.metal.map(|metal| metal.map_or("unknown", |metal| metal.name)),
        "events": events,
        "holes": history.holes.json(),
    })
}
