//! The planking laid flat, in millimetres: which strakes lie on which, and where members cross.

use std::collections::BTreeMap;

use super::Map;
use super::across::{Run, Stack};
use super::along::{Along, Spacings};
use crate::hull::{CrossingId, Hull, Member, Side, Strake, StrakesFrom};
use crate::units::Length;

/// A plank's width where no width at all is known, in millimetres: only for drawing.
const UNKNOWN_WIDTH: f64 = 125.0;
/// How far a plank runs on beyond its last member, in spaces.
const RUNS_ON: f64 = 0.35;

/// A crossing where it lies.
#[derive(Clone, Copy, Debug)]
pub(super) struct Lies {
    pub(super) id: CrossingId,
    pub(super) member: Member,
    /// Where along the boat.
    pub(super) along: f64,
    /// Whether the map shows what is in it.
    pub(super) shown: bool,
}

/// A strake's crossings.
#[derive(Clone, Debug)]
pub(super) struct Row {
    pub(super) crossings: Vec<Lies>,
}

/// Planking that is stacked together: one side of the shell, or a deck or half of one.
#[derive(Clone, Debug)]
pub(super) struct Half {
    pub(super) side: Side,
    pub(super) stack: Stack,
    /// One for each strake of the stack.
    pub(super) rows: Vec<Row>,
}

/// Planking drawn together, with its middle line between the halves.
#[derive(Clone, Debug)]
pub(super) struct Panel {
    pub(super) deck: bool,
    /// Stacked upwards from the middle.
    pub(super) upper: Option<Half>,
    /// Stacked downwards.
    pub(super) lower: Option<Half>,
    /// From where to where along the boat.
    pub(super) from: f64,
    pub(super) to: f64,
    /// Frames or beams with their places, in order.
    pub(super) members: Vec<(Member, f64)>,
    pub(super) spacings: Spacings,
}

/// All planking that a map shows any of.
#[derive(Clone, Debug)]
pub(super) struct Laid {
    pub(super) panels: Vec<Panel>,
    widths_known: bool,
}

impl Panel {
    pub(super) fn halves(&self) -> impl Iterator<Item = &Half> {
        self.upper.iter().chain(&self.lower)
    }
}

impl Laid {
    /// What was assumed because nobody says it, in sentences.
    pub(super) fn assumed(&self) -> Vec<String> {
        let mut assumed = Vec::new();
        for panel in &self.panels {
            let members = if panel.deck { "beams" } else { "frames" };
            match panel.spacings {
                Spacings::Known => {}
                Spacings::Some => assumed.push(format!(
                    "Where the spacing of {members} is not known it is drawn as the middling one."
                )),
                Spacings::Unknown => assumed.push(format!(
                    "The spacing of {members} is not known; they are drawn evenly."
                )),
            }
        }
        if !self.widths_known {
            assumed.push(
                "Where the width of a plank is not known it is drawn as the middling one."
                    .to_owned(),
            );
        }
        let has = |deck| self.panels.iter().any(|panel| panel.deck == deck);
        if has(true) && has(false) {
            assumed.push(
                "How the beams lie to the frames is not on record; the deck is drawn apart."
                    .to_owned(),
            );
        }
        assumed
    }
}

/// Lays out all planking, so that strakes lie where they do in the boat.
pub(super) fn lay_all(map: &Map<'_>) -> Laid {
    lay_some(map, |_| true)
}

/// Lays out the strakes that a map shows any of, side by side.
pub(super) fn lay(map: &Map<'_>) -> Laid {
    lay_some(map, |strake| {
        let mut ids = strake.crossings().map(|(id, _)| id);
        map.survey.asks_about_all() || ids.any(|id| map.survey.asks_about(id))
    })
}

fn lay_some(map: &Map<'_>, which: impl Fn(&Strake) -> bool) -> Laid {
    let hull = map.survey.hull;
    let along = Along::of(hull);
    let asked = |strake: &&Strake| which(strake);
    let strakes: Vec<&Strake> = hull.strakes().iter().filter(asked).collect();
    let mut widths_known = true;
    let mut half = |side: Side| {
        let of_side = strakes.iter().copied().filter(|s| s.id.side == side);
        let mut of_side: Vec<&Strake> = of_side.collect();
        if hull.numbering.strakes == StrakesFrom::Sheer && !side.is_deck() {
            of_side.reverse();
        }
        widths_known &= of_side.iter().all(|strake| strake.width.is_some());
        (!of_side.is_empty()).then(|| half(map, &along, side, &of_side))
    };
    let pairs = [
        (false, Some(Side::Port), Side::Starboard),
        (true, None, Side::Deck),
        (true, Some(Side::DeckStarboard), Side::DeckPort),
    ];
    let mut panels = Vec::new();
    for (deck, upper, lower) in pairs {
        let (upper, lower) = (upper.and_then(&mut half), half(lower));
        if upper.is_some() || lower.is_some() {
            panels.push(panel(&along, deck, upper, lower));
        }
    }
    Laid {
        panels,
        widths_known,
    }
}

/// The middling width of the planks of the shell, or of the deck.
fn usual_width(hull: &Hull, deck: bool) -> f64 {
    let of_kind = hull
        .strakes()
        .iter()
        .filter(|s| s.id.side.is_deck() == deck);
    let known: Vec<f64> = of_kind.filter_map(|s| Some(s.width?.mm())).collect();
    match known.len() {
        0 => UNKNOWN_WIDTH,
        count => known.iter().sum::<f64>() / count as f64,
    }
}

fn half(map: &Map<'_>, along: &Along, side: Side, strakes: &[&Strake]) -> Half {
    let survey = map.survey;
    let usual = usual_width(survey.hull, side.is_deck());
    let (mut runs, mut rows) = (Vec::new(), Vec::new());
    for strake in strakes {
        let members: Vec<Member> = strake.crossings().map(|(_, member)| member).collect();
        let crossings: Vec<Lies> = strake
            .crossings()
            .map(|(id, member)| Lies {
                id,
                member,
                along: along.at(member, &members),
                shown: survey.asks_about(id) && survey.is_there(id),
            })
            .collect();
        let space = along.space(&members);
        let places = || crossings.iter().map(|lies| lies.along);
        let first = places().fold(f64::INFINITY, f64::min);
        let last = places().fold(f64::NEG_INFINITY, f64::max);
        let hooded = |fore: bool| {
            let mut ends = members.iter().filter(|m| m.is_hood_end());
            ends.any(|end| (*end == Member::Stem) == fore)
        };
        // A stealer runs out to a point where it lies on no end.
        let stealer = !strake.id.number.is_plain();
        let point = [true, false].map(|fore| match stealer && !hooded(fore) {
            true => space,
            false => 0.0,
        });
        let beyond = point.map(|point| if point > 0.0 { point } else { RUNS_ON * space });
        runs.push(Run {
            id: strake.id,
            from: first - beyond[0],
            to: last + beyond[1],
            point,
            width: strake.width.map_or(usual, Length::mm),
        });
        rows.push(Row { crossings });
    }
    Half {
        side,
        stack: Stack::new(runs),
        rows,
    }
}

fn panel(along: &Along, deck: bool, upper: Option<Half>, lower: Option<Half>) -> Panel {
    let mut panel = Panel {
        deck,
        upper,
        lower,
        from: 0.0,
        to: 0.0,
        members: Vec::new(),
        spacings: along.spacings(deck),
    };
    let runs = || panel.halves().flat_map(|half| half.stack.runs());
    let from = runs().map(|run| run.from).fold(f64::INFINITY, f64::min);
    let to = runs().map(|run| run.to).fold(f64::NEG_INFINITY, f64::max);
    let mut members: BTreeMap<Member, f64> = BTreeMap::new();
    for row in panel.halves().flat_map(|half| &half.rows) {
        for lies in &row.crossings {
            if matches!(lies.member, Member::Frame(_) | Member::Beam(_)) {
                members.insert(lies.member, lies.along);
            }
        }
    }
    let mut members: Vec<(Member, f64)> = members.into_iter().collect();
    members.sort_by(|one, other| one.1.total_cmp(&other.1));
    panel.members = members;
    if from.is_finite() && to.is_finite() {
        (panel.from, panel.to) = (from, to);
    }
    panel
}
