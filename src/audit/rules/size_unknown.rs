//! # size-unknown
//!
//! **Looks for** what nobody has measured and the other rules need: the size of a set, or its bung;
//! the thickness of planking; the depth of what a fastening is driven into.
//!
//! **Why.** How far a fastening reaches, what wood is under its head and whether its point is
//! through all hang on these. No rule guesses them: until they are known, `short-embedment` and its
//! like are silent there, and their silence proves nothing. It is told once a set, however many
//! planks it holds.
//!
//! **Limits.** None. A bung counts as known with both its diameter and its depth; so does
//! `stopping`, and so does `none`.
//!
//! **Severity.** Watch, for sets of metal fastenings that still stand whole. A plank or a member is
//! told only where such a fastening is counted on.
//!
//! **Sources.** Common practice, no source.
//!
//! **What to do.** Take out one bung and measure it, and draw one of the set: one tells all of it.
//! Measure planking at a skin fitting, a hood end or a plank that is off, and frames inside her.
//! Write the figures in hull.yaml.

use std::collections::BTreeMap;

use crate::audit::alike::Alike;
use crate::audit::{At, Hits, Rule, Saying, Severity, Survey};
use crate::hull::MemberKind;
use crate::joint::Plug;
use crate::record::{Fastening, SetId};
use crate::tables::Basis;

pub(in crate::audit) const RULE: Rule = Rule {
    name: "size-unknown",
    file: include_str!("size_unknown.rs"),
    limits: &[],
    sources: &[Basis::practice("")],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    // A set of the log is described anew at each entry, and told once by all that is missing.
    let mut missing: BTreeMap<SetId, Vec<&'static str>> = BTreeMap::new();
    let mut at_set: BTreeMap<SetId, Vec<(&Alike, usize)>> = BTreeMap::new();
    for (at, alike) in survey.alike() {
        let metal = |fastening: &&Fastening| fastening.kind.is_metal();
        for fastening in at.whole().map(|hole| survey.fastening(hole)).filter(metal) {
            let unknown = unknown_of(fastening);
            if unknown.is_empty() {
                continue;
            }
            let known = missing.entry(fastening.set).or_default();
            if !unknown.iter().all(|what| known.contains(what)) {
                known.extend(unknown);
                known.sort_unstable();
                known.dedup();
            }
            let places = at_set.entry(fastening.set).or_default();
            match places.last_mut() {
                Some((last, count)) if std::ptr::eq(*last, alike) => *count += 1,
                _ => places.push((alike, 1)),
            }
        }
        of_wood(survey, &at, alike, hits);
    }
    for (set, places) in at_set {
        let what = missing
            .get(&set)
            .map_or(String::new(), |what| what.join(" and "));
        let says = format!("`{}`: {what} not known", survey.book.set_name(set));
        let remedy = format!(
            "measure the {what} of one and write it in hull.yaml; nothing of its reach can be judged"
        );
        let each = places
            .iter()
            .flat_map(|(alike, count)| alike.all.iter().map(|id| (*id, *count)));
        hits.say(Saying::new(Severity::Watch, says, remedy), each);
    }
}

/// What is not known of a fastening.
fn unknown_of(fastening: &Fastening) -> Vec<&'static str> {
    let mut unknown = Vec::new();
    match fastening.plug {
        Plug::Unknown => unknown.push("bung"),
        Plug::Bung(bung) if bung.depth.is_none() => unknown.push("depth of bung"),
        _ => {}
    }
    if fastening.size.is_none() {
        unknown.push("size");
    }
    unknown
}

/// What is not known of the wood that a fastening is counted on in.
fn of_wood(survey: &Survey<'_>, at: &At<'_>, alike: &Alike, hits: &mut Hits<'_>) {
    let id = at.crossing.id;
    let count = at
        .relied_on()
        .filter(|hole| survey.fastening(hole).kind.is_metal())
        .count();
    if count == 0 {
        return;
    }
    let mut say = |what: &str| {
        let says = format!("the {what} is not known");
        let remedy = format!(
            "measure the {what} and write it in hull.yaml; nothing of the reach there can be judged"
        );
        let saying = Saying::new(Severity::Watch, says, remedy);
        hits.at_each(&alike.all, count, saying);
    };
    if survey.state.thickness(survey.hull, id).is_none() {
        say("thickness of the plank");
    }
    if survey.state.scantlings(survey.hull, id).depth.is_none() {
        say(match at.crossing.member.kind() {
            MemberKind::Butt => "thickness of the butt block",
            MemberKind::Frame | MemberKind::Beam => "moulding",
            _ => "landing depth",
        });
    }
}
