//! # sister-short
//!
//! **Looks for** sisters that end too near the damage they are beside.
//!
//! **Why.** A sister takes over from the frame by its fastenings past the damage. Where it ends
//! close to a break the frame bends on at its end, and breaks there next.
//!
//! **Limits.** `sister beyond the damage` 18 in, or `planks past the damage` 4: the source says at
//! least 18 in, or about four plank widths, and either is enough here. Measured along the frame by
//! the widths of the strakes that the sister lies under past the damage; where a width is not known
//! only the planks are counted. A sister that goes as far as the frame itself is long enough.
//!
//! Damage is where a fastening of the frame was found `frame split` or `wood soft` in the log, and
//! the frame not renewed since; strakes side by side are one damage. A sister is judged by the
//! damage it lies beside. One beside no damage in this record is passed over: nobody says what it
//! is for.
//!
//! **Severity.** Mend.
//!
//! **Sources.** USCG NVIC 7-95, 5-G, by public transcription. US Army TB 55-1900-201-45/1, 2-15: as
//! long as possible, no repair for decay, a short partial sister only for a time.
//!
//! **What to do.** Put in a longer sister. A frame that is soft and not only split is renewed: the
//! rot goes on beside the sister.

use crate::audit::sisters::Lies;
use crate::audit::{Hits, Rule, Saying, Severity, Survey, limits};
use crate::tables::{Basis, Status};
use crate::units::Length;

pub(in crate::audit) const RULE: Rule = Rule {
    name: "sister-short",
    file: include_str!("sister_short.rs"),
    limits: &[limits::BEYOND_DAMAGE, limits::PLANKS_PAST],
    sources: &[
        Basis::on("NVIC", Status::Transcribed, "5-G"),
        Basis::on("TB201", Status::Read, "2-15a to 2-15d"),
    ],
    check,
};

/// Which way along the frame, by the order of strakes.
#[derive(Clone, Copy)]
enum Way {
    Down,
    Up,
}

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    for ((_, number), frame) in survey.sistered() {
        let lies: Vec<usize> = frame.frame.keys().copied().collect();
        let damaged: Vec<bool> = frame
            .frame
            .values()
            .map(|id| survey.is_damaged(*id))
            .collect();
        for sister in frame.sisters.values() {
            for (from, to) in runs(&damaged) {
                let run = lies.get(from..=to).unwrap_or_default();
                if !run.iter().any(|strake| sister.contains_key(strake)) {
                    continue;
                }
                let before = lies.get(..from).unwrap_or_default();
                let after = lies.get(to + 1..).unwrap_or_default();
                one_way(survey, hits, number, sister, before, Way::Down, run);
                one_way(survey, hits, number, sister, after, Way::Up, run);
            }
        }
    }
}

/// Runs of `true`, each from its first to its last.
fn runs(damaged: &[bool]) -> Vec<(usize, usize)> {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for (at, _) in damaged.iter().enumerate().filter(|(_, damaged)| **damaged) {
        match runs.last_mut().filter(|(_, last)| last + 1 == at) {
            Some((_, last)) => *last = at,
            None => runs.push((at, at)),
        }
    }
    runs
}

/// Judges how far a sister goes past the damage one way, over the strakes `past` it that the
/// frame lies under.
fn one_way(
    survey: &Survey<'_>,
    hits: &mut Hits<'_>,
    number: u16,
    sister: &Lies,
    past: &[usize],
    way: Way,
    damage: &[usize],
) {
    let under = |strake: &&usize| sister.contains_key(*strake);
    let reached: Vec<usize> = match way {
        Way::Down => past.iter().rev().take_while(under).copied().collect(),
        Way::Up => past.iter().take_while(under).copied().collect(),
    };
    let width = reached.iter().try_fold(Length::ZERO, |sum, strake| {
        Some(sum + survey.hull.strakes().get(*strake)?.width?)
    });
    let least = survey.limits.bound(limits::BEYOND_DAMAGE).length();
    let planks = survey.limits.bound(limits::PLANKS_PAST).count() as usize;
    let whole = reached.len() == past.len();
    if whole || reached.len() >= planks || width.is_some_and(|width| width >= least) {
        return;
    }
    // Where it ends: at the last plank it reaches, or beside the damage itself.
    let beside = match way {
        Way::Down => damage.iter().find(|strake| sister.contains_key(*strake)),
        Way::Up => damage.iter().rfind(|strake| sister.contains_key(*strake)),
    };
    let Some(end) = reached
        .last()
        .or(beside)
        .and_then(|strake| sister.get(strake))
    else {
        return;
    };
    let past = match (reached.len(), width) {
        (0, _) => "not past".to_owned(),
        (_, Some(width)) => format!("{} past", survey.shown(width)),
        (1, None) => "1 plank past".to_owned(),
        (count, None) => format!("{count} planks past"),
    };
    let says = format!(
        "the sister ends {past} the damage of F{number}, under {} and under {planks} planks",
        survey.shown(least)
    );
    let saying = Saying::new(Severity::Mend, says, "put in a longer sister");
    hits.at(*end, 0, saying.figure("planks_past", reached.len() as f64));
}
