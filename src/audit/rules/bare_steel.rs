//! # bare-steel
//!
//! **Looks for** fastenings of steel that was supplied without zinc. Galvanised steel is not told
//! here, nor is wrought iron, which is not steel and rusts more slowly.
//!
//! **Why.** Bare steel rusts from the day it is driven. In wet wood it wastes along the shank,
//! unseen, widens its hole and sickens the wood round it.
//!
//! **Limits.** None.
//!
//! **Severity.** Mend where it is wet (under water, about the waterline, in the deck) and counted
//! on to hold; watch elsewhere, and where it is left in or was found unsound. Broken pieces are
//! told by `stub-left`.
//!
//! **Sources.** USCG NVIC 7-95, 3-E: ferrous fastenings are to be hot-dip galvanised (public
//! transcription). Baker on steel in wet wood: the shank wastes unseen and the hole grows (read,
//! abstracts).
//!
//! **What to do.** Draw some and measure them at the joint of plank and frame. Renew: in a wet place
//! not one here and there, for new bronze beside old steel makes a couple.

use crate::audit::situation::{self, Situation};
use crate::audit::{Hits, Rule, Saying, Severity, Survey};
use crate::joint::judge;
use crate::tables::{Basis, Status};

pub(in crate::audit) const RULE: Rule = Rule {
    name: "bare-steel",
    file: include_str!("bare_steel.rs"),
    limits: &[],
    sources: &[
        Basis::on("NVIC", Status::Transcribed, "3-E"),
        Basis::on("BAK", Status::Read, "abstracts"),
    ],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    situation::each(survey, hits, judged);
}

fn judged(of: &Situation<'_>) -> Option<Saying> {
    let metal = of.fastening.metal?;
    let verdict = judge::bare_steel(metal, of.zone, of.is_relied_on());
    let severity = Severity::of(verdict)?;
    let place = if of.zone.is_wet() { " in wet wood" } else { "" };
    let standing = of.standing();
    Some(Saying::new(
        severity,
        format!("{} without zinc{place}{standing}", metal.name),
        "draw some and measure them where plank and frame meet; renew them",
    ))
}
