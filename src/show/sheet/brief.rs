//! What to know before the work, on paper and on a phone.

use std::io;

use super::Sheet;
use super::fastenings::Fastenings;
use crate::hull::{CrossingId, HoleNumber, Member, fold, fold_holes};
use crate::record::{Hole, HoleState, Mouth};
use crate::show::html::Html;
use crate::show::{AID, WORK};

/// Every how many members one is chalked on the hull.
const CHALKED: u16 = 5;

/// The most places that are told before they are only counted.
const MOST_PLACES: usize = 12;

pub(super) fn write(
    sheet: &Sheet<'_>,
    fastenings: &Fastenings<'_>,
    html: &mut Html<'_>,
) -> io::Result<()> {
    html.within("header", &[("id", "brief")], |html| {
        html.put("h1", &[], &format!("Shed sheet: {}", sheet.hull.boat))?;
        let made = format!(
            "{}. Made on {} from the record after entry {}.",
            sheet.place(),
            sheet.day,
            sheet.after()
        );
        html.put("p", &[], &made)?;
        html.within("div", &[("id", "first")], |html| {
            html.within("ul", &[], |html| {
                if let Some(chalk) = chalk(sheet) {
                    html.put("li", &[], &format!("Chalk {chalk} on the hull."))?;
                }
                html.put(
                    "li",
                    &[],
                    "Hole 1 is nearest the keel, on deck nearest the centreline; at equal height \
                     the forward one. New holes take the next number.",
                )?;
                for line in standing(sheet) {
                    html.put("li", &[], &line)?;
                }
                for (plan, at) in fastenings.planned() {
                    let place = fold(sheet.hull, at.iter().copied()).shown(MOST_PLACES);
                    html.put("li", &[], &format!("Planned, “{plan}”: {place}."))?;
                }
                Ok(())
            })?;
            html.put("h2", &[], "Before you start")?;
            html.put("p", &[("class", "cautions")], &WORK.join(" "))?;
            html.put("p", &[("class", "quiet cautions")], AID)
        })
    })
}

/// The members to chalk: of those on the sheet the first, the last and every fifth between.
fn chalk(sheet: &Sheet<'_>) -> Option<String> {
    let mut members: Vec<Member> = sheet
        .crossings
        .iter()
        .map(|id| sheet.hull.crossing(*id).member)
        .filter(|member| matches!(member, Member::Frame(n) | Member::Beam(n) if n.is_plain()))
        .collect();
    members.sort_unstable();
    members.dedup();
    let mut chalked = Vec::new();
    for of_kind in members.chunk_by(|a, b| a.kind() == b.kind()) {
        let ends = [of_kind.first(), of_kind.last()];
        let is_fifth = |member: &Member| {
            let number = member.number();
            number.is_some_and(|number| number.value() % CHALKED == 0)
        };
        let chosen = of_kind
            .iter()
            .filter(|m| is_fifth(m) || ends.contains(&Some(m)));
        chalked.extend(chosen.map(ToString::to_string));
    }
    (!chalked.is_empty()).then(|| chalked.join(", "))
}

/// What stands open already, a line for each way of it.
fn standing(sheet: &Sheet<'_>) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = |what: &str, is: fn(&Hole) -> bool| {
        let holes: Vec<(CrossingId, HoleNumber)> = sheet
            .crossings
            .iter()
            .flat_map(|id| {
                sheet
                    .state
                    .numbered(*id)
                    .map(move |(n, hole)| (*id, n, hole))
            })
            .filter(|(_, _, hole)| is(hole))
            .map(|(id, number, _)| (id, number))
            .collect();
        if !holes.is_empty() {
            let count = holes.len();
            let place = fold_holes(sheet.hull, holes).shown(MOST_PLACES);
            lines.push(format!("{what}: {count}, at {place}."));
        }
    };
    line("Open in the plank", |hole| hole.state() == HoleState::Open);
    line("Broken, with a stub", |hole| {
        hole.state() == HoleState::Broken
    });
    line("Unsound", |hole| hole.state() == HoleState::Unsound);
    line("Heads bare, to be covered", |hole| {
        hole.content.mouth() == Some(Mouth::Open)
    });
    let off = sheet.crossings.iter().filter(|id| sheet.state.is_off(**id));
    let off: Vec<CrossingId> = off.copied().collect();
    if !off.is_empty() {
        let place = fold(sheet.hull, off).shown(MOST_PLACES);
        lines.push(format!("Plank off at {place}."));
    }
    if lines.is_empty() {
        lines.push("Nothing stands open here.".to_owned());
    }
    lines
}
