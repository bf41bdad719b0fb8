//! Wire gauges, wire nails and bolts.

use refasten::tables::{Table, WireSystem, penny, wire_diameter};

use super::cells::{near, number, rows};

/// Penny rule (woodtools.nov.ru): length = d/4 + 1/2 up to 10d; NDS Table L4 lengths from 6d.
#[test]
fn penny_lengths_follow_their_rule_to_10d() {
    let table = Table::find("nails").unwrap();
    let mut seen = 0;
    for row in table.rows {
        let penny: f64 = row[0].text.trim_end_matches('d').parse().unwrap();
        if penny <= 10.0 {
            let length = number(row[1].text).unwrap();
            near(row[0].text, length, penny / 4.0 + 0.5, 1e-9);
            seen += 1;
        }
    }
    assert_eq!(seen, 8);
}

/// NDS Table L4 (public transcription): 8d common .131 by 2-1/2, head .281. Box and sinker nails
/// of one penny are never thicker than the common nail.
#[test]
fn wire_nails_are_the_published_ones() {
    let table = Table::find("nails").unwrap();
    let eight = table.rows.iter().find(|row| row[0].text == "8d").unwrap();
    let figures = [1, 2, 3].map(|at| number(eight[at].text));
    assert_eq!(figures, [Some(2.5), Some(0.131), Some(0.281)]);
    for row in rows("nails", &["common", "box", "sinker"]) {
        for thinner in &row[1..] {
            assert!(thinner.is_none() || thinner < &row[0], "{row:?}");
        }
    }
}

/// SWG and BWG (from memory) differ at the same number, 10 being .128 and .134; a higher number
/// is thinner in both.
#[test]
fn wire_gauges_differ_and_fall() {
    let inches = |system, number| wire_diameter(system, number).map(|(d, _)| d.inches());
    near("SWG 10", inches(WireSystem::Swg, 10).unwrap(), 0.128, 1e-9);
    near("BWG 10", inches(WireSystem::Bwg, 10).unwrap(), 0.134, 1e-9);
    near("SWG 8", inches(WireSystem::Swg, 8).unwrap(), 0.160, 1e-9);
    for system in [WireSystem::Swg, WireSystem::Bwg] {
        let all: Vec<f64> = (1..=20).filter_map(|n| inches(system, n)).collect();
        assert!(all.len() >= 4 && all.is_sorted_by(|a, b| a > b));
    }
    assert_eq!(inches(WireSystem::Bwg, 6), None);
}

/// NDS Tables L1 and L2: a lag screw's root is smaller than a bolt's of the same nominal size.
#[test]
fn lag_roots_are_under_bolt_roots() {
    let all = rows("bolts", &["nominal", "bolt root", "lag root"]);
    assert_eq!(all.len(), 6);
    assert!(all.iter().all(|row| row[2] < row[1] && row[1] < row[0]));
}

/// NDS Table L4 (public transcription): an 8d common nail is .131 by 2-1/2, a box nail .113.
#[test]
fn a_wire_nail_is_known_by_its_diameter_and_length() {
    let length = |text: &str| text.parse::<refasten::units::Length>().unwrap();
    for diameter in ["0.131in", "0.113in"] {
        assert_eq!(penny(length(diameter), length("2-1/2in")), Some("8d"));
    }
    assert_eq!(penny(length("0.131in"), length("2in")), None);
}
