//! How a place is written: read back as it is printed, and never in need of quotes.

use std::process::Command;

use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use refasten::hull::Places;

use super::make;

/// The law that makes a place safe anywhere: it begins with a letter, ends with a letter or a
/// digit, has single spaces between its words, none of which begins with a sign, and holds nothing
/// but letters, digits and the signs `.`, `+` and `-`.
fn is_plain(text: &str) -> bool {
    let safe = |c: char| c.is_ascii_alphanumeric() || ".+-".contains(c);
    text.starts_with(['P', 'S', 'D'])
        && text.split(' ').all(|word| {
            word.starts_with(|c: char| c.is_ascii_alphabetic())
                && word.ends_with(|c: char| c.is_ascii_alphanumeric())
                && word.chars().all(safe)
        })
}

proptest! {
    #![proptest_config(make::cases(1500))]

    #[test]
    fn a_place_is_read_back_as_it_is_printed(places in make::places()) {
        prop_assert_eq!(places.to_string().parse::<Places>(), Ok(places));
    }

    #[test]
    fn a_place_needs_no_quotes(places in make::places()) {
        let text = places.to_string();
        prop_assert!(is_plain(&text), "{}", text);
        for yaml in [format!("{{place: {text}, a: 1}}"), format!("- {text}"), format!("[{text}, x]")] {
            let read: serde_yaml::Value = serde_yaml::from_str(&yaml).unwrap();
            let value = read.get("place").or_else(|| read.get(0)).and_then(serde_yaml::Value::as_str);
            prop_assert_eq!(value, Some(text.as_str()), "{}", yaml);
        }
    }

    #[test]
    fn capitals_and_spaces_do_not_matter(places in make::places()) {
        let text = places.to_string();
        for other in [text.to_lowercase(), text.to_uppercase(), format!("  {} ", text.replace(' ', "\t "))] {
            prop_assert_eq!(other.parse::<Places>(), Ok(places.clone()), "{}", other);
        }
    }
}

#[test]
fn a_shell_hands_a_place_on_word_for_word() {
    let mut runner = TestRunner::deterministic();
    let mut texts: Vec<String> = Vec::new();
    for _ in 0..300 {
        let places = make::places().new_tree(&mut runner).unwrap().current();
        texts.push(places.to_string());
    }
    let script: String = texts.iter().map(|text| format!("echo {text}\n")).collect();
    let ran = Command::new("sh").arg("-c").arg(script).output().unwrap();
    let out = String::from_utf8(ran.stdout).unwrap();
    assert_eq!(out.lines().collect::<Vec<_>>(), texts);
}
