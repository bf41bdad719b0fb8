//! Samples as JSON, format 1.

use std::io::{self, Write};

use serde_json::{Value, json};

use super::Sample;
use crate::hull::{CrossingId, HoleNumber, fold, fold_holes};
use crate::sample::{Proposal, Rounds};
use crate::show::known;

/// Prints what the samples of a boat say, as JSON.
///
/// # Errors
/// When `out` fails.
pub fn read_json(out: &mut dyn Write, sample: &Sample<'_>) -> io::Result<()> {
    let report = json!({
        "format": 1,
        "boat": sample.survey.hull.boat,
        "as_of": sample.survey.day.to_string(),
        "as_known": known::json(sample.survey.book),
        "place": sample.place.map(ToString::to_string),
        "share_to_show": sample.share,
        "groups": groups_json(sample),
        "still_open": still_open(sample),
        "not_said": super::NOT_SAID,
        "sources": sources(),
    });
    writeln!(out, "{report:#}")
}

/// What is known of each zone and metal.
pub(in crate::show) fn groups_json(sample: &Sample<'_>) -> Vec<Value> {
    let confidence = sample.confidence;
    sample
        .reading
        .groups
        .iter()
        .map(|group| {
            let draw = group.draw;
            json!({
                "zone": group.zone.name(),
                "metal": group.metal.map(|metal| metal.name),
                "lot": draw.lot(),
                "pulled_random": draw.drawn(),
                "bad_random": draw.bad(),
                "bad_share_upper": draw.most_bad_share(confidence),
                "confidence": confidence.share(),
                "pulled_targeted": group.targeted.pulled,
                "bad_targeted": group.targeted.bad,
                "lot_on": group.first.map(|day| day.eve().to_string()),
                "most_bad": (draw.drawn() > 0).then(|| draw.most_bad(confidence)),
                "more_good": draw.more_good_to_show(sample.share, confidence),
                "untold": group.untold,
                "outside_lot": group.outside,
                "lost_otherwise": group.otherwise,
            })
        })
        .collect()
}

/// Prints what to draw, as JSON.
///
/// # Errors
/// When `out` fails.
pub fn draw_json(
    out: &mut dyn Write,
    sample: &Sample<'_>,
    proposal: &Proposal<'_>,
    seed: u32,
) -> io::Result<()> {
    let hull = sample.survey.hull;
    let picks: Vec<Value> = proposal
        .picks
        .iter()
        .map(|pick| {
            json!({
                "zone": pick.group.zone.name(),
                "metal": pick.group.metal.map(|metal| metal.name),
                "relied_on": pick.group.standing.len(),
                "wanted": pick.wanted,
                "draw": pick.holes.len(),
                "place": place(sample, &pick.holes),
                "bad_share_upper_if_good": pick.would_show,
                "lift": pick.lift.as_ref().map(|lift| json!({
                    "place": fold(hull, lift.plank.iter().copied()).to_string(),
                    "shows": lift.shows,
                })),
            })
        })
        .collect();
    let targeted: Vec<Value> = proposal
        .targeted
        .iter()
        .map(|aim| {
            json!({
                "why": aim.reason.words(),
                "relied_on": aim.there,
                "place": place(sample, &aim.holes),
                "basis": aim.reason.basis().to_string(),
            })
        })
        .collect();
    let open = fold(hull, proposal.rounds.open.iter().copied());
    let report = json!({
        "format": 1,
        "boat": sample.survey.hull.boat,
        "as_of": sample.survey.day.to_string(),
        "as_known": known::json(sample.survey.book),
        "place": sample.place.map(ToString::to_string),
        "seed": seed,
        "confidence": sample.confidence.share(),
        "groups": picks,
        "rounds": rounds(sample, &proposal.rounds),
        "open_frames": {
            "limit": proposal.rounds.limit,
            "open": proposal.rounds.open_frames,
            "place": open.to_string(),
            "at_once": proposal.rounds.at_once,
        },
        "targeted": targeted,
        "targeted_rounds": rounds(sample, &proposal.targeted_rounds),
        "still_open": still_open(sample),
        "sources": sources(),
    });
    writeln!(out, "{report:#}")
}

fn place(sample: &Sample<'_>, holes: &[(CrossingId, HoleNumber)]) -> String {
    fold_holes(sample.survey.hull, holes.iter().copied()).to_string()
}

fn rounds(sample: &Sample<'_>, rounds: &Rounds) -> Vec<String> {
    let each = rounds.each.iter();
    each.map(|holes| place(sample, holes)).collect()
}

fn still_open(sample: &Sample<'_>) -> String {
    place(sample, &sample.reading.still_open)
}

fn sources() -> Vec<String> {
    super::SOURCES
        .iter()
        .map(|(what, basis)| format!("{what}: {basis}"))
        .collect()
}
