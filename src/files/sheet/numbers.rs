//! Numbers as spreadsheet programs leave them: with a comma for the decimal point, with `.0`
//! behind a whole one, with dashes that were typed as hyphens.

use crate::text::Misread;

/// A length or a size with points for its decimal commas. A comma before three digits may part
/// thousands as well, and is refused.
pub(super) fn with_points(text: &str) -> Result<String, Misread> {
    let chars: Vec<char> = text.chars().collect();
    let is_digit = |at: Option<usize>| {
        at.and_then(|at| chars.get(at))
            .is_some_and(char::is_ascii_digit)
    };
    let mut out = String::with_capacity(text.len());
    for (at, c) in chars.iter().enumerate() {
        if *c != ',' || !is_digit(at.checked_sub(1)) || !is_digit(Some(at + 1)) {
            out.push(*c);
            continue;
        }
        let before = chars
            .iter()
            .take(at)
            .rev()
            .take_while(|c| c.is_ascii_digit());
        let before: Vec<&char> = before.collect();
        let after = chars
            .iter()
            .skip(at + 1)
            .take_while(|c| c.is_ascii_digit())
            .count();
        let leads_with_nought = before.last() == Some(&&'0');
        if after == 3 && !leads_with_nought {
            let says = format!(
                "the comma in `{}` may part thousands or begin decimals",
                text.trim()
            );
            return Err(Misread::new(says)
                .help("write decimals with a point, and thousands without any sign"));
        }
        out.push('.');
    }
    Ok(out)
}

/// A whole number without the decimals that a program put behind it: `8.0`, `8,00`.
pub(super) fn whole(text: &str) -> &str {
    let text = text.trim();
    match text.split_once(['.', ',']) {
        Some((whole, decimals)) if !decimals.is_empty() && decimals.bytes().all(|b| b == b'0') => {
            whole
        }
        _ => text,
    }
}

/// A text with plain hyphens for the dashes that programs put in their place, and without signs
/// that do not show.
pub(super) fn with_hyphens(text: &str) -> String {
    let is_hidden = |c: &char| {
        matches!(
            c,
            '\u{200b}'..='\u{200f}' | '\u{2060}' | '\u{feff}' | '\u{ad}'
        )
    };
    let plain = |c: char| match c {
        '\u{2010}'..='\u{2015}' | '\u{2212}' => '-',
        c => c,
    };
    text.chars().filter(|c| !is_hidden(c)).map(plain).collect()
}

#[cfg(test)]
mod tests {
    use super::{whole, with_hyphens, with_points};

    #[test]
    fn a_decimal_comma_is_a_point() {
        for (comma, point) in [
            ("1,5 in", "1.5 in"),
            ("22,5mm", "22.5mm"),
            ("0,125in", "0.125in"),
            ("4,5mm x 40,25mm", "4.5mm x 40.25mm"),
            ("1/4in, about", "1/4in, about"),
            ("22.5mm", "22.5mm"),
        ] {
            assert_eq!(with_points(comma).as_deref(), Ok(point));
        }
        let says = with_points("1,500mm").unwrap_err().says;
        assert_eq!(
            says,
            "the comma in `1,500mm` may part thousands or begin decimals"
        );
    }

    #[test]
    fn what_a_program_put_in_is_taken_out() {
        for (written, is) in [
            ("8", "8"),
            ("8.0", "8"),
            (" 8,00 ", "8"),
            ("8.5", "8.5"),
            ("8.", "8."),
        ] {
            assert_eq!(whole(written), is);
        }
        assert_eq!(with_hyphens("S4 F14\u{2013}18\u{200b}"), "S4 F14-18");
    }
}
