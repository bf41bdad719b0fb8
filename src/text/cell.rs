//! A user's own words made safe for the cell of a spreadsheet, and read back from one.
//!
//! A spreadsheet program runs a cell that begins with `=`, `+`, `-` or `@`, and makes a number, a
//! truth or a date of a text that looks like one. Such a text gets an apostrophe before it. What
//! cannot be seen is written as `\u{1b}`. Both are undone to the letter, and what needs neither
//! stays as it is.

use std::borrow::Cow;

use super::clean::is_unsafe;

/// The text as a cell that is shown as it stands and never run.
///
/// ```
/// use refasten::text::{guard, unguard};
/// assert_eq!(guard("=cmd()"), "'=cmd()");
/// assert_eq!(guard("2009-03"), "'2009-03");
/// assert_eq!(guard("'tis the garboard"), "'tis the garboard");
/// assert_eq!(unguard(&guard("'=cmd()\u{0}")), "'=cmd()\u{0}");
/// ```
pub fn guard(text: &str) -> Cow<'_, str> {
    let seen = shown(text);
    if is_taken_for_more(&seen) {
        Cow::Owned(format!("'{seen}"))
    } else {
        seen
    }
}

/// The text that a cell was made of; one that no guard was put on is as it stands.
pub fn unguard(cell: &str) -> Cow<'_, str> {
    let bare = cell
        .strip_prefix('\'')
        .filter(|rest| is_taken_for_more(rest));
    hidden_again(bare.unwrap_or(cell))
}

/// Every character that cannot be seen, but for line ends, as an escape; and every backslash that
/// would be read as the beginning of one.
fn shown(text: &str) -> Cow<'_, str> {
    let is_escaped = |at: usize, c: char| match c {
        '\n' => false,
        '\\' => text.get(at..).and_then(escape).is_some(),
        '\u{fffe}' | '\u{ffff}' => true,
        c => is_unsafe(c),
    };
    if !text.char_indices().any(|(at, c)| is_escaped(at, c)) {
        return Cow::Borrowed(text);
    }
    let mut shown = String::with_capacity(text.len() + 8);
    for (at, c) in text.char_indices() {
        match is_escaped(at, c) {
            true => shown += &format!("\\u{{{:x}}}", u32::from(c)),
            false => shown.push(c),
        }
    }
    Cow::Owned(shown)
}

/// Every escape as the character it stands for.
fn hidden_again(cell: &str) -> Cow<'_, str> {
    if !cell.contains("\\u{") {
        return Cow::Borrowed(cell);
    }
    let (mut text, mut rest) = (String::with_capacity(cell.len()), cell);
    while let Some(at) = rest.find('\\') {
        let (before, from) = rest.split_at(at);
        text.push_str(before);
        let (c, len) = escape(from).unwrap_or(('\\', 1));
        text.push(c);
        rest = from.get(len..).unwrap_or_default();
    }
    text.push_str(rest);
    Cow::Owned(text)
}

/// The character that the escape at the start of a text stands for, and the escape's length.
fn escape(text: &str) -> Option<(char, usize)> {
    const MOST_DIGITS: usize = 6;
    let (digits, _) = text.strip_prefix("\\u{")?.split_once('}')?;
    let is_hex = digits.bytes().all(|b| b.is_ascii_hexdigit());
    if digits.is_empty() || digits.len() > MOST_DIGITS || !is_hex {
        return None;
    }
    let c = u32::from_str_radix(digits, 16)
        .ok()
        .and_then(char::from_u32)?;
    Some((c, digits.len() + 4))
}

/// Whether a spreadsheet program takes a cell for more than the text it is, apostrophes before
/// it left aside.
fn is_taken_for_more(cell: &str) -> bool {
    const RUN: [char; 8] = ['=', '+', '-', '@', '＝', '＋', '－', '＠'];
    let bare = cell.trim_start_matches('\'').trim();
    bare.starts_with(RUN) || is_number_like(bare) || is_truth(bare) || is_date_in_words(bare)
}

fn is_truth(text: &str) -> bool {
    text.eq_ignore_ascii_case("true") || text.eq_ignore_ascii_case("false")
}

/// Digits and the signs that stand between them in numbers, sums of money, dates and times.
fn is_number_like(text: &str) -> bool {
    let sign = |c: char| c.is_whitespace() || "/-.,:;%$£€¥()eE+".contains(c);
    text.contains(|c: char| c.is_ascii_digit())
        && !text.starts_with(['e', 'E'])
        && text.chars().all(|c| c.is_ascii_digit() || sign(c))
}

/// A month or a half of the day among numbers, in English: `3 Oct 26`, `Mar-09`, `7:30 pm`. What
/// programs in other languages take for a month is not known here.
fn is_date_in_words(text: &str) -> bool {
    const MOST: usize = 6;
    let mut words = text
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty());
    let (mut numbers, mut names) = (0, 0);
    for word in words.by_ref().take(MOST) {
        if word.bytes().all(|b| b.is_ascii_digit()) {
            numbers += 1;
        } else if month_named(word).is_some() || is_half_of_day(word) {
            names += 1;
        } else {
            return false;
        }
    }
    numbers > 0 && names > 0 && words.next().is_none()
}

fn is_half_of_day(word: &str) -> bool {
    ["a", "p", "am", "pm"].contains(&word.to_ascii_lowercase().as_str())
}

/// The number of a month from its English name or at least its first three letters.
pub(crate) fn month_named(word: &str) -> Option<i8> {
    const MONTHS: [&str; 12] = [
        "january",
        "february",
        "march",
        "april",
        "may",
        "june",
        "july",
        "august",
        "september",
        "october",
        "november",
        "december",
    ];
    let word = word.to_ascii_lowercase();
    let at = MONTHS
        .iter()
        .position(|month| word.len() >= 3 && month.starts_with(&word))?;
    i8::try_from(at + 1).ok()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{guard, unguard};

    #[test]
    fn what_would_be_run_or_made_a_number_is_guarded() {
        for text in [
            "=cmd()", "+1", "-x", "@x", " =1+1", "＝1", "1951", "007", "1e5", "1 3/4", "8-10",
            "2009-03", "3/8", "10:30", "50%", "$5", "TRUE", "false", "May 2024", "Mar-09",
            "3 Oct 26", "7:30 pm", "'1951",
        ] {
            assert_eq!(guard(text), format!("'{text}"), "{text}");
        }
        for text in [
            "built",
            "bilge 2024",
            "S3 F12-15",
            "9 pulled S3 F12-15",
            "1/4in x 3in",
            "1970s",
            "before 1985",
            "N. Abara",
            "'tis",
            "",
            "may",
            "May and June",
            "E5",
            "line\nline",
        ] {
            assert_eq!(guard(text), text, "{text}");
        }
        assert_eq!(guard("a\u{1b}[31m\tb"), "a\\u{1b}[31m\\u{9}b");
        assert_eq!(guard("\\u{1b} C:\\user"), "\\u{5c}u{1b} C:\\user");
    }

    proptest! {
        #[test]
        fn a_guard_is_undone_to_the_letter(
            text in "[-'=+@0-9eE/.: \n\t\r\\\\u{}a-c\u{0}\u{feff}é]{0,12}",
        ) {
            let cell = guard(&text);
            prop_assert_eq!(unguard(&cell), text.as_str());
            let seen = cell.trim_start();
            prop_assert!(!seen.starts_with(['=', '+', '-', '@', '\t', '\r']), "{}", cell);
        }
    }
}
