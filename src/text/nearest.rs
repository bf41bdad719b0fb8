//! The nearest known name to one that is not known.

/// The known name most like `word`, if any is near enough to be what was meant.
///
/// Case is ignored. Near enough is a Damerau–Levenshtein distance of at most a third of the
/// longer word, and always at least one. Nothing is near to a word of over 100 letters: to look
/// would take long, and no name is like that.
pub fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    const LONGEST: usize = 100;
    let word = word.to_lowercase();
    if word.chars().nth(LONGEST).is_some() {
        return None;
    }
    known
        .into_iter()
        .map(|name| {
            let lower = name.to_lowercase();
            let distance = strsim::damerau_levenshtein(&word, &lower);
            let longer = word.chars().count().max(lower.chars().count());
            (distance, longer, name)
        })
        .filter(|(distance, longer, _)| *distance <= (longer / 3).max(1))
        .min_by_key(|(distance, ..)| *distance)
        .map(|(.., name)| name)
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn a_slip_of_the_finger_finds_its_word() {
        let words = ["pulled", "plugged", "driven"];
        assert_eq!(nearest("puled", words), Some("pulled"));
        assert_eq!(nearest("Drivne", words), Some("driven"));
        assert_eq!(nearest("launched", words), None);
        let long = "pulled".repeat(20);
        assert_eq!(nearest(&long, [long.as_str()]), None);
    }
}
