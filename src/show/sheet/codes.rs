//! Short codes for the words of the log, to be written into a box with a pencil.

use crate::record::{Did, Found, table};

/// The deeds that are done to holes, in the order of the log's words, each with its code.
pub(super) fn deeds() -> Vec<(Did, String)> {
    let mut deeds: Vec<Did> = table().iter().map(|row| row.did).collect();
    deeds.dedup();
    let codes = of(&deeds.iter().map(|did| did.word()).collect::<Vec<_>>());
    let codes = codes.into_iter().map(|code| code.to_uppercase());
    deeds.into_iter().zip(codes).collect()
}

/// Everything that can be found, each with its code.
pub(super) fn found() -> Vec<(Found, String)> {
    let words: Vec<&str> = Found::ALL.iter().map(|found| found.word()).collect();
    Found::ALL.iter().copied().zip(of(&words)).collect()
}

/// Two letters for each word: the first of each of two words; else the first letter of the word
/// and the next one in it that leaves the code free. Those of two words are served first.
fn of(words: &[&str]) -> Vec<String> {
    let mut codes = vec![String::new(); words.len()];
    for two in [true, false] {
        for (at, word) in words.iter().enumerate() {
            let (first, rest) = match word.split_once(' ') {
                Some((first, rest)) if two => (first, rest),
                None if !two => (*word, word.get(1..).unwrap_or("")),
                _ => continue,
            };
            let first = first.chars().next().unwrap_or('x');
            let mut candidates = rest.chars().map(|second| format!("{first}{second}"));
            let code = candidates.find(|code| !codes.contains(code));
            if let Some(place) = codes.get_mut(at) {
                *place = code.unwrap_or_else(|| (*word).to_owned());
            }
        }
    }
    codes
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_has_two_letters_of_its_own() {
        let deeds: Vec<String> = deeds().into_iter().map(|(_, code)| code).collect();
        assert_eq!(deeds.join(" "), "CH ME BA HA PU BR CL LE PL DO DR BU ST");
        let found: Vec<String> = found().into_iter().map(|(_, code)| code).collect();
        assert_eq!(
            found.join(" "),
            "so se wo pi be sl sp ne wa pn hg sh mi ws fs"
        );
        for mut codes in [deeds, found] {
            let all = codes.len();
            codes.sort_unstable();
            codes.dedup();
            assert_eq!(codes.len(), all);
        }
    }
}
