//! Every rule against boats just under and just over its limits.
//!
//! A rule's document, `tests/rules/NAME.md`, is prose with fenced blocks: a `yaml hull` block
//! before the first case holds what all cases share; each case, under a `## ` heading, may add to
//! the hull with `yaml hull`, has a log in `yaml log` and may have a plan in `yaml plan`, and ends with `findings`: what this rule
//! alone says, a line each as `severity place: words`, or nothing where it is quiet. The day of
//! every audit is 2026-11-01.

// A test may stop at once, and means its numbers exactly.
#![allow(clippy::pedantic, clippy::restriction)]

mod counting;
mod couples;
mod whole_boats;

use std::fs;
use std::path::Path;

use refasten::audit::{Finding, Outcome, Rule, Survey, audit};
use refasten::files::{Boat, Folder};
use refasten::text::draw;
use refasten::units::Day;

/// One case of a document.
#[derive(Default)]
struct Case {
    title: String,
    hull: String,
    log: String,
    plan: String,
    findings: Option<String>,
}

/// Cuts a document into cases; the first holds what they share.
fn cases(document: &str) -> Vec<Case> {
    let mut cases = vec![Case::default()];
    let mut fence: Option<(String, String)> = None;
    for line in document.lines() {
        let case = cases.last_mut().expect("there is always one");
        match (&mut fence, line.strip_prefix("```")) {
            (None, Some(kind)) => fence = Some((kind.to_owned(), String::new())),
            (Some((kind, block)), Some(_)) => {
                match kind.as_str() {
                    "yaml hull" => case.hull += block,
                    "yaml log" => case.log += block,
                    "yaml plan" => case.plan += block,
                    "findings" => case.findings = Some(block.clone()),
                    other => panic!("no block is of the kind `{other}`"),
                }
                fence = None;
            }
            (Some((_, block)), None) => *block += &format!("{line}\n"),
            (None, None) => {
                if let Some(title) = line.strip_prefix("## ") {
                    cases.push(Case {
                        title: title.to_owned(),
                        ..Case::default()
                    });
                }
            }
        }
    }
    cases
}

/// The day of every audit.
fn today() -> Day {
    "2026-11-01".parse().unwrap()
}

/// The boat of these files.
fn boat(hull: &str, log: &str) -> Boat {
    boat_with(hull, log, "")
}

/// The same with a plan.
fn boat_with(hull: &str, log: &str, plan: &str) -> Boat {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("plan.yaml"), plan).unwrap();
    fs::write(folder.path().join("hull.yaml"), hull).unwrap();
    fs::write(folder.path().join("log.yaml"), log).unwrap();
    let folder = Folder::open(folder.path()).unwrap();
    folder.boat(today()).unwrap_or_else(|faults| {
        let mut drawn = Vec::new();
        draw(&mut drawn, &faults, &folder.texts(), 100, false).unwrap();
        panic!("{}", String::from_utf8_lossy(&drawn));
    })
}

/// What all rules say of a boat.
fn look_over(hull: &str, log: &str) -> Outcome {
    look_over_boat(&boat(hull, log))
}

fn look_over_boat(boat: &Boat) -> Outcome {
    let survey = Survey::new(
        &boat.hull,
        &boat.book,
        &boat.limits,
        &boat.accepted,
        today(),
        boat.hull.units,
    );
    audit(&survey, Rule::all())
}

/// A finding in a line.
fn line(finding: &Finding) -> String {
    let accepted = finding.accepted.as_ref().map_or("", |_| "accepted ");
    let (severity, says) = (finding.saying.severity.word(), &finding.saying.says);
    format!("{accepted}{severity} {}: {says}\n", finding.place)
}

/// What one rule says of a boat. What is said of acceptances hangs on the rule they accept, so
/// all rules are let look.
fn says(rule: &'static Rule, boat: &Boat) -> String {
    let findings = look_over_boat(boat).findings;
    let own = findings.iter().filter(|finding| finding.rule == rule);
    own.map(line).collect()
}

/// Checks the document of one rule.
fn check(rule: &'static Rule, document: &str) {
    let mut cases = cases(document).into_iter();
    let shared = cases.next().unwrap_or_default();
    let (mut quiet, mut loud) = (0, 0);
    for case in cases {
        let boat = boat_with(
            &format!("{}{}", shared.hull, case.hull),
            &format!("{}{}", shared.log, case.log),
            &format!("{}{}", shared.plan, case.plan),
        );
        let said = says(rule, &boat);
        let findings = case
            .findings
            .unwrap_or_else(|| panic!("{}: `{}` has no findings block", rule.name, case.title));
        assert_eq!(said, findings, "{}: {}", rule.name, case.title);
        if said.is_empty() {
            quiet += 1;
        } else {
            loud += 1;
        }
    }
    assert!(quiet > 0, "{}: no case is quiet", rule.name);
    assert!(loud > 0, "{}: no case has a finding", rule.name);
}

#[test]
fn every_rule_says_what_its_document_says() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/rules");
    for rule in Rule::all() {
        let path = folder.join(format!("{}.md", rule.name));
        let document = fs::read_to_string(&path)
            .unwrap_or_else(|_| panic!("{} has no document {}", rule.name, path.display()));
        check(rule, &document);
    }
}

#[test]
fn every_document_is_of_a_rule() {
    for file in fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/rules")).unwrap() {
        let name = file.unwrap().file_name().into_string().unwrap();
        if let Some(rule) = name.strip_suffix(".md") {
            assert!(Rule::find(rule).is_ok(), "{name} is of no rule");
        }
    }
}
