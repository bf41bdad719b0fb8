//! A boat made of a few lines, and how she is looked at.

use std::fs;

use refasten::files::{Boat, Folder};
use refasten::hull::CrossingId;
use refasten::record::{Book, Content, Hole, Mouth, State};
use refasten::text::{Fault, FileId};
use refasten::units::Day;

/// The day of every test.
pub const TODAY: &str = "2026-11-01";

pub fn day(text: &str) -> Day {
    text.parse().unwrap()
}

/// Three strakes a side on four frames, two of them to the stem; two deck planks.
pub const HULL: &str = "\
refasten: 1
boat: Test
particulars: {launched: 1958}
frames:
  - {number: 1-4, siding: 1-3/8in, moulding: 1-3/4in, wood: white oak}
beams:
  - {number: 1-3, siding: 1-3/4in, moulding: 2-1/2in, wood: white oak}
ends:
  - {member: stem, landing depth: 2in, wood: white oak, grain: side}
strakes:
  - {planks: PS1-2, across: stem F1-4, thickness: 1in, width: 5in, wood: western larch}
  - {planks: PS3, across: F1-4, thickness: 1in, width: 5in, wood: western larch}
  - {planks: D1-2, across: B1-3, thickness: 1in, width: 3in, wood: Douglas-fir}
";

/// A set of the hull file; `rest` is what is not the same in most.
pub fn set(name: &str, place: &str, rest: &str) -> String {
    format!(
        "  - {{set: {name}, place: {place}, kind: rivet, metal: copper, size: 8 SWG x 3in, {rest}}}\n"
    )
}

/// The test hull with these sets.
pub fn hull_with(sets: &[String]) -> String {
    format!("{HULL}sets:\n{}", sets.concat())
}

/// A log of these entries, each without its number.
pub fn log(entries: &[&str]) -> String {
    let numbered = entries.iter().zip(1..);
    numbered
        .map(|(entry, number)| format!("- {{entry: {number}, {entry}}}\n"))
        .collect()
}

/// The boat of two files, or each of their faults as `log 3: what is wrong (what would be right)`.
pub fn read(hull: &str, log: &str) -> Result<Boat, Vec<String>> {
    read_bytes(hull.as_bytes(), log.as_bytes())
}

pub fn read_bytes(hull: &[u8], log: &[u8]) -> Result<Boat, Vec<String>> {
    read_with_plan(hull, log, b"")
}

pub fn read_with_plan(hull: &[u8], log: &[u8], plan: &[u8]) -> Result<Boat, Vec<String>> {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("plan.yaml"), plan).unwrap();
    fs::write(folder.path().join("hull.yaml"), hull).unwrap();
    fs::write(folder.path().join("log.yaml"), log).unwrap();
    let folder = Folder::open(folder.path()).unwrap();
    folder
        .boat(day(TODAY))
        .map_err(|faults| faults.iter().map(told).collect())
}

fn told(fault: &Fault) -> String {
    let place = fault.origin.map_or("command".to_owned(), |origin| {
        let file = match origin.file {
            FileId::Hull => "hull",
            FileId::Log => "log",
            FileId::Plan => "plan",
            other => panic!("{other:?} is not one of these"),
        };
        format!("{file} {}", origin.line)
    });
    match &fault.help {
        Some(help) => format!("{place}: {} ({help})", fault.says),
        None => format!("{place}: {}", fault.says),
    }
}

/// The boat of two files that are without fault.
pub fn sound(hull: &str, log: &str) -> Boat {
    read(hull, log).unwrap_or_else(|faults| panic!("{faults:#?}\n{hull}\n{log}"))
}

/// The faults of two files.
pub fn faults(hull: &str, log: &str) -> Vec<String> {
    read(hull, log).err().unwrap_or_default()
}

/// What stands at a crossing after the whole log: each hole in order, as
/// `set: state, plank side/frame side`, the sides being `bare`, `closed` or `flush` where there is
/// a head.
pub fn stands(boat: &Boat, place: &str) -> Vec<String> {
    stands_on(boat, place, None)
}

/// The same at the end of a day.
pub fn stands_on(boat: &Boat, place: &str, day: Option<Day>) -> Vec<String> {
    let state = boat.book.state(&boat.hull, day);
    let spots = boat.hull.resolve(&place.parse().unwrap()).unwrap();
    spots
        .iter()
        .flat_map(|spot| state.holes(spot.crossing))
        .map(|hole| describe(&boat.book, hole))
        .collect()
}

pub fn describe(book: &Book, hole: &Hole) -> String {
    let set = book.set_name(book.fastening(hole.fastening).set);
    format!("{set}: {}, {}", hole.state(), sides(hole.content))
}

/// The sides of a hole in words.
pub fn sides(content: Content) -> String {
    match content.mouth() {
        Some(Mouth::Closed) => "closed".to_owned(),
        Some(Mouth::Open) => "bare".to_owned(),
        Some(Mouth::Flush) => "flush".to_owned(),
        None => format!("{}/{}", content.plank_side(), content.frame_side()),
    }
}

/// Everything that can be told of every hole, crossing by crossing, but for the numbers by which
/// a book knows its entries and descriptions.
pub fn view(
    book: &Book,
    state: &State,
    crossings: impl Iterator<Item = CrossingId>,
) -> Vec<Vec<String>> {
    let hole = |hole: &Hole| {
        let fastening = book.fastening(hole.fastening);
        let found: Vec<_> = hole.found.each().collect();
        format!(
            "{} {found:?} spoiled {} {} {:?} {:?} {:?} {} looked {:?}",
            describe(book, hole),
            hole.in_spoiled_hole,
            fastening.kind,
            fastening.metal.map(|metal| metal.name),
            fastening.size,
            fastening.plug,
            fastening.driven,
            book.last_look(hole)
                .map(|entry| (entry.did(), entry.place())),
        )
    };
    crossings
        .map(|id| state.holes(id).iter().map(hole).collect())
        .collect()
}
