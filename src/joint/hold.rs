//! What one wood screw holds, by the building standard and by test, with what must be said of it.

use super::{Grain, Kind, Timber, Zone, withdrawal};
use crate::tables::{GaugeSystem, Metal, Screw, Strength};
use crate::units::{Force, Length};

/// What one wood screw holds.
#[derive(Clone, Debug)]
pub struct Hold {
    /// Design withdrawal by the building standard, load duration 1.0, reduced in wet service.
    pub design: Option<Force>,
    /// Withdrawal in tests to failure, dry wood.
    pub ultimate: Option<Force>,
    /// Whether the design value is reduced for wet service.
    pub wet: bool,
    /// Whether a figure is what the screw's own core breaks at, because the wood holds more.
    pub capped: bool,
    /// Whether the standard gives a value for this screw in this wood.
    pub valid: bool,
    /// What must be known to read the figures.
    pub notes: Vec<String>,
}

impl Hold {
    /// Before anything is worked: no figure, and wet where the zone is.
    pub(super) const fn nothing_in(zone: Zone) -> Self {
        Self {
            design: None,
            ultimate: None,
            wet: zone.is_wet(),
            capped: false,
            valid: false,
            notes: Vec::new(),
        }
    }

    /// The specific gravity that the standard works with for a wood of this one, with a note where it
    /// is another; `None`, with a note, where the standard does not go so low.
    pub(super) fn standard_gravity(&mut self, gravity: f64) -> Option<f64> {
        let (least, most) = (withdrawal::GRAVITIES.start(), withdrawal::GRAVITIES.end());
        if gravity < *least {
            self.notes.push(format!(
                "specific gravity {gravity:.2} is under the standard's {least}: no design value"
            ));
            return None;
        }
        if gravity > *most {
            self.notes.push(format!(
                "specific gravity {gravity:.2} is over the standard's {most}: worked with {most}"
            ));
        }
        Some(gravity.min(*most))
    }
}

/// What a screw holds with so much thread in a member.
///
/// Withdrawal by [`withdrawal::design`] and [`withdrawal::tested`] over the thread in the member,
/// and no more than the screw's own core bears where its metal's strength is published. The frame
/// is taken as dry when the screw is driven. Above the standard's range of specific gravity the design value is
/// worked with the top of the range; below it, and for gauges without a published strength,
/// there is none. The tests are not stretched beyond that range either: the screw breaks first.
/// End grain has none in the standard.
pub fn hold(
    screw: &Screw,
    metal: Option<&Metal>,
    thread: Length,
    wood: Option<Timber>,
    grain: Grain,
    zone: Zone,
) -> Hold {
    let mut hold = Hold::nothing_in(zone);
    let Some(wood) = wood else {
        hold.notes
            .push("the frame's wood is not known, so no withdrawal is worked".to_owned());
        return hold;
    };
    if grain == Grain::End {
        hold.design = Some(Force::default());
        hold.valid = true;
        hold.notes.push(
            "end grain: the building standard allows no withdrawal; other books say 60 %, 75 % or half of side grain"
                .to_owned(),
        );
        return hold;
    }
    let (design, tested) = match formulas(screw, metal) {
        Ok(formulas) => formulas,
        Err(why) => {
            hold.notes.push(why);
            return hold;
        }
    };
    let gravity = wood.oven_dry().value;
    let covered = withdrawal::GRAVITIES.contains(&gravity);
    hold.valid = covered && screw.system == GaugeSystem::American;
    if screw.system != GaugeSystem::American {
        hold.notes.push(
            "the building standard lists American gauges; worked here by the shank's diameter"
                .to_owned(),
        );
    }
    if let Some(gravity) = hold.standard_gravity(gravity) {
        let factor = withdrawal::wet_factor(Kind::WoodScrew, false, hold.wet);
        let pounds = design.per_inch(gravity, screw.shank) * factor;
        hold.design = Some(withdrawal::over(pounds, thread));
    }
    if covered {
        let pounds = tested.per_inch(wood.at_12_percent().value, screw.shank);
        hold.ultimate = Some(withdrawal::over(pounds, thread));
    }
    cap(&mut hold, screw, metal);
    hold
}

/// Holds both figures to what the core of the screw breaks at, and says so where it does.
fn cap(hold: &mut Hold, screw: &Screw, metal: Option<&Metal>) {
    let Some(strength) = metal.and_then(Strength::of) else {
        hold.notes.push(
            "the standard also caps withdrawal by the screw's own strength, which is not on record for this metal"
                .to_owned(),
        );
        return;
    };
    let breaks = withdrawal::core_breaks(screw.root, strength.tensile);
    for figure in [&mut hold.design, &mut hold.ultimate] {
        if figure.is_some_and(|force| force > breaks) {
            *figure = Some(breaks);
            hold.capped = true;
        }
    }
    if hold.capped {
        hold.notes.push(format!(
            "no figure is more than what the screw's own core breaks at ({} on the root of the thread, {}); the wood alone would hold more",
            strength.tensile,
            strength.metal
        ));
    }
}

type Formulas = (&'static withdrawal::Formula, &'static withdrawal::Formula);

/// What the withdrawal of a screw is worked by, or why it has no published strength.
fn formulas(screw: &Screw, metal: Option<&Metal>) -> Result<Formulas, String> {
    if screw.system == GaugeSystem::American && screw.head.is_none() {
        return Err(format!(
            "{} has no published head or strength",
            screw.name()
        ));
    }
    let design = withdrawal::design(Kind::WoodScrew, metal)?;
    match withdrawal::tested(Kind::WoodScrew) {
        Some(tested) if design.covers(screw.shank) => Ok((design, tested)),
        _ => Err(format!(
            "{} is outside the standard's No. 6 to No. 24: no published strength",
            screw.name()
        )),
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        /// More thread, denser wood, a thicker screw: never less hold. Wet never more than dry.
        #[test]
        fn more_never_holds_less(
            size in 0..18_usize,
            gravity in 0.20..1.1_f64,
            thread in 0..250_i64,
            more in 0..50_i64,
            metal in prop::sample::select(vec![None, Some("copper"), Some("silicon bronze")]),
        ) {
            let metal = metal.map(|name| Metal::find(name).unwrap());
            let screws = Screw::all(GaugeSystem::American);
            let pull = |size: usize, gravity, thread, zone| {
                let wood = Some(Timber::Gravity(gravity));
                let thread = Length::from_64ths(thread);
                let hold = hold(&screws[size], metal, thread, wood, Grain::Side, zone);
                hold.design.map(Force::newtons)
            };
            let least = pull(size, gravity, thread, Zone::Inside);
            let at_least = |other: Option<f64>| match (least, other) {
                (Some(least), Some(other)) => other >= least,
                // Where one has no figure there is nothing to compare.
                _ => true,
            };
            prop_assert!(at_least(pull(size, gravity, thread + more, Zone::Inside)));
            prop_assert!(at_least(pull(size, gravity + 0.1, thread, Zone::Inside)));
            prop_assert!(at_least(pull(size + 1, gravity, thread, Zone::Inside)));
            let wet = pull(size, gravity, thread, Zone::Underwater);
            prop_assert!(wet <= least);
        }
    }
}
