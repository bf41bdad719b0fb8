//! What metals lost beside stainless steel, looked up for a couple: an order of magnitude.

use super::{AreaRatio, Couple, Stainless};
use crate::tables::{Basis, Family, MeasuredCouple};

/// A range of measured losses, an order of magnitude for a couple like it in sea water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeasuredLoss {
    /// The metal that was measured beside stainless: the nearest published to the one eaten.
    pub partner: &'static str,
    /// The surface of the stainless to its partner's when it was measured.
    pub ratio: (u32, u32),
    /// The least that was lost, in millimetres a year.
    pub low: f64,
    /// The most.
    pub high: f64,
    /// What it rests on.
    pub basis: &'static Basis,
}

/// What was measured of the nearest published couple at the nearest published ratio of surfaces,
/// nearest on a logarithmic scale, the worse of two as near. Beyond 10 : 1 nothing is published:
/// the loss at 10 : 1 stands for less than would be.
///
/// `None` unless the couple is of passive stainless steel and a metal that it eats: no other
/// couples were measured. The figures are for sea water. Nothing is worked out between the
/// published ratios: the rule that the loss grows as 1 + ratio misses them by up to twice, either
/// way.
pub fn beside_stainless(couple: &Couple, ratio: AreaRatio) -> Option<MeasuredLoss> {
    let by_stainless =
        couple.spared.family == Family::Stainless && couple.stainless == Some(Stainless::Passive);
    if !by_stainless {
        return None;
    }
    let all = || {
        MeasuredCouple::nearest_to(couple.eaten).flat_map(|row| {
            row.losses
                .iter()
                .map(move |(ratio, loss)| (row, ratio, *loss))
        })
    };
    let value = |(stainless, partner): (u32, u32)| f64::from(stainless) / f64::from(partner);
    let off = |at: (u32, u32)| (value(at).ln() - ratio.value().ln()).abs();
    let (row, nearest, _) = all().min_by(|(_, one, _), (_, other, _)| {
        off(**one)
            .total_cmp(&off(**other))
            .then(value(**other).total_cmp(&value(**one)))
    })?;
    let losses = || all().filter(|(_, at, _)| **at == *nearest).map(|it| it.2);
    Some(MeasuredLoss {
        partner: row.partner,
        ratio: *nearest,
        low: losses().fold(f64::INFINITY, f64::min),
        high: losses().fold(0.0, f64::max),
        basis: row.basis,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tables::Metal;
    use crate::units::Area;

    fn loss(stainless: &str, partner: &str, ratio: f64) -> Option<((u32, u32), f64, f64)> {
        let (one, other) = (
            Metal::find(stainless).unwrap(),
            Metal::find(partner).unwrap(),
        );
        let ratio = AreaRatio::of(Area::from_mm2(ratio), Area::from_mm2(1.0)).unwrap();
        let mut couples = Couple::of(one, other);
        let found = couples.find_map(|couple| beside_stainless(&couple, ratio))?;
        Some((found.ratio, found.low, found.high))
    }

    /// Euro Inox Vol. 10, Tables 2 and 5 (public transcription), read back for the couples of a
    /// boat.
    #[test]
    fn published_losses_come_back() {
        let is = |metal, ratio, at, low, high| {
            assert_eq!(loss("316", metal, ratio), Some((at, low, high)), "{metal}");
        };
        is("copper", 10.0, (10, 1), 1.0, 1.0);
        is("copper", 1.0, (1, 1), 0.12, 0.12);
        is("copper", 0.1, (1, 10), 0.07, 0.07);
        is("steel", 10.0, (10, 1), 1.10, 2.10);
        is("steel", 5.0, (4, 1), 0.75, 0.75);
        is("steel", 1.0, (1, 1), 0.31, 0.38);
        is("galvanised steel", 10.0, (10, 1), 1.10, 2.10);
        is("aluminium", 10.0, (10, 1), 0.95, 0.95);
        is("copper-nickel", 1.0, (4, 1), 0.07, 0.07);
        is("naval brass", 10.0, (4, 1), 0.18, 0.18);
        // The nearest published, and never beyond what is published.
        is("silicon bronze", 1000.0, (10, 1), 1.0, 1.0);
    }

    /// What warm brine did, the stainless itself where no oxygen comes, and couples without
    /// stainless are not looked up.
    #[test]
    fn no_other_couple_was_measured() {
        assert_eq!(loss("silicon bronze", "steel", 10.0), None);
        assert_eq!(loss("Monel", "316", 1.0), None);
        assert_eq!(loss("304", "316", 1.0), None);
        let (one, other) = (Metal::find("304").unwrap(), Metal::find("Monel").unwrap());
        let ratio = AreaRatio::of(Area::from_mm2(1.0), Area::from_mm2(1.0)).unwrap();
        for couple in Couple::of(one, other) {
            assert_eq!(beside_stainless(&couple, ratio), None);
        }
    }
}
