//! `explain`: every rule has a page that a person can read.

use refasten::audit::Rule;

use crate::run::refasten;

#[test]
fn every_rule_has_a_page_with_its_headings_limits_and_sources() {
    for rule in Rule::all() {
        let ran = refasten(&["explain", rule.name]);
        assert_eq!((ran.code, ran.stderr.as_str()), (Some(0), ""));
        for heading in [
            "Looks for",
            "Why",
            "Limits",
            "Severity",
            "Sources",
            "What to do",
            "What it rests on",
        ] {
            let found = ran.stdout.lines().any(|line| line == heading);
            assert!(found, "{} has no `{heading}`:\n{}", rule.name, ran.stdout);
        }
        for limit in rule.limits {
            let line = format!("- {}, {}:", limit.name, limit.is);
            assert!(ran.stdout.contains(&line), "{line}\n{}", ran.stdout);
        }
        assert!(!rule.sources.is_empty(), "{} rests on nothing", rule.name);
        assert!(
            !ran.stdout.contains('*') && !ran.stdout.contains("u{"),
            "{}",
            ran.stdout
        );
        assert!(ran.stdout.lines().all(|line| line.chars().count() <= 80));
    }
}

#[test]
fn alone_it_lists_them_all() {
    let ran = refasten(&["explain"]);
    for rule in Rule::all() {
        assert!(ran.stdout.contains(rule.name), "{}", ran.stdout);
    }
}

#[test]
fn a_name_that_is_near_is_offered() {
    let ran = refasten(&["explain", "crossing-bear"]);
    assert_eq!(ran.code, Some(2));
    assert!(
        ran.stderr.contains("did you mean `crossing-bare`?"),
        "{}",
        ran.stderr
    );
}
