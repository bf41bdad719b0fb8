//! Pilot holes by rule against two published charts.

use refasten::tables::{Drill, GaugeSystem, LeadHole, Screw, Series};

use super::cells::{near, rows};

fn root(gauge: f64) -> f64 {
    let screw = Screw::by_gauge(GaugeSystem::American, gauge as u8);
    screw.unwrap().root.inches()
}

/// Plate 6B (glenlarchive.com) against 90 and 70 % of the root list (l-36.com). Stated scatter:
/// soft pilots agree within 7 %; hard ones within 10 % to No. 10 and run up to 23 % larger above.
/// From the building standard's root the pilots come out 17 % large, which would not.
#[test]
fn shares_of_the_root_agree_with_plate_6b_within_its_scatter() {
    let rule = LeadHole::default();
    assert_eq!((rule.hard_percent, rule.soft_percent), (90, 70));
    let mut seen = 0;
    for row in rows("lead-holes-plate", &["gauge", "hard", "soft"]) {
        let [Some(gauge), Some(hard), Some(soft)] = row[..] else {
            panic!("{row:?}")
        };
        // No. 11 is in no standard; 7 and 9 are not in the root list.
        if [7.0, 9.0, 11.0].contains(&gauge) {
            continue;
        }
        let share = |percent: u8| f64::from(percent) / 100.0 * root(gauge);
        near(
            &format!("soft No. {gauge}"),
            soft / share(rule.soft_percent),
            1.0,
            0.07,
        );
        let hard = hard / share(rule.hard_percent);
        let most = if gauge <= 10.0 { 1.10 } else { 1.23 };
        assert!((1.0..=most).contains(&hard), "hard No. {gauge}: {hard}");
        seen += 1;
    }
    assert_eq!(seen, 7);
    // Back-figured for No. 10: .117 and .091 by rule, .120 and .089 on the plate.
    near("hard No. 10", 0.9 * root(10.0), 0.117, 0.0005);
    near("soft No. 10", 0.7 * root(10.0), 0.091, 0.0005);
}

/// The pilot table (l-36.com) prints what it takes for the standard's 70 and 90 % to the nearest
/// fraction: each within 1/64 in of the rule on its own root.
#[test]
fn shares_of_the_root_agree_with_the_pilot_table_to_a_64th() {
    let mut seen = 0;
    for row in rows(
        "lead-holes-pilot",
        &["gauge", "root", "standard soft", "standard hard"],
    ) {
        let [Some(gauge), Some(listed), Some(soft), Some(hard)] = row[..] else {
            continue;
        };
        near("root", listed, root(gauge), 1e-9);
        near(&format!("soft No. {gauge}"), soft, 0.7 * listed, 1.0 / 64.0);
        near(&format!("hard No. {gauge}"), hard, 0.9 * listed, 1.0 / 64.0);
        seen += 1;
    }
    assert_eq!(seen, 6);
}

/// Plate 6B names drills; their sizes are the drill list's. Its shank holes clear the shank by
/// .0035 to .008 in, as its clearance holes are said to.
#[test]
fn plate_6b_names_drills_of_these_sizes() {
    let table = refasten::tables::Table::find("lead-holes-plate").unwrap();
    for row in table.rows {
        for (name, size) in [(1, 2), (4, 5), (7, 8)] {
            let series = [Series::Number, Series::Letter].into_iter();
            let mut drills = series.flat_map(|series| Drill::all(series).iter());
            let drill = drills.find(|drill| drill.name == row[name].text).unwrap();
            let printed = format!("{}in", row[size].text).parse().unwrap();
            assert_eq!(drill.diameter, printed, "{}", drill.name);
        }
    }
    for row in rows("lead-holes-plate", &["gauge", "shank"]) {
        let [Some(gauge), Some(shank)] = row[..] else {
            panic!("{row:?}")
        };
        let over = shank - (0.060 + 0.013 * gauge);
        assert!((0.0034..=0.0081).contains(&over), "No. {gauge}: {over}");
    }
}

/// Misprints: Plate 6B's hard fraction 3/32 for No. 14 beside its own drill No. 14 (.182), and the
/// pilot table's No. 20 (9/32 soft; 15/64 or 19/64 hard). Left out, not shown.
#[test]
fn misprinted_pilots_stay_out() {
    for row in rows("lead-holes-plate", &["gauge", "hard", "hard fraction"]) {
        if row[0] == Some(14.0) {
            assert_eq!(row[1..], [Some(0.182), None]);
        }
    }
    for row in rows("lead-holes-pilot", &["gauge", "own soft", "own hard"]) {
        if row[0] == Some(20.0) {
            assert_eq!(row[1..], [None, None]);
        }
    }
}

/// Building-design handbook: dense from 0.6, "0.6 or more".
#[test]
fn a_wood_of_exactly_0_60_is_dense() {
    let rule = LeadHole::default();
    assert_eq!(rule.percent(0.60), 90);
    assert_eq!(rule.percent(0.599), 70);
}
