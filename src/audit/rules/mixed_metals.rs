//! # mixed-metals
//!
//! **Looks for** two metals side by side in one crossing: in its fastenings, be they counted on,
//! left in, unsound or broken off, and between its fastenings and other metal that lies there
//! (`hardware` in hull.yaml). Where each stands alone, it looks at the next crossing along the
//! plank and the next strake on the same member.
//!
//! **Why.** Two metals in the same wet wood make a cell. The one of the lower potential is eaten,
//! the faster the further they stand apart and the less there is of it. New bronze screws among
//! old steel have lost boats: the steel goes, and the wood round it.
//!
//! All potentials are of one series, that of flowing sea water, against the saturated calomel
//! electrode; two series are never mixed. Two figures are told: from midpoint to midpoint of the
//! metals' ranges, which judges, and the worst, from far end to far end. Stainless has two
//! potentials, with oxygen at its skin (passive) or shut off from it (active); the worse judges,
//! and the finding says which. Galvanised steel is judged by the steel: the zinc goes first and
//! spares it meanwhile, but nobody can see how much is left.
//!
//! Never told: a metal against itself, zinc and galvanised steel against steel and iron, two
//! grades of stainless (the two states of either lie further apart than the grades do), an anode
//! of zinc (it is there to be eaten), and metals that are not known, which `metal-unknown` tells.
//!
//! **Limits.** `dissimilar difference` 0.20 V. It is a screening level for yachts under water, not a
//! standard, and was printed beside another series than this one. The series is of sea water: in
//! fresh water the same pairs are slower.
//!
//! **Severity.** In one crossing, from 0.20 V between midpoints: stop under water where the eaten
//! one is iron, steel, aluminium or brass and is counted on to hold; else mend under water and
//! about the waterline, as where left-in steel, bronze or a strap is eaten; watch elsewhere. Watch
//! as well where only the worst figure comes to 0.20 V. Neighbouring crossings: watch, where the
//! water reaches both and neither is already told for the same two metals; it is told where the
//! eaten one stands.
//!
//! **Sources.** Australasian Corrosion Association, potentials in flowing sea water (read;
//! differences derived). The yacht galvanic chart for the 0.20 V (read). USCG NVIC 7-95, 3-E: avoid
//! unlike metals close together (public transcription). Series disagree: MIL-STD-889B has lead
//! eaten beside steel, and Monel beside silicon bronze.
//!
//! **What to do.** Draw the one or the other and go on in one metal, at least through all of a plank
//! under water. A few eaten ones left in: draw them if they come, or look again next winter.

use std::collections::BTreeMap;

use crate::audit::{At, Hits, Rule, Saying, Severity, Survey};
use crate::hull::{CrossingId, Hardware};
use crate::joint::{Couple, Judgement, Stainless, Zone, limits};
use crate::tables::{Basis, Family, Metal, Status};

pub(in crate::audit) const RULE: Rule = Rule {
    name: "mixed-metals",
    file: include_str!("mixed_metals.rs"),
    limits: &[limits::DISSIMILAR],
    sources: &[
        Basis::on("ACA", Status::Read, "the series"),
        Basis::on(
            "ACA",
            Status::Derived,
            "differences of midpoints and of far ends",
        ),
        Basis::on("NVIC", Status::Transcribed, "3-E"),
        Basis::on(
            "889B",
            Status::Transcribed,
            "Table II ranks some pairs the other way",
        ),
    ],
    check,
};

/// All of one metal that is in a crossing.
#[derive(Clone, Copy)]
struct Lot<'s> {
    metal: &'static Metal,
    /// What it is, where it is not fastenings.
    hardware: Option<&'s str>,
    /// How many fastenings.
    count: usize,
    /// Whether any of them is counted on to hold.
    relied_on: bool,
}

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    let lying = lying(survey);
    let several = couples_anywhere(survey);
    for at in survey.crossings() {
        let here = lots(survey, &at);
        let pieces = lying.get(&at.crossing.id).into_iter().flatten();
        let pieces = pieces.filter_map(|piece| Lot::of_hardware(piece));
        for (n, lot) in here.iter().enumerate() {
            for other in here.iter().skip(n + 1).copied().chain(pieces.clone()) {
                together(survey, hits, &at, *lot, other);
            }
        }
        if several {
            beside_others(survey, hits, &at, &here);
        }
    }
}

/// Whether any two metals of all her fastenings stand far enough apart to be told as neighbours.
fn couples_anywhere(survey: &Survey<'_>) -> bool {
    let mut metals: Vec<&'static Metal> = Vec::new();
    for id in survey.hull.crossing_ids() {
        for lot in lots(survey, &survey.at(id)) {
            if !metals.iter().any(|metal| lot.is(metal)) {
                metals.push(lot.metal);
            }
        }
    }
    let judged = |couple: &Couple| couple.neighbouring([Zone::Underwater; 2], survey.limits);
    let pairs = metals.iter().enumerate().flat_map(|(n, one)| {
        let others = metals.iter().skip(n + 1);
        others.map(move |other| (*one, *other))
    });
    pairs
        .into_iter()
        .any(|(one, other)| worst(one, other, judged).is_some())
}

/// The other metal that lies on each crossing.
fn lying<'s>(survey: &'s Survey<'_>) -> BTreeMap<CrossingId, Vec<&'s Hardware>> {
    let mut lying: BTreeMap<_, Vec<_>> = BTreeMap::new();
    for piece in &survey.hull.hardware {
        for crossing in &piece.crossings {
            lying.entry(*crossing).or_default().push(piece);
        }
    }
    lying
}

/// The metals of a crossing's fastenings.
fn lots<'s>(survey: &Survey<'_>, at: &At<'_>) -> Vec<Lot<'s>> {
    let mut lots: Vec<Lot<'s>> = Vec::new();
    for hole in at.holes.iter().filter(|hole| hole.has_metal()) {
        let Some(metal) = survey
            .fastening(hole)
            .metal
            .filter(|metal| is_judged(metal))
        else {
            continue;
        };
        let relied_on = hole.is_relied_on();
        match lots.iter_mut().find(|lot| lot.is(metal)) {
            Some(lot) => {
                lot.count += 1;
                lot.relied_on |= relied_on;
            }
            None => lots.push(Lot {
                metal,
                hardware: None,
                count: 1,
                relied_on,
            }),
        }
    }
    lots
}

/// Zinc is an anode: there to be eaten.
fn is_judged(metal: &Metal) -> bool {
    metal.family != Family::Zinc
}

impl<'s> Lot<'s> {
    fn of_hardware(piece: &'s Hardware) -> Option<Self> {
        Some(Self {
            metal: piece.metal.filter(|metal| is_judged(metal))?,
            hardware: Some(&piece.what),
            count: 0,
            relied_on: false,
        })
    }

    fn is(&self, metal: &Metal) -> bool {
        std::ptr::eq(self.metal, metal)
    }

    fn name(&self) -> String {
        match self.hardware {
            Some(what) => format!("{} ({what})", self.metal.name),
            None => self.metal.name.to_owned(),
        }
    }
}

/// The worst couple of two metals by a judgement; `None` where there is nothing to say.
fn worst(
    one: &'static Metal,
    other: &'static Metal,
    judged: impl Fn(&Couple) -> Judgement,
) -> Option<(Severity, Couple)> {
    let (verdict, couple) = Couple::of(one, other)
        .map(|couple| (judged(&couple).verdict, couple))
        .max_by_key(|(verdict, couple)| (*verdict, couple.mid))?;
    Some((Severity::of(verdict)?, couple))
}

fn together(survey: &Survey<'_>, hits: &mut Hits<'_>, at: &At<'_>, one: Lot<'_>, other: Lot<'_>) {
    let is_eaten = |lot: &Lot<'_>, couple: &Couple| lot.is(couple.eaten);
    let judged = |couple: &Couple| {
        let eaten = if is_eaten(&one, couple) { &one } else { &other };
        couple.together(at.crossing.zone, eaten.relied_on, survey.limits)
    };
    let Some((severity, couple)) = worst(one.metal, other.metal, judged) else {
        return;
    };
    let (eaten, spared) = match is_eaten(&one, &couple) {
        true => (one, other),
        false => (other, one),
    };
    let says = format!(
        "{} beside {}: {}",
        spared.name(),
        eaten.name(),
        told(&couple)
    );
    let remedy = match (severity, eaten.hardware, spared.hardware) {
        (Severity::Watch, Some(what), _) => format!("look at the {what} where it lies on the wood"),
        (Severity::Watch, None, _) => look_at(eaten.metal),
        (_, Some(what), _) | (_, None, Some(what)) => {
            format!("take the {what} off, or fasten here in its metal")
        }
        (_, None, None) => "draw the one or the other and go on in one metal".to_owned(),
    };
    // Where hardware is eaten, the fastenings that eat it are what is to be looked at.
    let concerned = if eaten.hardware.is_some() {
        spared
    } else {
        eaten
    };
    hits.at(
        at.crossing.id,
        concerned.count,
        saying(severity, says, remedy, &couple),
    );
}

/// Tells each metal of a crossing that is eaten by one in a neighbouring crossing, once a pair.
fn beside_others(survey: &Survey<'_>, hits: &mut Hits<'_>, at: &At<'_>, here: &[Lot<'_>]) {
    let hull = survey.hull;
    let id = at.crossing.id;
    let mut pairs: Vec<(Lot<'_>, Couple)> = Vec::new();
    for next in hull.neighbours_along(id).chain(hull.neighbours_across(id)) {
        let next = survey.at(next);
        let there = lots(survey, &next);
        let zones = [at.crossing.zone, next.crossing.zone];
        for mine in here {
            // Where both metals are in one of the two crossings, that is told there.
            if there.iter().any(|lot| lot.is(mine.metal)) {
                continue;
            }
            for theirs in &there {
                if here.iter().any(|lot| lot.is(theirs.metal)) {
                    continue;
                }
                let judged = |couple: &Couple| couple.neighbouring(zones, survey.limits);
                let Some((_, couple)) = worst(mine.metal, theirs.metal, judged) else {
                    continue;
                };
                let is_told = |(lot, told): &(Lot<'_>, Couple)| {
                    lot.is(mine.metal) && std::ptr::eq(told.spared, couple.spared)
                };
                if mine.is(couple.eaten) && !pairs.iter().any(is_told) {
                    pairs.push((*mine, couple));
                }
            }
        }
    }
    for (mine, couple) in pairs {
        let (spared, eaten) = (couple.spared.name, mine.metal.name);
        let says = format!("{spared} next to {eaten}: {}", told(&couple));
        let saying = saying(Severity::Watch, says, look_at(mine.metal), &couple);
        hits.at(id, mine.count, saying);
    }
}

/// The metal as one would call it when it is gone: steel, once the zinc is off it.
fn word(metal: &Metal) -> &'static str {
    match metal.family {
        Family::Steel => "steel",
        Family::Stainless => "stainless steel",
        _ => metal.name,
    }
}

fn look_at(eaten: &Metal) -> String {
    format!("draw a fastening of {} and look at its shank", word(eaten))
}

fn told(couple: &Couple) -> String {
    let while_so = match (couple.stainless, couple.eaten.family) {
        (None, _) => "",
        (Some(_), Family::Stainless) => " where oxygen does not reach it",
        (Some(Stainless::Passive), _) => " where oxygen reaches the stainless",
        (Some(Stainless::Active), _) => " where oxygen does not reach the stainless",
    };
    format!(
        "the {} is eaten{while_so}, {} apart (worst {})",
        word(couple.eaten),
        couple.mid,
        couple.worst
    )
}

fn saying(severity: Severity, says: String, remedy: String, couple: &Couple) -> Saying {
    Saying::new(severity, says, remedy)
        .figure("mid_v", couple.mid.volts())
        .figure("worst_v", couple.worst.volts())
}
