//! The page of a rule: its own words, its limits, what it rests on.

use std::io::{self, Write};

use serde::Serialize;

use super::layout::Layout;
use super::page::Page;
use crate::audit::Rule;
use crate::tables::{Limit, Quantity};
use crate::units::Units;

/// One paragraph of a page, and the heading it stands under if it begins one.
struct Paragraph {
    heading: Option<String>,
    text: String,
}

/// Prints every rule with what it looks for.
///
/// # Errors
/// When `out` fails.
pub fn list(out: &mut dyn Write, layout: Layout, rules: &[&Rule]) -> io::Result<()> {
    let rows = rules
        .iter()
        .map(|rule| [rule.name.to_owned(), in_a_line(rule)]);
    let mut page = Page::new(out, layout);
    page.table(["Rule", "Looks for"], rows)?;
    page.gap()?;
    page.line("`refasten explain RULE` prints the page of one.")
}

/// Prints the page of one rule.
///
/// # Errors
/// When `out` fails.
pub fn text(out: &mut dyn Write, layout: Layout, units: Units, rule: &Rule) -> io::Result<()> {
    let mut page = Page::new(out, layout);
    page.line(rule.name)?;
    for Paragraph { heading, text } in paragraphs(rule) {
        page.gap()?;
        if let Some(heading) = heading {
            page.line(&heading)?;
        }
        page.indented("  ", &text)?;
    }
    if !rule.limits.is_empty() {
        page.gap()?;
        page.line("Its limits, each of which can be changed under `limits` in hull.yaml")?;
        for limit in rule.limits {
            let value = value(limit, units);
            let (name, says, basis) = (limit.name, limit.says, limit.basis);
            page.item(&format!("{name}, {value}: {says} [{basis}]"))?;
        }
    }
    page.gap()?;
    page.line("What it rests on")?;
    for source in rule.sources {
        page.item(&source.to_string())?;
    }
    Ok(())
}

#[derive(Serialize)]
struct Report {
    format: u32,
    rules: Vec<Explained>,
}

#[derive(Serialize)]
struct Explained {
    rule: &'static str,
    looks_for: String,
    page: String,
    limits: Vec<Judged>,
    sources: Vec<String>,
}

#[derive(Serialize)]
struct Judged {
    limit: &'static str,
    is: String,
    says: &'static str,
    basis: String,
}

/// Prints rules as JSON: the page as Markdown, limits and sources.
///
/// # Errors
/// When `out` fails.
pub fn json(out: &mut dyn Write, rules: &[&Rule]) -> io::Result<()> {
    let judged = |limit: &&'static Limit| Judged {
        limit: limit.name,
        is: limit.is.to_string(),
        says: limit.says,
        basis: limit.basis.to_string(),
    };
    let explained = |rule: &&Rule| Explained {
        rule: rule.name,
        looks_for: in_a_line(rule),
        page: rule.page(),
        limits: rule.limits.iter().map(judged).collect(),
        sources: rule.sources.iter().map(ToString::to_string).collect(),
    };
    let report = Report {
        format: 1,
        rules: rules.iter().map(explained).collect(),
    };
    serde_json::to_writer_pretty(&mut *out, &report)?;
    writeln!(out)
}

fn value(limit: &Limit, units: Units) -> String {
    match limit.is {
        Quantity::Length(length) => length.shown(units),
        other => other.to_string(),
    }
}

/// What a rule looks for, as far as the first stop.
fn in_a_line(rule: &Rule) -> String {
    let first = paragraphs(rule).next().map_or(String::new(), |p| p.text);
    let end = [": ", "; ", ". "]
        .iter()
        .filter_map(|stop| first.find(stop))
        .min()
        .unwrap_or(first.len());
    let (line, _) = first.split_at(end);
    line.trim_end_matches('.').to_owned()
}

/// The paragraphs of a rule's page under its title, without the marks of Markdown.
fn paragraphs(rule: &Rule) -> impl Iterator<Item = Paragraph> {
    let page = rule.page();
    let blocks: Vec<String> = page
        .split("\n\n")
        .filter(|block| !block.starts_with("# "))
        .map(str::to_owned)
        .collect();
    blocks.into_iter().map(|block| paragraph(&block))
}

fn paragraph(block: &str) -> Paragraph {
    let headed = block
        .strip_prefix("**")
        .and_then(|rest| rest.split_once("**"));
    match headed {
        Some((heading, text)) => Paragraph {
            heading: Some(heading.trim_end_matches('.').to_owned()),
            text: plain(text),
        },
        None => Paragraph {
            heading: None,
            text: plain(block),
        },
    }
}

/// On one line and without the stars of bold and slanted words; backticks stay, as in all that is
/// printed.
fn plain(text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    words.join(" ").replace('*', "")
}
