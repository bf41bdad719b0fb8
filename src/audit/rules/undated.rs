//! # undated
//!
//! **Looks for** sets of hull.yaml that have no date, wherever a whole fastening of theirs still
//! stands. Their line says `driven: unknown`.
//!
//! **Why.** Age tells when to draw some for a look. Without a date the set is taken as having been
//! there all along, whatever day is asked about.
//!
//! **Limits.** None. Any date will do, however rough: `1990s` or `before 1980`. Stubs are passed
//! over; `stub-left` tells of them.
//!
//! **Severity.** Watch.
//!
//! **Sources.** The safety alert after the *EL TORO II*: hulls over 15 years want close attention
//! to their fastenings. USCG NVIC 7-95, 4-K, from memory and not checked, counts from the driving
//! to the first look.
//!
//! **What to do.** Ask former owners and the yard, look in her papers, and write in hull.yaml as
//! much of the date as can be found.

use std::collections::BTreeMap;

use crate::audit::{Hits, Rule, Saying, Severity, Survey};
use crate::record::SetId;
use crate::tables::{Basis, Status};
use crate::units::When;

pub(in crate::audit) const RULE: Rule = Rule {
    name: "undated",
    file: include_str!("undated.rs"),
    limits: &[],
    sources: &[
        Basis::on("ELT", Status::Read, "safety alert of December 1993"),
        Basis::on("NVIC", Status::Memory, "4-K; medium confidence"),
    ],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    for (at, alike) in survey.alike() {
        let mut undated: BTreeMap<SetId, usize> = BTreeMap::new();
        for hole in at.whole() {
            let fastening = survey.fastening(hole);
            if fastening.driven == When::Unknown {
                *undated.entry(fastening.set).or_default() += 1;
            }
        }
        for (set, count) in undated {
            let saying = Saying::new(
                Severity::Watch,
                format!("`{}` has no date", survey.book.set_name(set)),
                "find out when it was driven, however roughly",
            );
            hits.at_each(&alike.all, count, saying);
        }
    }
}
