//! # metal-unknown
//!
//! **Looks for** fastenings whose metal nobody has told: `unknown`, left out, or a guess with a
//! question mark like `brass?`.
//!
//! **Why.** What eats what, what turns pink and how long a fastening lasts all hang on its metal.
//! No rule here guesses it: until it is known, `mixed-metals` and its like are silent about these
//! fastenings, and their silence proves nothing.
//!
//! **Limits.** None.
//!
//! **Severity.** Mend in wet zones (under water, about the waterline, in the deck), whether they are
//! counted on or left in, for what is left in can eat its neighbours as well; watch in dry ones.
//! A trunnel is of wood and is not told.
//!
//! **Sources.** Common practice, no source.
//!
//! **What to do.** Draw one of the set and look: a magnet finds iron and steel, a file shows brass
//! yellow and bronze brown-red. Write the metal in hull.yaml under that set; one look tells all of
//! it.

use crate::audit::situation::{self, Situation};
use crate::audit::{Hits, Rule, Saying, Severity, Survey};
use crate::tables::Basis;

pub(in crate::audit) const RULE: Rule = Rule {
    name: "metal-unknown",
    file: include_str!("metal_unknown.rs"),
    limits: &[],
    sources: &[Basis::practice("")],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    situation::each(survey, hits, judged);
}

fn judged(of: &Situation<'_>) -> Option<Saying> {
    let fastening = of.fastening;
    if fastening.metal.is_some() || !fastening.kind.is_metal() {
        return None;
    }
    let severity = match of.zone.is_wet() {
        true => Severity::Mend,
        false => Severity::Watch,
    };
    let set = of.survey.book.set_name(fastening.set);
    Some(Saying::new(
        severity,
        format!("the metal of `{set}` is not known"),
        "draw one and look at it; write its metal in hull.yaml or with `driven`",
    ))
}
