//! Laws of the answer, whatever is asked.

use proptest::prelude::*;

use super::*;
use crate::joint::{Grain, Kind, Limits, Plug, Size, Timber, Verdict, Zone};
use crate::tables::{GaugeSystem, LeadHole, PlankRule, Series};
use crate::units::{Length, Units};

fn ask(plank: i64, member: Option<i64>, gauges: GaugeSystem) -> Ask {
    Ask {
        plank: Length::from_64ths(plank),
        plank_wood: None,
        on: "frame",
        width: None,
        along: None,
        count: None,
        old: Vec::new(),
        kind: Kind::WoodScrew,
        member: member.map(Length::from_64ths),
        member_wood: Some(Timber::Gravity(0.6)),
        grain: Grain::Side,
        metal: None,
        bending_yield: None,
        zone: Zone::Underwater,
        salt: true,
        rule: PlankRule::default(),
        gauges,
        fixed: Fixed::default(),
        drills: vec![Series::Fraction],
        taper: false,
        lead_hole: LeadHole::default(),
        limits: Limits::default(),
        units: Units::Inch,
    }
}

/// A boat fastened by the Herreshoff table in frames deep enough is quiet: nothing to stop or to
/// mend in any row.
#[test]
fn the_book_is_quiet_at_every_thickness() {
    for row in PlankRule::default().rows {
        let ask = ask(
            row.plank.nm() / Length::from_64ths(1).nm(),
            Some(4 * 64),
            GaugeSystem::American,
        );
        let answer = answer(&ask).unwrap();
        let Size::Screw { screw, length } = answer.size else {
            panic!("no screw");
        };
        assert_eq!((screw.gauge, length), (Some(row.gauge), row.length));
        for check in &answer.checks {
            let quiet = check.verdict < Verdict::Mend || check.check == "metal-unknown";
            assert!(quiet, "{} in {}: {check:?}", answer.label, row.plank);
        }
    }
}

#[test]
fn a_bung_is_the_tables_own() {
    for row in PlankRule::default().rows {
        let plank = row.plank.nm() / Length::from_64ths(1).nm();
        let mut ask = ask(plank, None, GaugeSystem::American);
        // Asked for by its depth alone, so that thin planking has one too.
        ask.fixed.bung_depth = Some(Length::from_64ths(8));
        let Plug::Bung(bung) = answer(&ask).unwrap().plug else {
            panic!("no bung at {}", row.plank);
        };
        assert!(row.bungs.contains(&bung.diameter), "{}", row.plank);
    }
}

#[test]
fn a_ratio_rule_takes_the_shortest_that_satisfies_it() {
    let mut ask = ask(56, Some(4 * 64), GaugeSystem::American);
    ask.rule = PlankRule::find("one and a half").unwrap();
    let answer = answer(&ask).unwrap();
    // 1.5 x 7/8 in is 1-5/16 in; No. 14 is made in 1-1/4 and 1-1/2 in.
    assert_eq!(answer.label, "No. 14 x 1-1/2 in");
}

proptest! {
    /// What is offered instead is what is got when it is asked for by itself.
    #[test]
    fn alternatives_asked_for_again_give_the_same(
        plank in 20..140_i64,
        member in prop::option::of(16..300_i64),
        gauges in prop::sample::select(vec![
            GaugeSystem::American,
            GaugeSystem::British,
            GaugeSystem::Metric,
        ]),
    ) {
        let ask = ask(plank, member, gauges);
        let Ok(first) = answer(&ask) else {
            // Only a plank beyond the table has no answer.
            prop_assert!(PlankRule::default().row(ask.plank).is_none());
            return Ok(());
        };
        for other in &first.alternatives {
            let mut again = ask.clone();
            if let Size::Screw { screw, .. } = other.size {
                again.fixed.screw = Some(screw);
            }
            again.fixed.length = Some(other.size.length());
            let Ok(again) = answer(&again) else {
                prop_assert!(other.embedment <= Length::ZERO);
                continue;
            };
            prop_assert_eq!(again.seat.embedment(), other.embedment);
            prop_assert_eq!(again.hold.design, other.design);
            prop_assert_eq!(again.stock, other.stock);
            for failed in &other.fails {
                let same = again.checks.iter().find(|check| check.check == failed.check);
                prop_assert_eq!(same.map(|check| check.verdict), Some(failed.verdict));
            }
        }
        // No two sentences of the answer about the same thing.
        let mut names: Vec<_> = first.checks.iter().map(|check| check.check).collect();
        names.sort_unstable();
        let all = names.len();
        names.dedup();
        prop_assert_eq!(names.len(), all);
    }

    /// Whatever kind and size, in whatever plank and member: an answer, or what is wrong. A length
    /// that was worked out is long enough, and what is told of it agrees with itself.
    #[test]
    fn a_worked_length_is_long_enough(
        kind in prop::sample::select(Kind::ALL.to_vec()),
        plank in 8..200_i64,
        member in prop::option::of(16..400_i64),
        diameter in 4..80_i64,
        length in prop::option::of(1..600_i64),
        metric in any::<bool>(),
    ) {
        let mut ask = ask(plank, member, GaugeSystem::American);
        ask.kind = kind;
        if metric {
            ask.units = Units::Metric;
        }
        if kind != Kind::WoodScrew {
            let diameter = Length::from_64ths(diameter);
            ask.fixed.size = Some(Size::Plain { diameter, length: diameter });
        }
        ask.fixed.length = length.map(Length::from_64ths);
        let Ok(answer) = answer(&ask) else {
            return Ok(());
        };
        prop_assert_eq!(answer.size.length(), answer.seat.length);
        let check = |name| answer.checks.iter().find(|check| check.check == name);
        let reach = check("short-embedment").map(|check| check.verdict);
        if length.is_none() && kind != Kind::WoodScrew {
            prop_assert!(reach < Some(Verdict::Watch) || kind.holds_by_its_ends());
            prop_assert!(reach < Some(Verdict::Stop));
        }
        if kind.holds_by_its_ends() {
            prop_assert!(check("point-through").is_none());
            let out = answer.seat.point_cover().map(|cover| cover < Length::ZERO);
            prop_assert_eq!(reach == Some(Verdict::Stop), out == Some(false));
        }
    }
}
