//! Holes that are not as they were, from what to what.

use std::io;

use serde_json::{Value, json};

use super::inventory::{bung, describe};
use super::page::Page;
use crate::hull::{Hull, fold_holes};
use crate::record::{Book, Changed, Found, Stands};
use crate::units::Units;

/// Whose holes they are.
#[derive(Clone, Copy, Debug)]
pub(super) struct Of<'b> {
    pub(super) hull: &'b Hull,
    pub(super) book: &'b Book,
    pub(super) units: Units,
}

/// Prints one item for all the holes of which the same is told, every one of them named.
pub(super) fn text(of: Of<'_>, changed: &[Changed], page: &mut Page<'_>) -> io::Result<()> {
    let mut alike: Vec<(String, Vec<&Changed>)> = Vec::new();
    for hole in changed {
        let told = of.told(hole);
        match alike.iter_mut().find(|(of, _)| *of == told) {
            Some((_, holes)) => holes.push(hole),
            None => alike.push((told, vec![hole])),
        }
    }
    for (told, holes) in alike {
        let place = fold_holes(
            of.hull,
            holes.iter().map(|hole| (hole.crossing, hole.number)),
        );
        page.item(&format!("{place}: {told}"))?;
    }
    Ok(())
}

/// One object a hole.
pub(super) fn json(of: Of<'_>, changed: &[Changed]) -> Vec<Value> {
    let row = |hole: &Changed| {
        let stands = |stands: Option<Stands>| stands.map(|stands| of.stands(stands, true, true));
        json!({
            "place": fold_holes(of.hull, [(hole.crossing, hole.number)]).to_string(),
            "before": stands(hole.before),
            "after": stands(hole.after),
        })
    };
    changed.iter().map(row).collect()
}

impl Of<'_> {
    /// `relied on, bung out -> plank open, frame open`
    fn told(self, hole: &Changed) -> String {
        let (before, after) = (hole.before, hole.after);
        let of = |stands: Option<Stands>| stands.map(|s| s.hole.fastening);
        let is_another = of(before) != of(after);
        let found = |stands: Option<Stands>| stands.map(|s| s.hole.found);
        let is_found = found(before) != found(after);
        let words = |stands: Option<Stands>| match stands {
            // What was found of a fastening that is gone says nothing of the next one.
            Some(stands) => {
                let is_found = is_found && (!is_another || stands.hole.has_metal());
                self.stands(stands, is_another, is_found)
            }
            None => "no hole".to_owned(),
        };
        let (before, after) = (words(before), words(after));
        match before == after {
            // Who looked last is all that is not as it was.
            true => format!("{after}, as before; looked at"),
            false => format!("{before} -> {after}"),
        }
    }

    /// What stands in a hole; what its fastening is, and what was found of it, only where that is
    /// asked for.
    fn stands(self, stands: Stands, with_fastening: bool, with_found: bool) -> String {
        let hole = stands.hole;
        let fastening = self.book.fastening(hole.fastening);
        let mut words = Vec::new();
        match hole.content.mouth() {
            Some(_) => words.push(hole.state().to_string()),
            None => words.push(format!(
                "plank {}, frame {}",
                hole.content.plank_side(),
                hole.content.frame_side()
            )),
        }
        if with_fastening && hole.has_metal() {
            words.push(describe(fastening, self.hull, self.units));
        }
        words.extend(bung(&hole, fastening.plug).map(|bung| format!("bung {bung}")));
        let found: Vec<&str> = hole.found.each().map(Found::word).collect();
        if with_found && !found.is_empty() {
            words.push(format!("found {}", found.join(", ")));
        }
        words.extend(
            stands
                .diameter
                .map(|d| format!("measured {}", d.shown(self.units))),
        );
        words.join(", ")
    }
}
