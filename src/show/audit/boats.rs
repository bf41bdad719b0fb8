//! The audits of several boats, a row a boat.

use std::io::{self, Write};

use serde_json::{Value, json};

use super::json::{covered, standing};

use crate::audit::{Outcome, Rule};
use crate::record::Known;
use crate::show::AID;
use crate::show::known;
use crate::show::layout::Layout;
use crate::show::numbers::{counted, grouped};
use crate::show::page::Page;
use crate::units::Day;

/// One boat of several.
#[derive(Debug)]
pub struct Row {
    /// Her folder, as it was named or found.
    pub folder: String,
    /// What there is to tell of her.
    pub told: Told,
}

/// What an audit of one boat among several came to.
#[derive(Debug)]
pub enum Told {
    /// She was audited.
    Audited {
        /// Her name.
        boat: String,
        /// The audit.
        outcome: Box<Outcome>,
        /// What her book rests on, where it was turned back to an earlier day.
        known: Option<Known>,
    },
    /// Her files are wrong: every fault for other programs.
    Faulty(Vec<Value>),
    /// The machine could not read them.
    Failed(String),
}

/// Several boats, and what was asked of each.
#[derive(Debug)]
pub struct Boats<'a> {
    /// Each of them, in the order they were named.
    pub rows: &'a [Row],
    /// The day, at its end.
    pub day: Day,
    /// The day as of which their logs are read, if one was given.
    pub as_known: Option<Day>,
    /// Whether they are judged as planned.
    pub planned: bool,
    /// By which rules, if not by all.
    pub only: &'a [&'static Rule],
}

/// Prints a row a boat.
///
/// # Errors
/// When `out` fails.
pub fn boats(out: &mut dyn Write, layout: Layout, boats: &Boats<'_>) -> io::Result<()> {
    let mut page = Page::new(out, layout);
    let (rows, day) = (boats.rows, boats.day);
    let count = counted(rows.len(), "boat", "boats");
    let planned = if boats.planned { " as planned" } else { "" };
    page.line(&format!("{count}{planned} on {day}"))?;
    if !boats.only.is_empty() {
        let names: Vec<&str> = boats.only.iter().map(|rule| rule.name).collect();
        let word = if names.len() == 1 { "rule" } else { "rules" };
        page.line(&format!("By the {word} {} only.", names.join(", ")))?;
    }
    if let Some(known) = boats.as_known {
        page.line(&format!(
            "As known on {known}. Ask one alone for what that rests on."
        ))?;
    }
    page.gap()?;
    let heads = [
        "folder",
        "boat",
        "verdict",
        "stop",
        "mend",
        "watch",
        "accepted",
        "looked at",
    ];
    page.table(heads, rows.iter().map(row))?;
    page.gap()?;
    page.line(AID)
}

fn row(row: &Row) -> [String; 8] {
    let folder = row.folder.clone();
    let unread = |verdict: String| {
        let none = String::new;
        [
            folder.clone(),
            none(),
            verdict,
            none(),
            none(),
            none(),
            none(),
            none(),
        ]
    };
    match &row.told {
        Told::Audited { boat, outcome, .. } => {
            let (counts, coverage) = (&outcome.counts, &outcome.coverage);
            let number = |count: u32| match count {
                0 => "·".to_owned(),
                count => grouped(count),
            };
            [
                folder,
                boat.clone(),
                outcome.verdict.words().to_owned(),
                number(counts.stop),
                number(counts.mend),
                number(counts.watch),
                number(counts.accepted),
                format!(
                    "{} of {}",
                    grouped(coverage.looked_at),
                    grouped(coverage.fastenings)
                ),
            ]
        }
        Told::Faulty(faults) => unread(counted(faults.len(), "fault", "faults") + " in her files"),
        Told::Failed(_) => unread("could not be read".to_owned()),
    }
}

/// The same for other programs.
pub fn boats_json(boats: &Boats<'_>) -> Value {
    let each = boats.rows.iter().map(|row| {
        let folder = &row.folder;
        match &row.told {
            Told::Audited {
                boat,
                outcome,
                known,
            } => json!({
                "folder": folder,
                "boat": boat,
                "as_known": known::known_json(known.as_ref()),
                "verdict": outcome.verdict.words(),
                "counts": {
                    "stop": outcome.counts.stop,
                    "mend": outcome.counts.mend,
                    "watch": outcome.counts.watch,
                    "accepted": outcome.counts.accepted,
                },
                "coverage": covered(&outcome.coverage),
                "standing": standing(&outcome.standing),
                "faults": [],
                "failed": null,
            }),
            Told::Faulty(faults) => json!({
                "folder": folder, "boat": null, "verdict": null, "faults": faults, "failed": null,
            }),
            Told::Failed(error) => json!({
                "folder": folder, "boat": null, "verdict": null, "faults": [], "failed": error,
            }),
        }
    });
    let rules: Vec<&str> = boats.only.iter().map(|rule| rule.name).collect();
    json!({
        "format": 1,
        "as_of": boats.day.to_string(),
        "planned": boats.planned,
        "rules": (!rules.is_empty()).then_some(rules),
        "boats": each.collect::<Vec<_>>(),
    })
}
