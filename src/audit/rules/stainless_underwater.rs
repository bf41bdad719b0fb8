//! # stainless-underwater
//!
//! **Looks for** stainless steel fastenings under water, whether they are counted on or left in.
//!
//! **Why.** Stainless lives by the oxygen at its skin. In a wet hole it is shut off from it: it
//! loses its skin, pits and is eaten in the crevice between plank and frame, where nobody sees
//! it, while the head looks as new. The 316 grade lasts longer there than 304; that is no
//! approval.
//!
//! **Limits.** None.
//!
//! **Severity.** Mend where it is counted on to hold; watch where it is left in or was found
//! unsound. Broken pieces are told by `stub-left`.
//!
//! **Sources.** USCG NVIC 7-95, 3-E: below the waterline stainless corrodes very fast (public
//! transcription). Crevice rates of 304 and 316 in the naval alloy guide, Defence Standard 01/2
//! (public transcription).
//!
//! **What to do.** Draw one and look at its shank, not its head. Renew in silicon bronze or Monel,
//! or in the metal of the fastenings beside it.

use crate::audit::situation::{self, Situation};
use crate::audit::{Hits, Rule, Saying, Severity, Survey};
use crate::joint::judge;
use crate::tables::{Basis, Status};

pub(in crate::audit) const RULE: Rule = Rule {
    name: "stainless-underwater",
    file: include_str!("stainless_underwater.rs"),
    limits: &[],
    sources: &[
        Basis::on("NVIC", Status::Transcribed, "3-E"),
        Basis::on("DS012", Status::Transcribed, "crevice rates"),
    ],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    situation::each(survey, hits, judged);
}

fn judged(of: &Situation<'_>) -> Option<Saying> {
    let metal = of.fastening.metal?;
    let verdict = judge::stainless_underwater(metal, of.zone, of.is_relied_on());
    let severity = Severity::of(verdict)?;
    let standing = of.standing();
    Some(Saying::new(
        severity,
        format!("{} under water{standing}", metal.name),
        "draw one and look at its shank; renew in silicon bronze or Monel",
    ))
}
