//! The answer: one fastening in its seat, with everything that follows from it.

use super::alternatives::{self, Alternative};
use super::{Ask, Check, Refusal, Spread, Wanted, check, driven, rule, setting, words};
use crate::joint::{
    self, Bung, Dowel, Hold, Holes, Kind, Kit, Lateral, Plug, Push, Seat, Size, Woods, bung,
};
use crate::tables::{Screw, Status, WireSystem, bending_yield};
use crate::units::{Length, Stress, Units};

/// Which screw, drills and bung, how it sits, what it holds, and what is to be said of it.
#[derive(Clone, Debug)]
pub struct Answer {
    /// What it is, with its length.
    pub size: Size,
    /// As it is asked for over the counter.
    pub label: String,
    /// Its diameter.
    pub diameter: Length,
    /// Where it sits.
    pub seat: Seat,
    /// Whether it is made in that length; `None` where nothing is published.
    pub stock: Option<bool>,
    /// What goes over the head.
    pub plug: Plug,
    /// What to bore.
    pub holes: Holes,
    /// What it holds, pulled straight out.
    pub hold: Hold,
    /// What it bears, pushed sideways.
    pub lateral: Lateral,
    /// Everything it was weighed by.
    pub checks: Vec<Check>,
    /// What else would do.
    pub alternatives: Vec<Alternative>,
    /// Where in the crossing they go; `None` where plank or member is not known well enough.
    pub spread: Option<Spread>,
    /// What should be known of how the answer was come by.
    pub remarks: Vec<String>,
    /// What it rests on.
    pub sources: Vec<String>,
}

/// A fastening with its length, as it is asked for over the counter: `No. 14 x 1-3/4 in`, `8 SWG x
/// 3 in`. Metric screws are sold by the millimetre, other gauges by the inch, whatever is shown
/// beside them; the rest is as it is shown.
pub(super) fn label(size: Size, units: Units) -> String {
    let length = size.length();
    match size {
        Size::Screw { screw, .. } => {
            let units = match screw.gauge {
                Some(_) => Units::Inch,
                None => Units::Metric,
            };
            format!("{} x {}", screw.name(), length.shown(units))
        }
        Size::Wire { system, number, .. } => {
            let system = match system {
                WireSystem::Swg => "SWG",
                WireSystem::Bwg => "BWG",
            };
            format!("{number} {system} x {}", length.shown(Units::Inch))
        }
        Size::Plain { diameter, .. } => {
            format!("{} x {}", diameter.shown(units), length.shown(units))
        }
    }
}

/// Answers a question.
///
/// # Errors
/// Everything in the question that makes no sense, by the name of its option.
pub fn answer(ask: &Ask) -> Result<Answer, Vec<Refusal>> {
    let mut refusals = ask.refusals();
    if !refusals.is_empty() {
        return Err(refusals);
    }
    if ask.kind != Kind::WoodScrew {
        return driven::answer(ask).map_err(|refusal| vec![refusal]);
    }
    let wanted = rule::wanted(ask);
    let screw = ask.fixed.screw.or(wanted.map(|wanted| wanted.screw));
    let length = ask.fixed.length.or(wanted.map(|wanted| wanted.length));
    let (Some(screw), Some(length)) = (screw, length) else {
        refusals.push(words::no_row(ask));
        return Err(refusals);
    };
    let wanted = wanted.as_ref();
    let fitted = Fitted::new(ask, wanted, screw, length);
    let kit = Kit {
        drills: &ask.drills,
        taper: ask.taper,
        lead_hole: ask.lead_hole,
    };
    let (seat, plug) = (&fitted.seat, &fitted.plug);
    let holes = joint::bore(screw, seat, plug, ask.member_wood, ask.metal, kit);
    let mut checks = fitted.checks(ask, wanted);
    let fits = alternatives::fits(&checks);
    let alternatives = alternatives::around(ask, wanted, &fitted);
    let mut remarks = words::remarks(ask, wanted, &fitted);
    if !fits {
        remarks.insert(0, words::misfit(&checks, &alternatives));
        if !alternatives.iter().any(Alternative::fits) {
            remarks.insert(1, words::why_nothing(ask, wanted, &fitted));
        }
    }
    checks.extend(setting::checks(ask, screw.shank, seat));
    let (hold, lateral) = (fitted.hold(ask), fitted.lateral(ask));
    Ok(Answer {
        size: Size::Screw { screw, length },
        label: label(Size::Screw { screw, length }, ask.units),
        diameter: screw.shank,
        spread: Spread::of(ask, screw.shank),
        stock: alternatives::in_stock(screw, length),
        sources: words::sources(ask, screw, &holes, &hold, &lateral),
        holes,
        hold,
        lateral,
        checks,
        alternatives,
        remarks,
        seat: fitted.seat,
        plug: fitted.plug,
    })
}

/// A screw set in the plank and member of a question.
pub(super) struct Fitted {
    pub(super) screw: &'static Screw,
    pub(super) seat: Seat,
    pub(super) plug: Plug,
}

impl Fitted {
    pub(super) fn new(
        ask: &Ask,
        wanted: Option<&Wanted>,
        screw: &'static Screw,
        length: Length,
    ) -> Self {
        let head_depth = ask.head_depth();
        let plug = if ask.is_bunged() {
            bung_over(ask, wanted, screw).map_or(Plug::Unknown, |diameter| {
                Plug::Bung(Bung {
                    diameter,
                    depth: Some(head_depth),
                })
            })
        } else if head_depth > Length::ZERO {
            Plug::Stopping
        } else {
            Plug::None
        };
        Self {
            screw,
            seat: Seat {
                plank: ask.plank,
                head_depth,
                length,
                member: ask.member,
                head_height: screw.head.as_ref().and_then(|head| head.height),
                thread: screw.thread_length(length),
            },
            plug,
        }
    }

    /// What it holds.
    pub(super) fn hold(&self, ask: &Ask) -> Hold {
        let thread = self.seat.thread_in_member();
        let (wood, grain) = (ask.member_wood, ask.grain);
        joint::hold(self.screw, ask.metal, thread, wood, grain, ask.zone)
    }

    /// What it bears sideways.
    fn lateral(&self, ask: &Ask) -> Lateral {
        let screw = self.screw;
        sideways(ask, screw.shank, &self.seat, |stress| {
            Dowel::screw(screw, stress)
        })
    }

    /// Everything another screw might do better.
    pub(super) fn checks(&self, ask: &Ask, wanted: Option<&Wanted>) -> Vec<Check> {
        check::of_screw(ask, wanted, self.screw, &self.seat, &self.plug)
    }
}

/// What a fastening of this diameter bears sideways in its seat.
pub(super) fn sideways(
    ask: &Ask,
    diameter: Length,
    seat: &Seat,
    dowel: impl FnOnce(Stress) -> Result<Dowel, String>,
) -> Lateral {
    let of_metal = |metal| Some((metal, bending_yield(metal, diameter)?));
    let listed = ask.metal.and_then(of_metal);
    let Some(stress) = ask.bending_yield.or(listed.map(|(_, (stress, _))| stress)) else {
        let metal = ask.metal.map_or("an unsettled metal", |metal| metal.name);
        return Lateral::none(format!(
            "no bending yield is on record for {metal} of this size, so no sideways strength is worked; give --bending-yield to have it"
        ));
    };
    let woods = Woods {
        plank: ask.plank_wood,
        member: ask.member_wood,
        grain: ask.grain,
        zone: ask.zone,
        push: Push::default(),
    };
    let mut lateral = match dowel(stress) {
        Ok(dowel) => joint::lateral(&dowel, seat, &woods),
        Err(why) => Lateral::none(why),
    };
    if let (Some(_), None, Some((metal, (_, basis)))) = (lateral.modes, ask.bending_yield, listed)
        && basis.status == Status::Derived
    {
        lateral.notes.push(format!(
            "sideways with {stress} bending yield for {}, derived: the standard has it for carbon steel only",
            metal.name
        ));
    }
    lateral
}

/// The bung: the one that is fixed, else the rule's for its own screw, else the screw's.
fn bung_over(ask: &Ask, wanted: Option<&Wanted>, screw: &Screw) -> Option<Length> {
    let rules_own = wanted
        .filter(|wanted| wanted.screw == screw)
        .and_then(|wanted| wanted.bung);
    ask.fixed
        .bung
        .or(rules_own)
        .or_else(|| bung::diameter_for(screw, &ask.limits))
}
