//! # wasted
//!
//! **Looks for** fastenings counted on to hold that have lost metal: by what was measured of them,
//! and by what those drawn of the same set showed.
//!
//! **Why.** A fastening wastes where plank meets frame, unseen, while its head looks fine. What is
//! left is told as figures and never as one: withdrawal goes with the diameter, shear and tension
//! with its square, bending with its cube. A tenth off the diameter is a tenth off the withdrawal, a
//! fifth off shear and tension, and over a quarter off bending. A rivet, a clenched nail or a bolt
//! holds by its two ends, and of it only the last two are told.
//!
//! A hard pull is no proof. Rusted steel nails held half as hard again as new ones before decay
//! took the wood, and were no sounder for it.
//!
//! Brass and its like lose their zinc and keep their diameter, and so does anything found pink.
//! Of them a gauge says nothing, unless it says that they are thin as well.
//!
//! **Limits.** `section lost for stop` a half; `section lost for mend` a quarter; `diameter lost for
//! watch` a tenth. No published share is known for plank fastenings: the quarter and the tenth
//! are the custom of yards, the half a choice made here.
//!
//! **Severity.** Stop or mend by these limits, stop in wet zones only (underwater, wind and water,
//! deck). Watch by a tenth of the diameter; where one was found wasted or necked and nobody
//! measured it; where the gauge says nothing; and for the rest of a set in a zone where those drawn
//! were found wasted or measured thin. Those speak for where they stood. They are a reason to draw
//! more, and not a verdict on the rest: a hull of old galvanised nails is told what to draw.
//!
//! Where rates are published for the metal, a finding adds how long it may take to the next limit.
//! They are rates of bare metal in sea water or sea air; wood shields a shank and keeps it wet, and
//! a crevice or a couple is quicker. It is a range and never a promise.
//!
//! **Sources.** Shares by diameter: derived from the building standard's withdrawal and from
//! mechanics; the cube is from memory. Wastage at mid-length with the head looking fine: US Army TB
//! 55-1900-201-45/1, 2-8c. Rusted nails: J. Wood Sci. Rates: Corus 2001, Defence Standard 01/2,
//! Tuthill 1987; of silicon bronze and of steel's early years, from memory.
//!
//! **What to do.** Measure at the thinnest place of the plain shank: the root of a screw's thread is
//! thin when new, and would be taken for wear. Renew what is wasted with the others of its run, and
//! draw more of the set near it. Of brass look at the colour, and bend one until it snaps.

use std::collections::BTreeMap;

use crate::audit::alike::Alike;
use crate::audit::{Hits, Rule, Saying, Severity, Survey, wear};
use crate::hull::{CrossingId, HoleNumber};
use crate::joint::wastage::{Duty, Left, RUST_GRIPS, Remains, Years, rests_on, years_to_lose_bare};
use crate::joint::{Size, Zone, judge, limits};
use crate::record::{Drawn, FasteningId, Found, Hole, HoleState, is_wasted};
use crate::tables::{Basis, Status};
use crate::units::Length;

pub(in crate::audit) const RULE: Rule = Rule {
    name: "wasted",
    file: include_str!("wasted.rs"),
    limits: &[
        limits::SECTION_STOP,
        limits::SECTION_MEND,
        limits::DIAMETER_WATCH,
    ],
    sources: &[
        Duty::Pull.basis(),
        Duty::Section.basis(),
        Duty::Bending.basis(),
        RUST_GRIPS,
        Basis::on("TB201", Status::Read, "2-8c, wasted mid-length"),
        Basis::on("CORUS", Status::Read, "rates of steel"),
        Basis::on("DS012", Status::Transcribed, "rates in sea water"),
        Basis::on("TUT87", Status::Read, "rates of copper alloys"),
        Basis::on("LaQue", Status::Memory, "early steel, silicon bronze"),
    ],
    check,
};

/// What is to be said of a fastening.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Case {
    /// It was measured, and has lost too much.
    Thin(Severity),
    /// It was measured and found pink.
    Pink,
    /// It was measured, and keeps its diameter as it weakens.
    Keeps,
    /// It was measured, and nobody knows what it was.
    NoSize,
    /// It was found to have lost metal, and not measured.
    NotMeasured,
    /// Others of its set were drawn and had lost metal.
    AsDrawn,
}

/// What a measured fastening has left.
#[derive(Clone, Copy)]
struct Worn {
    measured: Length,
    left: Left,
    /// Whether it may be less.
    at_most: bool,
}

/// Fastenings of one description in one zone of which the same is to be said.
#[derive(Default)]
struct Group<'s> {
    at: Vec<&'s Alike>,
    /// What the worst of them has left.
    worst: Option<Worn>,
}

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    let drawn = survey.looks.drawn(survey.hull);
    let mut groups: BTreeMap<(Case, FasteningId, Zone), Group<'_>> = BTreeMap::new();
    for (at, alike) in survey.alike() {
        let (id, zone) = (at.crossing.id, at.crossing.zone);
        for (number, hole) in survey.state.numbered(id) {
            let of_set = drawn.get(&(hole.fastening, zone));
            let Some((case, worn)) = case(survey, id, number, hole, zone, of_set) else {
                continue;
            };
            let group = groups.entry((case, hole.fastening, zone)).or_default();
            group.at.push(alike);
            let both = group.worst.into_iter().chain(worn);
            group.worst =
                both.min_by(|one, other| one.left.diameter().total_cmp(&other.left.diameter()));
        }
    }
    for ((case, fastening, zone), group) in groups {
        let about = About {
            survey,
            fastening,
            zone,
        };
        let said = match (case, group.worst) {
            (Case::Thin(severity), Some(worn)) => about.thin(severity, worn),
            (Case::AsDrawn, _) => about.as_drawn(drawn.get(&(fastening, zone))),
            _ => about.unjudged(case),
        };
        let each = group.at.iter().flat_map(|alike| &alike.all);
        hits.say(said, each.map(|id| (*id, 1)));
    }
}

/// What is to be said of the fastening in a hole, with what it has left.
fn case(
    survey: &Survey<'_>,
    id: CrossingId,
    number: HoleNumber,
    hole: &Hole,
    zone: Zone,
    of_set: Option<&Drawn>,
) -> Option<(Case, Option<Worn>)> {
    let pink = hole.found.each().any(|found| found == Found::Pink);
    if pink && hole.state() == HoleState::Unsound && survey.state.diameter(id, number).is_some() {
        return Some((Case::Pink, None));
    }
    if !hole.is_relied_on() {
        return None;
    }
    let Some(measured) = survey.state.diameter(id, number) else {
        let thin = of_set.is_some_and(|drawn| drawn_thin(survey, hole.fastening, drawn));
        return match (is_wasted(hole.found), thin) {
            (true, _) => Some((Case::NotMeasured, None)),
            (false, true) => Some((Case::AsDrawn, None)),
            (false, false) => None,
        };
    };
    let Some(remains) = survey.remains(id, number, hole) else {
        return Some((Case::NoSize, None));
    };
    let left = wear::at_most(remains);
    let at_most = matches!(remains, Remains::AtMost(_));
    match Severity::of(judge::wasted(left, zone.is_wet(), survey.limits).verdict) {
        Some(severity) => Some((
            Case::Thin(severity),
            Some(Worn {
                measured,
                left,
                at_most,
            }),
        )),
        None if at_most => Some((Case::Keeps, None)),
        None => None,
    }
}

/// Whether what was drawn of a set gives reason to look at the rest.
fn drawn_thin(survey: &Survey<'_>, fastening: FasteningId, drawn: &Drawn) -> bool {
    let new = survey
        .book
        .fastening(fastening)
        .size
        .and_then(Size::diameter);
    let left = drawn
        .thinnest
        .zip(new)
        .and_then(|(is, was)| Left::of(is, was));
    let thin = |left| judge::wasted(left, false, survey.limits).verdict > judge::Verdict::Ok;
    drawn.wasted > 0 || left.is_some_and(thin)
}

/// One description of fastening in one zone.
struct About<'s> {
    survey: &'s Survey<'s>,
    fastening: FasteningId,
    zone: Zone,
}

impl About<'_> {
    fn set(&self) -> &str {
        let fastening = self.survey.book.fastening(self.fastening);
        self.survey.book.set_name(fastening.set)
    }

    /// Its diameter when new.
    fn made(&self) -> Option<Length> {
        self.survey.book.fastening(self.fastening).size?.diameter()
    }

    fn thin(&self, severity: Severity, worn: Worn) -> Saying {
        let Worn {
            measured,
            left,
            at_most,
        } = worn;
        let kind = self.survey.book.fastening(self.fastening).kind;
        let pull = Duty::pull_of(kind).map(|duty| left.share(duty));
        let (section, bending) = (left.share(Duty::Section), left.share(Duty::Bending));
        let most = if at_most { "at most " } else { "" };
        let new = self.made().unwrap_or_default();
        let says = format!(
            "`{}` down to {} of {}: {most}{}{} of shear and tension, {} of bending left",
            self.set(),
            self.survey.shown(measured),
            self.survey.shown(new),
            pull.map_or(String::new(), |pull| format!(
                "{} of withdrawal, ",
                percent(pull)
            )),
            percent(section),
            percent(bending),
        );
        let to_go = self.to_next(severity, left);
        let when = to_go.map_or(String::new(), |(years, grade, rests_on)| {
            format!("; it may be {grade} in {years}: {rests_on}, never a promise")
        });
        let remedy = match severity {
            Severity::Watch => format!("measure it again next haul-out{when}"),
            Severity::Stop | Severity::Mend => {
                format!("renew it and those of its run, and draw more of the set{when}")
            }
        };
        let saying = Saying::new(severity, says, remedy)
            .figure("diameter_mm", measured.mm())
            .figure("new_diameter_mm", new.mm())
            .figure("shear_and_tension_left", section)
            .figure("bending_left", bending);
        let saying = match pull {
            Some(pull) => saying.figure("withdrawal_left", pull),
            None => saying,
        };
        match to_go.map(|(years, ..)| (years.soonest, years.latest)) {
            Some((soonest, Some(latest))) => saying
                .figure("next_limit_soonest_years", soonest)
                .figure("next_limit_latest_years", latest),
            Some((soonest, None)) => saying.figure("next_limit_soonest_years", soonest),
            None => saying,
        }
    }

    /// How long to the next limit, which that is, and by what rates.
    fn to_next(
        &self,
        severity: Severity,
        left: Left,
    ) -> Option<(Years, &'static str, &'static str)> {
        let (limit, grade) = match severity {
            Severity::Watch => (limits::SECTION_MEND, "to be mended"),
            Severity::Mend if self.zone.is_wet() => (limits::SECTION_STOP, "a stop"),
            Severity::Mend | Severity::Stop => return None,
        };
        let lost = Duty::Section.loss_keeping(1.0 - self.survey.limits.bound(limit).share());
        let share = lost - (1.0 - left.diameter());
        let metal = self.survey.book.fastening(self.fastening).metal?;
        let salt = self.survey.hull.water.is_salt();
        let forecasts = years_to_lose_bare(share, metal, self.made()?, self.zone, salt);
        Some((Years::span(&forecasts)?, grade, rests_on(&forecasts)))
    }

    fn as_drawn(&self, drawn: Option<&Drawn>) -> Saying {
        let drawn = drawn.copied().unwrap_or_default();
        let mut says = format!("`{}`, {}: {} drawn", self.set(), self.zone, drawn.count);
        if drawn.wasted > 0 {
            says += &format!(", {} found wasted or necked", drawn.wasted);
        }
        if let (Some(thinnest), Some(new)) = (drawn.thinnest, self.made()) {
            let (thinnest, new) = (self.survey.shown(thinnest), self.survey.shown(new));
            says += &format!(", the thinnest measured {thinnest} of {new}");
        }
        Saying::new(
            Severity::Watch,
            says,
            "draw and measure more of this set there; those drawn do not prove the rest",
        )
        .figure("drawn", drawn.count as f64)
        .figure("found_wasted", drawn.wasted as f64)
    }

    fn unjudged(&self, case: Case) -> Saying {
        let set = self.set();
        let (says, remedy) = match case {
            Case::Pink => (
                format!(
                    "`{set}` is pink, and keeps its diameter as it weakens: no gauge judges it"
                ),
                "draw one and bend it until it snaps",
            ),
            Case::Keeps => (
                format!(
                    "`{set}` was measured, but loses its zinc and keeps its diameter: no gauge judges it"
                ),
                "look at its colour, and draw one and bend it until it snaps",
            ),
            Case::NoSize => (
                format!("`{set}` was measured, but its diameter when new is not known"),
                "write its size in hull.yaml",
            ),
            Case::NotMeasured | Case::Thin(_) | Case::AsDrawn => (
                format!("`{set}` was found wasted or necked, and not measured"),
                "measure it at its thinnest on the plain shank, and log it with `measured`",
            ),
        };
        Saying::new(Severity::Watch, says, remedy)
    }
}

/// A share in whole percent.
fn percent(share: f64) -> String {
    format!("{:.0} %", share * 100.0)
}
