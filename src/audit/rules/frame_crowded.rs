//! # frame-crowded
//!
//! **Looks for** crossings on frames and beams where more fastenings stand, or should stand, than
//! plank and frame have room for.
//!
//! **Why.** Fastenings too near an edge split it, and two in one line of the grain split what lies
//! between them. Each refastening that leaves the old in adds holes, until frame and plank are a
//! perforated line.
//!
//! As many as hold metal at the crossing, or as many as were built there where that is more, are
//! set on a diagonal from edge to edge, no two in one grain line of the plank or of the frame. If
//! there is no such diagonal the crossing is crowded. Where sizes differ all are taken as the
//! thinnest, so what is told is told for certain. Fastenings of unknown size are not counted, and
//! where the plank's width or the frame's siding is not known, nothing is said. How the holes
//! really lie is not on record.
//!
//! **Limits.** `distance to plank edge` 3 diameters; `distance to frame edge` 1.5 diameters; `distance
//! between fastenings` 4 diameters, centre to centre. Common practice and a choice; no published figure
//! for carvel planking is known.
//!
//! **Severity.** Watch.
//!
//! **Sources.** Common practice, no source.
//!
//! **What to do.** Put no more in. When she is next refastened draw the old ones, glue in dowels and
//! bore those again; `refasten pick` with the place proposes positions. A sister frame gives fresh
//! wood.

use crate::audit::{At, Hits, Rule, Saying, Severity, Survey};
use crate::hull::MemberKind;
use crate::joint::limits;
use crate::joint::spacing::{self, Along, Room};
use crate::record::{Content, Hole};
use crate::tables::Basis;
use crate::units::Length;

pub(in crate::audit) const RULE: Rule = Rule {
    name: "frame-crowded",
    file: include_str!("frame_crowded.rs"),
    limits: &[limits::PLANK_EDGE, limits::FRAME_EDGE, limits::BETWEEN],
    sources: &[Basis::practice("")],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    for (at, alike) in survey.alike() {
        let Some(saying) = judged(survey, &at) else {
            continue;
        };
        hits.at_each(&alike.all, at.holes.len(), saying);
    }
}

fn judged(survey: &Survey<'_>, at: &At<'_>) -> Option<Saying> {
    let kind = at.crossing.member.kind();
    let on = match kind {
        MemberKind::Frame => "frame",
        MemberKind::Beam => "beam",
        _ => return None,
    };
    let room = Room {
        width: at.crossing.strake.width?,
        along: Along::Sided(
            survey
                .state
                .scantlings(survey.hull, at.crossing.id)
                .siding?,
        ),
    };
    let diameter = |hole: &Hole| survey.fastening(hole).size?.diameter();
    let known: Vec<(Length, bool)> = at
        .holes
        .iter()
        .filter_map(|hole| {
            Some((
                diameter(hole)?,
                !matches!(hole.content, Content::Empty { .. }),
            ))
        })
        .collect();
    let thinnest = known.iter().map(|(diameter, _)| *diameter).min()?;
    let standing = known.iter().filter(|(_, metal)| *metal).count();
    let built = usize::from(survey.state.expected(at.crossing.id)).min(known.len());
    let count = u8::try_from(standing.max(built)).ok()?;
    let cramped = spacing::place(&room, thinnest, count, &[], survey.limits).err()?;
    let says = format!(
        "{count} of {} have no room on a diagonal: {}",
        survey.shown(thinnest),
        cramped.says(&room, on, survey.units)
    );
    let most = spacing::most(&room, thinnest, survey.limits);
    let remedy = match most {
        0 => "a thinner fastening, when they are next drawn".to_owned(),
        most => format!("room for {most}: add none, and dowel before they are next driven"),
    };
    let saying = Saying::new(Severity::Watch, says, remedy)
        .figure("count", f64::from(count))
        .figure("room_for", f64::from(most))
        .figure("diameter_mm", thinnest.mm());
    Some(saying)
}
