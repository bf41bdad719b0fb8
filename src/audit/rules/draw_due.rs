//! # draw-due
//!
//! **Looks for** sets that are old enough to be drawn for a look and were not looked at for too
//! long, each zone of the shell by itself: under water, and in wind and water.
//!
//! **Why.** Wastage hides in the joint of plank and frame. The *EL TORO II* passed an examination
//! eight months before her planks sprung; drawing nails had been advised and was not done.
//!
//! Age is told as a range where the date is uncertain: `1990s` is 26 to 36 years in the autumn of
//! 2026; never more than the boat's own. A set counts from its last possible day. What
//! has no date at all is told by `undated`, and here only once it has been looked at and the time
//! to the next look has passed.
//!
//! A look is a day on which at least one of the set in that zone was pulled, broken, bared, measured or
//! checked. Baring shows the head alone and a tap on the plank no more than that it is tight: only
//! drawing shows the shank.
//!
//! **Limits.** `first look in salt water` 10 years and `next look in salt water` 5; `first look in
//! fresh water` 20 and `next look in fresh water` 10: USCG NVIC 7-95 as remembered, not verified.
//! Brackish water is taken as salt.
//!
//! Others ask for other intervals. Whoever they bind may set them as the limits in hull.yaml. A
//! classic-boat insurer asks for a survey out of the water every 4 years (read). 46 CFR 176.600 has
//! inspected passenger vessels drydocked every 2 years where they lie over three months in twelve in
//! salt water, else every 5, and 176.610 lets the inspector ask for fastenings to be pulled (read).
//! Canada inspects fishing vessels over 15 GT every 4 years (TP 13585, read).
//!
//! **Severity.** Watch; one finding a set and zone.
//!
//! Where rates are published for the metal, how soon a quarter of a new fastening's section may have
//! gone is given as a range, of galvanised steel after its zinc: in words for steel, for all metals
//! among the figures for other programs. They are rates of bare metal in water and never a promise;
//! no table of life by metal is published.
//!
//! **Sources.** As given under limits. The *EL TORO II* papers: hulls over 15 years want close
//! attention. US Army TB 55-1900-201-45/1, 2-8a: draw from the zones at each drydocking, no
//! count given. Rates: Corus 2001, Defence Standard 01/2, Tuthill 1987, the galvanisers, ASTM A153.
//!
//! **What to do.** Draw some of the set in that zone, chosen by lot, and log them with `pulled` and
//! what was found; measure them. For nails and rivets lifting one plank shows more and harms less
//! than drawing single ones.

use std::collections::BTreeMap;

use crate::audit::alike::Alike;
use crate::audit::{Hits, Rule, Saying, Severity, Survey, limits};
use crate::joint::wastage::{Duty, Years, rests_on, years_to_lose};
use crate::joint::{Zone, limits as of_joint};
use crate::record::{Fastening, SetId};
use crate::tables::{Basis, Family, Status};
use crate::units::{Ages, Day};

pub(in crate::audit) const RULE: Rule = Rule {
    name: "draw-due",
    file: include_str!("draw_due.rs"),
    limits: &[
        limits::FIRST_LOOK_SALT,
        limits::NEXT_LOOK_SALT,
        limits::FIRST_LOOK_FRESH,
        limits::NEXT_LOOK_FRESH,
    ],
    sources: &[
        Basis::on(
            "NVIC",
            Status::Memory,
            "4-K; medium confidence, not verified",
        ),
        Basis::on("ELT", Status::Read, "an inspector did not pull nails"),
        Basis::on("TB201", Status::Read, "2-8a"),
        Basis::on("insurer", Status::Read, "every 4 years"),
        Basis::on("CFR", Status::Read, "176.600, 176.610, inspected vessels"),
        Basis::on("TP13585", Status::Read, "every 4 years"),
        Basis::on("CORUS", Status::Read, "rates of steel"),
        Basis::on("DS012", Status::Transcribed, "rates in sea water"),
        Basis::on("TUT87", Status::Read, "rates of copper alloys"),
        Basis::on("LaQue", Status::Memory, "early steel, silicon bronze"),
        Basis::on("GAA", Status::Read, "rates of zinc"),
        Basis::on("A153", Status::Transcribed, "least zinc on fastenings"),
    ],
    check,
};

/// What is due of one set in one zone.
struct Due<'s> {
    at: Vec<(&'s Alike, usize)>,
    ages: Ages,
    example: &'s Fastening,
}

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    let mut due: BTreeMap<(SetId, Zone), Due<'_>> = BTreeMap::new();
    for (at, alike) in survey
        .alike()
        .filter(|(at, _)| at.crossing.zone.is_washed())
    {
        for hole in at.relied_on() {
            let (fastening, zone) = (survey.fastening(hole), at.crossing.zone);
            if !fastening.kind.is_metal() || !is_due(survey, fastening, zone) {
                continue;
            }
            let ages = ages(survey, fastening, zone);
            let group = due.entry((fastening.set, zone)).or_insert_with(|| Due {
                at: Vec::new(),
                ages,
                example: fastening,
            });
            match group.at.last_mut() {
                Some((last, count)) if std::ptr::eq(*last, alike) => *count += 1,
                _ => group.at.push((alike, 1)),
            }
            group.ages = group.ages.with(ages);
        }
    }
    for ((set, zone), group) in due {
        let saying = group.saying(survey, set, zone);
        let places = group.at.iter();
        let each = places.flat_map(|(alike, count)| alike.all.iter().map(|id| (*id, *count)));
        hits.say(saying, each);
    }
}

/// The last look that can have been at this fastening: not one before it was driven.
fn last_look(survey: &Survey<'_>, fastening: &Fastening, zone: Zone) -> Option<Day> {
    let last = survey.looks.last(fastening.set, zone);
    last.filter(|look| {
        fastening
            .driven
            .earliest()
            .is_none_or(|driven| *look >= driven)
    })
}

fn is_due(survey: &Survey<'_>, fastening: &Fastening, zone: Zone) -> bool {
    let (first, next) = match survey.hull.water.is_salt() {
        true => (limits::FIRST_LOOK_SALT, limits::NEXT_LOOK_SALT),
        false => (limits::FIRST_LOOK_FRESH, limits::NEXT_LOOK_FRESH),
    };
    let years = |limit| survey.limits.bound(limit).years();
    let looked = last_look(survey, fastening, zone);
    let since = looked.map(|look| survey.day.years_since(look));
    // Of an undated one nothing is certain but that it was there at its last look.
    let old_enough = match fastening.driven.latest() {
        Some(_) => ages(survey, fastening, zone).least >= years(first),
        None => since.is_some(),
    };
    old_enough && since.is_none_or(|since| since >= years(next))
}

/// The least and the most years since a fastening was driven; never older than the boat.
fn ages(survey: &Survey<'_>, fastening: &Fastening, zone: Zone) -> Ages {
    let launched = survey.hull.particulars.launched.earliest();
    let known = Ages::of(fastening.driven, launched, survey.day);
    let ages = known.unwrap_or(Ages {
        least: 0,
        most: None,
    });
    match (
        fastening.driven.latest(),
        last_look(survey, fastening, zone),
    ) {
        // It was there when it was last looked at.
        (None, Some(look)) => Ages {
            least: survey.day.years_since(look),
            ..ages
        },
        _ => ages,
    }
}

impl Due<'_> {
    fn saying(&self, survey: &Survey<'_>, set: SetId, zone: Zone) -> Saying {
        let (ages, example) = (self.ages, self.example);
        let looked = last_look(survey, example, zone);
        let looked = looked.map_or("never looked at".to_owned(), |look| {
            let years = survey.day.years_since(look);
            format!("last looked at {years} years ago, {look}")
        });
        let says = format!(
            "`{}`, {zone}, {ages} old: {looked}",
            survey.book.set_name(set)
        );
        let how = if example.kind.is_threaded() {
            "draw some by lot and measure them"
        } else {
            "draw some by lot, or lift one plank, and measure them"
        };
        let years = years(survey, example, zone);
        let is_steel = example
            .metal
            .is_some_and(|metal| metal.family == Family::Steel);
        let remedy = match &years {
            Some((years, rests_on)) if is_steel => format!(
                "{how}; a quarter of the section may go in {years}: {rests_on}, never a promise"
            ),
            _ => how.to_owned(),
        };
        let mut saying = Saying::new(Severity::Watch, says, remedy);
        let ends = years.map(|(years, _)| (years.soonest, years.latest));
        let figures = [
            ("age_least_years", Some(f64::from(ages.least))),
            ("age_most_years", ages.most.map(f64::from)),
            ("quarter_lost_soonest_years", ends.map(|ends| ends.0)),
            ("quarter_lost_latest_years", ends.and_then(|ends| ends.1)),
        ];
        for (name, figure) in figures {
            if let Some(figure) = figure {
                saying = saying.figure(name, figure);
            }
        }
        saying
    }
}

/// How long a new one takes to lose a quarter of its section, where rates are published, and by
/// what rates.
fn years(survey: &Survey<'_>, fastening: &Fastening, zone: Zone) -> Option<(Years, &'static str)> {
    let metal = fastening.metal?;
    let new = fastening.size?.diameter()?;
    let salt = survey.hull.water.is_salt();
    let lost = survey.limits.bound(of_joint::SECTION_MEND).share();
    let share = Duty::Section.loss_keeping(1.0 - lost);
    let forecasts = years_to_lose(share, metal, fastening.kind, new, zone, salt);
    Some((Years::span(&forecasts)?, rests_on(&forecasts)))
}
