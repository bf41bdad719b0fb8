//! The table of what can be done: every deed against everything that can be in a hole.

use super::boat::{faults, hull_with, log, set, sides, sound};
use refasten::record::{Content, Hole, Stub, Told, table};

/// How a hole comes to be in each state: its name in the table, how it is told, and what was done.
/// The set has a bung where the state does not need it to have none.
const STATES: [(&str, &str, &[&str]); 18] = [
    ("Ic", "relied on closed", &[]),
    ("Ib", "relied on bare", &["bared"]),
    ("If", "relied on flush", &[]),
    ("Lc", "left in closed", &["left"]),
    ("Lb", "left in bare", &["bared", "left"]),
    ("Lf", "left in flush", &["left"]),
    ("Fo", "broken open/stub", &["broken, stub: frame"]),
    (
        "Fp",
        "broken plugged/stub",
        &["broken, stub: frame", "plugged"],
    ),
    ("Ko", "broken stub/open", &["broken, stub: plank"]),
    (
        "Kd",
        "broken stub/doweled",
        &["broken, stub: plank", "doweled"],
    ),
    ("Bo", "broken stub/stub", &["broken, stub: both"]),
    ("Oo", "open open/open", &["pulled"]),
    ("Od", "open open/doweled", &["pulled", "doweled"]),
    ("Po", "plugged plugged/open", &["pulled", "plugged"]),
    (
        "Pd",
        "plugged plugged/doweled",
        &["pulled", "doweled", "plugged"],
    ),
    ("Go", "plugged gone/open", &["pulled", "plank off", HUNG]),
    ("On", "open open/gone", &["pulled", "frame renewed"]),
    (
        "Fg",
        "broken gone/stub",
        &["broken, stub: frame", "plank off", HUNG],
    ),
];

const HUNG: &str = "plank hung, thickness: 7/8in, wood: teak";

/// A column for each state: in place, left in, a stub in the frame, in the plank, in both, no metal, and holes
/// whose plank or member is new.
/// `.` leaves it as it is, a state is what it becomes, a small letter is why it is refused.
const TABLE: &str = "
                         Ic Ib If  Lc Lb Lf  Fo Fp  Ko Kd  Bo  Oo Od Po Pd  Go On Fg
checked                  .  .  .   .  .  .   .  .   .  .   .   e  e  e  e  e  e  .
checked, found: missing  Oo Oo Oo  Oo Oo Oo  .  .   .  .   .   e  e  e  e  e  e  .
measured, diameter: 5mm  .  .  .   .  .  .   .  .   .  .   .   .  .  .  .  .  .  .
bared                    Ib b  .   Lb b  .   s  s   s  s   s   e  e  e  e  e  e  s
bared, found: missing    Oo Oo Oo  Oo Oo Oo  s  s   s  s   s   e  e  e  e  e  e  s
hardened                 .  .  .   l  l  l   s  s   s  s   s   e  e  e  e  e  e  s
pulled                   Oo Oo Oo  Oo Oo Oo  s  s   s  s   s   e  e  e  e  e  e  s
broken, stub: frame      Fo Fo Fo  Fo Fo Fo  s  s   s  s   s   e  e  e  e  e  e  s
broken, stub: plank      Ko Ko Ko  Ko Ko Ko  s  s   s  s   s   e  e  e  e  e  e  s
broken, stub: both       Bo Bo Bo  Bo Bo Bo  s  s   s  s   s   e  e  e  e  e  e  s
cleared                  w  w  w   w  w  w   Oo o   Oo Od  Oo  e  e  e  e  e  e  Go
left                     Lc Lb Lf  l  l  l   s  s   s  s   s   e  e  e  e  e  e  s
plugged                  k  k  k   k  k  k   Fp p   k  k   k   Po Pd p  p  g  Pn g
doweled                  f  f  f   f  f  f   f  f   Kd d   f   Od d  Pd d  Gd m  f
driven                   k  k  k   k  k  k   s  s   s  s   s   Ib Ib p  p  Ib Ib s
bunged                   n  Ic n   n  Lc n   n  n   n  n   n   n  n  n  n  n  n  n
stopped                  n  Ic n   n  Lc n   n  n   n  n   n   n  n  n  n  n  n  n
plank off                h  h  h   h  h  h   Fg Fg  Go Gd  h   Go Gd Go Gd  .  Gn .
plank hung, wood: teak   t  t  t   t  t  t   t  t   t  t   t   t  t  t  t  t  t  t
frame renewed            h  h  h   h  h  h   On Pn  Kn Kn  h   On On Pn Pn  Gn .  Gn
faired, off: 1/16in      .  .  .   .  .  .   .  .   .  .   .   .  .  .  .  .  .  .
";

const REFUSALS: [(&str, &str); 13] = [
    ("e", "there is no metal in the hole"),
    ("s", "there is only a stub in the hole"),
    ("w", "the fastening is whole"),
    ("l", "the fastening was left in, not relied on"),
    ("b", "the head is already bare"),
    ("n", "no bare head is there to close over"),
    ("p", "the plank's hole is already plugged"),
    ("o", "the plank's hole was plugged over it"),
    ("d", "the frame's hole already has a dowel"),
    ("k", "there is metal in the plank's hole"),
    ("f", "there is metal in the frame's hole"),
    ("g", "the hole went with the old plank"),
    ("m", "the member is new and has no hole there"),
];

/// What is in the way of what is done to the wood.
const WOOD: [(&str, &str); 2] = [
    ("h", "metal still goes from plank to member"),
    ("t", "the plank is not off"),
];

/// States that are only come to, and told in the table by these names.
const FURTHER: [(&str, &str); 4] = [
    ("Gd", "plugged gone/doweled"),
    ("Gn", "plugged gone/gone"),
    ("Pn", "plugged plugged/gone"),
    ("Kn", "broken stub/gone"),
];

fn is_to_wood(deed: &str) -> bool {
    ["plank", "frame", "faired"]
        .iter()
        .any(|word| deed.starts_with(word))
}

/// A boat of one hole in one state, and the entries that brought it there.
fn in_state(name: &str, done: &[&str]) -> (String, Vec<String>) {
    let bung = match name {
        "If" | "Lf" => "none",
        _ => "1/2in x 1/4in",
    };
    let built = set(
        "built",
        "P1 F1",
        &format!("per crossing: 1, driven: 1958, bung: {bung}"),
    );
    let entry = |did: &&str| {
        let hole = if is_to_wood(did) { "" } else { ".1" };
        format!("date: 2026-10-01, did: {did}, place: P1 F1{hole}")
    };
    // The deed comes before its own keys in the tables, and the place after.
    let entries = done.iter().map(entry).collect();
    (hull_with(&[built]), entries)
}

fn hole(hull: &str, entries: &[String]) -> Hole {
    let entries: Vec<&str> = entries.iter().map(String::as_str).collect();
    let boat = sound(hull, &log(&entries));
    let id = boat.hull.resolve(&"P1 F1".parse().unwrap()).unwrap()[0].crossing;
    let state = boat.book.state(&boat.hull, None);
    let holes = state.holes(id);
    assert_eq!(holes.len(), 1);
    holes[0]
}

fn told(hull: &str, entries: &[String]) -> String {
    let hole = hole(hull, entries);
    format!("{} {}", hole.state(), sides(hole.content))
}

#[test]
fn each_deed_on_each_state_does_what_the_table_says() {
    let mut rows = TABLE.trim().lines();
    let heads: Vec<&str> = rows.next().unwrap().split_whitespace().collect();
    assert_eq!(heads, STATES.map(|(name, ..)| name));
    let mut cells = 0;
    for row in rows {
        let (deed, row) = row.split_at(25);
        let outcomes: Vec<&str> = row.split_whitespace().collect();
        assert_eq!(outcomes.len(), STATES.len(), "{deed}");
        for ((name, is, done), outcome) in STATES.into_iter().zip(outcomes) {
            check(deed.trim(), name, is, done, outcome);
            cells += 1;
        }
    }
    assert_eq!(cells, 21 * 18);
}

fn check(deed: &str, name: &str, is: &'static str, done: &[&str], outcome: &str) {
    let (hull, mut entries) = in_state(name, done);
    assert_eq!(told(&hull, &entries), is, "{name}");
    let driven = deed == "driven";
    let more = match deed.split(',').next() {
        Some("driven") => ", kind: rivet, metal: copper, size: unknown, bung: 1/2in",
        Some("plank hung") => ", thickness: 7/8in",
        _ => "",
    };
    // By the number of the hole, and by its crossing alone.
    let places: &[&str] = if driven {
        &["P1 F1.1"]
    } else if is_to_wood(deed) {
        &["P1 F1"]
    } else {
        &["P1 F1.1", "P1 F1"]
    };
    for place in places {
        entries.push(format!(
            "date: 2026-10-02, did: {deed}, place: {place}{more}"
        ));
        let case = format!("{deed} on {name} at {place}");
        let told_as = |table: &[(&str, &'static str)]| {
            let found = table.iter().find(|(name, _)| *name == outcome);
            found.map(|(_, words)| *words)
        };
        let did = deed.split(',').next().unwrap();
        let refusal = match (told_as(&REFUSALS), told_as(&WOOD)) {
            (Some(says), _) => Some(format!("nothing can be {did} at P1 F1: {says}")),
            (_, Some(says)) => Some(format!("{says} at P1 F1")),
            (None, None) => None,
        };
        match refusal {
            Some(says) => {
                let texts: Vec<&str> = entries.iter().map(String::as_str).collect();
                let start = format!("log {}: {says} (", entries.len());
                let faults = faults(&hull, &log(&texts));
                assert_eq!(faults.len(), 1, "{case}: {faults:?}");
                assert!(faults[0].starts_with(&start), "{case}: {faults:?}");
            }
            None => {
                let states = STATES.map(|(name, is, _)| (name, is));
                let becomes = told_as(&states).or(told_as(&FURTHER));
                let becomes = becomes.unwrap_or_else(|| {
                    assert_eq!(outcome, ".", "{case}");
                    is
                });
                assert_eq!(told(&hull, &entries), becomes, "{case}");
            }
        }
        entries.pop();
    }
}

/// The table that pages carry is the one that entries are checked by.
#[test]
fn the_table_as_data_says_the_same() {
    let mut cells = 0;
    for row in TABLE.trim().lines().skip(1) {
        let (deed, outcomes) = row.split_at(25);
        let (did, more) = deed.trim().split_once(", ").unwrap_or((deed.trim(), ""));
        let told = match (did, more.split_once(": ")) {
            // Driven in the table with a bung.
            ("driven", _) => Told::Covered,
            (_, Some(("stub", stub))) => Told::Stub(stub.parse::<Stub>().unwrap()),
            (_, Some(("found", _))) => Told::Missing,
            _ => Told::Nothing,
        };
        let table = table();
        let Some(exported) = table
            .iter()
            .find(|row| row.did.word() == did && row.told == told)
        else {
            assert!(is_to_wood(did), "{deed}");
            continue;
        };
        for ((name, _, done), outcome) in STATES.into_iter().zip(outcomes.split_whitespace()) {
            let (hull, entries) = in_state(name, done);
            let before = hole(&hull, &entries).content;
            let at = Content::every()
                .iter()
                .position(|content| *content == before);
            let becomes = match exported.becomes[at.unwrap()] {
                Err(refusal) => format!("refused: {}", refusal.says()),
                Ok(content) if content == before => ".".to_owned(),
                Ok(content) => name_of(content),
            };
            let says = REFUSALS.iter().find(|(letter, _)| *letter == outcome);
            let expected = match says {
                Some((_, says)) => format!("refused: {says}"),
                None => outcome.to_owned(),
            };
            assert_eq!(becomes, expected, "{deed} on {name}");
            cells += 1;
        }
    }
    assert_eq!(cells, 17 * 18);
}

/// The name that the table has for what is in a hole.
fn name_of(content: Content) -> String {
    use refasten::record::{FrameHole as F, Mouth as M, PlankHole as P};
    let mouth = |mouth| match mouth {
        M::Closed => 'c',
        M::Open => 'b',
        M::Flush => 'f',
    };
    let frame = |frame| match frame {
        F::Open => 'o',
        F::Doweled => 'd',
        F::Gone => 'n',
    };
    match content {
        Content::InPlace(is) => format!("I{}", mouth(is)),
        Content::LeftIn(is) => format!("L{}", mouth(is)),
        Content::StubInFrame(P::Open) => "Fo".to_owned(),
        Content::StubInFrame(P::Plugged) => "Fp".to_owned(),
        Content::StubInFrame(P::Gone) => "Fg".to_owned(),
        Content::StubInPlank(is) => format!("K{}", frame(is)),
        Content::StubInBoth => "Bo".to_owned(),
        Content::Empty(P::Open, is) => format!("O{}", frame(is)),
        Content::Empty(P::Plugged, is) => format!("P{}", frame(is)),
        Content::Empty(P::Gone, is) => format!("G{}", frame(is)),
    }
}
