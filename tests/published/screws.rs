//! Wood screws against the rules they were made by, and against each other.

use refasten::tables::{GaugeSystem, Screw, Status};
use refasten::units::Length;

use super::cells::near;

fn inch(text: &str) -> Length {
    format!("{text}in").parse().unwrap()
}

fn american(gauge: u8) -> &'static Screw {
    Screw::by_gauge(GaugeSystem::American, gauge).unwrap()
}

/// Gauge rule D = 0.060 + 0.013 N, printed for 6, 8 and 10 (hintsandthings.co.uk), against every
/// shank of ASME B18.6.1 (public transcription): no exception to the thousandth.
#[test]
fn every_american_shank_follows_the_gauge_rule() {
    let all = Screw::all(GaugeSystem::American);
    assert_eq!(all.len(), 19);
    for screw in all {
        let rule = 0.060 + 0.013 * f64::from(screw.gauge.unwrap());
        near(&screw.name(), screw.shank.inches(), rule, 1e-9);
    }
    for (gauge, shank) in [(6, ".138"), (8, ".164"), (10, ".190")] {
        assert_eq!(american(gauge).shank, inch(shank));
    }
}

/// A head of 82 degrees: half of what it stands over the shank, over tan 41, is its height. ASME
/// B18.6.1 prints the height as a reference; it agrees within .006 in to the last digit (.0062 at No. 20).
#[test]
fn every_american_head_is_a_cone_of_82_degrees() {
    for screw in Screw::all(GaugeSystem::American) {
        let Some(head) = &screw.head else { continue };
        let cone = (head.largest - screw.shank).inches() / 2.0 / 41_f64.to_radians().tan();
        near(&screw.name(), head.height.unwrap().inches(), cone, 0.0065);
    }
}

/// NDS Table L3 column DH against ASME B18.6.1: the mean of largest and smallest head, rounded up
/// at the half. The standard lists No. 6 to 24 only.
#[test]
fn the_standard_head_is_the_mean_of_the_largest_and_smallest() {
    let mut seen = Vec::new();
    for screw in Screw::all(GaugeSystem::American) {
        let Some(standard) = screw.standard_head else {
            continue;
        };
        let head = screw.head.as_ref().unwrap();
        let sum = (head.largest + head.smallest.unwrap()).nm();
        let thousandth = inch(".001").nm();
        let mean = (sum + thousandth) / (2 * thousandth) * thousandth;
        assert_eq!(standard.nm(), mean, "{}", screw.name());
        seen.push(screw.gauge.unwrap());
    }
    assert_eq!(seen, [6, 7, 8, 9, 10, 12, 14, 16, 18, 20, 24]);
}

/// Root list (l-36.com): 0.63 to 0.70 of the shank, a thread root; elsewhere two thirds of the
/// shank (Wood Handbook p. 8-10) and marked as derived. NDS Dr is wider: no thread root.
#[test]
fn the_pilot_root_is_a_thread_root_and_not_the_standards() {
    let listed = [2, 4, 6, 8, 10, 12, 14, 16, 18, 20];
    for screw in Screw::all(GaugeSystem::American) {
        let share = screw.root.over(screw.shank);
        if listed.contains(&screw.gauge.unwrap()) {
            assert!((0.625..=0.70).contains(&share), "{}: {share}", screw.name());
            assert_eq!(screw.root_basis.status, Status::Read);
        } else {
            near(&screw.name(), share, 2.0 / 3.0, 0.001);
            assert_eq!(screw.root_basis.status, Status::Derived);
        }
        if let Some(standard) = screw.standard_root {
            assert!(standard.over(screw.root) > 1.12, "{}", screw.name());
        }
    }
    assert_eq!(american(10).root, inch(".130"));
    assert_eq!(american(10).standard_root, Some(inch(".152")));
}

/// NDS Table L3 footnotes 2 and 3: a No. 10 of 2.4 in has 1.6 in of thread; ASME B18.6.1 para.
/// 2.4.1, two thirds of the length. Four shanks where that is more, never over the length.
#[test]
fn threads_are_as_long_as_the_standard_says() {
    assert_eq!(american(10).thread_length(inch("2.4")), inch("1.6"));
    assert_eq!(american(10).thread_length(inch("1")), inch(".76"));
    assert_eq!(american(10).thread_length(inch("1/2")), inch("1/2"));
    let british = Screw::by_gauge(GaugeSystem::British, 10).unwrap();
    assert_eq!(british.thread_length(inch("2-1/2")), inch("1-1/2"));
}

/// British rule D = 0.052 + 0.014 N and American rule side by side (furnituremaking.us;
/// hintsandthings.co.uk): equal only at No. 8. Head in 32nds is the gauge and three.
#[test]
fn british_and_american_gauges_agree_only_at_8() {
    let published = [
        (4, ".108", ".112"),
        (6, ".136", ".138"),
        (8, ".164", ".164"),
        (10, ".192", ".190"),
        (12, ".220", ".216"),
        (14, ".248", ".242"),
        (16, ".276", ".268"),
        (20, ".332", ".320"),
        (24, ".388", ".372"),
    ];
    for (gauge, british, us) in published {
        let screw = Screw::by_gauge(GaugeSystem::British, gauge).unwrap();
        assert_eq!(screw.shank, inch(british));
        assert_eq!(american(gauge).shank, inch(us));
        let head = screw.head.as_ref().unwrap();
        assert_eq!(head.largest, Length::from_64ths(2 * (i64::from(gauge) + 3)));
        let cone = (head.largest - screw.shank).inches() / 2.0;
        near(&screw.name(), head.height.unwrap().inches(), cone, 0.0001);
    }
    for screw in Screw::all(GaugeSystem::British) {
        let gauge = screw.gauge.unwrap();
        assert_eq!(
            screw.shank == american(gauge).shank,
            gauge == 8,
            "No. {gauge}"
        );
    }
}

/// DIN 96 and 7998 (public transcription): the core is 0.70 of the shank, printed to 0.1 mm, but
/// for 5.5 mm, which is printed as 3.5 mm.
#[test]
fn the_metric_core_is_seven_tenths_but_for_one_size() {
    for screw in Screw::all(GaugeSystem::Metric) {
        let off = screw.root.mm() - 0.70 * screw.shank.mm();
        if screw.name() == "5.5 mm" {
            near("5.5 mm", screw.root.mm(), 3.5, 1e-9);
        } else {
            near(&screw.name(), off, 0.0, 0.05);
        }
    }
}

/// ASME B18.6.1 has no No. 11; 22 and 26 stand only in the planking table, so they have a derived
/// shank and no published head, strength or length.
#[test]
fn gauges_outside_the_standard_are_not_made_up() {
    assert!(Screw::by_gauge(GaugeSystem::American, 11).is_none());
    for (gauge, shank) in [(22, ".346"), (26, ".398")] {
        let screw = american(gauge);
        assert_eq!(screw.shank, inch(shank));
        assert_eq!(screw.shank_basis.status, Status::Derived);
        assert!(screw.head.is_none() && screw.standard_root.is_none());
        assert!(screw.stock_lengths().is_empty());
    }
}

/// Wrong figures in circulation: a retail chart with machine-screw threads (No. 8 at 32, No. 10 at
/// 24 to the inch, root .158), and a head of .491 for No. 14 where ASME B18.6.1 prints .507.
#[test]
fn wrong_published_figures_stay_out() {
    assert_eq!(american(8).threads_per_inch, Some(15));
    assert_eq!(american(10).threads_per_inch, Some(13));
    assert_eq!(american(14).head.as_ref().unwrap().largest, inch(".507"));
    assert!(
        Screw::all(GaugeSystem::American)
            .iter()
            .all(|s| s.root != inch(".158"))
    );
}

/// ASME B18.6.1 length ranges and steps (public transcription): the steps stop at 4 in though
/// No. 16 runs to 5 in and No. 24 to 6 in.
#[test]
fn stock_lengths_run_to_the_end_of_the_range() {
    let stock = |gauge| american(gauge).stock_lengths();
    assert_eq!(stock(14).first(), Some(&inch("3/4")));
    assert_eq!(stock(14).last(), Some(&inch("4")));
    assert!(stock(14).contains(&inch("1-3/4")));
    assert!(!stock(14).contains(&inch("3-1/4")));
    assert_eq!(stock(16).first(), Some(&inch("1-1/2")));
    assert_eq!(stock(16).last(), Some(&inch("5")));
    assert_eq!(stock(24).last(), Some(&inch("6")));
}
