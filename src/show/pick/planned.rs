//! What was written into the plan, after the pick.

use std::collections::BTreeMap;
use std::io::{self, Write};

use serde_json::{Value, json};

use crate::hull::{CrossingId, Hull, fold};
use crate::record::{Book, Intent, PlanChange, PlanLine, SetId};
use crate::show::layout::Layout;
use crate::show::numbers::counted;
use crate::show::page::Page;

/// A line that was written into the plan, and what it does.
#[derive(Debug)]
pub struct Planned<'a> {
    /// The hull.
    pub hull: &'a Hull,
    /// The book with the line.
    pub book: &'a Book,
    /// The line.
    pub line: &'a PlanLine,
    /// What it does to what stands there.
    pub change: &'a PlanChange,
    /// Earlier lines whose place it takes, and where.
    pub overtakes: &'a [(PlanLine, Vec<CrossingId>)],
}

impl Planned<'_> {
    /// How many it drives, once it is carried out.
    const fn count(&self) -> u32 {
        self.change.in_old_holes + self.change.in_new_holes
    }

    fn place(&self) -> String {
        match &self.line.intent {
            Intent::Drive(planned) => planned.place.to_string(),
            Intent::Drop { .. } => String::new(),
        }
    }
}

/// Prints what was written, and what it changes.
///
/// # Errors
/// When `out` fails.
pub fn planned(planned: &Planned<'_>, out: &mut dyn Write, layout: Layout) -> io::Result<()> {
    let mut page = Page::new(out, layout);
    let (line, change) = (planned.line, planned.change);
    page.gap()?;
    page.line(&format!(
        "Written to plan.yaml: `{}` of {}, {} at {}",
        line.plan,
        line.date,
        counted(planned.count(), "fastening", "fastenings"),
        planned.place()
    ))?;
    let of_sets = |sets: &BTreeMap<SetId, u32>| {
        let each = sets
            .iter()
            .map(|(set, count)| format!("{count} of `{}`", planned.book.set_name(*set)));
        each.collect::<Vec<_>>().join(", ")
    };
    if !change.drawn.is_empty() {
        page.item(&format!("draws {}", of_sets(&change.drawn)))?;
    }
    if !change.left_in.is_empty() {
        page.item(&format!(
            "leaves in, not relied on, {}",
            of_sets(&change.left_in)
        ))?;
    }
    let new = counted(change.in_new_holes, "new hole", "new holes");
    let old = counted(change.in_old_holes, "old hole", "old holes");
    match (change.in_old_holes, change.in_new_holes) {
        (0, 0) => page.item("nothing can be done there now: the plank is off")?,
        (0, _) => page.item(&format!("bores {new}"))?,
        (_, 0) => page.item(&format!("uses {old} again"))?,
        (_, _) => page.item(&format!("uses {old} again and bores {new}"))?,
    }
    if change.plugged > 0 {
        let holes = counted(change.plugged, "old hole", "old holes");
        page.item(&format!("plugs {holes} in the plank for good"))?;
    }
    for (old, crossings) in planned.overtakes {
        page.item(&format!(
            "takes the place of what `{}` of {} had waiting at {}",
            old.plan,
            old.date,
            fold(planned.hull, crossings.iter().copied())
        ))?;
    }
    page.line(&format!(
        "Judge her with it: refasten audit --planned. When it is done: log driven … --plan \"{}\"",
        line.plan
    ))
}

/// The same for other programs.
pub(super) fn json(planned: &Planned<'_>) -> Value {
    let (line, change) = (planned.line, planned.change);
    let of_sets = |sets: &BTreeMap<SetId, u32>| -> Value {
        let each = sets
            .iter()
            .map(|(set, count)| json!({"set": planned.book.set_name(*set), "fastenings": count}));
        each.collect()
    };
    let overtakes: Value = planned
        .overtakes
        .iter()
        .map(|(old, crossings)| {
            json!({
                "plan": old.plan,
                "date": old.date.to_string(),
                "place": fold(planned.hull, crossings.iter().copied()).to_string(),
            })
        })
        .collect();
    json!({
        "plan": line.plan,
        "date": line.date.to_string(),
        "place": planned.place(),
        "fastenings": planned.count(),
        "draws": of_sets(&change.drawn),
        "leaves_in": of_sets(&change.left_in),
        "in_old_holes": change.in_old_holes,
        "in_new_holes": change.in_new_holes,
        "plugged": change.plugged,
        "overtakes": overtakes,
    })
}
