//! Laws of the drawing, whatever was picked.

use proptest::prelude::*;

use super::sheet::Sheet;
use super::svg;
use crate::joint::{Grain, Kind, Limits, Size, Timber, Zone};
use crate::pick::{Ask, Fixed, answer};
use crate::tables::{GaugeSystem, LeadHole, PlankRule, Screw, Series};
use crate::units::{Length, Units};

fn questions() -> impl Strategy<Value = Ask> {
    let wood = (8..380_i64, prop::option::of(4..3000_i64), any::<bool>());
    let fastening = (
        // Screws have the most to say, so they come up most often.
        prop_oneof![
            Just(Kind::WoodScrew),
            prop::sample::select(Kind::ALL.to_vec())
        ],
        prop::sample::select(Screw::all(GaugeSystem::American).iter().collect::<Vec<_>>()),
        2..130_i64,
        prop::option::of(8..3800_i64),
    );
    let choices = (
        any::<bool>(),
        any::<bool>(),
        prop::option::of(0..100_i64),
        prop::option::of(4..150_i64),
        prop::sample::select(vec!["frame", "butt block", "horn timber"]),
    );
    (wood, fastening, choices).prop_map(|(wood, fastening, choices)| {
        let (plank, member, is_endwise) = wood;
        let (kind, screw, diameter, length) = fastening;
        let (is_metric, taper, bung_depth, bung, on) = choices;
        let (is_screw, sixty_fourths) = (kind == Kind::WoodScrew, Length::from_64ths);
        let diameter = sixty_fourths(diameter);
        let length = length.map(sixty_fourths);
        Ask {
            plank: sixty_fourths(plank),
            plank_wood: None,
            on,
            width: None,
            along: None,
            count: None,
            old: Vec::new(),
            member: member.map(sixty_fourths),
            member_wood: Some(Timber::Gravity(0.55)),
            grain: if is_endwise { Grain::End } else { Grain::Side },
            metal: None,
            bending_yield: None,
            zone: Zone::Underwater,
            salt: true,
            rule: PlankRule::default(),
            gauges: GaugeSystem::American,
            kind,
            fixed: Fixed {
                screw: is_screw.then_some(screw),
                size: (!is_screw).then_some(Size::Plain {
                    diameter,
                    length: diameter,
                }),
                length,
                bung: bung.map(sixty_fourths),
                bung_depth: bung_depth.map(sixty_fourths),
            },
            drills: vec![Series::Fraction],
            taper,
            lead_hole: LeadHole::default(),
            limits: Limits::default(),
            units: if is_metric {
                Units::Metric
            } else {
                Units::Inch
            },
        }
    })
}

proptest! {
    /// No text lies over another, none leaves the paper, and none lies over the wood.
    #[test]
    fn no_text_lies_over_another(ask in questions()) {
        let Ok(answer) = answer(&ask) else { return Ok(()) };
        let sheet = Sheet::of(&ask, &answer);
        let labels = sheet.labels.iter().flat_map(|label| &label.lines);
        let texts: Vec<_> = sheet.texts.iter().chain(labels).collect();
        for (at, text) in texts.iter().enumerate() {
            let [left, top, wide, tall] = text.room();
            prop_assert!(left >= 0.0 && left + wide <= sheet.size[0], "{text:?}");
            prop_assert!(top >= 0.0 && top + tall <= sheet.size[1], "{text:?}");
            for other in texts.iter().skip(at + 1) {
                let [x, y, w, h] = other.room();
                let apart = left + wide <= x || x + w <= left
                    || top + tall <= y + 1e-6 || y + h <= top + 1e-6;
                prop_assert!(apart, "{text:?} over {other:?}");
            }
        }
        for text in sheet.labels.iter().flat_map(|label| &label.lines) {
            let [left, _, wide, _] = text.room();
            let (from, to) = (sheet.middle - sheet.half, sheet.middle + sheet.half);
            prop_assert!(left + wide < from || to < left, "{text:?}");
        }
    }

    /// Every length is drawn to one scale, but where a break lies in it; and what is drawn stays on
    /// the paper.
    #[test]
    fn lengths_are_true_to_scale(ask in questions()) {
        let Ok(answer) = answer(&ask) else { return Ok(()) };
        let sheet = Sheet::of(&ask, &answer);
        let breaks: Vec<f64> = sheet.axis.breaks().collect();
        for (span, _) in &sheet.lengths {
            let (from, to) = (sheet.axis.at(span.from.mm()), sheet.axis.at(span.to.mm()));
            prop_assert!(from < to);
            let true_to = (span.to - span.from).mm() * sheet.axis.scale;
            match breaks.iter().any(|at| (from..to).contains(at)) {
                true => prop_assert!(to - from < true_to),
                false => prop_assert!((to - from - true_to).abs() < 1e-6),
            }
            prop_assert_eq!((span.to - span.from).nm(), span.is.nm().abs());
        }
        let widest = sheet.body.widest() * sheet.axis.scale;
        prop_assert!(widest < sheet.half, "{widest} {}", sheet.half);
    }

    /// The picture is well formed, and the same twice.
    #[test]
    fn a_picture_is_well_formed(ask in questions()) {
        let Ok(answer) = answer(&ask) else { return Ok(()) };
        let drawn = || {
            let mut out = Vec::new();
            svg(&mut out, &ask, &answer).map(|()| out)
        };
        let picture = drawn().unwrap();
        prop_assert_eq!(&drawn().unwrap(), &picture);
        let picture = String::from_utf8(picture).unwrap();
        prop_assert!(roxmltree::Document::parse(&picture).is_ok());
        prop_assert!(picture.len() < 200_000, "{}", picture.len());
    }

    /// In text: no more than 12 rows of at most 62 columns, and every length by its letter.
    #[test]
    fn a_section_in_text_is_small(ask in questions(), width in 40..160_u16) {
        let Ok(answer) = answer(&ask) else {
            return Ok(());
        };
        let mut out = Vec::new();
        let mut page = crate::show::page::Page::new(&mut out, width);
        super::text(&mut page, &ask, &answer).unwrap();
        let text = String::from_utf8(out).unwrap();
        let rows: Vec<&str> = text.lines().filter(|line| line.contains(['│', '─', '├'])).collect();
        prop_assert!(rows.len() <= 12, "{text}");
        for row in rows {
            prop_assert!(row.chars().count() <= usize::from(width).min(62), "{text}");
        }
    }
}
