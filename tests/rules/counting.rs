//! Every hole is counted once, however it is counted.

use std::collections::BTreeMap;

use refasten::audit::{Outcome, Rule, Survey, audit};
use refasten::record::{HoleState, Mouth, PlankSide, Tally};
use refasten::show::audit::{Audit, json};
use serde_json::Value;

use crate::{boat, today};

/// Three generations: the first partly replaced by fewer, partly left in, partly added to.
const HULL: &str = "\
refasten: 1
boat: Test
frames:
  - {number: 1-9, siding: 1-3/8in, moulding: 1-3/4in, wood: white oak}
beams:
  - {number: 1-3, siding: 1-3/4in, moulding: 2-1/2in, wood: white oak}
strakes:
  - {planks: PS1-2, across: F1-9, thickness: 7/8in, wood: Douglas-fir}
  - {planks: D1, across: B1-3, thickness: 7/8in, wood: Douglas-fir}
sets:
  - {set: built, place: PS1-2 F1-8, per crossing: 3, kind: clenched nail, metal: galvanised steel, size: 1/4in x 2-1/2in, driven: 1958}
  - {set: deck, place: D1 all, per crossing: 2, kind: wood screw, metal: silicon bronze, size: 14 x 1-3/4in, bung: 1/2in x 1/4in, driven: unknown}
  - {set: fewer, place: P1 F1-4, per crossing: 2, kind: wood screw, metal: silicon bronze, size: 14 x 1-3/4in, bung: 1/2in x 1/4in, driven: 1990, replaces: built}
  - {set: beside, place: S1 F1-4, per crossing: 2, kind: wood screw, metal: silicon bronze, size: 14 x 1-3/4in, bung: 1/2in x 1/4in, driven: 1990, leaves in: built}
  - {set: more, place: P2 F1-4, per crossing: 1, kind: wood screw, metal: silicon bronze, size: 14 x 1-3/4in, bung: 1/2in x 1/4in, driven: 1990, adds to: built}
";

/// Every state that a hole can come to.
const LOG: &str = "\
- {entry: 1, date: 2026-10-01, did: pulled, place: P1-2 F7, found: wasted}
- {entry: 2, date: 2026-10-01, did: broken, place: S2 F1.1, stub: frame}
- {entry: 3, date: 2026-10-01, did: broken, place: S2 F2.1, stub: plank}
- {entry: 4, date: 2026-10-01, did: broken, place: S2 F3.1, stub: both}
- {entry: 5, date: 2026-10-01, did: broken, place: S2 F4.1, stub: frame}
- {entry: 6, date: 2026-10-02, did: plugged, place: S2 F4.1}
- {entry: 7, date: 2026-10-02, did: doweled, place: S2 F2.1}
- {entry: 8, date: 2026-10-02, did: checked, place: S2 F5.1, found: spun}
- {entry: 9, date: 2026-10-02, did: bared, place: D1 B1-2}
- {entry: 10, date: 2026-10-02, did: left, place: D1 B2.1}
- {entry: 11, date: 2026-10-03, did: pulled, place: S2 F6, found: spun}
- {entry: 12, date: 2026-10-03, did: doweled, place: S2 F6.1}
- {entry: 13, date: 2026-10-03, did: plugged, place: S2 F6.2}
- {entry: 14, date: 2026-10-04, did: driven, place: P1 F7, per crossing: 2, kind: wood screw, metal: silicon bronze, size: 14 x 1-3/4in, bung: 1/2in x 1/4in}
- {entry: 15, date: 2026-10-04, did: driven, place: P1 F9, hole: new, per crossing: 2, kind: wood screw, metal: silicon bronze, size: 14 x 1-3/4in, bung: 1/2in x 1/4in}
- {entry: 16, date: 2026-10-05, did: bunged, place: P1 F9.1}
";

fn with_outcome(check: impl FnOnce(&Survey<'_>, &Outcome)) {
    let boat = boat(HULL, LOG);
    let (limits, accepted) = (&boat.limits, &boat.accepted);
    let units = boat.hull.units;
    let survey = Survey::new(&boat.hull, &boat.book, limits, accepted, today(), units);
    let outcome = audit(&survey, Rule::all());
    check(&survey, &outcome);
}

#[test]
fn totals_are_the_sums_of_their_parts() {
    with_outcome(|survey, outcome| {
        let mut by_state: BTreeMap<&str, u32> = BTreeMap::new();
        let mut bare = 0;
        for at in survey.crossings() {
            for hole in at.holes {
                *by_state.entry(hole.state().word()).or_default() += 1;
                bare += u32::from(hole.content.mouth() == Some(Mouth::Open));
            }
        }
        let total = outcome.standing;
        for (state, counted) in [
            (HoleState::ReliedOn, total.relied_on),
            (HoleState::Unsound, total.unsound),
            (HoleState::LeftIn, total.left_in),
            (HoleState::Broken, total.broken),
            (HoleState::Open, total.open),
            (HoleState::Plugged, total.plugged),
        ] {
            let alone = by_state.get(state.word()).copied().unwrap_or_default();
            assert_eq!(alone, counted, "{state}");
            assert!(counted > 0, "the boat has none that are {state}");
        }
        assert_eq!(total.holes, by_state.values().sum::<u32>());
        assert_eq!(total.holes, total.fastenings() + total.open + total.plugged);
        assert_eq!((total.bungs_missing, bare > 0), (bare, true));
        assert_eq!(total.fastenings(), outcome.coverage.fastenings);

        let mut of_strakes = Tally::default();
        for strake in survey.hull.strakes() {
            let part = survey.state.tally(strake.crossings().map(|(id, _)| id));
            of_strakes.holes += part.holes;
            of_strakes.relied_on += part.relied_on;
            of_strakes.unsound += part.unsound;
            of_strakes.left_in += part.left_in;
            of_strakes.broken += part.broken;
            of_strakes.open += part.open;
            of_strakes.plugged += part.plugged;
            of_strakes.bungs_missing += part.bungs_missing;
        }
        assert_eq!(of_strakes, total);
    });
}

/// What the rules say adds up to what stands there.
#[test]
fn findings_agree_with_the_totals() {
    with_outcome(|survey, outcome| {
        let said = |rule: &str| -> u32 {
            let of_it = outcome.findings.iter().filter(|f| f.rule.name == rule);
            of_it.map(|finding| finding.fastenings).sum()
        };
        let holes = |is: &dyn Fn(PlankSide) -> bool| -> u32 {
            let all = survey.crossings().flat_map(|at| at.holes);
            all.filter(|hole| is(hole.content.plank_side())).count() as u32
        };
        let standing = outcome.standing;
        assert_eq!(said("bung-missing"), standing.bungs_missing);
        assert_eq!(said("stub-left"), standing.broken);
        assert_eq!(said("open-hole"), holes(&|side| side == PlankSide::Open));
        assert_eq!(said("driven-in-bad-hole"), 2);
        // P2, S1 and S2 are not covered at F9.
        let bare = outcome
            .findings
            .iter()
            .filter(|f| f.rule.name == "not-recorded");
        assert_eq!(bare.map(|finding| finding.crossings).sum::<u32>(), 3);
    });
}

#[test]
fn the_law_of_the_json_holds() {
    with_outcome(|survey, outcome| {
        let mut out = Vec::new();
        let only: &[&'static Rule] = &[];
        json(
            &mut out,
            &Audit {
                survey,
                outcome,
                place: None,
                only,
            },
        )
        .unwrap();
        let report: Value = serde_json::from_slice(&out).unwrap();
        let of = |key: &str| report["standing"][key].as_u64().unwrap();
        assert_eq!(
            of("fastenings"),
            of("relied_on") + of("left_in") + of("broken") + of("unsound")
        );
        assert_eq!(of("holes"), of("fastenings") + of("open") + of("plugged"));
        assert_eq!(
            report["coverage"]["fastenings"],
            report["standing"]["fastenings"]
        );
    });
}
