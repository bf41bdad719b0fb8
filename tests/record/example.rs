//! One boat in the forms that the files are specified in, and the state she is in.

use refasten::units::Day;

use super::boat::{describe, sound, stands};

const HULL: &str = include_str!("example/hull.yaml");
const LOG: &str = include_str!("example/log.yaml");

#[test]
fn she_is_in_the_state_her_log_tells() {
    let boat = sound(HULL, LOG);
    // New bronze, bunged.
    let new = "driven 2026: relied on, closed";
    assert_eq!(stands(&boat, "S4 F14-18"), [new; 10]);
    // Drawn and open.
    let open = "collision repair: open, open/open";
    assert_eq!(stands(&boat, "S5 F14-15"), [open; 4]);
    // The repair left nothing of the rivets it replaced, and F16.2 is whole again: entry 4 is
    // struck out. The nails are clenched and have no bung to take out.
    let state = boat.book.state(&boat.hull, None);
    let repair = "collision repair: relied on, closed";
    let bared = "collision repair: relied on, bare";
    assert_eq!(stands(&boat, "S5 F16-18"), [bared; 6]);
    assert_eq!(stands(&boat, "S5 F19"), [repair; 2]);
    // And round about, what was there before.
    assert_eq!(stands(&boat, "P5 F16"), ["built: relied on, closed"; 2]);
    let garboard = stands(&boat, "P1 F1");
    assert_eq!(
        garboard,
        [
            "built: left in, closed",
            "built: left in, closed",
            "garboards: relied on, closed",
            "garboards: relied on, closed",
            "garboards: relied on, closed",
        ]
    );
    let all = state.tally(boat.hull.crossing_ids());
    assert_eq!(all.open, 4);
    assert_eq!(all.broken, 0);
    assert_eq!(all.left_in, 2 * 2 * 44);
}

#[test]
fn on_the_day_the_head_came_off_it_was_another_fastening() {
    let boat = sound(HULL, LOG);
    let day: Day = "2026-10-03".parse().unwrap();
    let state = boat.book.state(&boat.hull, Some(day));
    let spot = boat.hull.resolve(&"S5 F16".parse().unwrap()).unwrap()[0];
    let holes: Vec<String> = state
        .holes(spot.crossing)
        .iter()
        .map(|hole| describe(&boat.book, hole))
        .collect();
    assert_eq!(holes, ["collision repair: relied on, bare"; 2]);
}
