//! What entries that drove something did for the plan, or did not.

use std::io;

use serde_json::{Value, json};

use super::page::Page;
use crate::hull::{CrossingId, HoleNumber, Hull, fold};
use crate::record::{Book, Deed, Entry, What};

/// How many places a line names before it only counts them.
const MOST_PLACES: usize = 8;

/// A plan that some entries have to do with.
struct Touched<'b> {
    /// Its name.
    plan: &'b str,
    /// Whether they carry it out; else it only waits where they drove.
    carries_out: bool,
    /// How many of it are left to drive: in all, or where they drove.
    left: u32,
    /// Where.
    at: Vec<CrossingId>,
}

/// The plans that entries carry out, and those that wait where they drove without one.
fn touched<'b>(
    book: &'b Book,
    each: impl Iterator<Item = (&'b Entry, &'b [(CrossingId, HoleNumber)])>,
) -> Vec<Touched<'b>> {
    let mut named: Vec<&str> = Vec::new();
    let mut without: Vec<CrossingId> = Vec::new();
    for (entry, holes) in each {
        let What::Done {
            deed: Deed::Driven(driving),
            ..
        } = &entry.what
        else {
            continue;
        };
        match &driving.plan {
            Some(plan) if !named.contains(&plan.as_str()) => named.push(plan),
            None if !driving.temporary => without.extend(holes.iter().map(|(id, _)| *id)),
            Some(_) | None => {}
        }
    }
    if named.is_empty() && without.is_empty() {
        return Vec::new();
    }
    let mut plans: Vec<Touched<'_>> = named
        .into_iter()
        .map(|plan| Touched {
            plan,
            carries_out: true,
            left: 0,
            at: Vec::new(),
        })
        .collect();
    for stage in book.plan_progress(None) {
        let Some(line) = book.plan_line(stage.line).filter(|_| stage.left() > 0) else {
            continue;
        };
        let id = stage.spot.crossing;
        let carried = plans
            .iter()
            .position(|of| of.carries_out && of.plan == line.plan);
        let at = match carried {
            Some(at) => at,
            None if without.contains(&id) => {
                let known = plans.iter().position(|of| of.plan == line.plan);
                known.unwrap_or_else(|| {
                    plans.push(Touched {
                        plan: &line.plan,
                        carries_out: false,
                        left: 0,
                        at: Vec::new(),
                    });
                    plans.len() - 1
                })
            }
            None => continue,
        };
        if let Some(of) = plans.get_mut(at) {
            of.left += u32::from(stage.left());
            of.at.push(id);
        }
    }
    plans
}

/// Says it, after entries were written, or only tried.
pub(super) fn text<'b>(
    page: &mut Page<'_>,
    hull: &Hull,
    book: &'b Book,
    is_trial: bool,
    each: impl Iterator<Item = (&'b Entry, &'b [(CrossingId, HoleNumber)])>,
) -> io::Result<()> {
    let again = match is_trial {
        true => "log it with",
        false => "strike the entry and log it with",
    };
    for of in touched(book, each) {
        let place = fold(hull, of.at.iter().copied()).shown(MOST_PLACES);
        let (plan, left) = (of.plan, of.left);
        page.line(&match (of.carries_out, left) {
            (true, 0) => format!("plan `{plan}`: nothing of it is left to drive"),
            (true, _) => format!("plan `{plan}`: {left} left to drive, {place}"),
            (false, _) => format!(
                "plan `{plan}` still waits for {left} at {place}: if this was for it, {again} --plan \"{plan}\""
            ),
        })?;
    }
    Ok(())
}

/// The same for other programs.
pub(super) fn json<'b>(
    hull: &Hull,
    book: &'b Book,
    each: impl Iterator<Item = (&'b Entry, &'b [(CrossingId, HoleNumber)])>,
) -> Value {
    let each = touched(book, each).into_iter().map(|of| {
        json!({
            "plan": of.plan,
            "carried_out": of.carries_out,
            "left": of.left,
            "place": fold(hull, of.at.iter().copied()).to_string(),
        })
    });
    each.collect()
}
