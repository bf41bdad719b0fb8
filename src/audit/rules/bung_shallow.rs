//! # bung-shallow
//!
//! **Looks for** bungs too shallow to stay in, over any kind of fastening.
//!
//! **Why.** A bung holds by the glue on its sides. Too little of it and it springs out, or chips when
//! she is faired, and water lies on the head.
//!
//! **Limits.** `least bung depth` 1/8 in.
//!
//! **Severity.** Watch. Only where a whole fastening stands and the bung's depth is known.
//!
//! **Sources.** *Barnacle Bill*, February 2016: at least 1/8 in into the hole (read; of fittings).
//!
//! **What to do.** Look which of them are proud or gone. Where one is out, set the fastening deeper
//! if the plank allows it, or close the hole with stopping.

use crate::audit::situation::{self, Situation};
use crate::audit::{Hits, Rule, Saying, Severity, Survey};
use crate::joint::{judge, limits};
use crate::tables::{Basis, Status};

pub(in crate::audit) const RULE: Rule = Rule {
    name: "bung-shallow",
    file: include_str!("bung_shallow.rs"),
    limits: &[limits::BUNG_LEAST],
    sources: &[Basis::on("Barnacle Bill", Status::Read, "of fittings")],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    situation::each(survey, hits, judged);
}

fn judged(of: &Situation<'_>) -> Option<Saying> {
    let depth = of.bung_depth()?;
    let severity = Severity::of(judge::bung_shallow(depth, of.survey.limits).verdict)?;
    let says = format!("bung only {} deep", of.shown(depth));
    let remedy = "look which are proud or gone; set those deeper, or stop the holes";
    Some(Saying::new(severity, says, remedy).figure("bung_depth_mm", depth.mm()))
}
