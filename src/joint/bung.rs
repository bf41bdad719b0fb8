//! How deep the head goes, and what fills the hole over it.

use super::limits::{self, Limits};
use crate::tables::{self, GaugeSystem, Screw};
use crate::units::Length;

const SIXTEENTH: Length = Length::from_64ths(4);

/// Whether planking this thick is bunged rather than stopped, unless a bung is asked for: from
/// 5/8 in, common practice without a source.
pub fn is_bunged(plank: Length, limits: &Limits) -> bool {
    plank >= limits.bound(limits::BUNG_PLANK).length()
}

/// How far a head lies below the plank's face under stopping: 1/16 in, a choice.
pub fn stopping_depth(limits: &Limits) -> Length {
    limits.bound(limits::STOPPING_DEPTH).length()
}

/// Usual depth of a bung: a quarter of the plank to the nearest 1/16 in, halves up, not over a
/// third of the plank, and never under 1/8 in. Common practice, no source, but for the 1/8 in.
pub fn usual_depth(plank: Length, limits: &Limits) -> Length {
    let most = plank.part(limits.bound(limits::BUNG_MOST).share());
    let least = limits.bound(limits::BUNG_LEAST).length();
    plank
        .part(limits.bound(limits::BUNG_DEPTH).share())
        .nearest(SIXTEENTH)
        .min(most)
        .max(least)
}

/// The bung over a screw: the table's for its gauge, else by its head. `None` where no head is
/// published either.
pub fn diameter_for(screw: &Screw, limits: &Limits) -> Option<Length> {
    let listed = match (screw.system, screw.gauge) {
        (GaugeSystem::American, Some(gauge)) => tables::Bung::over(gauge),
        _ => None,
    };
    listed
        .map(|bung| bung.diameter)
        .or_else(|| by_head(screw, limits))
}

/// The bung over a head: the smallest sixteenth of an inch that is not smaller than the largest
/// head by more than 1/64 in (derived; it gives the drill chart's counterbore at every gauge).
/// Over metric screws the smallest even millimetre: bungs are sold in 6, 8, 10 and 12 mm (trade
/// catalogues, from memory).
fn by_head(screw: &Screw, limits: &Limits) -> Option<Length> {
    let head = screw.head.as_ref()?;
    let least = head.largest - limits.bound(limits::BUNG_UNDER_HEAD).length();
    let step = match screw.system {
        GaugeSystem::American | GaugeSystem::British => SIXTEENTH,
        GaugeSystem::Metric => Length::from_nm(2_000_000),
    };
    let steps = (least.nm() + step.nm() - 1).div_euclid(step.nm());
    Some(step * steps.max(1))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quarter_to_the_nearest_sixteenth() {
        for (plank, depth) in [
            ("5/8in", "3/16in"), // 5/32 lies halfway: up
            ("3/4in", "3/16in"),
            ("7/8in", "1/4in"), // 7/32 lies halfway: up
            ("1in", "1/4in"),
            ("1-1/8in", "5/16in"), // 9/32 lies halfway: up
            ("2in", "1/2in"),
            ("3/8in", "1/8in"),
            ("1/4in", "1/8in"), // never under 1/8, though over a third
        ] {
            let plank: Length = plank.parse().unwrap();
            let usual = usual_depth(plank, &Limits::default());
            assert_eq!(usual, depth.parse().unwrap(), "{plank}");
        }
    }

    /// Plate 6B (read), its counterbores in sixteenths; it alone has a No. 11.
    #[test]
    fn by_the_head_as_the_drill_chart_bores_it() {
        let chart = [
            (6, 5),
            (7, 5),
            (8, 6),
            (9, 6),
            (10, 6),
            (12, 7),
            (14, 8),
            (16, 9),
            (18, 10),
        ];
        for (gauge, sixteenths) in chart {
            let screw = Screw::by_gauge(GaugeSystem::American, gauge).unwrap();
            let bung = by_head(screw, &Limits::default());
            assert_eq!(bung, Some(SIXTEENTH * sixteenths), "No. {gauge}");
        }
    }
}
