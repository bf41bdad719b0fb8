//! # bung-small
//!
//! **Looks for** bungs smaller than the head under them, over wood screws, and smaller than the
//! shank under them, over any other kind.
//!
//! **Why.** A head drawn into a hole too small for it crushes the hole's edge, or sits on the
//! shoulder and holds the bung off. A bung no wider than the head does not close the bruise.
//!
//! Heads vary: the standard gives each gauge a largest and a smallest. Nos. 22 and 26 have none
//! published, and of them and of all other kinds only this is certain: no fastening goes into a
//! hole narrower than its own shank.
//!
//! **Limits.** `bung under the head` 1/64 in under the largest head; a choice made here. The smallest
//! head is the standard's own.
//!
//! **Severity.** Mend under the smallest head the standard allows, or under the shank: no such fastening goes in, so
//! either the hole is bruised or the record is wrong. Watch under the largest by more than the limit. Only
//! where a whole fastening stands.
//!
//! **Sources.** ASME B18.6.1, heads (public transcription). Herreshoff screw table, bungs (public
//! transcription); that its bungs are no smaller than the heads is derived.
//!
//! **What to do.** Take one bung out and measure the hole; correct the record where it is wrong. Else
//! bore for the next size of bung when the screw is drawn.

use crate::audit::situation::{self, Situation};
use crate::audit::{Hits, Rule, Saying, Severity, Survey};
use crate::joint::{Plug, judge, limits};
use crate::tables::{Basis, Status};
use crate::units::Length;

pub(in crate::audit) const RULE: Rule = Rule {
    name: "bung-small",
    file: include_str!("bung_small.rs"),
    limits: &[limits::BUNG_UNDER_HEAD],
    sources: &[
        Basis::on("B18", Status::Transcribed, "heads"),
        Basis::on(
            "HST",
            Status::Derived,
            "its bungs are no smaller than the heads",
        ),
    ],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    situation::each(survey, hits, judged);
}

fn judged(of: &Situation<'_>) -> Option<Saying> {
    let Plug::Bung(bung) = of.fastening.plug else {
        return None;
    };
    let Some(head) = of.screw().and_then(|screw| screw.head.as_ref()) else {
        return under_shank(of, bung.diameter);
    };
    let judged = judge::bung_diameter(bung.diameter, head, of.survey.limits);
    let severity = Severity::of(judged.verdict)?;
    let across = of.shown(bung.diameter);
    let says = match (severity, head.smallest) {
        (Severity::Mend, Some(smallest)) => {
            format!(
                "{across} bung over a head of at least {}",
                of.shown(smallest)
            )
        }
        _ => format!(
            "{across} bung over a head of up to {}",
            of.shown(head.largest)
        ),
    };
    let remedy = match severity {
        Severity::Watch => "bore for the next size of bung when it is drawn",
        Severity::Stop | Severity::Mend => {
            "take one bung out and measure; bore those that are so for the next size"
        }
    };
    let saying = Saying::new(severity, says, remedy)
        .figure("bung_mm", bung.diameter.mm())
        .figure("head_mm", head.largest.mm());
    Some(saying)
}

/// A bung over a head that nothing is published of.
fn under_shank(of: &Situation<'_>, bung: Length) -> Option<Saying> {
    let shank = of.fastening.size?.diameter()?;
    if bung >= shank {
        return None;
    }
    let says = format!(
        "{} bung over a shank of {}",
        of.shown(bung),
        of.shown(shank)
    );
    let remedy = "take one bung out and measure; correct the record or the hole";
    let saying = Saying::new(Severity::Mend, says, remedy)
        .figure("bung_mm", bung.mm())
        .figure("shank_mm", shank.mm());
    Some(saying)
}
