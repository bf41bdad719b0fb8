//! Counts as they are read: `1,648 fastenings`.

/// A count with its thousands parted.
pub(super) fn grouped(count: impl TryInto<u64>) -> String {
    let digits = count.try_into().unwrap_or(u64::MAX).to_string();
    let mut text = String::new();
    for (at, digit) in digits.char_indices() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}

/// A count and what is counted, one or many of it.
pub(super) fn counted(count: impl TryInto<u64>, one: &str, many: &str) -> String {
    let count = count.try_into().unwrap_or(u64::MAX);
    let word = if count == 1 { one } else { many };
    format!("{} {word}", grouped(count))
}

#[cfg(test)]
mod tests {
    use super::{counted, grouped};

    #[test]
    fn thousands_are_parted() {
        for (count, text) in [
            (0_u32, "0"),
            (999, "999"),
            (1_000, "1,000"),
            (1_648, "1,648"),
            (20_000_000, "20,000,000"),
        ] {
            assert_eq!(grouped(count), text);
        }
        assert_eq!(counted(1_u32, "hole", "holes"), "1 hole");
        assert_eq!(counted(0_u32, "hole", "holes"), "0 holes");
    }
}
