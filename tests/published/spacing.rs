//! How far apart fastenings stand by the building standard.

use refasten::joint::spacing::ByStandard;
use refasten::tables::SpacingOf::{Bored, LargeInHardwood, LargeInSoftwood, Unbored};
use refasten::tables::{GaugeSystem, Screw};
use refasten::units::Length;

use crate::cells::{near, rows};

/// NDS Commentary Tables C12.1.5.7 and C12.1.6.6 (public transcription), worked for No. 10: bored
/// 1.90 in to the end and in a row, .475 in to the edge; not bored 2.85, 2.85, .475 (derived).
#[test]
fn a_number_ten() {
    let d = Screw::by_gauge(GaugeSystem::American, 10).unwrap().shank;
    for (of, end, in_row) in [(Bored, 1.90, 1.90), (Unbored, 2.85, 2.85)] {
        let is = ByStandard::of(d, of);
        near("end", is.end.inches(), end, 1e-9);
        near("in a row", is.in_row.inches(), in_row, 1e-9);
        near("edge", is.edge.inches(), 0.475, 1e-9);
    }
    assert_eq!(ByStandard::both(d).map(|(of, _)| of), [Bored, Unbored]);
}

/// NDS-2018 Tables 12.5.1A to E (public transcription): from 1/4 in, which No. 14 is still under
/// and No. 16 is over; end 7 diameters in softwood, 5 in hardwood, in a row 4, edge 1.5.
#[test]
fn from_a_quarter_inch() {
    let gauge = |n| Screw::by_gauge(GaugeSystem::American, n).unwrap().shank;
    assert_eq!(
        ByStandard::both(gauge(14)).map(|(of, _)| of),
        [Bored, Unbored]
    );
    let large = [LargeInSoftwood, LargeInHardwood];
    assert_eq!(ByStandard::both(gauge(16)).map(|(of, _)| of), large);
    let half: Length = "1/2in".parse().unwrap();
    let soft = ByStandard::of(half, LargeInSoftwood);
    near("end", soft.end.inches(), 3.5, 1e-9);
    near("in a row", soft.in_row.inches(), 2.0, 1e-9);
    near("edge", soft.edge.inches(), 0.75, 1e-9);
    near(
        "end",
        ByStandard::of(half, LargeInHardwood).end.inches(),
        2.5,
        1e-9,
    );
}

/// Where less than the whole is allowed it is at half the strength: half the distance, except in a
/// row, where three diameters are the least (same tables).
#[test]
fn the_least_is_half_of_the_whole() {
    for row in rows(
        "spacing-large",
        &["softwood", "softwood least", "hardwood", "hardwood least"],
    ) {
        let [Some(soft), soft_least, Some(hard), hard_least] = row[..] else {
            panic!("no figure");
        };
        for (whole, least) in [(soft, soft_least), (hard, hard_least)] {
            let Some(least) = least else { continue };
            assert!(
                least == whole / 2.0 || (whole, least) == (4.0, 3.0),
                "{whole} {least}"
            );
        }
    }
}
