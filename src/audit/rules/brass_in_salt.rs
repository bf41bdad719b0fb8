//! # brass-in-salt
//!
//! **Looks for** brass fastenings where salt or brackish water wets them: under water, about the
//! waterline, in the deck. Manganese bronze is a brass by its zinc and is told too.
//!
//! **Why.** Salt water takes the zinc out of brass. What is left is pink, weak copper of the same
//! size: the screw looks whole, measures whole and breaks under the driver. Its diameter proves
//! nothing.
//!
//! **Limits.** None.
//!
//! **Severity.** Mend where it is counted on to hold; watch where it is left in or was found
//! unsound. Broken pieces are told by `stub-left`.
//!
//! **Sources.** USCG NVIC 7-95, 3-E: brass is not acceptable in salt water (public transcription).
//! The yacht galvanic chart: metals with zinc in them are never to be used under water (read; a
//! word is missing in print). That over about 15 % of zinc is too much is from memory.
//!
//! **What to do.** Draw some and snap one: look at the colour of the break, and log `pink` where it
//! is. Renew in silicon bronze.

use crate::audit::situation::{self, Situation};
use crate::audit::{Hits, Rule, Saying, Severity, Survey};
use crate::joint::judge;
use crate::tables::{Basis, Status};

pub(in crate::audit) const RULE: Rule = Rule {
    name: "brass-in-salt",
    file: include_str!("brass_in_salt.rs"),
    limits: &[],
    sources: &[
        Basis::on("NVIC", Status::Transcribed, "3-E"),
        Basis::on("YGS", Status::Read, "a word is missing in print"),
        Basis::on("corrosion texts", Status::Memory, "over about 15 % of zinc"),
    ],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    situation::each(survey, hits, judged);
}

fn judged(of: &Situation<'_>) -> Option<Saying> {
    let metal = of.fastening.metal?;
    let salt = of.survey.hull.water.is_salt();
    let verdict = judge::brass_in_salt(metal, of.zone, salt, of.is_relied_on());
    let severity = Severity::of(verdict)?;
    let standing = of.standing();
    Some(Saying::new(
        severity,
        format!("{} where salt water wets it{standing}", metal.name),
        "draw some and snap one to see its colour; renew in silicon bronze",
    ))
}
