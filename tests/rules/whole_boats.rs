//! Boats that every rule is let look at: one fastened by the book, and one without a screw in her.

use refasten::audit::{Finding, Severity, Verdict};
use refasten::joint::{Limits, bung};
use refasten::tables::{PlankRow, PlankRule};
use refasten::units::{Length, Units};

use super::{line, look_over};

/// What closes the hole over a screw of the book.
fn plug(row: &PlankRow, always_bunged: bool) -> String {
    let limits = Limits::default();
    if !always_bunged && !bung::is_bunged(row.plank, &limits) {
        return "stopping".to_owned();
    }
    format!("{} x {}", row.bung, bung::usual_depth(row.plank, &limits))
}

/// A boat with one strake for each row of the Herreshoff table, each with the row's screws; on the
/// strake of this number the screws at frame 3 are half an inch shorter.
fn by_the_book(always_bunged: bool, short: Option<usize>) -> String {
    let (mut strakes, mut sets) = (String::new(), String::new());
    for (number, row) in (1..).zip(PlankRule::default().rows) {
        let mut set = |name: &str, frames: &str, length: Length| {
            sets += &format!(
                "  - {{set: {name} {number}, place: P{number} {frames}, per crossing: 2, \
                 kind: wood screw, metal: silicon bronze, size: {} x {length}, bung: {}, \
                 driven: 1990-05-01, how: papers}}\n",
                row.gauge,
                plug(row, always_bunged),
            );
        };
        if short == Some(number) {
            set("built", "F1-2+4-5", row.length);
            set(
                "short",
                "F3",
                row.length - "1/2in".parse::<Length>().unwrap(),
            );
        } else {
            set("built", "F1-5", row.length);
        }
        strakes += &format!(
            "  - {{planks: P{number}, across: F1-5, thickness: {}, width: 5in, \
             wood: Douglas-fir}}\n",
            row.plank.written(Units::Inch),
        );
    }
    format!(
        "refasten: 1\nboat: Test\nwater: salt\nframes:\n  - {{number: 1-5, spacing: 9in, \
         siding: 2in, moulding: 4in, wood: white oak}}\nstrakes:\n{strakes}sets:\n{sets}"
    )
}

fn graver_than_watch(findings: &[Finding]) -> Vec<String> {
    let grave = findings
        .iter()
        .filter(|finding| finding.saying.severity != Severity::Watch);
    grave.map(line).collect()
}

/// Every row of the table (public transcription of a supplier's reprint), deep frames, under
/// salt water; planking under 5/8 in stopped, and bunged.
#[test]
fn a_boat_fastened_by_the_book_is_quiet() {
    for always_bunged in [false, true] {
        let outcome = look_over(&by_the_book(always_bunged, None), "");
        assert_eq!(graver_than_watch(&outcome.findings), [""; 0]);
        assert_eq!(outcome.verdict, Verdict::NoStops);
    }
}

/// The screw for the thinnest planking has thread on four shanks of it, the most of two thirds.
#[test]
fn the_thinnest_planking_shows_a_thread_in_the_plank() {
    let watches = |always_bunged| -> Vec<_> {
        let findings = look_over(&by_the_book(always_bunged, None), "").findings;
        let threads = findings
            .iter()
            .filter(|finding| finding.rule.name == "thread-in-plank");
        threads.map(line).collect()
    };
    let stopped = "watch P1 F1-5: 0.115 in of thread in the 5/16 in of plank under the head\n";
    assert_eq!(watches(false), [stopped]);
    assert_eq!(watches(true), [""; 0]);
}

#[test]
fn one_crossing_of_short_screws_is_one_finding() {
    for number in 1..=PlankRule::default().rows.len() {
        for always_bunged in [false, true] {
            let outcome = look_over(&by_the_book(always_bunged, Some(number)), "");
            let grave = graver_than_watch(&outcome.findings);
            assert_eq!(grave.len(), 1, "{grave:?}");
            let place = format!(" P{number} F3: ");
            assert!(
                grave.iter().all(|finding| finding.contains(&place)),
                "{grave:?}"
            );
        }
    }
}

/// Rivets, clenched nails of which no bung is known, a bolt and trunnels, each where it is usual.
const NO_SCREWS: &str = "\
refasten: 1
boat: Test
frames:
  - {number: 1-5, siding: 2in, moulding: 1-3/4in, wood: white oak}
strakes:
  - {planks: P1-6, across: F1-5, thickness: 7/8in, wood: Douglas-fir}
zones:
  - {zone: topsides, place: P4-6 all}
sets:
  - {set: rivets, place: P1-2 all, per crossing: 2, kind: rivet, metal: copper, size: 8 SWG x 3-1/2in, driven: 1958-05-01, how: papers}
  - {set: trunnels, place: P3 F2-5, per crossing: 2, kind: trunnel, metal: unknown, size: 1in x 4in, driven: 1958-05-01, how: papers}
  - {set: bolt, place: P3 F1, per crossing: 1, kind: bolt, metal: gunmetal, size: 3/8in x 4in, driven: 1958-05-01, how: papers}
  - {set: nails, place: P4-6 all, per crossing: 2, kind: clenched nail, metal: galvanised steel, size: 1/4in x 3-1/2in, driven: 1958-05-01, how: papers}
";

#[test]
fn a_boat_without_a_screw_is_quiet() {
    let outcome = look_over(NO_SCREWS, "");
    assert_eq!(graver_than_watch(&outcome.findings), [""; 0]);
    assert_eq!(outcome.verdict, Verdict::NoStops);
    // What nobody knows of a bung is told once a set.
    let unknown = outcome.findings.iter();
    let unknown = unknown.filter(|finding| finding.rule.name == "size-unknown");
    let said: Vec<String> = unknown.map(line).collect();
    assert_eq!(
        said,
        [
            "watch P1-2 F1-5: `rivets`: bung not known\n",
            "watch P3 F1: `bolt`: bung not known\n",
            "watch P4-6 F1-5: `nails`: bung not known\n",
        ]
    );
}

/// Galvanised nails of thirty years, under water and about the waterline, eight planks of them.
const OLD_STEEL: &str = "\
refasten: 1
boat: Test
water: salt
frames:
  - {number: 1-30, siding: 2in, moulding: 2in, wood: white oak}
strakes:
  - {planks: PS1-4, across: F1-30, thickness: 1in, width: 5in, wood: Douglas-fir}
zones:
  - {zone: wind and water, place: PS4 all}
sets:
  - {set: built, place: PS1-4 all, per crossing: 2, kind: boat nail, metal: galvanised steel, size: 1/4in x 2-1/4in, bung: none, driven: 1996, how: papers}
";

#[test]
fn an_old_galvanised_hull_is_told_what_to_draw() {
    let said = |log: &str| -> Vec<String> {
        let outcome = look_over(OLD_STEEL, log);
        assert_eq!(outcome.verdict, Verdict::NoStops);
        outcome.findings.iter().map(line).collect()
    };
    assert_eq!(
        said(""),
        [
            "watch PS1-3 F1-30: `built`, underwater, 29 to 30 years old: never looked at\n",
            "watch PS4 F1-30: `built`, wind and water, 29 to 30 years old: never looked at\n",
        ]
    );
    // Wasted ones that were drawn and renewed speak for where they stood, and for no more.
    let log = "\
- {entry: 1, date: 2026-10-01, did: pulled, place: P1 F3-8, found: wasted}
- {entry: 2, date: 2026-10-01, did: measured, place: P1 F5, diameter: 0.15in}
- {entry: 3, date: 2026-10-02, did: doweled, place: P1 F3-8}
- {entry: 4, date: 2026-10-03, did: driven, place: P1 F3-8, set: new, per crossing: 2, kind: boat nail, metal: galvanised steel, size: 1/4in x 2-1/4in, bung: none, hole: same}
";
    assert_eq!(
        said(log),
        [
            "watch P1 F1-2+9-30 and P2-3 F1-30 and S1-3 F1-30: `built`, underwater: 12 drawn, 12 found wasted or necked, the thinnest measured 0.15 in of 1/4 in\n",
            "watch PS4 F1-30: `built`, wind and water, 29 to 30 years old: never looked at\n",
        ]
    );
}
