//! Files of a boat: read, told of, judged and printed.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use refasten::files::{Boat, Folder, HULL_FILE, LOG_FILE, PLAN_FILE, line, mend};
use refasten::text::{FileId, draw, tell};
use refasten::units::Units;
use tempfile::TempDir;

use super::pages::printed;
use super::today;

/// A hull that most entries of a log can be about.
pub const HULL: &str = "\
refasten: 1
boat: Test
frames:
  - {number: 1-4, siding: 1-3/8in, moulding: 1-3/4in, wood: white oak}
strakes:
  - {planks: PS1-3, across: F1-4, thickness: 1in, width: 5in, wood: western larch}
joints:
  - {at: P3 J2, kind: butt, block: {thickness: 1in, wood: white oak}, per end: 5}
sets:
  - {set: built, place: PS1-3 F1-4, per crossing: 2, kind: rivet, metal: copper, size: 8 SWG x 3in, bung: none, driven: 1958}
  - {set: butt, place: P3 J2, per crossing: 5, kind: wood screw, metal: silicon bronze, size: 14 x 1-3/4in, driven: 1990}
";

/// What divides hull, log and plan in one input.
const DIVIDED: &[u8] = b"\n%%\n";

/// The boat that comes with the program.
pub fn demo() -> Boat {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).ancestors();
    let mut demo = folder.map(|folder| folder.join("demo"));
    let demo = demo.find(|demo| demo.join(HULL_FILE).is_file());
    let folder = Folder::open(&demo.expect("the demo")).expect("it can be read");
    folder.boat(today()).expect("it has no fault")
}

/// A folder with these files.
pub fn folder(hull: &[u8], log: &[u8], plan: &[u8]) -> (TempDir, Folder) {
    let kept = tempfile::tempdir().expect("a folder");
    for (name, bytes) in [(HULL_FILE, hull), (LOG_FILE, log), (PLAN_FILE, plan)] {
        fs::write(kept.path().join(name), bytes).expect("a file");
    }
    let folder = Folder::open(kept.path()).expect("its files");
    (kept, folder)
}

/// The boat of these files, or of what is left of them without the lines that have faults: what is
/// mutated is seldom sound as a whole, and only what is sound is judged and printed.
pub fn mended(hull: &[u8], log: &[u8], plan: &[u8]) -> Option<(TempDir, Folder, Boat)> {
    const TIMES: usize = 5;
    let mut files = [hull, log, plan].map(<[u8]>::to_vec);
    for _ in 0..TIMES {
        let (kept, with_them) = folder(&files[0], &files[1], &files[2]);
        if let Some(boat) = read(&with_them) {
            return Some((kept, with_them, boat));
        }
        let faults = with_them.boat(today()).err()?;
        for (file, id) in files
            .iter_mut()
            .zip([FileId::Hull, FileId::Log, FileId::Plan])
        {
            let at = faults.iter().filter_map(|fault| fault.origin);
            let lines: BTreeSet<u32> = at.filter(|at| at.file == id).map(|at| at.line).collect();
            *file = without(file, &lines);
        }
    }
    None
}

/// A text without some of its lines.
pub fn without(text: &[u8], lines: &BTreeSet<u32>) -> Vec<u8> {
    let numbered = (1..).zip(text.split_inclusive(|byte| *byte == b'\n'));
    let kept = numbered.filter(|(number, _)| !lines.contains(number));
    kept.flat_map(|(_, line)| line).copied().collect()
}

/// The boat of a folder, or nothing where her files have faults. Those are told, and telling
/// leaves nothing for the terminal to act on.
pub fn read(folder: &Folder) -> Option<Boat> {
    let faults = match folder.boat(today()) {
        Ok(boat) => return Some(boat),
        Err(faults) => faults,
    };
    assert!(
        !faults.is_empty() && faults.len() <= 10_000,
        "{}",
        faults.len()
    );
    let texts = folder.texts();
    let mut told = Vec::new();
    draw(&mut told, &faults, &texts, 80, false).expect("a vector");
    tell(&mut told, &faults, &texts).expect("a vector");
    let told = String::from_utf8(told).expect("text");
    // However long what is wrong is: a person reads it.
    assert!(told.len() < 400_000, "{} bytes told", told.len());
    assert!(
        !told.contains(|c: char| c.is_control() && c != '\n'),
        "{told:?}"
    );
    None
}

/// Any bytes as the file of a hull.
pub fn hull(bytes: &[u8]) {
    mended(bytes, b"", b"");
}

/// Any bytes as a log: each entry that is read is written as a line that is read the same.
pub fn log(bytes: &[u8]) {
    if let Some(mended) = mend(bytes) {
        assert_eq!(mend(&mended.bytes), None, "mended once, it ends well");
    }
    let Some((_kept, _, boat)) = mended(HULL.as_bytes(), bytes, b"") else {
        return;
    };
    let write = |boat: &Boat, units: Units| -> String {
        let entries = boat.book.entries().iter();
        let lines = entries.map(|entry| line(entry, boat.hull.gauges, units) + "\n");
        lines.collect()
    };
    for units in [Units::Inch, Units::Metric] {
        let written = write(&boat, units);
        let (_kept, again) = folder(HULL.as_bytes(), written.as_bytes(), b"");
        let again = read(&again).unwrap_or_else(|| panic!("{written}"));
        assert_eq!(write(&again, units), written);
    }
}

/// Any bytes as a plan.
pub fn plan(bytes: &[u8]) {
    let (_kept, folder) = folder(HULL.as_bytes(), b"", bytes);
    read(&folder);
}

/// A whole boat: hull, log and plan, judged and printed in every form.
pub fn boat(bytes: &[u8]) {
    let cut = |bytes: &'_ [u8]| {
        let at = bytes.windows(DIVIDED.len()).position(|at| at == DIVIDED);
        at.map_or((bytes.len(), bytes.len()), |at| {
            (at + 1, at + DIVIDED.len())
        })
    };
    let (end, next) = cut(bytes);
    let (hull, rest) = (&bytes[..end], &bytes[next..]);
    let (end, next) = cut(rest);
    let (log, plan) = (&rest[..end], &rest[next..]);
    if let Some((_kept, _, boat)) = mended(hull, log, plan) {
        printed(&boat);
    }
}
