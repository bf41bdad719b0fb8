//! Plans and lists of goods that no owner would write: a fault at its place, never more.

use std::fs;

use proptest::prelude::*;
use refasten::files::{Boat, Folder};
use refasten::refit::buy::{Asked, WhatFor, buy};
use refasten::text::{FileId, spot};

const HULL: &str = "\
refasten: 1
boat: Test
frames:
  - {number: 1-4, siding: 1-3/8in, moulding: 1-3/4in, wood: white oak}
strakes:
  - {planks: P1-2, across: F1-4, thickness: 1in, width: 5in, wood: western larch}
sets:
  - {set: built, place: P1-2 F1-4, per crossing: 2, kind: rivet, metal: copper, size: 8 SWG x 3in}
";

const STORES: &str = "\
own:
  - {tool: drills, set: fraction}
boxes:
  - {of: wood screw, size: 14 x 1-3/4in, holds: 100, price: 61.40}
  - {of: bung, size: 1/2in, wood: western larch, holds: 50, price: 6.80}
money: EUR
";

const PLAN: &str = "\
# refasten plan 1
- {plan: \"a\", date: 2026-10-01, place: P1 F1-3, per crossing: 2, kind: wood screw, metal: silicon bronze, size: 14 x 1-3/4in, bung: 1/2in x 1/4in}
- {plan: \"b\", date: 2026-10-02, place: P2 F1.1, kind: rivet, metal: copper, size: 8 SWG x 3in, replaces: built, by: \"x\"}
- {plan: \"a\", date: 2026-10-03, dropped: yes, why: \"y\"}
";

/// The boat of these files; what is wrong with them is told in them.
fn read(hull: &str, plan: &[u8]) -> Option<Boat> {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("hull.yaml"), hull).unwrap();
    fs::write(folder.path().join("plan.yaml"), plan).unwrap();
    let folder = Folder::open(folder.path()).unwrap();
    match folder.boat("2026-11-01".parse().unwrap()) {
        Ok(boat) => Some(boat),
        Err(faults) => {
            assert!(!faults.is_empty());
            for fault in &faults {
                let spot = spot(fault, &folder.texts()).expect("every fault is in a file");
                assert!(spot.line >= 1 && spot.column >= 1 && spot.end >= spot.column);
            }
            None
        }
    }
}

/// Asks everything of a boat that can be asked of her plan.
fn use_up(boat: &Boat) {
    let day = "2026-11-01".parse().unwrap();
    let mut state = boat.book.state(&boat.hull, None).into_owned();
    let done = boat.book.carry_out_plans(&mut state, None);
    let asked = Asked {
        hull: &boat.hull,
        book: &boat.book,
        limits: &boat.limits,
        stores: &boat.stores,
        day,
        within: None,
        what_for: WhatFor::All,
        units: boat.hull.units,
    };
    let list = buy(&asked);
    assert_eq!(list.counts.planned, u64::from(done.fastenings));
    for line in &list.goods {
        assert!(line.boxed.pieces() >= line.needed + line.spares);
    }
}

/// A text with a few bytes of it put otherwise.
fn spoiled(text: &'static str) -> impl Strategy<Value = Vec<u8>> {
    let bits: Vec<&[u8]> = vec![
        b"",
        b"{",
        b"}",
        b"[",
        b"]",
        b"\"",
        b":",
        b",",
        b"#",
        b"-",
        b"\n",
        b"\r",
        b"\t",
        b" ",
        b"0",
        b"64",
        b"4000000000",
        b"\xff",
        b"\0",
        b"&a",
        b"*a",
        b"!!x",
        b"<<",
        b"unknown",
        b"none",
        b"new",
        b"same",
        b"P1 F1-4",
        b"F9",
        b"dropped: yes",
        b"adds to: b",
        b"replaces: a",
        b"hole: new",
        b"2026-12-01",
        b"\xe2\x80\xae",
    ];
    let change = (0..text.len(), 0..12usize, prop::sample::select(bits));
    prop::collection::vec(change, 1..4).prop_map(move |changes| {
        let mut bytes = text.as_bytes().to_vec();
        for (at, take, put) in changes {
            let at = at.min(bytes.len());
            let end = (at + take).min(bytes.len());
            bytes.splice(at..end, put.iter().copied());
        }
        bytes
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_spoiled_plan_is_read_or_its_faults_are_told(plan in spoiled(PLAN)) {
        if let Some(boat) = read(&format!("{HULL}{STORES}"), &plan) {
            use_up(&boat);
        }
    }

    #[test]
    fn spoiled_stores_are_read_or_their_faults_are_told(stores in spoiled(STORES)) {
        let stores = String::from_utf8_lossy(&stores).into_owned();
        if let Some(boat) = read(&format!("{HULL}{stores}"), PLAN.as_bytes()) {
            use_up(&boat);
        }
    }
}

#[test]
fn the_plan_as_it_stands_is_sound() {
    let boat = read(&format!("{HULL}{STORES}"), PLAN.as_bytes()).expect("nothing is wrong");
    use_up(&boat);
    let files: Vec<FileId> = boat
        .book
        .plan_lines()
        .map(|line| line.origin.file)
        .collect();
    assert_eq!(files, [FileId::Plan; 3]);
}

#[test]
fn a_plan_of_more_than_a_boat_can_hold_is_refused() {
    let line = |n: usize| {
        format!(
            "- {{plan: \"p{n}\", date: 2026-10-01, place: P1-2 F1-4, per crossing: 64, hole: new, adds to: [built], kind: rivet}}\n"
        )
    };
    assert!(read(HULL, line(0).as_bytes()).is_none());
}
