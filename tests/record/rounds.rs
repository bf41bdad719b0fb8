//! Laws of the order of work: what may stand open at the same time.

use std::collections::BTreeSet;
use std::fs;

use proptest::prelude::*;
use refasten::audit::Survey;
use refasten::files::{Boat, Folder};
use refasten::hull::{CrossingId, Member};
use refasten::refit::{Order, Turn, Work};
use refasten::units::Day;

fn day() -> Day {
    "2026-11-01".parse().unwrap()
}

/// A hull of steel nails, all of it planned to be drawn and driven again, with butts in a shift.
fn hull(strakes: u16, frames: u16, butts: bool, limit: u16) -> Boat {
    let folder = tempfile::tempdir().unwrap();
    let joints: String = (1..=strakes)
        .filter(|_| butts && frames > 2)
        .map(|n| {
            format!(
                "  - {{at: P{n} J{}, kind: butt, per end: 3}}\n",
                1 + n * 3 % (frames - 1)
            )
        })
        .collect();
    let joints = if joints.is_empty() {
        joints
    } else {
        format!("joints:\n{joints}")
    };
    let hull = format!(
        "refasten: 1\nboat: Test\nframes:\n  - {{number: 1-{frames}, siding: 2in, moulding: 2in, wood: white oak}}\n\
         ends:\n  - {{member: stem, landing depth: 2in}}\n  - {{member: transom, landing depth: 2in}}\n\
         strakes:\n  - {{planks: PS1-{strakes}, across: stem F1-{frames} transom, thickness: 1in, wood: white oak}}\n{joints}\
         sets:\n  - {{set: built, place: PS1-{strakes} all, per crossing: 2, kind: boat nail, metal: galvanised steel, size: 1/4in x 3in}}\n\
         limits:\n  - {{limit: open frames at once, is: {limit}}}\n"
    );
    fs::write(folder.path().join("hull.yaml"), hull).unwrap();
    let plan = format!(
        "- {{plan: \"all\", date: 2026-10-01, place: PS1-{strakes} all, per crossing: 2, kind: wood screw, \
         metal: silicon bronze, size: 14 x 2in, bung: 1/2in x 1/4in, hole: same}}\n"
    );
    fs::write(folder.path().join("plan.yaml"), plan).unwrap();
    Folder::open(folder.path()).unwrap().boat(day()).unwrap()
}

fn survey(boat: &Boat) -> Survey<'_> {
    let units = boat.hull.units;
    Survey::new(
        &boat.hull,
        &boat.book,
        &boat.limits,
        &boat.accepted,
        day(),
        units,
    )
}

/// A member with both halves of a butt block taken as one.
fn site(boat: &Boat, id: CrossingId) -> String {
    match boat.hull.crossing(id).member {
        Member::Butt(number, _) => format!("J{number}"),
        member => member.to_string(),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]
    #[test]
    fn no_round_opens_what_may_not_stand_open_together(
        strakes in 1_u16..7, frames in 1_u16..14, butts: bool, limit in 1_u16..6,
    ) {
        let boat = hull(strakes, frames, butts, limit);
        let now = survey(&boat);
        let order = Order::of(&now, &survey(&boat).as_planned());
        let mut done: BTreeSet<CrossingId> = BTreeSet::new();
        let mut last = Turn::Open;
        for round in &order.rounds {
            let here: BTreeSet<CrossingId> = round.crossings.iter().copied().collect();
            prop_assert!(!here.is_empty() && done.is_disjoint(&here));
            done.extend(&here);
            prop_assert!(round.turn >= last);
            last = round.turn;
            let sites: BTreeSet<String> = here.iter().map(|id| site(&boat, *id)).collect();
            prop_assert!(sites.len() <= usize::from(limit), "{:?}", sites);
            let numbers: BTreeSet<(u16, String)> = here
                .iter()
                .filter_map(|id| Some((boat.hull.crossing(*id).member.number()?.value(), site(&boat, *id))))
                .collect();
            for ((a, _), (b, _)) in numbers.iter().zip(numbers.iter().skip(1)) {
                prop_assert!(b - a >= 3, "{:?}", numbers);
            }
            for id in &here {
                let member = boat.hull.crossing(*id).member;
                if member.is_hood_end() || matches!(member, Member::Butt(..)) {
                    prop_assert!(boat.hull.neighbours_across(*id).all(|beside| !here.contains(&beside)));
                }
            }
            for strake in boat.hull.strakes() {
                for plank in now.planks(strake) {
                    let ends = [plank.crossings.first(), plank.crossings.last()];
                    let open = ends.iter().flatten().filter(|id| here.contains(**id)).count();
                    prop_assert!(open < 2 || plank.crossings.len() == 1);
                }
            }
        }
        let all: BTreeSet<CrossingId> = now.crossings().map(|at| at.crossing.id).collect();
        let held = |id: &CrossingId| !now.at(*id).holes.is_empty();
        let all: BTreeSet<CrossingId> = all.into_iter().filter(held).collect();
        prop_assert_eq!(&done, &all);
        prop_assert_eq!(order.to_draw(), now.state.tally(all.iter().copied()).fastenings());
        let glued = order.rounds.iter().all(|round| {
            let day = |is: fn(&Work) -> bool| round.steps.iter().filter(|s| is(&s.work)).map(|s| s.day).max();
            let dowel = day(|work| matches!(work, Work::Dowel));
            let drive = day(|work| matches!(work, Work::Drive { .. }));
            let trim = day(|work| matches!(work, Work::Trim));
            dowel < drive && drive < trim
        });
        prop_assert!(glued);
    }
}
