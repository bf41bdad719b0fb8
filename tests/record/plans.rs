//! Plans: how far they have come, what carrying them out does, what is refused.

use proptest::prelude::*;
use refasten::files::{Boat, line, written_plan};
use refasten::hull::CrossingId;
use refasten::record::{Content, Entry, Intent, PlanLine, PlankHole, Progress, State};
use refasten::tables::GaugeSystem;
use refasten::units::Units;

use super::boat::{describe, hull_with, log, read_with_plan, set};
use super::make;
use super::tales::{hull_file, plan, story};

const SCREWS: &str =
    "kind: wood screw, metal: silicon bronze, size: 14 x 1-3/4in, bung: 1/2in x 1/4in";

/// Two old rivets at each crossing of P1 and P2; one added beside them at P2 F1.
fn hull() -> String {
    hull_with(&[
        set("old", "P1-2 F1-4", "per crossing: 2"),
        set("added", "P2 F1", "per crossing: 1, adds to: old"),
    ])
}

fn boat(entries: &[&str], plan: &str) -> Boat {
    read(entries, plan).unwrap_or_else(|faults| panic!("{faults:#?}\n{plan}"))
}

fn read(entries: &[&str], plan: &str) -> Result<Boat, Vec<String>> {
    read_with_plan(hull().as_bytes(), log(entries).as_bytes(), plan.as_bytes())
}

fn faults(entries: &[&str], plan: &str) -> Vec<String> {
    read(entries, plan).err().unwrap_or_default()
}

/// A line of the plan of 2026-10-01.
fn planned(rest: &str) -> String {
    format!("- {{plan: \"bilge\", date: 2026-10-01, {rest}, {SCREWS}}}\n")
}

fn spots(boat: &Boat, place: &str) -> Vec<CrossingId> {
    let spots = boat.hull.resolve(&place.parse().unwrap()).unwrap();
    spots.iter().map(|spot| spot.crossing).collect()
}

fn carried_out(boat: &Boat) -> State {
    let mut state = boat.book.state(&boat.hull, None).into_owned();
    boat.book.carry_out_plans(&mut state, None);
    state
}

/// What would stand at a place with the plan carried out.
fn will_stand(boat: &Boat, place: &str) -> Vec<String> {
    let state = carried_out(boat);
    let ids = spots(boat, place).into_iter();
    ids.flat_map(|id| state.holes(id).to_vec())
        .map(|hole| describe(&boat.book, &hole))
        .collect()
}

const NEW: &str = "bilge: relied on, closed";
const OLD: &str = "old: relied on, closed";
const GONE: &str = "old: plugged, plugged/doweled";

#[test]
fn without_a_word_all_that_stands_is_drawn_and_its_holes_used_again() {
    let two = boat(&[], &planned("place: P2 F1, per crossing: 2"));
    assert_eq!(
        will_stand(&two, "P2 F1"),
        [NEW, NEW, "added: plugged, plugged/doweled"]
    );
    // More than there were want new holes.
    let four = boat(&[], &planned("place: P1 F1, per crossing: 4"));
    assert_eq!(will_stand(&four, "P1 F1"), [NEW; 4]);
    let beside = boat(&[], &planned("place: P1 F1, per crossing: 1, hole: new"));
    assert_eq!(will_stand(&beside, "P1 F1"), [GONE, GONE, NEW]);
    let one = boat(&[], &planned("place: P1 F1.2"));
    assert_eq!(will_stand(&one, "P1 F1"), [OLD, NEW]);
}

#[test]
fn sets_are_drawn_left_or_added_to_as_it_says() {
    let place = "place: P2 F1, per crossing: 2";
    let old = boat(&[], &planned(&format!("{place}, replaces: old")));
    let added = "added: relied on, closed";
    assert_eq!(will_stand(&old, "P2 F1"), [NEW, NEW, added]);
    let left = boat(&[], &planned(&format!("{place}, leaves in: [old, added]")));
    assert_eq!(
        will_stand(&left, "P2 F1"),
        [
            "old: left in, closed",
            "old: left in, closed",
            "added: left in, closed",
            NEW,
            NEW
        ]
    );
    let more = boat(&[], &planned(&format!("{place}, adds to: [old, added]")));
    assert_eq!(will_stand(&more, "P2 F1"), [OLD, OLD, added, NEW, NEW]);
}

#[test]
fn what_was_left_in_for_good_stays_unless_it_is_named_and_a_clamp_does_not() {
    let left = ["date: 2026-10-01, did: left, place: P1 F1.1"];
    let place = "place: P1 F1, per crossing: 1";
    let stays = boat(&left, &planned(place));
    assert_eq!(will_stand(&stays, "P1 F1"), ["old: left in, closed", NEW]);
    let named = boat(&left, &planned(&format!("{place}, replaces: old")));
    assert_eq!(will_stand(&named, "P1 F1"), [NEW, GONE]);
    let clamped = [
        "date: 2026-10-01, did: pulled, place: P1 F1",
        "date: 2026-10-01, did: driven, place: P1 F1, per crossing: 1, kind: wood screw, metal: steel, size: unknown, temporary: yes",
    ];
    let drawn = boat(&clamped, &planned(place));
    assert_eq!(will_stand(&drawn, "P1 F1"), [NEW, GONE]);
}

#[test]
fn a_stub_is_cleared_but_for_one_that_is_plugged_over() {
    let stub = [
        "date: 2026-10-01, did: broken, place: P1 F1",
        "date: 2026-10-01, did: plugged, place: P1 F1.1",
    ];
    let boat = boat(&stub, &planned("place: P1 F1, per crossing: 2"));
    assert_eq!(
        will_stand(&boat, "P1 F1"),
        ["old: broken, plugged/stub", NEW, NEW]
    );
}

#[test]
fn a_plan_is_pending_done_or_dropped_crossing_by_crossing() {
    let plan = planned("place: P1 F1-4, per crossing: 2")
        + "- {plan: \"bilge\", date: 2026-10-05, dropped: yes, why: \"sold\"}\n";
    let drawn = "date: 2026-10-02, did: pulled, place: P1 F1-4";
    let two = format!(
        "date: 2026-10-02, did: driven, place: P1 F1, plan: bilge, per crossing: 2, {SCREWS}"
    );
    let one = format!(
        "date: 2026-10-03, did: driven, place: P1 F2, plan: bilge, per crossing: 1, {SCREWS}"
    );
    let boat = boat(&[drawn, &two, &one], &plan);
    let on = |day: &str| -> Vec<(Progress, u8)> {
        let stages = boat.book.plan_progress(Some(day.parse().unwrap()));
        stages.iter().map(|s| (s.progress(), s.left())).collect()
    };
    use Progress::{Done, Dropped, Pending};
    assert_eq!(on("2026-09-30"), []);
    assert_eq!(on("2026-10-01"), [(Pending, 2); 4]);
    assert_eq!(
        on("2026-10-03"),
        [(Done, 0), (Pending, 1), (Pending, 2), (Pending, 2)]
    );
    assert_eq!(
        on("2026-10-05"),
        [(Done, 0), (Dropped, 0), (Dropped, 0), (Dropped, 0)]
    );
}

#[test]
fn one_driven_of_two_stays_when_the_other_is_carried_out() {
    let drawn = "date: 2026-10-02, did: pulled, place: P1 F1";
    let one = format!(
        "date: 2026-10-03, did: driven, place: P1 F1, set: winter, plan: bilge, per crossing: 1, {SCREWS}"
    );
    let boat = boat(&[drawn, &one], &planned("place: P1 F1, per crossing: 2"));
    assert_eq!(will_stand(&boat, "P1 F1"), ["winter: relied on, bare", NEW]);
}

#[test]
fn what_cannot_be_planned_is_told_with_its_line() {
    let drops = "- {plan: \"blige\", date: 2026-10-02, dropped: yes}\n";
    for (plan, told) in [
        (
            planned("place: P1 F1, per crossing: 2, replaces: odl"),
            "plan 1: there is no set `odl` before this (did you mean `old`?)",
        ),
        (
            planned("place: P1 F1") + "\n",
            "plan 1: `per crossing` is missing (like 2)",
        ),
        (
            planned("place: P1 F1.3"),
            "plan 1: there is no hole 3 at P1 F1 (name the crossing only, with `hole: new`)",
        ),
        (
            planned("place: P2 F1.1, replaces: added"),
            "plan 1: hole 1 at P2 F1 holds `old`, which is to stay (say that it goes: `replaces: old`, or bore beside it: `hole: new`)",
        ),
        (
            planned("place: P1 F1, per crossing: 64, adds to: old"),
            "plan 1: more than 64 holes in a crossing at P1 F1 (is `per crossing` right?)",
        ),
        (
            planned("place: P1 F1.1, hole: new"),
            "plan 1: a new hole has no number yet (name the crossing only)",
        ),
        (
            planned("place: P1 F1, per crossing: 2, why: x"),
            "plan 1: `why` goes with `dropped: yes` alone (what else is worth telling is a `note`)",
        ),
        (
            planned("place: P1 F1, per crossing: 2") + drops,
            "plan 2: there is no plan `blige` before this (did you mean `bilge`?)",
        ),
        (
            "- {plan: \"x\", date: 2027-01-01, place: P1 F1, per crossing: 2, kind: rivet}\n"
                .into(),
            "plan 1: 2027-01-01 has not come yet (today is 2026-11-01)",
        ),
        (
            "- {plan: \"x\", date: 2026-10-01, dropped: no}\n".into(),
            "plan 1: `dropped` is `yes`, or it is left out (leave it out where the plan stands)",
        ),
        (
            "# refasten plan 2\n".into(),
            "plan 1: this plan was written by a newer version of the program (this version reads `# refasten plan 1`)",
        ),
        (
            planned("place: P1 F1, per crossing: 2") + "- {plan: \"b",
            "plan 2: the last line of the plan has no end (a write was cut short; `check --repair` mends it)",
        ),
    ] {
        let all = faults(&[], &plan);
        assert!(all.iter().any(|fault| fault == told), "{plan}\n{all:#?}");
        assert!(
            all.iter().all(|fault| fault.starts_with("plan ")),
            "{all:#?}"
        );
    }
}

#[test]
fn what_is_driven_for_a_plan_must_be_of_it() {
    let plan = planned("place: P1 F1-2, per crossing: 2");
    let driven = |place: &str, rest: &str| {
        format!(
            "date: 2026-10-03, did: driven, place: {place}, per crossing: 1, hole: new, {rest}, {SCREWS}"
        )
    };
    let fault = |plan: &str, entry: &str| -> String {
        let told = faults(&[entry], plan);
        assert_eq!(told.len(), 1, "{told:#?}");
        told.concat()
    };
    assert_eq!(
        fault(&plan, &driven("P1 F1", "plan: blige")),
        "log 1: there is no plan `blige` before this (did you mean `bilge`?)"
    );
    assert_eq!(
        fault(&plan, &driven("P1 F2-4", "plan: bilge")),
        "log 1: the plan `bilge` has nothing in hand at P1 F3-4 on 2026-10-03 (it is for P1 F1-2)"
    );
    assert_eq!(
        fault(&plan, &driven("P1 F1", "plan: bilge, temporary: yes")),
        "log 1: what only clamps for a time carries out no plan (leave `plan` out, or `temporary`)"
    );
    let dropped = plan.clone() + "- {plan: \"bilge\", date: 2026-10-02, dropped: yes}\n";
    assert_eq!(
        fault(&dropped, &driven("P1 F1", "plan: bilge")),
        "log 1: the plan `bilge` has nothing in hand at P1 F1 on 2026-10-03 (what remained there was given up, or overtaken by a later line)"
    );
    let later = plan.replace("2026-10-01", "2026-10-04");
    assert_eq!(
        fault(&later, &driven("P1 F1", "plan: bilge")),
        "log 1: the plan `bilge` has nothing in hand at P1 F1 on 2026-10-03 (it is of 2026-10-04; leave `plan` out of what was done before)"
    );
    // Where the plan cannot be read, nobody is blamed for what is not in it.
    let unreadable = faults(&[&driven("P1 F1", "plan: bilge")], "- {plan: \"bilge\"}\n");
    assert!(
        unreadable.iter().all(|fault| fault.starts_with("plan ")),
        "{unreadable:#?}"
    );
}

/// A boat of a random story, with more logged and planned after it. The plans of the story are
/// given up, so that only what is planned here waits.
fn of_story(entries: &[Entry], logged: &str, planned: &str) -> Option<Boat> {
    let log: String = entries
        .iter()
        .map(|entry| line(entry, GaugeSystem::American, Units::Inch) + "\n")
        .collect();
    let plan: String = plan(entries)
        .iter()
        .map(|line| written_plan(line, GaugeSystem::American, Units::Inch) + "\n")
        .collect();
    let drop: String = entries
        .iter()
        .filter_map(|entry| entry.carries_out())
        .map(|name| {
            let line = PlanLine {
                plan: name.to_owned(),
                date: "2026-10-31".parse().unwrap(),
                intent: Intent::Drop { why: None },
                by: None,
                note: None,
                origin: make::ORIGIN,
            };
            written_plan(&line, GaugeSystem::American, Units::Inch) + "\n"
        })
        .collect();
    let (log, plan) = (log + logged, plan + &drop + planned);
    read_with_plan(hull_file().as_bytes(), log.as_bytes(), plan.as_bytes()).ok()
}

const CROSSINGS: [&str; 5] = ["P1 F1", "P2 F2", "P3 F1", "S1 F1", "D1 B1"];

/// What is done, step by step, to carry out a plan of `wanted` at a crossing.
fn steps(boat: &Boat, place: &str, wanted: usize, number: u32) -> Option<String> {
    let state = boat.book.state(&boat.hull, None);
    let id = *spots(boat, place).first()?;
    let mut done: Vec<String> = Vec::new();
    let mut usable = Vec::new();
    for (at, hole) in state.holes(id).iter().enumerate() {
        let hole_at = format!("place: {place}.{}", at + 1);
        let temporary = boat.book.fastening(hole.fastening).temporary;
        match hole.content {
            Content::LeftIn(_) if !temporary => continue,
            Content::StubInFrame(PlankHole::Plugged) | Content::Empty(PlankHole::Plugged, _) => {
                continue;
            }
            Content::InPlace(_) | Content::LeftIn(_) => {
                done.push(format!("did: pulled, {hole_at}"));
            }
            Content::Empty(..) => {}
            _ => done.push(format!("did: cleared, {hole_at}")),
        }
        usable.push((at + 1, hole.content));
    }
    let again = usable.len().min(wanted);
    if again > 0 {
        done.push(format!(
            "did: driven, place: {place}, set: later, plan: later, per crossing: {again}, {SCREWS}"
        ));
    }
    if wanted > again {
        let new = wanted - again;
        done.push(format!("did: driven, place: {place}, set: later, plan: later, hole: new, per crossing: {new}, {SCREWS}"));
    }
    for (hole, content) in usable.iter().skip(again) {
        let gone = matches!(
            content,
            Content::Empty(PlankHole::Gone, _) | Content::StubInFrame(PlankHole::Gone)
        );
        if !gone {
            done.push(format!("did: plugged, place: {place}.{hole}"));
        }
    }
    let text: String = done
        .iter()
        .zip(number..)
        .map(|(entry, number)| format!("- {{entry: {number}, date: 2026-11-01, {entry}}}\n"))
        .collect();
    Some(text)
}

/// What can be told of every hole on the plank's side, by what is in it.
fn fastenings(boat: &Boat, state: &State, place: &str) -> Vec<String> {
    let ids = spots(boat, place).into_iter();
    ids.flat_map(|id| state.holes(id).to_vec())
        .map(|hole| {
            let of = boat.book.fastening(hole.fastening);
            match hole.has_metal() {
                true => format!(
                    "{:?} {} {:?} {:?} {:?} {:?}",
                    hole.state(),
                    of.kind,
                    of.metal.map(|metal| metal.name),
                    of.size,
                    of.plug,
                    hole.content.frame_side(),
                ),
                false => format!("{}", hole.content.plank_side()),
            }
        })
        .collect()
}

proptest! {
    #![proptest_config(make::cases(32))]

    #[test]
    fn carried_out_step_by_step_it_is_what_was_planned(
        entries in story(),
        at in 0..CROSSINGS.len(),
        wanted in 1..=4usize,
    ) {
        let place = CROSSINGS[at];
        let later = format!("- {{plan: later, date: 2026-11-01, place: {place}, per crossing: {wanted}, {SCREWS}}}\n");
        let boat = of_story(&entries, "", &later).expect("it can be planned");
        let mut will = boat.book.state(&boat.hull, None).into_owned();
        let done = boat.book.carry_out_plans(&mut will, None);
        let id = spots(&boat, place)[0];
        prop_assert_eq!(&done.at, &vec![id; usize::from(!will.is_off(id))]);
        prop_assert_eq!(&done.not_at, &vec![id; usize::from(will.is_off(id))]);
        if will.is_off(id) {
            return Ok(());
        }
        let number = entries.last().map_or(1, |entry| entry.number + 1);
        let steps = steps(&boat, place, wanted, number).expect("the crossing is there");
        let worked = of_story(&entries, &steps, &later);
        let worked = worked.unwrap_or_else(|| panic!("{steps}"));
        let is = worked.book.state(&worked.hull, None);
        prop_assert_eq!(
            fastenings(&boat, &will, place),
            fastenings(&worked, &is, place),
            "{}", steps
        );
        prop_assert!(worked.book.plan_progress(None).iter().all(|stage| stage.left() == 0));
    }

    #[test]
    fn no_hole_is_lost_and_every_piece_of_metal_is_accounted_for(
        entries in story(),
        wanted in 1..=4u32,
        new in any::<bool>(),
    ) {
        let hole = if new { "new" } else { "same" };
        let line = |place: &str| format!("- {{plan: later, date: 2026-11-01, place: {place}, per crossing: {wanted}, hole: {hole}, {SCREWS}}}\n");
        let plan: String = CROSSINGS.map(line).concat();
        let boat = of_story(&entries, "", &plan).expect("it can be planned");
        let before = boat.book.state(&boat.hull, None);
        let after = carried_out(&boat);
        for id in boat.hull.crossing_ids() {
            let change = boat.book.change_at(&before, &after, id);
            let metal = |state: &State| state.tally([id]).fastenings();
            let drawn: u32 = change.drawn.values().sum();
            let driven = change.in_old_holes + change.in_new_holes;
            prop_assert_eq!(metal(&before) + driven, metal(&after) + drawn);
            prop_assert_eq!(
                before.holes(id).len() + change.in_new_holes as usize,
                after.holes(id).len()
            );
            let planned = CROSSINGS.iter().any(|place| spots(&boat, place).contains(&id));
            let is_done = planned && !before.is_off(id);
            prop_assert_eq!(driven, if is_done { wanted } else { 0 });
            if is_done {
                prop_assert_eq!(after.tally([id]).open, 0);
            } else {
                prop_assert_eq!(before.holes(id), after.holes(id));
            }
        }
        let tally = after.tally(boat.hull.crossing_ids());
        prop_assert_eq!(tally.holes, tally.fastenings() + tally.open + tally.plugged);
    }
}
