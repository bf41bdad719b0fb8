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
//! All potentials are of one series, corrosion potentials in flowing sea water against the
//! saturated calomel electrode (Australasian Corrosion Association); two series are never mixed.
//! Two figures are told: from midpoint to midpoint of the metals' ranges, which judges, and the
//! worst, from far end to far end. Stainless has two potentials, with oxygen at its skin (passive)
//! or shut off from it (active); both are told, and the worse judges. Galvanised steel is judged by
//! the steel: the zinc goes first and spares it meanwhile, but nobody can see how much is left.
//!
//! Iron left in beside bronze and iron that she counts on are eaten alike. Counted on, it is a stop:
//! what holds the plank is going. Left in, it holds nothing more, but its rust stains and softens
//! the wood that the bronze holds in, so it is to be mended and not to stop her.
//!
//! Never told: a metal against itself, zinc and galvanised steel against steel and iron, two
//! grades of stainless (the two states of either lie further apart than the grades do), zinc and
//! an anode of any metal as something eaten (they are there for that), and metals that are not
//! known, which `metal-unknown` tells.
//!
//! **Surfaces.** `surfaces about 10 : 1` is the metal that is spared to the metal that is eaten, in
//! the order they are named: the more there is of the one and the less of the other, the faster it
//! goes. It is worked from the kind, size and head of the fastenings in the crossing and the
//! `area` of hardware, shared out among the crossings it lies on, and told by steps of 1, 2, 5 and
//! 10. Where a size or an area is not known, or one is broken off, it is left out.
//!
//! **Losses.** A millimetre a year is told only where a couple like it was measured: metals beside
//! stainless steel, in sea water. The nearest published metal and ratio are taken and named;
//! bronze, of which nothing was found, by copper. An order of magnitude, no forecast: wood slows it,
//! a crevice or stray current does not. No formula fills what was not measured, for the usual one
//! misses those figures by up to twice.
//!
//! **Anodes and bonding.** Hardware that is an anode (`anode: yes`, and zinc unless you say no) is
//! told as well. Current that protects a metal makes alkali at its face, and alkali takes the wood
//! round it apart, whatever else it does. Whether a wooden hull should have them is disputed. Some
//! fit them and bond the metal under water: bronze wants -550 mV at least (silver/silver chloride),
//! and the band for a wooden hull is -550 to -600, so a hull of bronze can be kept in it. Some fit
//! none and bond nothing, and point to pulped wood round stern gear with too many zincs. Steel
//! wants -800 mV, which lies outside the band for wood: no setting does for both. The one way asks
//! for a half-cell and somebody who reads it, the other for metals that need no protection. This
//! program takes neither side.
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
//! eaten one stands. An anode: watch. Surfaces and losses change no severity.
//!
//! **Sources.** Australasian Corrosion Association, potentials in flowing sea water (read;
//! differences derived). The yacht galvanic chart for the 0.20 V (read). Euro Inox, Materials and
//! Applications Vol. 10, for the losses (public transcription; which surface comes first in its
//! ratios is inferred). USCG NVIC 7-95, 3-E: avoid unlike metals close together (public
//! transcription); its 4-G on too many zincs is from memory. Baker, on alkali at any cathode in wet
//! wood (read in abstracts). An anode supplier's page for the potentials of protection (read). No
//! anodes at all: owners' and builders' accounts (read). Series disagree: MIL-STD-889B has lead
//! eaten beside steel, and Monel beside silicon bronze.
//!
//! **What to do.** Draw the one or the other and go on in one metal, at least through all of a plank
//! under water. A few eaten ones left in: draw them if they come, or look again next winter. Round
//! an anode's metal: probe the wood, look for a white crust; practitioners rinse it with weak
//! vinegar.

use std::collections::BTreeMap;

use crate::audit::hits::Said;
use crate::audit::lots::{Lot, lots, lying};
use crate::audit::{At, Hits, Rule, Saying, Severity, Survey};
use crate::hull::{CrossingId, Hardware, Water};
use crate::joint::{AreaRatio, Couple, Judgement, Stainless, Zone, beside_stainless, limits};
use crate::tables::{Basis, Family, Metal, Status};
use crate::units::count;

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
        Basis::on(
            "EIX",
            Status::Transcribed,
            "Tables 2 and 5, losses beside stainless",
        ),
        Basis::on("NVIC", Status::Transcribed, "3-E"),
        Basis::on("BAK", Status::Read, "alkali at any cathode in wet wood"),
        Basis::on("anode supplier", Status::Read, "potentials of protection"),
        Basis::on(
            "889B",
            Status::Transcribed,
            "Table II ranks some pairs the other way",
        ),
    ],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    let lying = lying(survey);
    let kinds = survey.kinds();
    let of_kind: Vec<Vec<Lot<'_>>> = survey.alike().map(|(at, _)| lots(survey, &at)).collect();
    let mut beside = Beside::of(survey, &of_kind);
    // What the fastenings of a kind of crossing do to each other is the same wherever it is.
    let mut among: Vec<Option<Vec<(Said, usize)>>> = vec![None; of_kind.len()];
    for at in survey.crossings() {
        let (id, kind) = (at.crossing.id, kinds.number(at.crossing.id));
        let Some(here) = of_kind.get(kind) else {
            continue;
        };
        let pieces = lying.get(&id).into_iter().flatten().copied();
        for anode in pieces.clone().filter(|piece| piece.is_anode) {
            hits.at(id, 0, alkali(anode));
        }
        if pieces.clone().next().is_some() {
            let pieces: Vec<Lot<'_>> = pieces.filter_map(Lot::of_hardware).collect();
            for (count, saying) in couples(survey, at.crossing.zone, here, &pieces) {
                hits.at(id, count, saying);
            }
        } else if let Some(among) = among.get_mut(kind) {
            let said = among.get_or_insert_with(|| {
                couples(survey, at.crossing.zone, here, &[])
                    .into_iter()
                    .map(|(count, saying)| (hits.keep(saying), count))
                    .collect()
            });
            for (said, count) in said {
                hits.again(*said, id, *count);
            }
        }
        if beside.several {
            beside.others(hits, &at, here);
        }
    }
}

/// What is to be said of each two metals in one crossing, those that lie on it last.
fn couples(
    survey: &Survey<'_>,
    zone: Zone,
    here: &[Lot<'_>],
    pieces: &[Lot<'_>],
) -> Vec<(usize, Saying)> {
    let pairs = here.iter().enumerate().flat_map(|(n, lot)| {
        let others = here.iter().skip(n + 1).chain(pieces);
        others.map(move |other| (*lot, *other))
    });
    pairs
        .filter_map(|(lot, other)| together(survey, zone, lot, other))
        .collect()
}

/// Whether any two metals of all her fastenings stand far enough apart to be told as neighbours.
fn couples_anywhere(survey: &Survey<'_>, of_kind: &[Vec<Lot<'_>>]) -> bool {
    let mut metals: Vec<&'static Metal> = Vec::new();
    let mut add = |lots: &[Lot<'_>]| {
        for lot in lots {
            if !metals.iter().any(|metal| lot.is(metal)) {
                metals.push(lot.metal);
            }
        }
    };
    of_kind.iter().for_each(|lots| add(lots));
    if !survey.asks_about_all() {
        let all = survey.hull.crossing_ids();
        all.for_each(|id| add(&lots(survey, &survey.at(id))));
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

/// What is to be said of two metals in one crossing, and of how many fastenings.
fn together(
    survey: &Survey<'_>,
    zone: Zone,
    one: Lot<'_>,
    other: Lot<'_>,
) -> Option<(usize, Saying)> {
    let is_eaten = |lot: &Lot<'_>, couple: &Couple| lot.is(couple.eaten);
    let judged = |couple: &Couple| {
        let eaten = if is_eaten(&one, couple) { &one } else { &other };
        couple.together(zone, eaten.relied_on, survey.limits)
    };
    let (severity, couple) = worst(one.metal, other.metal, judged)?;
    let (eaten, spared) = match is_eaten(&one, &couple) {
        true => (one, other),
        false => (other, one),
    };
    // The same two metals with iron left in and with iron counted on differ in this alone.
    let held_by = match (severity, eaten.hardware) {
        (Severity::Stop, None) => ", counted on to hold,",
        (Severity::Mend, None) if couple.eats_what_goes_soon() && !eaten.relied_on => {
            ", no longer counted on,"
        }
        _ => "",
    };
    let areas = spared.area.zip(eaten.area);
    let ratio = areas.and_then(|(spared, eaten)| AreaRatio::of(spared, eaten));
    let mut says = format!(
        "{} beside {}: {}",
        spared.name(),
        eaten.name(),
        told(&couple, held_by)
    );
    says += &in_its_other_state(&couple);
    if let Some(ratio) = ratio {
        says += &format!("; surfaces about {ratio}");
    }
    let saying = Saying::new(severity, says, remedy(severity, &eaten, &spared, held_by));
    let saying = figures(saying, &couple);
    let saying = match ratio {
        Some(ratio) => with_loss(
            survey,
            zone,
            &couple,
            ratio,
            saying.figure("area_ratio", ratio.value()),
        ),
        None => saying,
    };
    // Where hardware is eaten, the fastenings that eat it are what is to be looked at.
    let concerned = if eaten.hardware.is_some() {
        spared
    } else {
        eaten
    };
    Some((concerned.count, saying))
}

/// What to do about one metal that eats another.
fn remedy(severity: Severity, eaten: &Lot<'_>, spared: &Lot<'_>, held_by: &str) -> String {
    match (severity, eaten.hardware, spared.hardware) {
        (Severity::Watch, Some(what), _) => {
            format!("look at the wood and the metal round the {what}")
        }
        (Severity::Watch, None, _) => look_at(eaten.metal),
        (_, Some(what), _) | (_, None, Some(what)) => {
            format!("take the {what} off, or fasten here in its metal")
        }
        (Severity::Mend, None, None) if !held_by.is_empty() => format!(
            "draw the old {} where it comes; what stays, look at again next haul-out",
            word(eaten.metal)
        ),
        (_, None, None) => "draw the one or the other and go on in one metal".to_owned(),
    }
}

/// What the couple is where oxygen is the other way with the stainless, if there is any in it.
fn in_its_other_state(couple: &Couple) -> String {
    let Some(other) = couple.in_other_state() else {
        return String::new();
    };
    let there = match other.stainless {
        Some(Stainless::Passive) => "where it does",
        _ => "where it does not",
    };
    if std::ptr::eq(other.eaten, couple.eaten) {
        return format!("; {} {there}", other.mid);
    }
    format!("; the {} {there}, {}", word(other.eaten), other.mid)
}

/// Adds what was measured of a couple like it, under water or at the waterline of a boat on salt
/// water. The ratio is of the spared metal to the eaten.
fn with_loss(
    survey: &Survey<'_>,
    zone: Zone,
    couple: &Couple,
    ratio: AreaRatio,
    mut saying: Saying,
) -> Saying {
    if survey.hull.water != Water::Salt || !zone.is_washed() {
        return saying;
    }
    // The stainless eats in its passive state, be that the worse of the two or not.
    let other = couple.in_other_state();
    let turned = other.as_ref().map(|other| {
        let same = std::ptr::eq(other.eaten, couple.eaten);
        if same { ratio } else { ratio.turned() }
    });
    let loss =
        beside_stainless(couple, ratio).or_else(|| beside_stainless(other.as_ref()?, turned?));
    let Some(loss) = loss else {
        return saying;
    };
    let ((over, under), span) = (loss.ratio, span(loss.low, loss.high));
    saying.says += &format!(
        "; beside stainless at {over} : {under} {} lost {span} a year, to an order of magnitude (Euro Inox)",
        loss.partner
    );
    saying
        .figure("rate_mm_per_year_low", loss.low)
        .figure("rate_mm_per_year_high", loss.high)
}

/// `1 mm`, `1.1 to 2.1 mm`.
fn span(low: f64, high: f64) -> String {
    if low < high {
        format!("{low} to {high} mm")
    } else {
        format!("{low} mm")
    }
}

/// What an anode may do to the wood.
fn alkali(anode: &Hardware) -> Saying {
    let metal = anode.metal.map_or("anode", |metal| metal.name);
    let says = format!(
        "{metal} ({}) is an anode: the wood round the metal it protects may be softened by alkali; the band published for wood is -550 to -600 mV (silver/silver chloride), and steel's from -800 mV lies outside it",
        anode.what
    );
    let remedy = "probe the wood round what it protects, and take the potential with a half-cell before you add or take away";
    Saying::new(Severity::Watch, says, remedy)
}

/// Metals in crossings beside each other.
struct Beside<'s> {
    survey: &'s Survey<'s>,
    of_kind: &'s [Vec<Lot<'s>>],
    /// Of each kind of crossing a number for its metals, the same for the same metals.
    metals: Vec<u32>,
    /// Whether any two metals of hers are to be told at all.
    several: bool,
    /// The worst couple of two metals in two zones, where the first is eaten.
    worst: BTreeMap<Pair, Option<Couple>>,
    /// What is said of it.
    said: BTreeMap<Pair, Said>,
}

/// The names of two metals, and the zones they are in.
type Pair = (&'static str, &'static str, [Zone; 2]);

impl<'s> Beside<'s> {
    fn of(survey: &'s Survey<'s>, of_kind: &'s [Vec<Lot<'s>>]) -> Self {
        Self {
            survey,
            of_kind,
            metals: numbered(of_kind),
            several: couples_anywhere(survey, of_kind),
            worst: BTreeMap::new(),
            said: BTreeMap::new(),
        }
    }

    /// Tells each metal of a crossing that is eaten by one in a neighbouring crossing, once a pair.
    fn others(&mut self, hits: &mut Hits<'_>, at: &At<'_>, here: &[Lot<'_>]) {
        let (survey, id) = (self.survey, at.crossing.id);
        let (hull, kinds) = (survey.hull, survey.kinds());
        if here.is_empty() {
            return;
        }
        let metals = |kind: usize| self.metals.get(kind).copied();
        let mine = metals(kinds.number(id));
        let beside = hull.neighbours_along(id).chain(hull.neighbours_across(id));
        let of_others = |next: &CrossingId| metals(kinds.number(*next)) != mine;
        let beside: Vec<CrossingId> = beside.filter(of_others).collect();
        let mut pairs: Vec<(Lot<'_>, Couple, Pair)> = Vec::new();
        for next in beside {
            let next = survey.at(next);
            let unasked;
            let there = match self.of_kind.get(kinds.number(next.crossing.id)) {
                Some(there) => there,
                None => {
                    unasked = lots(survey, &next);
                    &unasked
                }
            };
            let zones = [at.crossing.zone, next.crossing.zone];
            for mine in here {
                // Where both metals are in one of the two crossings, that is told there.
                if there.iter().any(|lot| lot.is(mine.metal)) {
                    continue;
                }
                for theirs in there {
                    if here.iter().any(|lot| lot.is(theirs.metal)) {
                        continue;
                    }
                    let Some(couple) = self.eaten(mine.metal, theirs.metal, zones) else {
                        continue;
                    };
                    let is_told = |(lot, told, _): &(Lot<'_>, Couple, Pair)| {
                        lot.is(mine.metal) && std::ptr::eq(told.spared, couple.spared)
                    };
                    if !pairs.iter().any(is_told) {
                        pairs.push((*mine, couple, (mine.metal.name, theirs.metal.name, zones)));
                    }
                }
            }
        }
        for (mine, couple, pair) in pairs {
            let said = self.said.entry(pair).or_insert_with(|| {
                let (spared, eaten) = (couple.spared.name, mine.metal.name);
                let says = format!("{spared} next to {eaten}: {}", told(&couple, ""));
                let saying = Saying::new(Severity::Watch, says, look_at(mine.metal));
                hits.keep(figures(saying, &couple))
            });
            hits.again(*said, id, mine.count);
        }
    }

    /// The worst couple of two metals in neighbouring crossings, where the first is eaten.
    fn eaten(
        &mut self,
        mine: &'static Metal,
        theirs: &'static Metal,
        zones: [Zone; 2],
    ) -> Option<Couple> {
        let limits = self.survey.limits;
        *self
            .worst
            .entry((mine.name, theirs.name, zones))
            .or_insert_with(|| {
                let judged = |couple: &Couple| couple.neighbouring(zones, limits);
                let (_, couple) = worst(mine, theirs, judged)?;
                std::ptr::eq(couple.eaten, mine).then_some(couple)
            })
    }
}

/// Of each list of metals a number that those with the same metals have in common.
fn numbered(of_kind: &[Vec<Lot<'_>>]) -> Vec<u32> {
    let mut known: BTreeMap<Vec<&str>, u32> = BTreeMap::new();
    let numbers = of_kind.iter().map(|lots| {
        let mut names: Vec<&str> = lots.iter().map(|lot| lot.metal.name).collect();
        names.sort_unstable();
        let next = count(known.len());
        *known.entry(names).or_insert(next)
    });
    numbers.collect()
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

/// Which is eaten, and by how much they differ; `held_by` is whether it is counted on, where that
/// tells two findings apart.
fn told(couple: &Couple, held_by: &str) -> String {
    let while_so = match (couple.stainless, couple.eaten.family) {
        (None, _) => "",
        (Some(_), Family::Stainless) => " where oxygen does not reach it",
        (Some(Stainless::Passive), _) => " where oxygen reaches the stainless",
        (Some(Stainless::Active), _) => " where oxygen does not reach the stainless",
    };
    format!(
        "the {}{held_by} is eaten{while_so}, {} apart (worst {})",
        word(couple.eaten),
        couple.mid,
        couple.worst
    )
}

fn figures(saying: Saying, couple: &Couple) -> Saying {
    saying
        .figure("mid_v", couple.mid.volts())
        .figure("worst_v", couple.worst.volts())
}
