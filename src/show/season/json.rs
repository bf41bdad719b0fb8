//! A season of work as JSON, format 1.

use serde_json::{Value, json};

use super::{Judged, Moved, Summary};
use crate::hull::fold;
use crate::show::sample::groups_json;
use crate::show::{known, work};

/// The summary of a season for other programs.
pub fn json(summary: &Summary<'_>) -> Value {
    let survey = summary.last.survey;
    let hands: Vec<Value> = summary
        .hands()
        .iter()
        .map(|(name, hand)| {
            let Moved {
                pulled,
                broken,
                driven,
            } = hand.moved;
            json!({
                "by": name, "days": hand.days.len(), "entries": hand.entries,
                "pulled": pulled, "broken": broken, "driven": driven,
            })
        })
        .collect();
    let moved: Vec<Value> = summary
        .moved()
        .iter()
        .map(|([metal, kind, size], moved)| {
            let Moved {
                pulled,
                broken,
                driven,
            } = moved;
            json!({
                "metal": metal, "kind": kind, "size": size,
                "pulled": pulled, "broken": broken, "driven": driven,
            })
        })
        .collect();
    let found: serde_json::Map<String, Value> = summary
        .found()
        .iter()
        .map(|(found, count)| (found.word().to_owned(), (*count).into()))
        .collect();
    let done = work::json(survey.hull, survey.book, summary.done);
    json!({
        "format": 1,
        "boat": survey.hull.boat,
        "season": summary.season.to_string(),
        "first": summary.season.first().to_string(),
        "last": summary.season.last().to_string(),
        "as_of": summary.until().to_string(),
        "as_known": known::json(survey.book),
        "place": summary.place.map(ToString::to_string),
        "days": summary.days(),
        "entries": summary.done.entries.len(),
        "by": hands,
        "moved": moved,
        "done": done.get("work"),
        "struck": done.get("struck"),
        "found": found,
        "samples": groups_json(&summary.sample),
        "open": {
            "place": fold(survey.hull, summary.open()).to_string(),
            "crossings": summary.open().len(),
            "planks_off": fold(survey.hull, summary.off()).to_string(),
            "bungs_missing": summary.last.outcome.standing.bungs_missing,
        },
        "audits": [judged(&summary.first), judged(&summary.last)],
    })
}

fn judged(judged: &Judged<'_>) -> Value {
    let outcome = judged.outcome;
    json!({
        "as_of": judged.survey.day.to_string(),
        "verdict": outcome.verdict.words(),
        "counts": {
            "stop": outcome.counts.stop,
            "mend": outcome.counts.mend,
            "watch": outcome.counts.watch,
            "accepted": outcome.counts.accepted,
        },
        "fastenings": outcome.coverage.fastenings,
        "looked_at": outcome.coverage.looked_at,
    })
}
