//! Two metals in the same wet wood: which is eaten, and how far they stand apart.
//!
//! All potentials are of one series, [`crate::tables::SERIES`]; series are never mixed.

use super::limits::{self, Limits};
use super::{Judgement, Verdict, Zone, judge};
use crate::tables::{Family, Metal, Range};
use crate::units::Potential;

/// The state that stainless steel is in: with oxygen at its skin, or shut off from it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Stainless {
    /// Shut off from oxygen, as in a wet hole.
    Active,
    /// Reached by oxygen.
    Passive,
}

/// Two different metals in one place.
#[derive(Clone, Copy, Debug)]
pub struct Couple {
    /// The one of the lower potential.
    pub eaten: &'static Metal,
    /// The other.
    pub spared: &'static Metal,
    /// Between the midpoints of their ranges.
    pub mid: Potential,
    /// Between the far ends of their ranges.
    pub worst: Potential,
    /// Which state one of them is taken in, where it is stainless.
    pub stainless: Option<Stainless>,
}

impl Couple {
    /// What two metals are to each other: nothing, where they are one metal, where the series
    /// does not have one of them, or where it does not tell them apart; else one couple, or two
    /// where one of them is stainless and so has two potentials.
    ///
    /// Galvanised steel is taken by the steel: nobody can see how much zinc is left. Two grades
    /// of stainless are no couple: the two states of either lie further apart than the grades do.
    pub fn of(one: &'static Metal, other: &'static Metal) -> impl Iterator<Item = Self> {
        let two_grades = one.family == Family::Stainless && other.family == Family::Stainless;
        let same = std::ptr::eq(one, other) || two_grades;
        let states: &[Option<Stainless>] = match (one.passive, other.passive) {
            _ if same => &[],
            (None, None) => &[None],
            _ => &[Some(Stainless::Active), Some(Stainless::Passive)],
        };
        states
            .iter()
            .filter_map(move |state| Self::in_state(one, other, *state))
    }

    fn in_state(
        one: &'static Metal,
        other: &'static Metal,
        stainless: Option<Stainless>,
    ) -> Option<Self> {
        let range = |metal: &Metal| -> Option<Range> {
            match stainless {
                Some(Stainless::Passive) => metal.passive.or(metal.potential),
                Some(Stainless::Active) | None => metal.potential,
            }
        };
        let ((low, eaten), (high, spared)) = match (range(one)?, range(other)?) {
            (a, b) if a.midpoint() < b.midpoint() => ((a, one), (b, other)),
            (a, b) if a.midpoint() > b.midpoint() => ((b, other), (a, one)),
            _ => return None,
        };
        Some(Self {
            eaten,
            spared,
            mid: high.midpoint() - low.midpoint(),
            worst: high.noble - low.active,
            stainless,
        })
    }

    /// The same two metals with the stainless in its other state; `None` where none of them is
    /// stainless or the series does not tell them apart then.
    pub fn in_other_state(&self) -> Option<Self> {
        let other = match self.stainless? {
            Stainless::Active => Stainless::Passive,
            Stainless::Passive => Stainless::Active,
        };
        Self::in_state(self.eaten, self.spared, Some(other))
    }

    /// Whether the eaten one is of those that do not last: iron, steel, aluminium, brass.
    pub const fn eats_what_goes_soon(&self) -> bool {
        matches!(
            self.eaten.family,
            Family::Iron | Family::Steel | Family::Aluminium | Family::Brass
        )
    }

    /// Side by side in one crossing. From the limit up, midpoint to midpoint: a stop under water
    /// where iron, steel, aluminium or brass is eaten that is counted on to hold, else to be
    /// mended under water and about the waterline, to be watched elsewhere. Where only the far
    /// ends of the ranges are so far apart, to be watched.
    pub fn together(&self, zone: Zone, eaten_relied_on: bool, limits: &Limits) -> Judgement {
        let bound = limits.bound(limits::DISSIMILAR);
        let apart = self.mid >= bound.volts();
        let grave = zone == Zone::Underwater && self.eats_what_goes_soon() && eaten_relied_on;
        judge::judge(
            [
                (Verdict::Stop, bound, apart && grave),
                (Verdict::Mend, bound, apart && zone.is_washed()),
                (Verdict::Watch, bound, apart || self.worst >= bound.volts()),
            ],
            bound,
        )
    }

    /// In two neighbouring crossings: to be watched from the limit up, midpoint to midpoint, where
    /// water reaches both.
    pub fn neighbouring(&self, zones: [Zone; 2], limits: &Limits) -> Judgement {
        let bound = limits.bound(limits::DISSIMILAR);
        let missed = self.mid >= bound.volts() && zones.into_iter().all(Zone::is_washed);
        judge::judge([(Verdict::Watch, bound, missed)], bound)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn couples(one: &str, other: &str) -> Vec<(String, String, String)> {
        let (one, other) = (Metal::find(one).unwrap(), Metal::find(other).unwrap());
        Couple::of(one, other)
            .map(|c| {
                (
                    c.eaten.name.to_owned(),
                    c.mid.to_string(),
                    c.worst.to_string(),
                )
            })
            .collect()
    }

    fn couple(eaten: &str, mid: &str, worst: &str) -> (String, String, String) {
        (eaten.to_owned(), mid.to_owned(), worst.to_owned())
    }

    /// Derived from the series of the Australasian Corrosion Association (read): the differences
    /// of its midpoints, and of the far ends of its ranges.
    #[test]
    fn differences_of_the_series() {
        let bronze = "silicon bronze";
        let steel = couple("steel", "0.39 V", "0.47 V");
        assert_eq!(couples(bronze, "steel"), std::slice::from_ref(&steel));
        assert_eq!(couples("steel", bronze), [steel]);
        let zinced = couple("galvanised steel", "0.39 V", "0.47 V");
        assert_eq!(couples(bronze, "galvanised steel"), [zinced]);
        let monel = couple(bronze, "0.185 V", "0.26 V");
        assert_eq!(couples("Monel", bronze), [monel]);
    }

    /// Stainless changes sides with oxygen.
    #[test]
    fn stainless_has_two_potentials() {
        let active = couple("316 stainless steel", "0.125 V", "0.21 V");
        let passive = couple("silicon bronze", "0.22 V", "0.29 V");
        assert_eq!(couples("316", "silicon bronze"), [active, passive]);
    }

    proptest! {
        /// Of any two metals of the series: the other way round is the same couple, the eaten one
        /// is the lower, the worst is never under the middle; a metal and itself are none.
        #[test]
        fn differences_are_symmetric(
            one in 0..Metal::all().len(),
            other in 0..Metal::all().len(),
        ) {
            let (one, other) = (&Metal::all()[one], &Metal::all()[other]);
            prop_assert_eq!(couples(one.name, other.name), couples(other.name, one.name));
            prop_assert_eq!(couples(one.name, one.name), []);
            for couple in Couple::of(one, other) {
                let middle = |metal: &Metal| match (couple.stainless, metal.passive) {
                    (Some(Stainless::Passive), Some(passive)) => passive.midpoint(),
                    _ => metal.potential.unwrap().midpoint(),
                };
                prop_assert!(middle(couple.eaten) < middle(couple.spared));
                prop_assert_eq!(middle(couple.spared) - middle(couple.eaten), couple.mid);
                prop_assert!(couple.worst >= couple.mid);
            }
        }
    }

    #[test]
    fn no_couple() {
        for (one, other) in [
            ("silicon bronze", "silicon bronze"),
            ("galvanised steel", "steel"),
            ("galvanised steel", "wrought iron"),
            ("brass", "naval brass"),
            ("304", "316"),
            ("316", "316"),
        ] {
            assert_eq!(couples(one, other), [], "{one} and {other}");
        }
    }
}
